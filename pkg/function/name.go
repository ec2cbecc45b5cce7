package function

import (
	"fifthwise/pkg/chord"
	"fifthwise/pkg/key"
	"fifthwise/pkg/pitch"
)

var suspendedNinth = chord.QualityOf(fourth, fifth, flat7, chord.D(9, 0))

// heard is the root and quality of a chord as the entry hears it: Dm7/G and
// F/G are G9sus, D/C is D7, and a diminished seventh may stand on any of its
// notes, spelled as the key at tonic spells its degree.
func (e *entry) heard(c chord.Chord, tonic pitch.Note) (pitch.Note, chord.Quality) {
	root, q := c.Root(), c.Quality()
	switch k := kindOf(q); {
	case k == kDiminished7:
		return e.rootIn(tonic), q
	case c.Bass().Sounds(e.rootIn(tonic)) && !c.Bass().Sounds(root):
		return c.Bass(), suspendedNinth
	case e.kinds.has(kDominant) && k == kMajor && !e.kinds.has(kMajor):
		return root, q.With(flat7)
	}
	return root, q
}

// rootIn is the entry's root spelled in the key of tonic.
func (e *entry) rootIn(tonic pitch.Note) pitch.Note {
	return e.degree.Above(e.goalIn(tonic))
}

// goalIn is the tonic in which the entry is heard, spelled in the key of tonic.
func (e *entry) goalIn(tonic pitch.Note) pitch.Note {
	if e.applied() {
		return e.target.Above(tonic)
	}
	return tonic
}

// numeral names a chord read as the entry.
func (e *entry) numeral(c chord.Chord, tonic pitch.Note) Numeral {
	_, q := e.heard(c, tonic)
	return NewNumeral(e.degree, q, e.target, e.role == TritoneSubstitute)
}

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
// decide.
func (o *outcome) spell(chords []Reading, from, to int) (k key.Key, disagree bool) {
	index := int(o.chosen[from].key)
	mode := modeOf(index)
	var ways []spelling
	for i := from; i < to; i++ {
		e := o.entry(i)
		if e.applied() || e.role == Chromatic || kindOf(chords[o.columns[i].first].Event.Chord.Quality()) == kDiminished7 {
			continue
		}
		c := chords[o.columns[i].first].Event.Chord
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
	return key.New(ways[best].tonic, mode), core > 1
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
