package main

import (
	"fmt"
	"strconv"
	"strings"

	"fifthwise/pkg/chart"
	"fifthwise/pkg/key"
)

// sheet draws the written bars, every chord over its numeral as it is read the
// first time through.
func (p *page) sheet() {
	bars := p.bars()
	g := newGrid(bars)
	for _, l := range g.lines(bars) {
		p.linef("")
		for _, row := range g.draw(l) {
			p.linef("%s", row)
		}
	}
}

// bars is the chart as the grid draws it.
func (p *page) bars() []bar {
	chords := p.writtenChords()
	meter, last := p.chart.Meter, len(p.chart.Bars)-1
	bars := make([]bar, len(p.chart.Bars))
	for i, b := range p.chart.Bars {
		d := bar{number: fmt.Sprint(b.Number), opens: "|", closes: "|", section: b.Section}
		if b.Section != "" {
			d.section = "[" + b.Section + "]"
		}
		if b.RepeatStart {
			d.opens = "|:"
		}
		switch {
		case b.RepeatEnd:
			d.closes = ":|"
		case b.Double || i == last:
			d.closes = "||"
		}
		if len(b.Ending) > 0 {
			d.ending = strings.Trim(strings.ReplaceAll(fmt.Sprint(b.Ending), " ", ","), "[]") + "."
		}
		if b.Meter != meter {
			d.meter, meter = b.Meter.String(), b.Meter
		}
		d.breaks = b.Section != "" || b.RepeatStart || i > 0 && bars[i-1].closes != "|" || i == 1 && !p.chart.Pickup.IsZero()
		d.marks = p.marks(i, chords[:len(b.Chords)])
		chords = chords[len(b.Chords):]
		bars[i] = d
	}
	return bars
}

// writtenChords draws the chords of all written bars, one after the other.
func (p *page) writtenChords() []mark {
	var marks []mark
	var optional []bool
	shown := key.Key{}
	for i, chords := range p.firstPasses() {
		for k, s := range p.chart.Bars[i].Chords {
			m := mark{text: p.symbol(s.Symbol)}
			if k < len(chords) {
				p.addReading(&m, chords[k], &shown)
			}
			marks, optional = append(marks, m), append(optional, s.Optional)
		}
	}
	for i := range marks {
		if optional[i] && (i == 0 || !optional[i-1]) {
			marks[i].text, marks[i].hang = "("+marks[i].text, 1
		}
		if optional[i] && (i+1 == len(marks) || !optional[i+1]) {
			marks[i].text += ")"
		}
	}
	return marks
}

// firstPasses is, for every written bar, the chords that start in it the first
// time through.
func (p *page) firstPasses() [][]int {
	first := make([][]int, len(p.chart.Bars))
	for i, r := range p.analysis.Chords {
		if r.Event.Pass == 1 {
			first[r.Event.BarIndex] = append(first[r.Event.BarIndex], i)
		}
	}
	return first
}

// addReading writes the numeral of chord i under its symbol, and above it the
// key where that is not the one shown before.
func (p *page) addReading(m *mark, i int, shown *key.Key) {
	r := p.analysis.Chords[i]
	if r.Event.Chord.IsSilence() {
		return
	}
	m.below = p.numeral(r.Numeral, r.Key)
	if r.Key == *shown {
		return
	}
	*shown = r.Key
	m.above.name = p.keyName(r.Key)
	if region := p.analysis.Regions[r.Region]; region.First == i {
		m.above.more = region.Motion.String()
	}
}

// marks gives the chords of bar i their places, written as the text notation
// writes them: alone where they share the bar evenly, else with slashes for the
// beats that they are held, else with the beat that they start on.
func (p *page) marks(i int, chords []mark) []mark {
	slots := p.chart.Bars[i].Chords
	from, to := p.span(i)
	even, whole := rhythm(slots, from, to)
	length := to.Sub(from).Float64()
	var marks []mark
	slash := func(at, end chart.Beats) {
		for !even && (whole || len(slots) == 0) && at.Less(end) {
			marks = append(marks, mark{at: at.Sub(from).Float64() / length, text: "/"})
			at = at.Add(beat)
		}
	}
	next := from
	for k, s := range slots {
		slash(next, s.At)
		m := chords[k]
		m.at = s.At.Sub(from).Float64() / length
		if !even && !whole && from.Less(s.At) {
			m.text += "@" + beatName(s.At.Add(beat))
		}
		marks = append(marks, m)
		next = s.At.Add(beat)
	}
	slash(next, to)
	return marks
}

var beat = chart.B(1, 1)

// beatName is the number of a beat, in decimals where it has few.
func beatName(b chart.Beats) string {
	if _, den := b.Fraction(); den == 2 || den == 4 {
		return strconv.FormatFloat(b.Float64(), 'f', -1, 64)
	}
	return b.String()
}

// span is where the chords of a bar stand: the whole bar but for a pickup and
// an incomplete last bar.
func (p *page) span(i int) (from, to chart.Beats) {
	b := p.chart.Bars[i]
	to = b.Meter.Beats()
	if i == 0 && !p.chart.Pickup.IsZero() {
		from = to.Sub(p.chart.Pickup)
	}
	if n := len(b.Chords); n > 0 && i == len(p.chart.Bars)-1 {
		to = b.Chords[n-1].End()
	}
	return from, to
}

// rhythm reports whether chords share a bar evenly, and whether all start on
// beats.
func rhythm(slots []chart.Slot, from, to chart.Beats) (even, whole bool) {
	even = len(slots) > 0 && slots[0].At == from
	whole = from.IsWhole() && to.IsWhole()
	for _, s := range slots {
		even = even && s.Len == slots[0].Len
		whole = whole && s.At.IsWhole()
	}
	return even, whole
}
