package key

import (
	"fifthwise/pkg/chord"
	"fifthwise/pkg/pitch"
)

// Spell is the chord as players write it in the key. A root that is a note of
// the key stays as it is, and so does any other with a plain name; one that
// carries two accidentals or more, or is E#, B#, Cb or Fb, gets its plain name.
// In Gb major Cbmaj7 stays and Abb7 becomes G7. The raised sixth and seventh of
// minor carry diminished chords: in G# minor F##dim7 stays, and F##m becomes Gm. The
// bass moves along; with a root that is named anew, or where it carries two
// accidentals or more, it is named plainly too. That these roots
// are not written is common practice, no source. In an invalid key it is
// [chord.Chord.Simplify].
func (k Key) Spell(c chord.Chord) chord.Chord {
	if c.IsSilence() {
		return c
	}
	if !k.Has(c.Root()) || k.raises(c.Root()) && !isDiminished(c) {
		c = c.Simplify()
		if !k.Has(c.Bass()) {
			c = c.WithBass(c.Bass().Simplify())
		}
		return c
	}
	if a := c.Bass().Accidental(); c.HasBass() && (a < -1 || a > 1) {
		return c.WithBass(c.Bass().Simplify())
	}
	return c
}

// Has reports whether the note, in this spelling, is of the key: of its scale,
// in minor of the natural, harmonic and melodic scales together. An invalid key
// has none.
func (k Key) Has(n pitch.Note) bool {
	if !k.IsValid() {
		return false
	}
	const flattest, sharpest = -1, 5 // F and B, the ends of the white keys
	f := n.Fifths() - k.Signature()
	if f >= flattest && f <= sharpest {
		return true
	}
	return k.raises(n)
}

// raises reports whether the note is one that minor raises.
func (k Key) raises(n pitch.Note) bool {
	up := k.tonic.To(n)
	return k.mode == Minor && (up == pitch.MajorSixth || up == pitch.MajorSeventh)
}

func isDiminished(c chord.Chord) bool {
	return c.Family() == chord.Diminished || c.Family() == chord.HalfDiminished
}
