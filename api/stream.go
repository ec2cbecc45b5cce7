package api

import (
	"context"
	"errors"
	"io"
	"net/http"
	"os"
	"runtime"
	"time"

	"github.com/gin-gonic/gin"
	"github.com/go-json-experiment/json"

	"fifthwise/api/wire"
)

// streamIdle is how long a stream waits for its client to send or to take more.
const streamIdle = 5 * time.Minute

// worker answers one request of a stream with JSON.
type worker func([]byte) ([]byte, error)

// stream answers every line of the body with a line, in order, while the body
// still comes. As many lines are worked on at a time as there are processors.
// None is read ahead of that: a client that takes no answers is waited for.
func (s *Server) stream(c *gin.Context, work worker) {
	if !accepts(c.Request, mediaLines, mediaJSON) {
		s.refuse(c, refuse(http.StatusNotAcceptable, "the answer is %s", mediaLines))
		return
	}
	// The request's own context ends with a deadline of reading. That a client is
	// gone is seen by reading and writing.
	ctx, cancel := context.WithCancel(context.WithoutCancel(c.Request.Context()))
	defer cancel()
	f := feed{
		server:  s,
		visit:   visitOf(c),
		request: c.Request.WithContext(ctx),
		control: http.NewResponseController(c.Writer),
		work:    work,
		answers: make(chan chan []byte, runtime.GOMAXPROCS(0)),
	}
	// The errors of deadlines are those of connections, such as recorders of
	// tests, that know none; they do without.
	_ = f.control.EnableFullDuplex()
	defer context.AfterFunc(s.stopping, func() { _ = f.control.SetReadDeadline(time.Now()) })()
	defer func() { _ = f.control.SetWriteDeadline(time.Time{}) }()
	c.Header("Content-Type", mediaLines)
	c.Writer.WriteHeaderNow()
	c.Writer.Flush()
	go f.read()
	if err := f.write(c.Writer); err != nil {
		cancel()
		_ = f.control.SetReadDeadline(time.Now())
		for next := range f.answers { // until nothing is read or worked on any more
			<-next
		}
		panic(http.ErrAbortHandler) // so that the answer cannot pass for whole
	}
}

// feed is a stream in work.
type feed struct {
	server  *Server
	visit   *visit
	request *http.Request
	control *http.ResponseController
	work    worker
	answers chan chan []byte // one for each line, in order
}

var errLineStopping = refuse(http.StatusServiceUnavailable, "the service stops; this line and those behind it were not read")

// errBrokenOff is that the body of a stream ended otherwise than it should.
var errBrokenOff = errors.New("the body broke off")

// write sends the answers in their order, flushing where the next one has to be
// waited for.
func (f *feed) write(w gin.ResponseWriter) error {
	for next := range f.answers {
		answer := <-next
		if answer == nil {
			w.Flush() // what came before is good
			return errBrokenOff
		}
		size := len(answer)
		_ = f.control.SetWriteDeadline(time.Now().Add(streamIdle))
		if _, err := w.Write(append(answer, '\n')); err != nil {
			return err
		}
		f.visit.hold.add(-size)
		if len(f.answers) == 0 {
			w.Flush()
		}
	}
	return nil
}

// read gives every line of the body to be worked on.
func (f *feed) read() {
	defer close(f.answers)
	in := newLines(f.request.Body, &f.visit.hold)
	for last := false; !last; {
		_ = f.control.SetReadDeadline(time.Now().Add(streamIdle))
		if f.server.stopping.Err() != nil || f.request.Context().Err() != nil {
			_ = f.control.SetReadDeadline(time.Now())
		}
		line, err := in.next()
		if err == io.EOF {
			return
		}
		if f.server.stopping.Err() != nil {
			err = errLineStopping
		} else if errors.Is(err, os.ErrDeadlineExceeded) {
			err = arrival(err)
		}
		last = err != nil && !isTooLarge(err) && err != errMemory
		answer := make(chan []byte, 1)
		select {
		case f.answers <- answer:
		case <-f.request.Context().Done():
			return
		}
		number := in.number
		go func() { answer <- f.answer(number, line, err) }()
	}
}

// answer is the answer to a line, or to what was wrong with reading it; nil if
// that is not for the client.
func (f *feed) answer(number int, line []byte, err error) []byte {
	var refused *Problem
	if err != nil && !errors.As(err, &refused) {
		return nil
	}
	var answer []byte
	if err == nil {
		answer, err = f.worked(line)
	}
	f.visit.hold.add(-len(line))
	if !f.visit.hold.take(len(answer)) {
		err = errMemory
	}
	if err == nil {
		return answer
	}
	answer, err = json.Marshal(wire.LineProblem{Line: number, Problem: *f.server.problem(f.visit, err)})
	if err != nil {
		return nil
	}
	f.visit.hold.add(len(answer))
	return answer
}

// worked is the answer to a line. A panic fails the line and not the stream.
func (f *feed) worked(line []byte) (answer []byte, err error) {
	defer func() {
		if cause := recover(); cause != nil {
			answer, err = nil, panicked(cause)
		}
	}()
	if err := f.server.gate.enterLine(f.request.Context()); err != nil {
		return nil, err
	}
	defer f.server.gate.leaveLine()
	return f.work(line)
}
