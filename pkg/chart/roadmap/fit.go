package roadmap

import (
	"cmp"
	"fmt"

	"fifthwise/pkg/chart"
)

// placed is a bar with its place in what was written.
type placed struct {
	Bar
	written int
}

// fitting makes the bars of a chart from bars that may be shorter or longer
// than their meters say.
type fitting struct {
	head chart.Chart
	list []placed
}

func (f *fitting) fit() Tune {
	f.moveUpbeatRepeat()
	f.join()
	c := f.head
	c.Bars, c.Pickup = make([]chart.Bar, len(f.list)), chart.Beats{}
	t := Tune{Written: make([]int, len(f.list))}
	for i := range f.list {
		p := &f.list[i]
		last := i == len(f.list)-1
		switch {
		case i == 0 && isShort(p.Bar) && !last:
			c.Pickup = p.Len
		case isShort(p.Bar) && last, p.Len == p.Meter.Beats():
		default:
			f.remeter(p)
		}
		c.Bars[i], t.Written[i] = f.slots(p, i == 0), p.written
		if i == 0 && !c.Pickup.IsZero() {
			late(c.Bars[i].Chords, p.Meter.Beats().Sub(p.Len))
		}
	}
	c.Meter = f.list[0].Meter
	c.Warnings = f.head.Warnings
	t.Chart = c
	return t
}

// moveUpbeatRepeat lets a repeat that starts before an upbeat without chords
// start behind it: what sounds there is the last bar of the repeat.
func (f *fitting) moveUpbeatRepeat() {
	if len(f.list) > 1 && f.list[0].RepeatStart && isShort(f.list[0].Bar) && len(f.list[0].Chords) == 0 {
		f.list[0].RepeatStart, f.list[1].RepeatStart = false, true
	}
}

// join makes one bar of two short ones that are the two parts of it: a bar
// divided for a line's or a repeat's sake.
func (f *fitting) join() {
	var kept []placed
	for i := 0; i < len(f.list); i++ {
		p := f.list[i]
		if isUpbeat := i == 0 && p.Number == 0; !isUpbeat && f.joins(&p, i+1) {
			i++
		}
		kept = append(kept, p)
	}
	f.list = kept
}

// joins adds the bar at i to the one before, p, where both are parts of one and
// no sign between them forbids it. Where signs stand between, an upbeat without
// chords still belongs to the bar before and hands its signs on.
func (f *fitting) joins(p *placed, i int) bool {
	if i >= len(f.list) {
		return false
	}
	next := &f.list[i]
	whole := p.Meter.Beats()
	if !isShort(p.Bar) || p.Meter != next.Meter || p.Len.Add(next.Len) != whole {
		return false
	}
	if !p.RepeatEnd && !p.Double && !next.RepeatStart && len(next.Ending) == 0 && next.Section == "" {
		late(next.Chords, p.Len)
		p.Chords = append(p.Chords[:len(p.Chords):len(p.Chords)], next.Chords...)
		p.RepeatEnd, p.Double, p.Len = next.RepeatEnd, next.Double, whole
		return true
	}
	if len(next.Chords) > 0 || next.RepeatEnd || i+1 == len(f.list) {
		return false
	}
	after := &f.list[i+1]
	after.RepeatStart = after.RepeatStart || next.RepeatStart
	after.Section = cmp.Or(after.Section, next.Section)
	if len(after.Ending) == 0 {
		after.Ending = next.Ending
	}
	p.Double, p.Len = (p.Double || next.Double) && !p.RepeatEnd, whole
	return true
}

func late(slots []chart.Slot, by chart.Beats) {
	for i := range slots {
		slots[i].At = slots[i].At.Add(by)
	}
}

// remeter gives a bar that is not as long as its meter says a meter of its
// length, where there is one.
func (f *fitting) remeter(p *placed) {
	full := p.Meter.Beats()
	m, ok := meterOf(p.Len, p.Meter)
	if !ok {
		f.warn(p.Number, "the bar has %s of %s beats and is read as whole", p.Len, full)
		p.Len = full
		return
	}
	if full.Less(p.Len) {
		f.warn(p.Number, "the bar is longer than its meter, %s, and is read in %s", p.Meter, m)
	}
	num, den := m.Beats().Fraction()
	over, under := p.Len.Fraction()
	for i := range p.Chords {
		n, d := p.Chords[i].At.Fraction()
		p.Chords[i].At = chart.B(n*num*under, d*den*over)
	}
	p.Meter, p.Len = m, m.Beats()
}

// meterOf is a meter as long as some beats of another, in its unit or the next
// smaller one that will do.
func meterOf(length chart.Beats, of chart.Meter) (chart.Meter, bool) {
	num, den := length.Fraction()
	if of.IsCompound() {
		num *= 3
	}
	for split := 1; int(of.Den)*split <= 32; split *= 2 {
		if n := num * split; n%den == 0 && n/den >= 1 && n/den <= 64 {
			return chart.Meter{Num: uint8(n / den), Den: of.Den * uint8(split)}, true
		}
	}
	return chart.Meter{}, false
}

// slots is the bar of the chart: each chord lasts until the next. Chords beyond
// the bar's end are lost, with a warning. A chart that starts without a chord
// starts with silence.
func (f *fitting) slots(p *placed, first bool) chart.Bar {
	b := p.Bar.Bar
	n := len(b.Chords)
	for n > 0 && !b.Chords[n-1].At.Less(p.Len) {
		f.warn(p.Number, "%s stands behind the bar's end and is left out", name(b.Chords[n-1]))
		n--
	}
	slots := make([]chart.Slot, 0, n+1)
	if first && (n == 0 || !b.Chords[0].At.IsZero()) {
		slots = append(slots, chart.Slot{})
	}
	slots = append(slots, b.Chords[:n]...)
	for i := range slots {
		end := p.Len
		if i+1 < len(slots) {
			end = slots[i+1].At
		}
		slots[i].Len = end.Sub(slots[i].At)
	}
	b.Chords = slots
	return b
}

func name(s chart.Slot) string {
	if s.Symbol != "" {
		return s.Symbol
	}
	return fmt.Sprint(s.Chord)
}
