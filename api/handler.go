package api

import (
	"net/http"
	"strconv"
	"strings"

	"github.com/gin-gonic/gin"
	"github.com/go-json-experiment/json"
	"github.com/go-json-experiment/json/jsontext"
)

// handler answers a request with a value to be written as JSON, or with an
// error.
type handler func(*gin.Context) (any, error)

const (
	mediaJSON    = "application/json"
	mediaLines   = "application/x-ndjson"
	mediaProblem = "application/problem+json"
)

// answer writes what a handler answers. The cause of a 500 goes to the log, and
// no further.
func (s *Server) answer(h handler) gin.HandlerFunc {
	return func(c *gin.Context) {
		if !accepts(c.Request, mediaJSON) {
			s.refuse(c, refuse(http.StatusNotAcceptable, "the answer is %s", mediaJSON))
			return
		}
		value, err := h(c)
		if err == nil {
			err = write(c, http.StatusOK, mediaJSON, value)
		}
		if err != nil {
			s.refuse(c, err)
		}
	}
}

// refuse answers with a problem. An answer that has begun is cut off instead,
// so that it cannot pass for a whole one.
func (s *Server) refuse(c *gin.Context, err error) {
	p := s.problem(c.Request, err)
	if c.Writer.Written() {
		panic(http.ErrAbortHandler)
	}
	c.Abort()
	if p.Status == http.StatusServiceUnavailable {
		c.Header("Retry-After", "1")
	}
	_ = write(c, p.Status, mediaProblem, p) // fails only where nobody reads it
}

// problem is what a client is told of an error; causes that it is not told go
// to the log.
func (s *Server) problem(r *http.Request, err error) *Problem {
	p := problemOf(err)
	if p.Status == http.StatusInternalServerError {
		s.log.ErrorContext(r.Context(), "request failed", "method", r.Method, "path", r.URL.Path, "cause", err)
	}
	return p
}

// encoded is the JSON of an answer.
type encoded []byte

// write sends a value as JSON. Nothing is sent of a value that is none. What
// comes from a URL may not be UTF-8; such bytes are replaced.
func write(c *gin.Context, status int, media string, value any) error {
	body, ok := value.(encoded)
	if !ok {
		var err error
		if body, err = json.Marshal(value, jsontext.AllowInvalidUTF8(true)); err != nil {
			return err
		}
	}
	body = append(body, '\n')
	c.Header("Content-Type", media)
	c.Header("Content-Length", strconv.Itoa(len(body)))
	c.Header("X-Content-Type-Options", "nosniff")
	c.Status(status)
	c.Writer.WriteHeaderNow()
	if c.Request.Method != http.MethodHead {
		_, _ = c.Writer.Write(body) // fails only where nobody reads it
	}
	return nil
}

// accepts reports whether the request takes one of the media types (RFC 9110,
// section 12.5.1). The most telling range decides, so that a quality of 0 may
// exclude one of many.
func accepts(r *http.Request, media ...string) bool {
	header := strings.Join(r.Header.Values("Accept"), ",")
	if strings.TrimSpace(header) == "" {
		return true
	}
	for _, m := range media {
		if quality(header, m) > 0 {
			return true
		}
	}
	return false
}

// quality is the weight that an Accept header gives to a media type.
func quality(accept, media string) float64 {
	kind, _, _ := strings.Cut(media, "/")
	best, weight := 0, 0.0
	for item := range strings.SplitSeq(accept, ",") {
		name, params, _ := strings.Cut(item, ";")
		rank := 0
		switch strings.ToLower(strings.TrimSpace(name)) {
		case media:
			rank = 3
		case kind + "/*":
			rank = 2
		case "*/*":
			rank = 1
		}
		if rank > best {
			best, weight = rank, weightIn(params)
		}
	}
	return weight
}

// weightIn reads q out of the parameters of a media range; 1 without one.
func weightIn(params string) float64 {
	for p := range strings.SplitSeq(params, ";") {
		name, value, _ := strings.Cut(strings.TrimSpace(p), "=")
		if !strings.EqualFold(name, "q") {
			continue
		}
		if q, err := strconv.ParseFloat(value, 64); err == nil {
			return q
		}
	}
	return 1
}
