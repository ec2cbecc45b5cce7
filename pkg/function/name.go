package function

import (
	"fifthwise/pkg/chord"
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
