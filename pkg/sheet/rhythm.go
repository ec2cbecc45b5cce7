package sheet

import "fifthwise/pkg/chart"

// marksOf gives the chords of bar i their places, as the text notation has
// them: alone where they share the bar evenly, else with slashes for the beats
// that they are held, else with the beat that they start on.
func (p *page) marksOf(i int, chords []mark) []mark {
	slots := p.chart.Bars[i].Chords
	from, to := p.span(i)
	even, whole := rhythm(slots, from, to)
	length := to.Sub(from).Float64()
	var marks []mark
	slashes := func(at, end chart.Beats) {
		for !even && (whole || len(slots) == 0) && at.Less(end) {
			marks = append(marks, mark{at: at.Sub(from).Float64() / length, symbol: "/", chord: -1, region: -1})
			at = at.Add(beat)
		}
	}
	next := from
	for k, s := range slots {
		slashes(next, s.At)
		m := chords[k]
		m.at = s.At.Sub(from).Float64() / length
		if !even && !whole && from.Less(s.At) {
			m.beat = s.At.Add(beat).Place()
		}
		marks = append(marks, m)
		next = s.At.Add(beat)
	}
	slashes(next, to)
	return marks
}

var beat = chart.B(1, 1)

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
