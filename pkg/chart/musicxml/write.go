package musicxml

import (
	"bytes"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"fifthwise/pkg/chart"
	"fifthwise/pkg/key"
)

// Write is a chart as a file of MusicXML 4.0: chord symbols over one slash a
// beat, with bars, sections, repeats and endings, and marks as words above and
// below. The slashes do not sound. The chart is one that validates.
func Write(c chart.Chart, marks []chart.Mark) []byte {
	w := writer{chart: c, meter: c.Meter, implied: impliedStarts(c), marks: map[[2]int]chart.Mark{}}
	for _, m := range chart.MergeMarks(marks) {
		w.marks[[2]int{m.Bar, m.Chord}] = m
	}
	w.countDivisions()
	w.line(`<?xml version="1.0" encoding="UTF-8"?>`)
	w.line(`<score-partwise version="4.0">`)
	if c.Title != "" {
		w.line(`  <work><work-title>%s</work-title></work>`, c.Title)
	}
	w.line(`  <part-list><score-part id="P1"><part-name>Chords</part-name></score-part></part-list>`)
	w.line(`  <part id="P1">`)
	for i := range c.Bars {
		w.bar(i)
	}
	w.line(`  </part>`)
	w.line(`</score-partwise>`)
	return w.out.Bytes()
}

// barsALine is how many bars a line has at most.
const barsALine = 4

// writer writes a chart.
type writer struct {
	chart     chart.Chart
	marks     map[[2]int]chart.Mark
	divisions int          // of a quarter note
	implied   map[int]bool // bars where a repeat starts without a sign
	meter     chart.Meter
	number    int
	onLine    int   // bars on the line
	ending    []int // that is open
	closes    int   // the bar behind which it does
	open      bool  // in a group of chords that may be left out
	out       bytes.Buffer
}

// line writes a line; strings among the arguments are escaped.
func (w *writer) line(format string, args ...any) {
	for i, a := range args {
		if s, ok := a.(string); ok {
			var b bytes.Buffer
			escape(&b, s)
			args[i] = b.String()
		}
	}
	fmt.Fprintf(&w.out, format+"\n", args...)
}

// maxDivisions bounds the divisions of a quarter note; places that would need
// more are rounded to them.
const maxDivisions = 10080

// countDivisions finds the divisions by which all places are whole.
func (w *writer) countDivisions() {
	w.divisions = 1
	take := func(quarters chart.Beats) {
		_, den := quarters.Fraction()
		_, missing := chart.B(w.divisions, den).Fraction() // the factor to the least common multiple
		if n := w.divisions * missing; n <= maxDivisions {
			w.divisions = n
		} else {
			w.divisions = maxDivisions
		}
	}
	meter := w.chart.Meter
	for _, b := range w.chart.Bars {
		if b.Meter != (chart.Meter{}) {
			meter = b.Meter
		}
		take(inQuarters(chart.B(1, 1), meter))
		for _, s := range b.Chords {
			take(inQuarters(s.At, meter))
			take(inQuarters(s.End(), meter))
		}
	}
	take(inQuarters(w.chart.Pickup, meter))
}

// inQuarters is a length in beats of a meter in quarter notes.
func inQuarters(b chart.Beats, m chart.Meter) chart.Beats {
	num, den := b.Fraction()
	switch {
	case m == (chart.Meter{}):
		return b
	case m.IsCompound():
		return chart.B(num*3, den*2)
	}
	return chart.B(num*4, den*int(m.Den))
}

func (w *writer) in(quarters chart.Beats) int {
	return int(math.Round(quarters.Float64() * float64(w.divisions)))
}

// bar writes a measure.
func (w *writer) bar(i int) {
	c, b := w.chart, w.chart.Bars[i]
	isPickup := i == 0 && !c.Pickup.IsZero()
	if w.number++; i == 0 {
		w.number = 1
		if isPickup {
			w.number = 0
		}
	}
	if b.Number != 0 {
		w.number = b.Number
	}
	if b.Meter != (chart.Meter{}) {
		w.meter = b.Meter
	} else if w.meter == (chart.Meter{}) {
		w.meter = chart.Meter{Num: 4, Den: 4}
	}
	implicit := ""
	if isPickup {
		implicit = ` implicit="yes"`
	}
	fmt.Fprintf(&w.out, "    <measure number=\"%d\"%s>\n", w.number, implicit)
	if w.onLine++; w.onLine > barsALine || b.Section != "" {
		w.onLine = 1
		if i > 0 {
			w.line(`      <print new-system="yes"/>`)
		}
	}
	w.leftBarline(i)
	w.attributes(i)
	if w.implied[i] {
		w.line(`      <sound forward-repeat="yes"/>`)
	}
	if b.Section != "" {
		w.line(`      <direction placement="above"><direction-type><rehearsal>%s</rehearsal></direction-type></direction>`, b.Section)
	}
	w.beats(i, isPickup)
	w.rightBarline(i)
	w.line(`    </measure>`)
}

