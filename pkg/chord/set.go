package chord

import (
	"iter"
	"math/bits"
	"strings"
)

// degreeSet is a set of degrees, a bit for each place.
type degreeSet uint64

func only(d Degree) degreeSet { return 1 << d.place }

// every is all alterations of a degree.
func every(number int) degreeSet {
	if number == 1 {
		return only(D(1, 0))
	}
	return (1<<alterations - 1) << D(number, -maxAlter).place
}

func (s degreeSet) has(d Degree) bool { return s>>d.place&1 != 0 }

func (s degreeSet) len() int { return bits.OnesCount64(uint64(s)) }

// classes is the set of pitch classes above the root.
func (s degreeSet) classes() (set uint16) {
	for d := range s.all() {
		set |= 1 << d.Interval().Semitones()
	}
	return set
}

func (s degreeSet) all() iter.Seq[Degree] {
	return func(yield func(Degree) bool) {
		for ; s != 0; s &= s - 1 {
			if !yield(Degree{uint8(bits.TrailingZeros64(uint64(s)))}) {
				return
			}
		}
	}
}

// degreesOf reads the degrees in a table cell, which are divided by spaces.
func degreesOf(cell string) degreeSet {
	var s degreeSet
	for _, word := range strings.Fields(cell) {
		d, err := ParseDegree(word)
		if err != nil {
			panic(err)
		}
		s |= only(d)
	}
	return s
}
