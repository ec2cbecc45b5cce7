package function

import (
	"fifthwise/pkg/chord"
	"fifthwise/pkg/key"
	"fifthwise/pkg/pitch"
)

// modeOf is the mode of one of the search's 24 keys.
func modeOf(index int) key.Mode {
	if index%modeCount == minor {
		return key.Minor
	}
	return key.Major
}

// A spelling is a way to write a key's tonic, with what speaks for it.
type spelling struct {
	tonic pitch.Note
	two   int // chords on II or V that imply it
	one   int // chords on I
	rest  int // other chords of the key
}

// spell names the key of columns [from, to) as the chart spells the chords on
// its I, II and V. Where these disagree the key with fewer accidentals is
// taken, a tie goes to the two-five; without any of them the other chords
// decide, as far as they name a key that is written.
func (o *outcome) spell(chords []Reading, from, to int) (k key.Key, disagree bool) {
	index := int(o.chosen[from].key)
	mode := modeOf(index)
	var ways []spelling
	for i := from; i < to; i++ {
		e, c := o.entry(i), chords[o.columns[i].first].Event.Chord
		if !e.spellsKey(c) {
			continue
		}
		root, _ := e.heard(c, pitch.Of(pitch.Class(index/modeCount)))
		ways = addSpelling(ways, root.Sub(pitch.Degree(e.degree.Number(), e.degree.Alter())), e.degree)
	}
	if len(ways) == 0 {
		return key.Of(pitch.Class(index/modeCount), mode), false
	}
	best, core := 0, 0
	for i := range ways {
		if ways[i].one+ways[i].two > 0 {
			core++
		}
		if ways[i].before(&ways[best], mode) {
			best = i
		}
	}
	if k = key.New(ways[best].tonic, mode); core == 0 {
		k = k.Simplify()
	}
	return k, core > 1
}

// spellsKey: the root written for c, read as the entry, implies how its key is
// spelled. A diminished seventh is written on any of its notes.
func (e *entry) spellsKey(c chord.Chord) bool {
	return !e.applied() && e.role != Chromatic && kindOf(c.Quality()) != kDiminished7
}

func addSpelling(ways []spelling, tonic pitch.Note, d Degree) []spelling {
	i := 0
	for i < len(ways) && ways[i].tonic != tonic {
		i++
	}
	if i == len(ways) {
		ways = append(ways, spelling{tonic: tonic})
	}
	switch d {
	case D(1, 0):
		ways[i].one++
	case D(2, 0), D(5, 0):
		ways[i].two++
	default:
		ways[i].rest++
	}
	return ways
}

// before reports whether s is the better way to write the key.
func (s *spelling) before(t *spelling, m key.Mode) bool {
	if a, b := s.one+s.two > 0, t.one+t.two > 0; a != b {
		return a
	}
	a, b := abs(key.New(s.tonic, m).Signature()), abs(key.New(t.tonic, m).Signature())
	switch {
	case a != b:
		return a < b
	case s.two != t.two:
		return s.two > t.two
	case s.one != t.one:
		return s.one > t.one
	}
	return s.rest > t.rest
}

func abs(n int) int { return max(n, -n) }
