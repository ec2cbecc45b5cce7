package key

import "fifthwise/pkg/pitch"

// enharmonic is the distance on the line of fifths of two names for one pitch.
const enharmonic = 12

// Enharmonic is the key that sounds alike and is written with at most seven
// sharps or flats: Gb major for F# major, Cb major for B major, Ab major for
// G# major. It is false where there is none, and for an invalid key.
func (k Key) Enharmonic() (Key, bool) {
	switch s := k.Signature(); {
	case !k.IsValid():
		return Key{}, false
	case s > maxSignature || s < -maxSignature:
		return k.Simplify(), true
	case s >= enharmonic-maxSignature:
		return k.Transpose(pitch.IntervalAt(-enharmonic)), true
	case s <= maxSignature-enharmonic:
		return k.Transpose(pitch.IntervalAt(enharmonic)), true
	}
	return Key{}, false
}

// InUse is the key in the name that players use: one of seven sharps or flats,
// or more, gets the name with fewer. C# major becomes Db major; F# major and
// Gb major stay, but D# minor, whose leading tone is C##, becomes Eb minor.
func (k Key) InUse() Key {
	s := k.Signature()
	if s == maxSignature || s == -maxSignature || s == maxSignature-1 && k.mode == Minor {
		k, _ = k.Enharmonic()
	}
	return k.Simplify()
}
