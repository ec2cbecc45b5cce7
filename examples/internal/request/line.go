package request

import (
	"bufio"
	"bytes"
	"fmt"
	"io"
	"iter"

	"fifthwise/pkg/chart"
)

// Line is a line of NDJSON that is not blank: a chart that is still to be read.
type Line struct {
	Number  int    // from 1, blank lines counted too
	Text    []byte // without spaces around it
	TooLong bool   // and therefore without its text
}

// MaxLine bounds a line, in bytes, as the API does.
const MaxLine = 1 << 20

var errTooLong = fmt.Errorf("the line has more than %d MiB", MaxLine>>20)

// Chart reads the chart.
func (l Line) Chart() (chart.Chart, error) {
	if l.TooLong {
		return chart.Chart{}, errTooLong
	}
	return Chart(l.Text)
}

// Lines are the lines of a stream. An error is that of reading, and comes last.
func Lines(r *bufio.Reader) iter.Seq2[Line, error] {
	return func(yield func(Line, error) bool) {
		for number := 1; ; number++ {
			text, err := nextLine(r)
			text = bytes.TrimSpace(bytes.TrimPrefix(text, []byte("\ufeff")))
			tooLong := err == errTooLong
			if (tooLong || len(text) > 0) && !yield(Line{number, text, tooLong}, nil) {
				return
			}
			switch {
			case err == io.EOF:
				return
			case err != nil && !tooLong:
				yield(Line{}, err)
				return
			}
		}
	}
}

// nextLine reads a line; one that is too long is passed over.
func nextLine(r *bufio.Reader) (line []byte, err error) {
	tooLong := false
	for {
		part, err := r.ReadSlice('\n')
		if tooLong = tooLong || len(line)+len(part) > MaxLine; !tooLong {
			line = append(line, part...)
		}
		switch {
		case err == bufio.ErrBufferFull:
		case tooLong && (err == nil || err == io.EOF):
			return nil, errTooLong // at the end the next call says so
		default:
			return line, err
		}
	}
}
