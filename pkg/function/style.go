package function

import (
	"math"

	"fifthwise/pkg/chart"
	"fifthwise/pkg/phrase"
)

// A style is how a chart is made, as far as that tells how to read it. A chart
// does not say its style; it shows in these figures.
type style struct {
	blue  float64 // share of time of dominant sevenths that fall by neither fifth nor half step, as in a blues: 0 to 1
	loops float64 // share of time in groups of chords that come twice in a row: 0 to 1
	rich  float64 // how far major and minor chords carry sevenths and sixths, as in jazz: from 0 where a quarter of them do to 1 at three fifths
	brief float64 // halvings of the number of chords below 16: 0 to 4
	slow  float64 // mean length of a chord, in doublings of a bar: -2 to 1
}

// uses appends the terms of a change of key that depend on the style.
func (s *style) uses(dst []usage) []usage {
	return append(dst, usage{ChangeLooping, s.loops}, usage{ChangeSlow, s.slow}, usage{ChangeBrief, s.brief})
}

func (l *lattice) styleOf(events []chart.Event, evidence phrase.Evidence) (s style) {
	all, plain, full := 0.0, 0.0, 0.0
	for i := range l.columns {
		c := &l.columns[i]
		all += c.length
		if evidence.InLoop[c.first] {
			s.loops += c.length
		}
		here := &events[c.first].Chord
		switch c.kind {
		case kMajor, kMinor, kPower, kDiminished, kAugmented, kSus:
			plain++
		case kMajor6, kMajor7, kMinor6, kMinor7, kMinorMajor7, kSus7:
			full++
		case kDominant:
			next := events[l.columns[(i+1)%len(l.columns)].first].Chord.Root().Class()
			if step := next.Plus(-int(here.Root().Class())); step != 5 && step != 11 {
				s.blue += c.length
			}
		}
	}
	s.blue, s.loops, s.rich = s.blue/all, s.loops/all, max(0, min(1, (full/max(1, plain+full)-.25)/.35))
	s.slow = max(-2, min(1, math.Log2(all/float64(len(l.columns)))))
	s.brief = max(0, 4-math.Log2(float64(len(l.columns))))
	return s
}
