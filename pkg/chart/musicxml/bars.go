package musicxml

import (
	"fifthwise/pkg/chart"
	"fifthwise/pkg/chart/roadmap"
)

// bars are the measures with their chords.
func (d *Document) bars(s *score) []roadmap.Bar {
	s.placeCodaSigns()
	bars := make([]roadmap.Bar, len(s.bars))
	meter := chart.Meter{Num: 4, Den: 4}
	open := false // in a group of chords that may be left out
	for i := range s.bars {
		b := &s.bars[i]
		if b.Meter == (chart.Meter{}) {
			b.Meter = meter
		}
		meter = b.Meter
		b.Number = s.numberOf(i)
		b.Double = b.Double || b.final && i < len(s.bars)-1
		if b.repeats > 0 && len(d.symbols[i]) == 0 && i >= b.repeats {
			d.symbols[i] = d.symbols[i-b.repeats]
		}
		b.Len = inBeats(b.length, meter)
		for _, sym := range d.symbols[i] {
			h := sym.places[0]
			open = open || h.opens
			b.Chords = append(b.Chords, chart.Slot{Chord: h.chord, Symbol: h.symbol, At: inBeats(h.at, meter), Optional: open})
			open = open && !h.closes
		}
		s.spread(b, i)
		bars[i] = b.Bar
	}
	if !open {
		return bars
	}
	return s.closed(bars)
}

// closed is the bars where the last bracket that opens has no partner: it is
// passed over.
func (s *score) closed(bars []roadmap.Bar) []roadmap.Bar {
	for i := len(bars) - 1; i >= 0; i-- {
		for k := len(bars[i].Chords) - 1; k >= 0; k-- {
			if !bars[i].Chords[k].Optional {
				return bars
			}
			bars[i].Chords[k].Optional = false
			s.warn(i, "a bracket opens and is not closed; it is left out")
		}
	}
	return bars
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
