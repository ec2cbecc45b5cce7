package review

import (
	"fmt"

	"fifthwise/pkg/key"
)

// regions marks the keys of an answer.
func (r *reading) regions(stated []Region) []Mark {
	marks := make([]Mark, len(stated))
	for n := range stated {
		first, last := r.starts[n], len(r.chords)-1
		if n+1 < len(r.starts) {
			last = r.starts[n+1] - 1
		}
		marks[n] = r.region(stated[n].Key, first, last)
	}
	return marks
}

// region marks a key that is stated for the chords from first to last.
func (r *reading) region(k key.Key, first, last int) Mark {
	at := &r.Chords[r.chords[first]]
	m := Mark{Chord: r.chords[first], Expected: r.KeyName(at.Key)}
	chance, shared, beats := 0.0, 0.0, 0.0
	for i := first; i <= last; i++ {
		c := r.chords[i]
		length := r.Chords[c].Event.Len.Float64()
		chance += length * r.KeyChance(c, k)
		beats += length
		if sameKey(r.Chords[c].Key, k) {
			shared += length
		}
	}
	chance, shared = chance/beats, shared/beats
	switch {
	case shared == 1 && r.isBorder(first) && (last+1 == len(r.chords) || r.isBorder(last+1)):
		m.Verdict = Agrees
		m.Reason = fmt.Sprintf("%s is heard here.", r.KeyName(k))
	case shared > .5:
		m.Verdict, m.Expected = Defensible, r.KeyName(k)
		m.Reason = fmt.Sprintf("%s is heard here; %s.", r.KeyName(k), r.borders(k, first, last))
	case chance >= Margin:
		m.Verdict = Defensible
		m.Reason = fmt.Sprintf("%s can be heard here, with a probability of %s; %s is likelier.", r.KeyName(k), percent(chance), m.Expected)
	default:
		m.Verdict = Contradicts
		m.Reason = fmt.Sprintf("%s has a probability of %s here, under the %s that can be defended; %s is heard.", r.KeyName(k), percent(chance), percent(Margin), m.Expected)
	}
	return m
}

// isBorder reports whether a region of the reading begins with chord i of those
// that sound.
func (r *reading) isBorder(i int) bool {
	c := r.chords[i]
	return r.Regions[r.Chords[c].Region].First == c || i > 0 && r.Chords[r.chords[i-1]].Region != r.Chords[c].Region
}

// borders says how the borders of a stated key differ from those of the reading.
func (r *reading) borders(k key.Key, first, last int) string {
	for i := first; i <= last; i++ {
		if c := r.chords[i]; sameKey(r.Chords[c].Key, k) {
			g := &r.Regions[r.Chords[c].Region]
			return fmt.Sprintf("it begins with %s in bar %d and ends with %s in bar %d", r.Chords[g.First].Event.Symbol, r.Chords[g.First].Event.Bar,
				r.Chords[g.Last].Event.Symbol, r.Chords[g.Last].Event.Bar)
		}
	}
	return ""
}

// sameKey reports whether two keys are one to the search: of one tonic by sound,
// and both with a major or both with a minor third.
func sameKey(a, b key.Key) bool {
	return a.Tonic().Sounds(b.Tonic()) && a.IsMinor() == b.IsMinor()
}

func percent(chance float64) string {
	if chance < .01 {
		return "under 1%"
	}
	return fmt.Sprintf("%.0f%%", 100*chance)
}
