// Package corpus is what bulk and beam write of many charts: a row each, and a
// summary of all.
package corpus

import (
	"bytes"
	"encoding/json"
	"fmt"

	"fifthwise/examples/internal/request"
	"fifthwise/pkg/chart"
)

// Row is what is written of a chart: how it is read, or what is wrong with it.
type Row struct {
	Origin
	*Reading
	Faults []request.Fault `json:"faults,omitempty"`
}

// Origin is which chart a row is about.
type Origin struct {
	Number int    `json:"number"` // from 1, in the order of the inputs
	File   string `json:"file"`
	Place  string `json:"place,omitempty"` // in a file of several charts: "line 7", "tune 3"
}

// Name is the chart's name for people.
func (o Origin) Name() string {
	if o.Place == "" {
		return o.File
	}
	return o.File + ", " + o.Place
}

// Row reads a chart. A panic fails the chart and not the run.
func (s Style) Row(o Origin, read func() (chart.Chart, error)) (r Row) {
	r.Origin = o
	defer func() {
		if cause := recover(); cause != nil {
			r.Reading, r.Faults = nil, []request.Fault{{Message: fmt.Sprintf("a fault of the program: %v", cause)}}
		}
	}()
	c, err := read()
	if err != nil {
		r.Faults = request.FaultsOf(err)
		return r
	}
	r.Reading = s.reading(c)
	return r
}

// JSON is the row on a line. encoding/json writes rows in two thirds of the time
// that go-json-experiment takes, and reads them in twice of it.
func (r *Row) JSON() ([]byte, error) {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	err := e.Encode(r)
	return b.Bytes(), err
}

// Complaint tells the faults of the chart, a line each.
func (r *Row) Complaint() []byte {
	var b bytes.Buffer
	for _, f := range r.Faults {
		fmt.Fprintf(&b, "%s: %s\n", r.Name(), f.String())
	}
	return b.Bytes()
}
