package chord

import "fifthwise/pkg/pitch"

// diminishedSecond leads from a note to the one that is written a letter higher
// and sounds the same: from C# to Db.
var diminishedSecond = pitch.IntervalAt(-12)

// Enharmonic is the same chord on the other name of its root that players use:
// Gb7 for F#7, D#m for Ebm, Em7 for Fbm7. The bass moves along and is named
// plainly where it would carry two accidentals. It is false for silence and
// for a root that has no other name in use, as all naturals.
func (c Chord) Enharmonic() (Chord, bool) {
	if c.IsSilence() {
		return c, false
	}
	switch a := c.Root().Accidental(); {
	case c.Root().Simplify() != c.Root():
		return c.Simplify(), true
	case a > 0:
		return c.Transpose(diminishedSecond).Simplify(), true
	case a < 0:
		return c.Transpose(pitch.IntervalAt(-diminishedSecond.Fifths())).Simplify(), true
	}
	return c, false
}
