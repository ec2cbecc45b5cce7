package main

import (
	"bufio"
	"bytes"
	"context"
	"fmt"
	"io"

	"github.com/apache/beam/sdks/v2/go/pkg/beam/io/fileio"
)

// Line is a line of NDJSON: a chart that is still to be read.
type Line struct {
	File    string
	Line    int // from 1
	Chart   int // which chart of its file it is, from 1; blank lines are none
	Text    []byte
	TooLong bool // and therefore without its text
}

// splitFn gives the lines of a file, and how many charts they are. A file is
// read by one worker: only who reads it from the start knows the number of a line.
type splitFn struct{}

func (*splitFn) ProcessElement(ctx context.Context, file fileio.ReadableFile, line func(Line), count func(Charts)) error {
	f, err := file.Open(ctx)
	if err != nil {
		return err
	}
	defer f.Close()
	name := file.Metadata.Path
	r, charts := bufio.NewReaderSize(f, 64<<10), 0
	for number := 1; ; number++ {
		text, err := nextLine(r)
		text = bytes.TrimSpace(bytes.TrimPrefix(text, []byte("\ufeff")))
		tooLong := err == errTooLong
		if tooLong || len(text) > 0 {
			charts++
			line(Line{name, number, charts, text, tooLong})
		}
		switch {
		case err == io.EOF:
			count(Charts{name, charts})
			return nil
		case err != nil && !tooLong:
			return err
		}
	}
}

// maxLine bounds a line of NDJSON, in bytes, as the API does.
const maxLine = 1 << 20

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
