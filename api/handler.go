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
		if body, ok := value.(encoded); ok && err == nil && !visitOf(c).hold.take(len(body)) {
			err = errMemory
		}
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
	p := s.problem(visitOf(c), err)
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
func (s *Server) problem(v *visit, err error) *Problem {
	p := problemOf(err)
	s.metrics.refused(p)
	if p.Status == http.StatusInternalServerError {
		s.log.Error("request failed", "id", v.id, "method", v.method, "route", v.route, "cause", err)
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
	send(c, status, media, append(body, '\n'))
	return nil
}

// send sends an answer as it is. media is its Content-Type.
func send(c *gin.Context, status int, media string, body []byte) {
	c.Header("Content-Type", media)
	c.Header("Content-Length", strconv.Itoa(len(body)))
	c.Status(status)
	c.Writer.WriteHeaderNow()
	if c.Request.Method != http.MethodHead {
		_, _ = c.Writer.Write(body) // fails only where nobody reads it
	}
}

// accepts reports whether the request takes one of the media types (RFC 9110,
// section 12.5.1). The most telling range decides, so that a quality of 0 may
// exclude one of many.
func accepts(r *http.Request, media ...string) bool {
	return preferred(r, media...) >= 0
}

// preferred is the place of the media type that the request takes most gladly,
// -1 if it takes none. Of equals it is the one that is named and not only within
// a range, then the first.
func preferred(r *http.Request, media ...string) int {
	header := strings.Join(r.Header.Values("Accept"), ",")
	if strings.TrimSpace(header) == "" {
		return 0
	}
	best, most, telling := -1, 0.0, 0
	for i, m := range media {
		if weight, rank := quality(header, m); weight > most || weight == most && weight > 0 && rank > telling {
			best, most, telling = i, weight, rank
		}
	}
	return best
}

// quality is the weight that an Accept header gives to a media type, and how
// telling the range is that gives it.
func quality(accept, media string) (weight float64, best int) {
	kind, _, _ := strings.Cut(media, "/")
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
	return weight, best
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
