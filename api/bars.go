package api

import (
	"fifthwise/api/wire"
	"fifthwise/pkg/chart"
)

// barsOf are the bars of a chart as a request has them: the repeats, which it
// does not have, written out.
func barsOf(c chart.Chart) []wire.Bar {
	pickup := !c.Pickup.IsZero()
	meter := c.Meter
	c = c.Unfolded()
	bars := make([]wire.Bar, len(c.Bars))
	for i := range c.Bars {
		b := &c.Bars[i]
		w := wire.Bar{Section: b.Section, Chords: make([]wire.Chord, len(b.Chords)), Double: b.Double}
		if b.Number >= 0 && b.Number <= maxNumber {
			w.Number = &b.Number
		}
		if b.Meter != meter {
			meter = b.Meter
			name := meter.String()
			w.Meter = &name
		}
		for k := range b.Chords {
			w.Chords[k] = chordOf(&b.Chords[k])
			if i == 0 && pickup && b.Number != 0 {
				w.Chords[k].Beat = nil // else the bar would be read as a whole one
			}
		}
		bars[i] = w
	}
	return bars
}

// maxNumber is the highest number of a bar that a request may have.
const maxNumber = 99_999

func chordOf(s *chart.Slot) wire.Chord {
	beat, beats := s.At.Add(chart.B(1, 1)).Float64(), s.Len.Float64()
	return wire.Chord{Symbol: s.Chord.String(), Beat: &beat, Beats: &beats, Optional: s.Optional}
}
