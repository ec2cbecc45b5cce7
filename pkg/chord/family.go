package chord

import "fmt"

// Family is the coarse kind of a chord, by which phrases are compared and
// degrees looked up. The zero value is the family of silence.
type Family uint8

// The families.
const (
	None Family = iota
	Major
	Minor
	Dominant
	HalfDiminished
	Diminished
	Augmented
	Suspended
	Power
)

var families = [...]string{"none", "major", "minor", "dominant", "half-diminished", "diminished", "augmented", "suspended", "power"}

// String is the family's name in lower case: "half-diminished".
func (f Family) String() string {
	if int(f) < len(families) {
		return families[f]
	}
	return fmt.Sprintf("family(%d)", uint8(f))
}

// Family sorts the quality, the seventh before the triad:
//
//   - A major third is [Dominant] with a minor seventh whatever the fifth (C+7,
//     C7b5, C7alt), else [Augmented] if the fifth is sharp and there is no
//     seventh, else [Major] (Cmaj7#5 too).
//   - A minor third is [HalfDiminished] or [Diminished] if the fifth is flat, by
//     the seventh being minor or not; else [Minor].
//   - Without a third, a second, fourth or eleventh makes it [Suspended]. Without
//     these too, the rest of the chord decides as if the major third were left
//     out, a flat fifth as if the minor one were; with a natural fifth alone, or
//     nothing at all, it is [Power].
func (q Quality) Family() Family {
	third, hasThird := q.Third()
	seventh, hasSeventh := q.Seventh()
	switch flat := q.hasFlatFifth(); {
	case hasThird && third == 0:
		return q.majorFamily()
	case !hasThird && q.isSuspended():
		return Suspended
	case hasSeventh && seventh == -2, flat && !(hasSeventh && seventh == -1):
		return Diminished
	case flat:
		return HalfDiminished
	case hasThird && third == -1:
		return Minor
	case hasSeventh:
		return q.majorFamily()
	case q.hasSharpFifth():
		return Augmented
	}
	return Power
}

func (q Quality) majorFamily() Family {
	seventh, hasSeventh := q.Seventh()
	switch {
	case hasSeventh && seventh == -1:
		return Dominant
	case !hasSeventh && q.hasSharpFifth():
		return Augmented
	}
	return Major
}

func (q Quality) isSuspended() bool { return q.Has(D(4, 0)) || q.Has(D(2, 0)) || q.Has(D(11, 0)) }

func (q Quality) hasFlatFifth() bool {
	alter, ok := q.Fifth()
	return ok && alter < 0
}

func (q Quality) hasSharpFifth() bool {
	alter, ok := q.Fifth()
	return ok && alter > 0
}
