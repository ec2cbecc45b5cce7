package main

import (
	"bufio"
	"context"
	"fmt"
	"strings"

	"github.com/apache/beam/sdks/v2/go/pkg/beam/io/fileio"

	"fifthwise/examples/internal/corpus"
	"fifthwise/examples/internal/request"
)

// Line is a line of a file.
type Line struct {
	File  string
	Chart int // which chart of its file it is, from 1
	Line  request.Line
}

// row reads the chart of a line.
func (l Line) row(number int) corpus.Row {
	o := corpus.Origin{Number: number, File: strings.ToValidUTF8(l.File, "�"), Place: fmt.Sprintf("line %d", l.Line.Number)}
	return corpus.Style{}.Row(o, l.Line.Chart)
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
	charts := 0
	for text, err := range request.Lines(bufio.NewReaderSize(f, 64<<10)) {
		if err != nil {
			return err
		}
		charts++
		line(Line{name, charts, text})
	}
	count(Charts{name, charts})
	return nil
}
