package api

import (
	"errors"
	"fmt"
	"math"
	"net/http"
	"strconv"
	"strings"

	"fifthwise/api/wire"
	"fifthwise/pkg/chart"
	"fifthwise/pkg/chord"
	"fifthwise/pkg/key"
	"fifthwise/pkg/pitch"
)

// The longest chart that is read, as written and as played.
const (
	maxBars   = 2000
	maxChords = 5000
)

// chart makes the chart of a request and adds what is wrong with it to the
// faults. The error is the refusal of a chart that is too long.
func (f *faults) chart(r *wire.Chart) (chart.Chart, error) {
	header := f.header(r)
	switch {
	case r.Changes != nil && r.Bars != nil:
		f.add("/bars", "changes and bars exclude each other", "send one of the two")
	case r.Changes != nil:
		return f.changes(*r.Changes, header)
	case r.Bars != nil:
		return f.bars(r.Bars, header)
	default:
		f.add("", "neither changes nor bars is given", "send one of the two")
	}
	return chart.Chart{}, nil
}

func (f *faults) header(r *wire.Chart) chart.Header {
	h := chart.Header{Title: r.Title, Meter: f.meter("/meter", r.Meter)}
	if r.Key != nil {
		k, err := key.Parse(*r.Key)
		f.syntax("/key", err)
		h.Key = k
	}
	return h
}

func (f *faults) meter(pointer string, s *string) chart.Meter {
	if s == nil {
		return chart.Meter{}
	}
	m, err := chart.ParseMeter(*s)
	f.syntax(pointer, err)
	return m
}

// syntax adds the fault of a string that was not understood, if it has one.
func (f *faults) syntax(pointer string, err error) {
	if err == nil {
		return
	}
	var e *pitch.SyntaxError
	if errors.As(err, &e) {
		*f = append(*f, Fault{Pointer: pointer, Detail: e.Msg, Hint: hintOf(e.Hint), Offset: &e.Offset})
	}
}

// changes reads the text notation.
func (f *faults) changes(text string, h chart.Header) (chart.Chart, error) {
	c, err := chart.ParseWith(text, h)
	return c, f.inText(c, err)
}

// inText adds the faults of a text. The error is the refusal of one that is too
// long.
func (f *faults) inText(c chart.Chart, err error) error {
	if err := tooLong(c, err); err != nil {
		return err
	}
	var list chart.ErrorList
	errors.As(err, &list)
	known := f.told()
	for _, e := range list {
		fault := faultIn(e)
		fault.Pointer = "/title"
		if e.Line > 0 {
			fault.Pointer, fault.Offset, fault.Line, fault.Column = "/changes", &e.Offset, e.Line, e.Column
		}
		if !known.explains(fault, e) {
			*f = append(*f, fault)
		}
	}
	return nil
}

// bars reads bars given as lists.
func (f *faults) bars(bars []wire.Bar, h chart.Header) (chart.Chart, error) {
	if err := tooMany("", len(bars), chordsIn(bars)); err != nil {
		return chart.Chart{}, err
	}
	if len(bars) == 0 {
		f.add("/bars", "the chart has no bars", "list one at least")
		return chart.Chart{}, nil
	}
	entries := make([]chart.BarEntries, len(bars))
	chords := make([]chart.Entry, chordsIn(bars))
	start := len(*f)
	for i := range bars {
		n := len(bars[i].Chords)
		from := len(*f)
		entries[i] = f.bar(&bars[i], chords[:n:n])
		f.inItem(i, from)
		chords = chords[n:]
	}
	f.below("/bars", start)
	c, err := chart.FromEntries(h, entries)
	if err := tooLong(c, err); err != nil {
		return c, err
	}
	var list chart.ErrorList
	errors.As(err, &list)
	f.inBars(c.Bars, bars)
	for i := range bars {
		c.Bars[i].Double = bars[i].Double
	}
	known := f.told()
	for _, e := range list {
		if fault := barsFault(e, bars); !known.explains(fault, e) {
			*f = append(*f, fault)
		}
	}
	return c, nil
}

// inBars adds the bar and the symbol to faults whose pointers lie in bars.
func (f faults) inBars(bars []chart.Bar, given []wire.Bar) {
	for i := range f {
		parts := strings.Split(f[i].Pointer, "/") // "", "bars", "3", "chords", "0", …
		if len(parts) < 4 || parts[1] != "bars" {
			continue
		}
		bar, _ := strconv.Atoi(parts[2])
		f[i].Bar = &bars[bar].Number
		if len(parts) > 5 {
			n, _ := strconv.Atoi(parts[4])
			f[i].Symbol = given[bar].Chords[n].Symbol
		}
	}
}

func chordsIn(bars []wire.Bar) (n int) {
	for i := range bars {
		n += len(bars[i].Chords)
	}
	return n
}

