package chord

// intervals are named by their number from 1 to 13.
var intervals = [...]string{
	1: "unison", 2: "second", 3: "third", 4: "fourth", 5: "fifth", 6: "sixth", 7: "seventh",
	8: "octave", 9: "ninth", 10: "tenth", 11: "eleventh", 12: "twelfth", 13: "thirteenth",
}

// Degrees from -2 to 2 semitones beside the major scale, by whether that degree
// is perfect (1, 4, 5 and their octaves) or major.
var (
	besidePerfect = [...]string{"doubly diminished ", "diminished ", "perfect ", "augmented ", "doubly augmented "}
	besideMajor   = [...]string{"diminished ", "minor ", "major ", "augmented ", "doubly augmented "}
)

// IntervalName is the interval that the degree lies above the root: "minor
// third", "augmented eleventh", "unison". Names are those of R. Hutchinson,
// Music Theory for the 21st-Century Classroom, ch. 5.
func (d Degree) IntervalName() string {
	if d == root {
		return intervals[1]
	}
	beside := besideMajor
	switch d.Number() % 7 {
	case 1, 4, 5:
		beside = besidePerfect
	}
	return beside[d.Alter()+maxAlter] + intervals[d.Number()]
}
