package main

import (
	"bufio"
	"bytes"
	"fmt"
	"io"

	"fifthwise/examples/internal/request"
	"fifthwise/pkg/chart"
)

// maxLine bounds a line of NDJSON, in bytes, as the API does.
const maxLine = 1 << 20

// requests gives the charts of a stream, one a line. Blank lines are passed
// over. The error is that of reading.
func requests(r *bufio.Reader, take taker) (more bool, err error) {
	for number := 1; ; number++ {
		line, err := nextLine(r)
		text := bytes.TrimSpace(bytes.TrimPrefix(line, []byte("\ufeff")))
		tooLong := err == errTooLong
		if tooLong || len(text) > 0 {
			read := fault(err)
			if !tooLong {
				read = func() (chart.Chart, error) { return request.Chart(text) }
			}
			if !take(fmt.Sprintf("line %d", number), read) {
				return false, nil
			}
		}
		switch {
		case err == io.EOF:
			return true, nil
		case err != nil && !tooLong:
			return true, bare(err)
		}
	}
}

var errTooLong = fmt.Errorf("the line has more than %d MiB", maxLine>>20)

// nextLine reads a line; one that is too long is passed over.
func nextLine(r *bufio.Reader) (line []byte, err error) {
	tooLong := false
	for {
		part, err := r.ReadSlice('\n')
		if tooLong = tooLong || len(line)+len(part) > maxLine; !tooLong {
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
