package key

import "fifthwise/pkg/pitch"

// Degree is the note on a degree of the key. Degrees count from the major scale
// of the tonic whatever the mode, and alter raises (lowers where negative) by
// so many semitones: in C minor Degree(3, -1) is Eb. Degrees beyond the octave
// count on: 9 is 2.
func (k Key) Degree(number, alter int) pitch.Note {
	return k.tonic.Add(pitch.Degree(number, alter))
}

// DegreeOf is the degree that a note stands on, 1 to 7, and its alteration in
// semitones, as [Key.Degree] takes them: in C minor Eb is (3, -1), D# (2, 1).
func (k Key) DegreeOf(n pitch.Note) (number, alter int) {
	return k.tonic.To(n).Degree()
}

// degreeNames after Hutchinson, Music Theory for the 21st-Century Classroom,
// §3.3.
var degreeNames = [...]string{1: "tonic", 2: "supertonic", 3: "mediant", 4: "subdominant", 5: "dominant", 6: "submediant", 7: "leading tone"}

// DegreeName is the name of a degree of the major and minor scales, counted
// as [Key.Degree] counts: "mediant" for 3 and b3, "submediant" for 6 and b6,
// "leading tone" for 7 and "subtonic" for b7. Other degrees have no name: "".
func DegreeName(number, alter int) string {
	switch {
	case number == 7 && alter == -1:
		return "subtonic"
	case number < 1 || number > 7:
		return ""
	case alter == 0 || alter == -1 && (number == 3 || number == 6):
		return degreeNames[number]
	}
	return ""
}
