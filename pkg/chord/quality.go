package chord

import (
	"iter"
	"slices"

	"fifthwise/pkg/pitch"
)

// Quality is what a chord is made of, whatever its root: a set of degrees,
// kept as the bits of one word, and whether it was written "alt". Whatever
// charts and Harte's lists can say is held as it was said. Qualities are
// comparable: == means the same degrees in the same spelling. The zero value
// is the root alone.
type Quality struct{ bits uint64 }

const (
	// rootless is the place of the root, stored inverted so that the zero
	// value has one.
	rootless uint64 = 1
	// altFlag marks the quality that is written alt.
	altFlag uint64 = 1 << 63
)

// QualityOf is the root with these degrees.
func QualityOf(degrees ...Degree) Quality { return Quality{}.With(degrees...) }

func qualityOf(s degreeSet) Quality { return Quality{uint64(s) ^ rootless} }

// set is the degrees of the quality.
func (q Quality) set() degreeSet { return degreeSet(q.bits&^altFlag ^ rootless) }

// Has reports whether the degree, in this very spelling, is in the chord.
func (q Quality) Has(d Degree) bool { return (q.bits^rootless)>>d.place&1 != 0 }

// With is the quality with these degrees added; none is replaced. Alt with
// another degree is alt no longer.
func (q Quality) With(degrees ...Degree) Quality {
	s := q.set()
	for _, d := range degrees {
		s |= only(d)
	}
	return q.changed(s)
}

// Without is the quality without these degrees. Alt without one of its degrees
// is alt no longer.
func (q Quality) Without(degrees ...Degree) Quality {
	s := q.set()
	for _, d := range degrees {
		s &^= only(d)
	}
	return q.changed(s)
}

func (q Quality) changed(s degreeSet) Quality {
	if s == q.set() {
		return q
	}
	return qualityOf(s)
}

// IsAltered reports whether the quality was written alt: a dominant seventh
// whose fifth and ninth are altered as the player likes. It then has all of
// b5, #5, b9 and #9.
func (q Quality) IsAltered() bool { return q.bits&altFlag != 0 }

// All goes through the degrees upward; those of one number from flat to sharp.
func (q Quality) All() iter.Seq[Degree] { return q.set().all() }

// Degrees lists the degrees upward; those of one number from flat to sharp.
func (q Quality) Degrees() []Degree {
	s := q.set()
	return slices.AppendSeq(make([]Degree, 0, s.len()), s.all())
}

// Third is the alteration of the third, and whether there is one: (0, true)
// for a major, (-1, true) for a minor third. Where several are given, the one
// nearest to the major scale counts; a tenth stands in for a missing third.
func (q Quality) Third() (alter int, ok bool) { return q.either(3, 10) }

// Fifth is the alteration of the fifth, and whether there is one. Where
// several are given, the one nearest to the major scale counts, flat before
// sharp; a twelfth stands in for a missing fifth.
func (q Quality) Fifth() (alter int, ok bool) { return q.either(5, 12) }

// Seventh is the alteration of the seventh, and whether there is one: 0 for a
// major, -1 for a minor, -2 for a diminished seventh. Where several are given,
// the one nearest to the major scale counts.
func (q Quality) Seventh() (alter int, ok bool) { return q.nearest(7) }

func (q Quality) either(number, compound int) (alter int, ok bool) {
	if alter, ok = q.nearest(number); ok {
		return alter, ok
	}
	return q.nearest(compound)
}

// nearest is the least alteration in which a degree is present.
func (q Quality) nearest(number int) (alter int, ok bool) {
	for _, alter := range [...]int{0, -1, 1, -2, 2} {
		if q.Has(D(number, alter)) {
			return alter, true
		}
	}
	return 0, false
}

// String is what stands behind the root in a chord symbol: "m7b5", "maj7", ""
// for the major triad, ":(1,5,b7)" for what has no name on lead sheets.
func (q Quality) String() string { return string(q.AppendTo(nil, pitch.ASCII)) }

// MarshalText prints as [Quality.String] does.
func (q Quality) MarshalText() ([]byte, error) { return q.AppendTo(nil, pitch.ASCII), nil }

// UnmarshalText reads what [ParseQuality] reads.
func (q *Quality) UnmarshalText(text []byte) (err error) {
	*q, err = ParseQuality(string(text))
	return err
}
