package main

import (
	"bufio"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"github.com/go-json-experiment/json"

	"fifthwise/examples/internal/corpus"
)

// reread goes through the rows that a run wrote before it was broken off.
type reread struct {
	each  func(*corpus.Facts) // is given every chart that is there as a whole
	found corpus.Origin       // the last of these
	end   int64               // where it ends, in bytes
}

// errNoRow is the fault of a whole line that is no row: then the file is
// another one, and nothing of it may be cut.
var errNoRow = errors.New("no row that was written with these options")

// all goes through a file of so many bytes.
func (r *reread) all(f form, file io.ReaderAt, size int64) (err error) {
	if f == ndjson {
		err = r.lines(io.NewSectionReader(file, 0, size))
	} else {
		err = r.records(f, file, size)
	}
	if err == errNoRow {
		return fmt.Errorf("behind chart %d stands %w; -resume goes on with such rows alone", r.found.Number, err)
	}
	return err
}

// take takes a chart, which must be the one behind the last.
func (r *reread) take(o corpus.Origin, f *corpus.Facts, end int64) error {
	if o.Number != r.found.Number+1 {
		return errNoRow
	}
	r.each(f)
	r.found, r.end = o, end
	return nil
}

// lines goes through NDJSON. A last line without a line break is torn.
func (r *reread) lines(file io.Reader) error {
	in := bufio.NewReaderSize(file, 1<<20)
	for end := int64(0); ; {
		line, err := in.ReadBytes('\n')
		switch {
		case err == io.EOF:
			return nil
		case err != nil:
			return err
		}
		end += int64(len(line))
		var row corpus.Row
		if json.Unmarshal(line, &row, json.RejectUnknownMembers(true)) != nil {
			return errNoRow
		}
		f := row.Facts()
		if err := r.take(row.Origin, &f, end); err != nil {
			return err
		}
	}
}

// records goes through CSV of so many bytes. A record is torn that the end of
// the file cuts: without a line break behind it, or within quotes.
func (r *reread) records(f form, file io.ReaderAt, size int64) error {
	var last [1]byte
	if size > 0 {
		if _, err := file.ReadAt(last[:], size-1); err != nil {
			return err
		}
	}
	in := csv.NewReader(io.NewSectionReader(file, 0, size))
	in.ReuseRecord = true
	var c collector
	for first := true; ; first = false {
		record, err := in.Read()
		end := in.InputOffset()
		switch isCut := end == size && (last[0] != '\n' || errors.Is(err, csv.ErrQuote)); {
		case err == io.EOF || isCut:
			return nil
		case first && slices.Equal(record, f.columns()):
			r.end = end
			continue
		case first || err != nil:
			return errNoRow
		}
		take := chartFacts
		if f == chordsCSV {
			take = c.chordFacts
		}
		o, facts, err := take(record)
		if err == nil && facts != nil {
			err = r.take(o, facts, end)
		}
		if err != nil {
			return err
		}
	}
}

// chartFacts are those of a row a chart.
func chartFacts(cells []string) (corpus.Origin, *corpus.Facts, error) {
	o, err := originOf(cells)
	if cells[len(cells)-1] != "" || err != nil {
		return o, &corpus.Facts{Bad: true}, err
	}
	f := &corpus.Facts{Home: cells[5], Form: cells[6], Motions: parts(cells[10]), Runs: parts(cells[11])}
	for _, part := range parts(cells[12]) {
		role, count, _ := strings.Cut(part, " ")
		n, err := strconv.Atoi(count)
		if err != nil {
			return o, nil, errNoRow
		}
		f.Roles = append(f.Roles, corpus.Share{Role: role, Chords: n})
	}
	return o, f, nil
}

func originOf(cells []string) (corpus.Origin, error) {
	n, err := strconv.Atoi(cells[0])
	if err != nil {
		err = errNoRow
	}
	return corpus.Origin{Number: n, File: cells[1], Place: cells[2]}, err
}

func parts(cell string) []string {
	if cell == "" {
		return nil
	}
	return strings.Split(cell, apart)
}

// collector puts rows of chords together.
type collector struct{ row corpus.Row }

// chordFacts are those of a chart with the last of its rows, nil before.
func (c *collector) chordFacts(cells []string) (corpus.Origin, *corpus.Facts, error) {
	o, err := originOf(cells)
	if cells[len(cells)-1] != "" || err != nil {
		return o, &corpus.Facts{Bad: true}, err
	}
	if cells[3] == "0" {
		return o, &corpus.Facts{}, nil
	}
	if c.row.Origin != o {
		c.row = corpus.Row{Origin: o, Reading: &corpus.Reading{HomeKey: cells[6], Form: cells[7]}}
	}
	ch := corpus.Chord{Numeral: cells[17], Role: cells[19]}
	if cells[14] != "" {
		region, err := strconv.Atoi(cells[14])
		if err != nil {
			return o, nil, errNoRow
		}
		if region == len(c.row.Regions) {
			c.row.Regions = append(c.row.Regions, corpus.Region{Motion: cells[16]})
		}
		ch.Region = &region
	}
	c.row.Chords = append(c.row.Chords, ch)
	switch n := strconv.Itoa(len(c.row.Chords)); {
	case cells[3] != n:
		return o, nil, errNoRow
	case cells[4] != n:
		return o, nil, nil
	}
	f := c.row.Facts()
	return o, &f, nil
}
