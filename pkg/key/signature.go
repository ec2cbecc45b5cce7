package key

import "fifthwise/pkg/pitch"

// Signature counts the sharps (positive) or flats (negative) of the key
// signature: 3 for A major, -3 for C minor, 0 for D dorian. Beyond 7 the key is
// theoretical: no signature is printed for it. G# major has 8 sharps, one of
// them double, Fb major 8 flats; [Key.Simplify] gives the key that is written
// instead. An invalid key has none.
func (k Key) Signature() int {
	if !k.IsValid() {
		return 0
	}
	return k.tonic.Fifths() + modes[k.mode].fifths
}

// SignatureNotes are the notes that the signature alters, in the order in which
// it is written: F# C# G# … or Bb Eb Ab …. At most seven notes can be altered;
// a theoretical key alters some of them twice, and these come last: the
// signature of G# major is C# G# D# A# E# B# F##.
func (k Key) SignatureNotes() []pitch.Note {
	const flattest, sharpest = -1, 5 // F and B, the ends of the white keys
	s := k.Signature()
	notes := make([]pitch.Note, 0, min(max(s, -s), 7))
	for place := max(flattest+s, sharpest+1); place <= sharpest+s; place++ {
		notes = append(notes, pitch.At(place))
	}
	for place := min(sharpest+s, flattest-1); place >= flattest+s; place-- {
		notes = append(notes, pitch.At(place))
	}
	return notes
}

// maxSignature is the most sharps or flats that a printed signature has.
const maxSignature = 7

// Simplify respells a key whose signature lies beyond seven sharps or flats as
// the enharmonic key with the fewest: G# major becomes Ab major. Other keys are
// written and stay as they are, C# major and Cb major too. Where six sharps and
// six flats are equally near, the key keeps its kind of accidental.
func (k Key) Simplify() Key {
	s := k.Signature()
	if s >= -maxSignature && s <= maxSignature {
		return k
	}
	tonic := k.tonic.Fifths()
	for ; s > 6; s -= 12 {
		tonic -= 12
	}
	for ; s < -6; s += 12 {
		tonic += 12
	}
	return Key{pitch.At(tonic), k.mode}
}

// Of is the plainest spelling of the key on a pitch class: the one with the
// fewest sharps or flats. Six of either tie, and then the tonic is spelled as
// [pitch.Of] spells it: F# major, Eb minor.
func Of(c pitch.Class, m Mode) Key {
	k := New(pitch.Of(c), m)
	if s := k.Signature(); s > 6 {
		return k.Transpose(pitch.IntervalAt(-12))
	} else if s < -6 {
		return k.Transpose(pitch.IntervalAt(12))
	}
	return k
}
