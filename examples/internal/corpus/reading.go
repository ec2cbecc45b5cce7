package corpus

import (
	"math"

	"fifthwise/pkg/chart"
	"fifthwise/pkg/function"
	"fifthwise/pkg/key"
	"fifthwise/pkg/phrase"
	"fifthwise/pkg/pitch"
)

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

// Style is how keys and numerals are written.
type Style struct {
	Numerals    function.NumeralStyle
	Accidentals pitch.Accidentals
}

func (s Style) reading(c chart.Chart) *Reading {
	a := function.Analyze(c)
	r := &Reading{
		Title:   c.Title,
		Meter:   c.Meter.String(),
		Bars:    len(c.Bars),
		Regions: make([]Region, len(a.Regions)),
		Chords:  make([]Chord, len(a.Chords)),
	}
	if a.Home.IsValid() {
		r.HomeKey = s.key(a.Home)
	}
	for i, g := range a.Regions {
		r.Regions[i] = Region{s.key(g.Key), g.First, g.Last, g.Motion.String(), rounded(g.Confidence)}
	}
	events := make([]chart.Event, len(a.Chords))
	for i := range a.Chords {
		events[i] = a.Chords[i].Event
		r.Chords[i] = s.chord(&a.Chords[i])
	}
	form := phrase.FormOf(events)
	r.Form = form.Letters
	return r
}

func (s Style) key(k key.Key) string { return string(k.AppendTo(nil, s.Accidentals)) }

func (s Style) chord(r *function.Reading) Chord {
	c := Chord{
		Bar:        r.Event.Bar,
		Beat:       r.Event.Beat.Float64(),
		Beats:      r.Event.Len.Float64(),
		Pass:       r.Event.Pass,
		Section:    r.Event.Section,
		Symbol:     r.Event.Symbol,
		Numeral:    r.Numeral.Text(s.Numerals, r.Key.Mode(), s.Accidentals),
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
