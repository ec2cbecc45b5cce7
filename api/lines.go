package api

import (
	"bufio"
	"bytes"
	"io"
)

// lines cuts a stream into lines.
type lines struct {
	r      *bufio.Reader
	number int // of the last line, from 1
	line   []byte
	hold   *hold
}

func newLines(r io.Reader, h *hold) *lines {
	return &lines{r: bufio.NewReaderSize(r, 64<<10), hold: h}
}

// next is the next line that is not blank. Its bytes are held, and whoever gets
// it has to give them back. A line larger than a body may be, or than can be held
// now, is passed over and is a [Problem]; behind any other error nothing follows.
func (l *lines) next() ([]byte, error) {
	for {
		l.number++
		err := l.read()
		if err == nil && len(bytes.TrimSpace(l.line)) > 0 {
			return l.line, nil
		}
		l.hold.add(-len(l.line))
		if err != nil {
			return nil, err
		}
	}
}

func (l *lines) read() error {
	l.line = nil
	var refused error
	for {
		part, err := l.r.ReadSlice('\n')
		part = bytes.TrimSuffix(part, []byte("\n"))
		if refused == nil {
			refused = l.keep(part)
		}
		switch {
		case err == bufio.ErrBufferFull:
		case refused != nil && (err == nil || err == io.EOF):
			return refused
		case err == io.EOF && len(l.line) > 0:
			return nil // the last line may end without a line break
		default:
			return err
		}
	}
}

// keep adds a part to the line, of which nothing is kept once it is refused.
func (l *lines) keep(part []byte) (refused error) {
	switch {
	case len(l.line)+len(part) > maxBody:
		refused = tooLarge("line", maxBody)
	case !l.hold.take(len(part)):
		refused = errMemory
	default:
		l.line = append(l.line, part...)
		return nil
	}
	l.hold.add(-len(l.line))
	l.line = nil
	return refused
}
