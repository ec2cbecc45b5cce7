package api

import (
	"context"
	"errors"
	"io"
	"net/http"
	"os"
	"time"

	"github.com/gin-gonic/gin"
	"github.com/go-json-experiment/json"

	"fifthwise/api/wire"
)

// streamIdle is how long a stream waits for its client to send or to take more.
const streamIdle = 5 * time.Minute

// worker answers one request of a stream with JSON.
type worker func(context.Context, []byte) ([]byte, error)

// stream answers every line of the body with a line, in order, while the body
// still comes. The next line is read when the answer to the one before has been
// sent: a client that takes no answers is waited for, and memory stays what one
// chart needs.
func (s *Server) stream(c *gin.Context, work worker) {
	if !accepts(c.Request, mediaLines, mediaJSON) {
		s.refuse(c, refuse(http.StatusNotAcceptable, "the answer is %s", mediaLines))
		return
	}
	control := http.NewResponseController(c.Writer)
	// The errors of deadlines are those of connections, such as recorders of
	// tests, that know none; they do without.
	_ = control.EnableFullDuplex()
	defer context.AfterFunc(s.stopping, func() { _ = control.SetReadDeadline(time.Now()) })()
	defer func() { _ = control.SetWriteDeadline(time.Time{}) }()
	c.Header("Content-Type", mediaLines)
	c.Header("X-Content-Type-Options", "nosniff")
	c.Writer.WriteHeaderNow()
	in := newLines(c.Request.Body)
	for last := false; !last; {
		c.Writer.Flush()
		_ = control.SetReadDeadline(time.Now().Add(streamIdle))
		if s.stopping.Err() != nil {
			_ = control.SetReadDeadline(time.Now())
		}
		var answer []byte
		if answer, last = s.nextAnswer(c.Request, in, work); answer == nil {
			return
		}
		_ = control.SetWriteDeadline(time.Now().Add(streamIdle))
		if _, err := c.Writer.Write(append(answer, '\n')); err != nil {
			return
		}
	}
}

// nextAnswer reads the next line and answers it; nil at the end.
func (s *Server) nextAnswer(r *http.Request, in *lines, work worker) (answer []byte, last bool) {
	line, err := in.next()
	var refused *Problem
	switch {
	case err == io.EOF:
		return nil, true
	case s.stopping.Err() != nil:
		err, last = refuse(http.StatusServiceUnavailable, "the service stops; this line and those behind it were not read"), true
	case err == nil:
		answer, err = lineAnswer(r.Context(), line, work)
	case errors.Is(err, os.ErrDeadlineExceeded):
		err, last = arrival(err), true
	case !errors.As(err, &refused):
		panic(http.ErrAbortHandler) // the body broke off: neither may the answer pass for whole
	}
	if err != nil {
		answer, err = json.Marshal(wire.LineProblem{Line: in.number, Problem: *s.problem(r, err)})
	}
	if err != nil {
		panic(err)
	}
	return answer, last
}

// lineAnswer answers one line. A panic fails the line and not the stream.
func lineAnswer(ctx context.Context, line []byte, work worker) (answer []byte, err error) {
	defer func() {
		if cause := recover(); cause != nil {
			answer, err = nil, panicked(cause)
		}
	}()
	return work(ctx, line)
}
