package musicxml

import (
	"fifthwise/pkg/chart"
	"fifthwise/pkg/chart/roadmap"
)

// bars are the measures with the chords of a part.
func (d *Document) bars(s *score, p *part) []roadmap.Bar {
	s.placeCodaSigns()
	d.repeatMeasures(p)
	bars := make([]roadmap.Bar, len(s.bars))
	meter := chart.Meter{Num: 4, Den: 4}
	for i := range s.bars {
		b := &s.bars[i]
		if b.Meter == (chart.Meter{}) {
			b.Meter = meter
		}
		meter = b.Meter
		b.Number = s.numberOf(i)
		b.Double = b.Double || b.final && i < len(s.bars)-1
		if b.RepeatEnd && b.Times == 0 && len(b.Ending) == 0 {
			b.Times = b.times
		}
		b.Len = inBeats(b.length, meter)
		for _, sym := range d.symbols[i] {
			h := sym.places[0]
			b.Chords = append(b.Chords, chart.Slot{Chord: h.chord, Symbol: h.symbol, At: inBeats(h.at, meter)})
		}
		if n := len(b.Chords); n > 0 && !b.Chords[n-1].At.Less(b.Len) && b.Chords[n-1].At.Less(meter.Beats()) {
			b.Len = chart.Beats{} // a chord behind all notes: they do not fill the bar
		}
		s.spread(b, i)
		bars[i] = b.Bar
	}
	d.bracket(s, bars)
	return bars
}

// repeatMeasures gives measures that repeat others the chords of those.
func (d *Document) repeatMeasures(p *part) {
	for i := range d.symbols {
		if n := p.repeats[i]; n > 0 && i >= n && len(d.symbols[i]) == 0 {
			d.symbols[i] = d.symbols[i-n]
		}
	}
}

// bracket marks the chords that stand in brackets as those that may be left out.
// A bracket that opens last and has no partner is passed over.
func (d *Document) bracket(s *score, bars []roadmap.Bar) {
	var group []*chart.Slot // since a bracket opened
	opened := 0
	for i := range bars {
		for k, sym := range d.symbols[i] {
			h := sym.places[0]
			if group == nil && !h.opens {
				continue
			}
			if group == nil {
				opened = i
			}
			group = append(group, &bars[i].Chords[k])
			if !h.closes {
				continue
			}
			for _, slot := range group {
				slot.Optional = true
			}
			group = nil
		}
	}
	if group != nil {
		s.warn(opened, "a bracket opens and is not closed; it is left out")
	}
}

// inBeats is a length in quarter notes in the beats of a meter.
func inBeats(quarters chart.Beats, m chart.Meter) chart.Beats {
	num, den := quarters.Fraction()
	if m.IsCompound() {
		return chart.B(num*2, den*3)
	}
	return chart.B(num*int(m.Den), den*4)
}

// spread shares the time of a place evenly among the chords that stand there.
func (s *score) spread(b *bar, measure int) {
	end := b.Len
	if end.IsZero() {
		end = b.Meter.Beats()
	}
	for i := 0; i < len(b.Chords); {
		n := i + 1
		for n < len(b.Chords) && b.Chords[n].At == b.Chords[i].At {
			n++
		}
		at, to := b.Chords[i].At, end
		if n < len(b.Chords) {
			to = b.Chords[n].At
		}
		if n > i+1 && at.Less(to) {
			share := to.Sub(at).Share(n - i)
			for k := i; k < n; k++ {
				b.Chords[k].At = at
				at = at.Add(share)
			}
			s.warn(measure, "%d chords stand at one place and share its time evenly", n-i)
		}
		i = n
	}
}
