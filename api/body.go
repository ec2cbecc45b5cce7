package api

import (
	"errors"
	"fmt"
	"io"
	"mime"
	"net/http"
	"strings"
	"time"

	"github.com/gin-gonic/gin"
)

// maxBody bounds a body, or a line of a stream, in bytes.
const maxBody = 1 << 20

// Bounds of reading on where a body is refused: a client that sends
// all before it reads would not see the answer otherwise.
const (
	maxDrained = 32 << 20
	drainTime  = 5 * time.Second
)

// read is the whole body.
func (s *Server) read(c *gin.Context, limit int) ([]byte, error) {
	control := http.NewResponseController(c.Writer)
	_ = control.SetReadDeadline(time.Now().Add(s.bodyTime)) // not every writer has one
	body, err := io.ReadAll(held{io.LimitReader(c.Request.Body, int64(limit)+1), &visitOf(c).hold})
	if err == nil && len(body) > limit {
		err = tooLarge("body", limit)
	}
	var refused *Problem
	switch {
	case errors.As(err, &refused):
		_ = control.SetReadDeadline(time.Now().Add(drainTime))
		_, _ = io.CopyN(io.Discard, c.Request.Body, maxDrained)
		return nil, err
	case err != nil:
		return nil, arrival(err)
	}
	_ = control.SetReadDeadline(time.Time{})
	return body, nil
}

// held reads what is kept.
type held struct {
	io.Reader
	hold *hold
}

func (h held) Read(p []byte) (int, error) {
	n, err := h.Reader.Read(p)
	if n > 0 && !h.hold.take(n) {
		return n, errMemory
	}
	return n, err
}

func tooLarge(what string, limit int) *Problem {
	return refuse(http.StatusRequestEntityTooLarge, "the %s has more than %s bytes", what, grouped(limit))
}

// isTooLarge reports whether that is why a body or a line is refused.
func isTooLarge(err error) bool {
	var p *Problem
	return errors.As(err, &p) && p.Status == http.StatusRequestEntityTooLarge
}

// mediaOf is the one of the media types that the body has.
func mediaOf(r *http.Request, known ...string) (string, error) {
	wanted := "send " + inWords(known, "or")
	given := r.Header.Values("Content-Type")
	if len(given) != 1 || given[0] == "" {
		return "", refuse(http.StatusUnsupportedMediaType, "the request has no Content-Type, or more than one; %s", wanted)
	}
	media, params, err := mime.ParseMediaType(given[0])
	if err != nil && !errors.Is(err, mime.ErrInvalidMediaParameter) {
		return "", refuse(http.StatusUnsupportedMediaType, "the Content-Type is not understood; %s", wanted)
	}
	if encoding := r.Header.Get("Content-Encoding"); encoding != "" && !strings.EqualFold(encoding, "identity") {
		return "", refuse(http.StatusUnsupportedMediaType, "the Content-Encoding %q is not read; send the body as it is", encoding)
	}
	if charset, ok := params["charset"]; ok && !strings.EqualFold(charset, "utf-8") && !strings.EqualFold(charset, "us-ascii") {
		return "", refuse(http.StatusUnsupportedMediaType, "the charset %q is not read; send UTF-8", charset)
	}
	for _, k := range known {
		if media == k {
			return k, nil
		}
	}
	if media == "application/x-www-form-urlencoded" {
		wanted += fmt.Sprintf("; curl -d says so by itself, unless -H 'Content-Type: %s' stands beside it", known[0])
	}
	return "", refuse(http.StatusUnsupportedMediaType, "the Content-Type %q is not read; %s", media, wanted)
}
