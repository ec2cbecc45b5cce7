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
}

func newLines(r io.Reader) *lines { return &lines{r: bufio.NewReaderSize(r, 64<<10)} }

// next is the next line that is not blank, valid until the next call. A line
// larger than a body may be is passed over and is a [Problem]; behind any
// other error nothing follows.
func (l *lines) next() ([]byte, error) {
	for {
		l.number++
		err := l.read()
		if err != nil || len(bytes.TrimSpace(l.line)) > 0 {
			return l.line, err
		}
	}
}

func (l *lines) read() error {
	l.line = l.line[:0]
	tooLong := false
	for {
		part, err := l.r.ReadSlice('\n')
		part = bytes.TrimSuffix(part, []byte("\n"))
		tooLong = tooLong || len(l.line)+len(part) > maxBody
		if !tooLong {
			l.line = append(l.line, part...)
		}
		switch {
		case err == bufio.ErrBufferFull:
		case tooLong && (err == nil || err == io.EOF):
			return tooLarge("line", maxBody)
		case err == io.EOF && len(l.line) > 0:
			return nil // the last line may end without a line break
		default:
			return err
		}
	}
}
