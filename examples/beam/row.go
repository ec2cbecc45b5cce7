package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"strings"

	"fifthwise/examples/internal/request"
	"fifthwise/pkg/chart"
	"fifthwise/pkg/function"
	"fifthwise/pkg/phrase"
	"fifthwise/pkg/pitch"
)

// Row is what is written of a chart: how it is read, or what is wrong with it.
type Row struct {
	Origin
	*Reading
	Faults []request.Fault `json:"faults,omitempty"`
}

// Origin is which chart a row is about.
type Origin struct {
	Number int    `json:"number"` // from 1, in the order of the files
	File   string `json:"file"`
	Place  string `json:"place"` // "line 7"
}

// Reading is how a chart is read, in the names of the API's answer.
type Reading struct {
	Title   string   `json:"title"`
	Meter   string   `json:"meter"`
	HomeKey string   `json:"home_key"`
	Form    string   `json:"form"`
	Bars    int      `json:"bars"` // as written
	Regions []Region `json:"regions"`
	Chords  []Chord  `json:"chords"`
}

// Region is a stretch of chords in one key.
type Region struct {
	Key        string  `json:"key"`
	First      int     `json:"first_chord"`
	Last       int     `json:"last_chord"`
	Motion     string  `json:"motion"`
	Confidence float64 `json:"confidence"`
}

// Chord is a chord as played.
type Chord struct {
	Bar        int     `json:"bar"`
	Beat       float64 `json:"beat"`
	Beats      float64 `json:"beats"`
	Pass       int     `json:"pass"`
	Section    string  `json:"section"`
	Symbol     string  `json:"symbol"`
	Region     *int    `json:"region"` // nil: silence
	Numeral    string  `json:"numeral"`
	Function   string  `json:"function"`
	Role       string  `json:"role"`
	Confidence float64 `json:"confidence"`
}

// row reads the chart of a line. A panic fails the chart and not the run.
func row(l Line, number int) (r Row) {
	r.Origin = Origin{number, strings.ToValidUTF8(l.File, "�"), fmt.Sprintf("line %d", l.Line)}
	defer func() {
		if cause := recover(); cause != nil {
			r.Reading, r.Faults = nil, []request.Fault{{Message: fmt.Sprintf("a fault of the program: %v", cause)}}
		}
	}()
	c, err := l.chart()
	if err != nil {
		r.Faults = request.FaultsOf(err)
		return r
	}
	r.Reading = reading(c)
	return r
}

func (l Line) chart() (chart.Chart, error) {
	if l.TooLong {
		return chart.Chart{}, errTooLong
	}
	return request.Chart(l.Text)
}

func reading(c chart.Chart) *Reading {
	a := function.Analyze(c)
	r := &Reading{
		Title:   c.Title,
		Meter:   c.Meter.String(),
		Bars:    len(c.Bars),
		Regions: make([]Region, len(a.Regions)),
		Chords:  make([]Chord, len(a.Chords)),
	}
	if a.Home.IsValid() {
		r.HomeKey = a.Home.String()
	}
	for i, g := range a.Regions {
		r.Regions[i] = Region{g.Key.String(), g.First, g.Last, g.Motion.String(), rounded(g.Confidence)}
	}
	events := make([]chart.Event, len(a.Chords))
	for i := range a.Chords {
		events[i] = a.Chords[i].Event
		r.Chords[i] = chordOf(&a.Chords[i])
	}
	form := phrase.FormOf(events)
	r.Form = form.Letters
	return r
}

func chordOf(r *function.Reading) Chord {
	c := Chord{
		Bar:        r.Event.Bar,
		Beat:       r.Event.Beat.Float64(),
		Beats:      r.Event.Len.Float64(),
		Pass:       r.Event.Pass,
		Section:    r.Event.Section,
		Symbol:     r.Event.Symbol,
		Numeral:    r.Numeral.Text(function.Upper, r.Key.Mode(), pitch.ASCII),
		Function:   r.Function.String(),
		Role:       r.Role.String(),
		Confidence: rounded(r.Confidence),
	}
	if r.Region >= 0 {
		c.Region = &r.Region
	}
	return c
}

// rounded cuts a probability to four decimals; no more of it means anything.
func rounded(p float64) float64 { return math.Round(p*1e4) / 1e4 }

// encoded is the row on a line.
func (r *Row) encoded() ([]byte, error) {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	err := e.Encode(r)
	return b.Bytes(), err
}
