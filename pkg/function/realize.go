package function

import (
	"fifthwise/pkg/chord"
	"fifthwise/pkg/key"
)

// In is the chord that the numeral spells in a key: V7/II in Eb major is C7,
// subV7 in Gb major Abb7. Double flats are kept, since they are what the
// numeral says; [chord.Chord.Simplify] names them plainly. Silence stays
// silence, and an invalid key gives it.
func (n Numeral) In(k key.Key) chord.Chord {
	if n.IsSilence() || !k.IsValid() {
		return chord.Chord{}
	}
	tonic := k.Tonic()
	if n.target.IsValid() {
		tonic = n.target.Above(tonic)
	}
	return chord.New(n.degree.Above(tonic), n.quality)
}

// NumeralOf is the bare chromatic numeral of a chord in a key: its degree and
// quality, of no target. In C major A7 is VI7. A bass is left out, and a root
// beyond a double alteration is taken by its plainest name. Other chords come
// back from [Numeral.In]. Silence and an invalid key give the zero value.
func NumeralOf(c chord.Chord, k key.Key) Numeral {
	if c.IsSilence() || !k.IsValid() {
		return Numeral{}
	}
	return NewNumeral(DegreeOf(k.Tonic(), c.Root()), c.Quality(), Degree{}, bare)
}

// bare: the numeral is no tritone substitute.
const bare = false