func (w *writer) attributes(i int) {
	changes := i == 0 || w.chart.Bars[i].Meter != (chart.Meter{}) && w.meterBefore(i) != w.meter
	if !changes {
		return
	}
	w.line(`      <attributes>`)
	if i == 0 {
		w.line(`        <divisions>%d</divisions>`, w.divisions)
		if k := w.chart.Key.Simplify(); k.IsValid() {
			w.line(`        <key><fifths>%d</fifths><mode>%s</mode></key>`, k.Signature(), modeName(k))
		}
	}
	w.line(`        <time><beats>%d</beats><beat-type>%d</beat-type></time>`, w.meter.Num, w.meter.Den)
	if i == 0 {
		w.line(`        <clef><sign>G</sign><line>2</line></clef>`)
	}
	w.line(`      </attributes>`)
}

func modeName(k key.Key) string { return k.Mode().String() }

// meterBefore is the meter of the bar before.
func (w *writer) meterBefore(i int) chart.Meter {
	for i--; i >= 0; i-- {
		if m := w.chart.Bars[i].Meter; m != (chart.Meter{}) {
			return m
		}
	}
	if w.chart.Meter == (chart.Meter{}) {
		return chart.Meter{Num: 4, Den: 4}
	}
	return w.chart.Meter
}

func (w *writer) leftBarline(i int) {
	b := w.chart.Bars[i]
	if !b.RepeatStart && len(b.Ending) == 0 {
		return
	}
	w.line(`      <barline location="left">`)
	if b.RepeatStart {
		w.line(`        <bar-style>heavy-light</bar-style>`)
	}
	if len(b.Ending) > 0 {
		w.ending, w.closes = b.Ending, endOfEnding(w.chart.Bars, i)
		w.line(`        <ending number="%s" type="start"/>`, endingName(b.Ending))
	}
	if b.RepeatStart {
		w.line(`        <repeat direction="forward"/>`)
	}
	w.line(`      </barline>`)
}

func (w *writer) rightBarline(i int) {
	b := w.chart.Bars[i]
	last := i == len(w.chart.Bars)-1
	closes := w.ending != nil && i == w.closes
	if !b.RepeatEnd && !b.Double && !last && !closes {
		return
	}
	w.line(`      <barline location="right">`)
	switch {
	case b.RepeatEnd:
		w.line(`        <bar-style>light-heavy</bar-style>`)
	case b.Double:
		w.line(`        <bar-style>light-light</bar-style>`)
	case last:
		w.line(`        <bar-style>light-heavy</bar-style>`)
	}
	if closes {
		kind := "discontinue"
		if b.RepeatEnd {
			kind = "stop"
		}
		w.line(`        <ending number="%s" type="%s"/>`, endingName(w.ending), kind)
		w.ending = nil
	}
	if b.RepeatEnd {
		w.line(`        <repeat direction="backward"/>`)
	}
	w.line(`      </barline>`)
}

func endingName(passes []int) string {
	var words []string
	for _, n := range passes {
		words = append(words, strconv.Itoa(n))
	}
	return strings.Join(words, ",")
}

// beats writes a bar's slashes, each behind the chord symbols that start in its
// beat.
func (w *writer) beats(i int, isPickup bool) {
	b := w.chart.Bars[i]
	full := w.meter.Beats()
	from, to := chart.Beats{}, full
	if isPickup {
		from = full.Sub(w.chart.Pickup)
	}
	if n := len(b.Chords); n > 0 && i == len(w.chart.Bars)-1 {
		to = b.Chords[n-1].End()
	}
	k := 0
	for at := from; at.Less(to); {
		next := chart.B(at.Int()+1, 1)
		if to.Less(next) {
			next = to
		}
		for ; k < len(b.Chords) && b.Chords[k].At.Less(next); k++ {
			offset := w.in(inQuarters(b.Chords[k].At.Sub(from), w.meter)) - w.in(inQuarters(at.Sub(from), w.meter))
			w.chordSymbol(i, k, offset)
		}
		w.slash(at.Sub(from), next.Sub(from))
		at = next
	}
}

// noteTypes are the names of lengths, in quarter notes, with their dots.
var noteTypes = []struct {
	quarters chart.Beats
	name     string
	dots     int
}{
	{chart.B(4, 1), "whole", 0}, {chart.B(2, 1), "half", 0}, {chart.B(1, 1), "quarter", 0}, {chart.B(1, 2), "eighth", 0},
	{chart.B(1, 4), "16th", 0}, {chart.B(1, 8), "32nd", 0}, {chart.B(3, 2), "quarter", 1}, {chart.B(3, 4), "eighth", 1},
	{chart.B(3, 8), "16th", 1},
}

// slash writes a slash from one place of a bar to another. What no single note
// lasts is left without one.
func (w *writer) slash(from, to chart.Beats) {
	duration := w.in(inQuarters(to, w.meter)) - w.in(inQuarters(from, w.meter))
	quarters := inQuarters(to.Sub(from), w.meter)
	n := slices.IndexFunc(noteTypes, func(t struct {
		quarters chart.Beats
		name     string
		dots     int
	}) bool {
		return t.quarters == quarters
	})
	if n < 0 {
		w.line(`      <forward><duration>%d</duration></forward>`, duration)
		return
	}
	fmt.Fprintf(&w.out, `      <note dynamics="0"><pitch><step>B</step><octave>4</octave></pitch><duration>%d</duration><voice>1</voice><type>%s</type>%s<stem>none</stem><notehead>slash</notehead></note>`+"\n",
		duration, noteTypes[n].name, strings.Repeat("<dot/>", noteTypes[n].dots))
}
