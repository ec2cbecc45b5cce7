package function

import "fifthwise/pkg/key"

// plateauBars is how long a region must be to be called by a church mode.
const plateauBars = 4

// nameModes gives regions of four bars or more that do without their dominant
// the church mode that their chords show; common practice, no source.
func (a *Analysis) nameModes() {
	o := a.outcome
	for n := range a.Regions {
		r := &a.Regions[n]
		from, to := int(o.events[r.First]), int(o.events[r.Last])+1
		if a.bars(r.First, r.Last) < plateauBars {
			continue
		}
		if m := o.plateau(from, to, r.Key.Mode()); m != r.Key.Mode() {
			r.Key = key.New(r.Key.Tonic(), m)
		}
	}
}

// bars is the length of chords first to last each counted in its own meter.
func (a *Analysis) bars(first, last int) float64 {
	sum := 0.0
	for _, r := range a.Chords[first : last+1] {
		sum += r.Event.Len.Float64() / r.Event.BarLen.Float64()
	}
	return sum
}

// plateau is the mode of a region without its dominant: the search's own mode
// where the chords show no other.
func (o *outcome) plateau(from, to int, m key.Mode) key.Mode {
	var seen struct{ minor7, triad, two, four, flatTwo, flatSix, flatSeven, two7, majorTwo, seventh, sus, major7, other bool }
	for i := from; i < to; i++ {
		e := o.entry(i)
		k := o.columns[i].kind
		switch {
		case e.homeDominant(), e.degree == D(5, 0) && !e.applied() && e.function == Dominant:
			return m
		case e.applied():
			seen.other = true
		case e.degree == D(1, 0):
			seen.minor7 = seen.minor7 || k == kMinor7
			seen.triad = seen.triad || k == kMinor || k == kMinor6 || k == kMinorMajor7
			seen.seventh = seen.seventh || k == kDominant
			seen.sus = seen.sus || k == kSus7
			seen.major7 = seen.major7 || kinds(1<<k)&aMajor != 0
		case e.degree == D(2, -1) && kinds(1<<k)&aMajor != 0:
			seen.flatTwo = true
		case e.degree == D(2, 0) && kinds(1<<k)&aMinor != 0:
			seen.two = true
		case e.degree == D(2, 0) && k == kMajor:
			seen.majorTwo = true
		case e.degree == D(4, 0) && kinds(1<<k)&(aMajor|aSeventh) != 0:
			seen.four = true
		case e.degree == D(6, -1):
			seen.flatSix = true
		case e.degree == D(7, -1) && kinds(1<<k)&(aMajor|aSeventh) != 0:
			seen.flatSeven = true
		default:
			seen.other = true
		}
	}
	if m == key.Minor {
		switch {
		case seen.flatTwo:
			return key.Phrygian
		case seen.flatSix, seen.other:
			return key.Minor
		case seen.two, seen.four, seen.minor7 && !seen.triad && !seen.flatSeven:
			return key.Dorian
		}
		return key.Minor
	}
	switch {
	case seen.flatSix, seen.flatTwo, seen.other:
		return key.Major
	case seen.flatSeven, (seen.seventh || seen.sus) && !seen.major7 && !seen.four:
		return key.Mixolydian
	case seen.majorTwo:
		return key.Lydian
	}
	return key.Major
}