// bar reads a bar, its chords into the room given.
func (f *faults) bar(b *wire.Bar, chords []chart.Entry) chart.BarEntries {
	f.ranges(b)
	e := chart.BarEntries{Number: b.Number, Meter: f.meter("/meter", b.Meter), Section: b.Section, Chords: chords}
	start := len(*f)
	for i := range b.Chords {
		c := &b.Chords[i]
		from := len(*f)
		f.ranges(c)
		chords[i] = chart.Entry{Symbol: c.Symbol, Optional: c.Optional}
		if c.Beat != nil {
			chords[i].Beat = f.beats("/beat", *c.Beat)
		}
		if c.Beats != nil {
			chords[i].Beats = f.beats("/beats", *c.Beats)
		}
		f.inItem(i, from)
	}
	f.below("/chords", start)
	return e
}

func (f *faults) beats(pointer string, n float64) chart.Beats {
	b, err := chart.BeatsOf(n)
	if err == nil {
		return b
	}
	var e *pitch.SyntaxError
	if errors.As(err, &e) {
		f.add(pointer, e.Msg, "give more decimals of it")
	}
	return b
}

// barsFault points at the field that the fault of a chart lies in.
func barsFault(e *chart.Error, bars []wire.Bar) Fault {
	fault := faultIn(e)
	var syntax *pitch.SyntaxError
	switch at := fmt.Sprintf("/bars/%d", e.BarIndex); {
	case e.BarIndex < 0:
		fault.Pointer = "/title"
	case e.Chord < 0 && e.Symbol != "":
		fault.Pointer = at + "/section"
	case e.Chord < 0:
		fault.Pointer = at + "/chords"
	case errors.As(e, &syntax):
		fault.Pointer, fault.Offset = fmt.Sprintf("%s/chords/%d/symbol", at, e.Chord), &e.SymbolOffset
	default:
		fault.Pointer = fmt.Sprintf("%s/chords/%d%s", at, e.Chord, timeField(bars[e.BarIndex].Chords, e.Chord))
	}
	return fault
}

// timeField is the field of a chord that gives its time, if it is only one.
func timeField(chords []wire.Chord, i int) string {
	switch c := chords[i]; {
	case c.Beat != nil && c.Beats == nil:
		return "/beat"
	case c.Beat == nil && c.Beats != nil:
		return "/beats"
	}
	return ""
}

// told is what is already known to be wrong with a request.
type told struct {
	pointers map[string]bool
	bars     map[int]bool // that have a faulty field
	meter    int          // the first bar whose meter is not understood
}

func (f faults) told() told {
	t := told{pointers: map[string]bool{}, bars: map[int]bool{}, meter: math.MaxInt}
	for _, fault := range f {
		t.pointers[fault.Pointer] = true
		parts := strings.Split(fault.Pointer, "/") // "", "bars", "3", …
		bar := 0
		if len(parts) > 3 && parts[1] == "bars" {
			bar, _ = strconv.Atoi(parts[2])
			t.bars[bar] = true
		}
		if parts[len(parts)-1] == "meter" {
			t.meter = min(t.meter, bar)
		}
	}
	return t
}

// explains reports whether the fault of a chart is already told or follows from
// one that is: the time of a bar cannot be told while its meter or another
// field of it is not understood.
func (t told) explains(fault Fault, e *chart.Error) bool {
	switch {
	case t.pointers[fault.Pointer]:
		return true
	case errors.As(e, new(*pitch.SyntaxError)) || e.BarIndex < 0:
		return false
	}
	return t.meter <= e.BarIndex || t.bars[e.BarIndex]
}

func faultIn(e *chart.Error) Fault {
	fault := Fault{Detail: e.Msg, Hint: hintOf(e.Hint), Symbol: e.Symbol}
	if e.BarIndex >= 0 {
		fault.Bar = &e.Bar
	}
	return fault
}

// hintOf is a hint of the library, with what the API has for it.
func hintOf(hint string) string {
	if hint == chord.NumeralHint {
		hint += "; /v1/realizations makes chords of numerals"
	}
	return hint
}

// tooLong is the refusal of a chart that is too long, whatever else is wrong
// with it.
func tooLong(c chart.Chart, err error) error {
	chords := 0
	for i := range c.Bars {
		chords += len(c.Bars[i].Chords)
	}
	if err := tooMany("", len(c.Bars), chords); err != nil {
		return err
	}
	bars, chords := c.PlayedLen()
	if errors.Is(err, chart.ErrTooLong) {
		bars = max(bars, maxBars+1)
	}
	return tooMany(", played with its repeats,", bars, chords)
}

func tooMany(how string, bars, chords int) error {
	switch {
	case bars > maxBars:
		return refuse(http.StatusRequestEntityTooLarge, "the chart%s has more than %s bars", how, grouped(maxBars))
	case chords > maxChords:
		return refuse(http.StatusRequestEntityTooLarge, "the chart%s has more than %s chords", how, grouped(maxChords))
	}
	return nil
}
