package pitch

// Interval is the distance between two spelled notes within the octave, kept
// as steps on the line of fifths: a perfect fifth is 1, a major second 2, a
// minor third -3, an augmented fourth 6, a diminished fifth -6. The zero value
// is the unison.
type Interval struct{ fifths int8 }

// The intervals in daily use.
var (
	Unison            = Interval{0}
	MinorSecond       = Interval{-5}
	MajorSecond       = Interval{2}
	MinorThird        = Interval{-3}
	MajorThird        = Interval{4}
	PerfectFourth     = Interval{-1}
	AugmentedFourth   = Interval{6}
	DiminishedFifth   = Interval{-6}
	PerfectFifth      = Interval{1}
	AugmentedFifth    = Interval{8}
	MinorSixth        = Interval{-4}
	MajorSixth        = Interval{3}
	DiminishedSeventh = Interval{-9}
	MinorSeventh      = Interval{-2}
	MajorSeventh      = Interval{5}
)

// IntervalAt is the interval of so many steps on the line of fifths, kept
// within -104 to 104: from the flattest note to the sharpest.
func IntervalAt(fifths int) Interval {
	const most = maxFifths - minFifths
	return Interval{int8(max(-most, min(most, fifths)))}
}

// Degree is the interval from a tonic to a degree of its major scale, altered
// by so many semitones: Degree(7, -1) is a minor seventh. Degrees beyond the
// octave count on: Degree(9, 0) is a major second.
func Degree(number, alter int) Interval {
	const major = "\x00\x02\x04\xff\x01\x03\x05" // places of C D E F G A B
	return IntervalAt(int(int8(major[((number-1)%7+7)%7])) + 7*alter)
}

// Fifths is the interval in steps on the line of fifths.
func (i Interval) Fifths() int { return int(i.fifths) }

// Semitones is the interval's width upward, 0 to 11.
func (i Interval) Semitones() int { return int(Class(0).Plus(7 * int(i.fifths))) }

// Degree is the interval as a degree of the major scale, 1 to 7, and its
// alteration in semitones: a minor third is (3, -1).
func (i Interval) Degree() (number, alter int) {
	f := int(i.fifths)
	// A degree n of the unaltered scale stands at -1 to 5 fifths.
	alter = floorDiv(f+1, 7)
	number = (4*(f-7*alter)%7+7)%7 + 1
	return number, alter
}

// Invert is the interval that completes the octave: a third becomes a sixth.
func (i Interval) Invert() Interval { return Interval{-i.fifths} }

// Motion is how a root or a key moves, in semitones by the shorter way: -5 to
// 6. Spelling does not enter: from E to Ab is up a major third. The zero value
// is no motion.
type Motion int8

// MotionTo is the motion from n to m.
func (n Note) MotionTo(m Note) Motion { return n.Class().MotionTo(m.Class()) }

// MotionTo is the motion from c to d.
func (c Class) MotionTo(d Class) Motion {
	up := int(d.Plus(-int(c)))
	if up > 6 {
		up -= 12
	}
	return Motion(up)
}

var motionNames = [...]string{
	"", "up a minor second", "up a major second", "up a minor third", "up a major third", "up a perfect fourth", "up a tritone",
	"down a tritone", "down a perfect fourth", "down a major third", "down a minor third", "down a major second", "down a minor second",
}

// String says the motion as players do: "up a major third", "down a perfect
// fourth", "up a tritone"; "" where nothing moves.
func (m Motion) String() string {
	switch {
	case m < -6 || m > 6:
		return ""
	case m < 0:
		return motionNames[len(motionNames)+int(m)]
	}
	return motionNames[m]
}

func floorDiv(a, b int) int {
	q := a / b
	if a%b < 0 {
		q--
	}
	return q
}
