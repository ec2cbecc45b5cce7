package main

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"strconv"
	"strings"
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

// encode writes what stands for a chart. encoding/json writes rows in two thirds
// of the time that go-json-experiment takes, and reads them in twice of it.
func (f form) encode(r *Row, has *facts) ([]byte, error) {
	var b bytes.Buffer
	if f == ndjson {
		e := json.NewEncoder(&b)
		e.SetEscapeHTML(false)
		err := e.Encode(r)
		return b.Bytes(), err
	}
	w := csv.NewWriter(&b)
	if f == chartsCSV {
		_ = w.Write(r.chartRecord(has)) // into memory
	} else {
		_ = w.WriteAll(r.chordRecords())
	}
	w.Flush()
	return b.Bytes(), nil
}

func (r *Row) chartRecord(f *facts) []string {
	n := strconv.Itoa(r.Number)
	if r.Reading == nil {
		return []string{n, r.File, r.Place, "", "", "", "", "", "", "", "", "", "", r.faults()}
	}
	keys, roles, chords := make([]string, len(r.Regions)), make([]string, len(f.roles)), 0
	for i := range r.Regions {
		keys[i] = r.Regions[i].Key
	}
	for i, s := range f.roles {
		roles[i] = fmt.Sprintf("%s %d", s.role, s.chords)
		chords += s.chords
	}
	return []string{n, r.File, r.Place, r.Title, r.Meter, r.HomeKey, r.Form, strconv.Itoa(r.Bars), strconv.Itoa(chords),
		strings.Join(keys, apart), strings.Join(f.motions, apart), strings.Join(f.runs, apart), strings.Join(roles, apart), ""}
}

// chordRecords are one at least, so that no chart is missing.
func (r *Row) chordRecords() [][]string {
	n := strconv.Itoa(r.Number)
	if r.Reading == nil || len(r.Chords) == 0 {
		record := make([]string, len(chordColumns))
		copy(record, []string{n, r.File, r.Place, "0", "0"})
		if record[len(record)-1] = r.faults(); r.Reading != nil {
			record[5] = r.Title
		}
		return [][]string{record}
	}
	records, chords := make([][]string, len(r.Chords)), strconv.Itoa(len(r.Chords))
	for i := range r.Chords {
		c := &r.Chords[i]
		region, key, motion := "", "", ""
		if c.Region != nil {
			region, key, motion = strconv.Itoa(*c.Region), r.Regions[*c.Region].Key, r.motion(*c.Region)
		}
		records[i] = []string{n, r.File, r.Place, strconv.Itoa(i + 1), chords, r.Title, r.HomeKey, r.Form,
			strconv.Itoa(c.Bar), number(c.Beat), number(c.Beats), strconv.Itoa(c.Pass), c.Section, c.Symbol,
			region, key, motion, c.Numeral, c.Function, c.Role, number(c.Confidence), ""}
	}
	return records
}

func number(f float64) string { return strconv.FormatFloat(f, 'g', -1, 64) }

// faults are those of a chart in one cell.
func (r *Row) faults() string {
	texts := make([]string, len(r.Faults))
	for i, f := range r.Faults {
		texts[i] = f.String()
	}
	return strings.Join(texts, apart)
}
