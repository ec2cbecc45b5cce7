package chord

import (
	"fmt"
	"slices"
	"strings"

	"fifthwise/pkg/pitch"
)

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

// MarshalText prints as [Family.String] does.
func (f Family) MarshalText() ([]byte, error) { return []byte(f.String()), nil }

// UnmarshalText reads a family's name.
func (f *Family) UnmarshalText(text []byte) error {
	i := slices.Index(families[:], string(text))
	if i < 0 {
		return &pitch.SyntaxError{Input: string(text), Msg: "expected a chord family", Hint: "one of " + strings.Join(families[:], ", ")}
	}
	*f = Family(i)
	return nil
}

// String is the family's name in lower case: "half-diminished".
func (f Family) String() string {
	if int(f) < len(families) {
		return families[f]
	}
	return fmt.Sprintf("family(%d)", uint8(f))
}

// Family is the family of the quality. The third decides first, then the
// seventh, then the fifth:
//
//   - With a major third and a minor seventh it is [Dominant], whatever the fifth:
//     C+7, C7b5, C7alt. With another seventh it is [Major], Cmaj7#5 too. Without
//     one it is [Augmented] if the fifth is sharp, else [Major].
//   - With no third at all but a second, fourth or eleventh it is [Suspended].
//   - With a minor third or none, and a flat fifth, it is [HalfDiminished] if
//     the seventh is minor, else [Diminished]; that too with a diminished
//     seventh and no fifth.
//   - With a minor third it is otherwise [Minor].
//   - Left are chords with neither third nor suspension. They are named as if the
//     major third had been left out, and [Power] where nothing but a natural
//     fifth, or not even that, would bear it out.
//
// Rule and order are common practice, no source.
func (q Quality) Family() Family {
	third, hasThird := q.Third()
	fifth, hasFifth := q.Fifth()
	seventh, hasSeventh := q.Seventh()
	major, minor := hasThird && third == 0, hasThird && third == -1
	minorSeventh, diminishedSeventh := hasSeventh && seventh == -1, hasSeventh && seventh == -2
	switch {
	case major && minorSeventh:
		return Dominant
	case major && !hasSeventh && fifth > 0:
		return Augmented
	case major:
		return Major
	case !hasThird && q.isSuspended():
		return Suspended
	case fifth < 0 && minorSeventh:
		return HalfDiminished
	case fifth < 0, diminishedSeventh && !hasFifth:
		return Diminished
	case minor:
		return Minor
	case minorSeventh:
		return Dominant
	case hasSeventh && seventh == 0:
		return Major
	case fifth > 0:
		return Augmented
	}
	return Power
}

func (q Quality) isSuspended() bool { return q.Has(D(4, 0)) || q.Has(D(2, 0)) || q.Has(D(11, 0)) }
