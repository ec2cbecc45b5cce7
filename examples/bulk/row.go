package main

import (
	"math"

	"fifthwise/examples/internal/request"
	"fifthwise/pkg/chart"
	"fifthwise/pkg/function"
	"fifthwise/pkg/key"
	"fifthwise/pkg/phrase"
)

// Row is what is written of a chart: how it is read, or what is wrong with it.
type Row struct {
	Origin
	*Reading
	Faults []request.Fault `json:"faults,omitempty"`
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

// row reads a chart.
func (o *options) row(s source) Row {
	c, err := s.read()
	if err != nil {
		return Row{Origin: s.Origin, Faults: request.FaultsOf(err)}
	}
	a := function.Analyze(c)
	r := &Reading{
		Title:   c.Title,
		Meter:   c.Meter.String(),
		Bars:    len(c.Bars),
		Regions: make([]Region, len(a.Regions)),
		Chords:  make([]Chord, len(a.Chords)),
	}
	if a.Home.IsValid() {
		r.HomeKey = o.keyName(a.Home)
	}
	for i, g := range a.Regions {
		r.Regions[i] = Region{o.keyName(g.Key), g.First, g.Last, g.Motion.String(), rounded(g.Confidence)}
	}
	events := make([]chart.Event, len(a.Chords))
	for i := range a.Chords {
		events[i] = a.Chords[i].Event
		r.Chords[i] = o.chord(&a.Chords[i])
	}
	form := phrase.FormOf(events)
	r.Form = form.Letters
	return Row{Origin: s.Origin, Reading: r}
}

func (o *options) keyName(k key.Key) string { return string(k.AppendTo(nil, o.accidentals)) }

func (o *options) chord(r *function.Reading) Chord {
	c := Chord{
		Bar:        r.Event.Bar,
		Beat:       r.Event.Beat.Float64(),
		Beats:      r.Event.Len.Float64(),
		Pass:       r.Event.Pass,
		Section:    r.Event.Section,
		Symbol:     r.Event.Symbol,
		Numeral:    r.Numeral.Text(o.numerals, r.Key.Mode(), o.accidentals),
		Function:   r.Function.String(),
		Role:       r.Role.String(),
		Confidence: rounded(r.Confidence),
	}
	if r.Region >= 0 {
		c.Region = &r.Region
	}
	return c
}

// region is the index of the chord's region, -1 for silence.
func (c *Chord) region() int {
	if c.Region == nil {
		return -1
	}
	return *c.Region
}

// rounded cuts a probability to four decimals; no more of it means anything.
func rounded(p float64) float64 { return math.Round(p*1e4) / 1e4 }
