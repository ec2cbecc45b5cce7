package main

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"strconv"
	"strings"

	"fifthwise/examples/internal/corpus"
)

// form is how rows are written.
type form uint8

const (
	ndjson    form = iota
	chartsCSV      // a row a chart
	chordsCSV      // a row a chord
)

var (
	chartColumns = []string{"number", "file", "place", "title", "meter", "home_key", "form", "bars", "chords", "keys", "motions", "numerals", "roles", "faults"}
	chordColumns = []string{"number", "file", "place", "chord", "chords", "title", "home_key", "form", "bar", "beat", "beats", "pass", "section", "symbol", "region", "key", "motion", "numeral", "function", "role", "confidence", "faults"}
)

// apart stands between several things in a cell.
const apart = "; "

// columns are the names of the columns of CSV.
func (f form) columns() []string {
	switch f {
	case chartsCSV:
		return chartColumns
	case chordsCSV:
		return chordColumns
	}
	return nil
}

// header is what stands before all rows.
func (f form) header() []byte {
	if f == ndjson {
		return nil
	}
	return []byte(strings.Join(f.columns(), ",") + "\n")
}

// encode writes what stands for a chart.
func (f form) encode(r *corpus.Row, has *corpus.Facts) ([]byte, error) {
	if f == ndjson {
		return r.JSON()
	}
	var b bytes.Buffer
	w := csv.NewWriter(&b)
	if f == chartsCSV {
		_ = w.Write(chartRecord(r, has)) // into memory
	} else {
		_ = w.WriteAll(chordRecords(r))
	}
	w.Flush()
	return b.Bytes(), nil
}

func chartRecord(r *corpus.Row, f *corpus.Facts) []string {
	n := strconv.Itoa(r.Number)
	if r.Reading == nil {
		return []string{n, r.File, r.Place, "", "", "", "", "", "", "", "", "", "", faults(r)}
	}
	keys, roles, chords := make([]string, len(r.Regions)), make([]string, len(f.Roles)), 0
	for i := range r.Regions {
		keys[i] = r.Regions[i].Key
	}
	for i, s := range f.Roles {
		roles[i] = fmt.Sprintf("%s %d", s.Role, s.Chords)
		chords += s.Chords
	}
	return []string{n, r.File, r.Place, r.Title, r.Meter, r.HomeKey, r.Form, strconv.Itoa(r.Bars), strconv.Itoa(chords),
		strings.Join(keys, apart), strings.Join(f.Motions, apart), strings.Join(f.Runs, apart), strings.Join(roles, apart), ""}
}

// chordRecords are one at least, so that no chart is missing.
func chordRecords(r *corpus.Row) [][]string {
	n := strconv.Itoa(r.Number)
	if r.Reading == nil || len(r.Chords) == 0 {
		record := make([]string, len(chordColumns))
		copy(record, []string{n, r.File, r.Place, "0", "0"})
		if record[len(record)-1] = faults(r); r.Reading != nil {
			record[5] = r.Title
		}
		return [][]string{record}
	}
	records, chords := make([][]string, len(r.Chords)), strconv.Itoa(len(r.Chords))
	for i := range r.Chords {
		c := &r.Chords[i]
		region, key, motion := "", "", ""
		if c.Region != nil {
			region, key, motion = strconv.Itoa(*c.Region), r.Regions[*c.Region].Key, r.Motion(*c.Region)
		}
		records[i] = []string{n, r.File, r.Place, strconv.Itoa(i + 1), chords, r.Title, r.HomeKey, r.Form,
			strconv.Itoa(c.Bar), number(c.Beat), number(c.Beats), strconv.Itoa(c.Pass), c.Section, c.Symbol,
			region, key, motion, c.Numeral, c.Function, c.Role, number(c.Confidence), ""}
	}
	return records
}

func number(f float64) string { return strconv.FormatFloat(f, 'g', -1, 64) }

// faults are those of a chart in one cell.
func faults(r *corpus.Row) string {
	texts := make([]string, len(r.Faults))
	for i, f := range r.Faults {
		texts[i] = f.String()
	}
	return strings.Join(texts, apart)
}
