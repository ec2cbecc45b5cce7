package function

import (
	"strings"

	"fifthwise/pkg/pitch"
)

// Degree is a degree of a key, counted from the major scale of its tonic in
// both modes: in C minor Eb is bIII. The zero value is no degree.
type Degree struct {
	number int8 // 1 to 7
	alter  int8 // -2 to 2 semitones
}

// D is the degree with a number from 1 to 7 and an alteration in semitones
// from -2 to 2; anything else is no degree.
func D(number, alter int) Degree {
	if number < 1 || number > 7 || alter < -2 || alter > 2 {
		return Degree{}
	}
	return Degree{int8(number), int8(alter)}
}

// DegreeOf is the degree that note stands on in the key of tonic. A note
// beyond a double alteration is taken by its plainest name.
func DegreeOf(tonic, note pitch.Note) Degree {
	number, alter := tonic.To(note).Degree()
	if alter < -2 || alter > 2 {
		number, alter = tonic.To(pitch.Of(note.Class())).Degree()
	}
	return D(number, alter)
}

// IsValid reports whether d is a degree.
func (d Degree) IsValid() bool { return d.number != 0 }

// Number is the degree without its accidental, 1 to 7; 0 for no degree.
func (d Degree) Number() int { return int(d.number) }

// Alter is the alteration in semitones, -2 to 2.
func (d Degree) Alter() int { return int(d.alter) }

// Above is the note on this degree of the key of tonic.
func (d Degree) Above(tonic pitch.Note) pitch.Note {
	return tonic.Add(pitch.Degree(int(d.number), int(d.alter)))
}

// semitones is the degree's distance above the tonic, 0 to 11.
func (d Degree) semitones() int { return pitch.Degree(int(d.number), int(d.alter)).Semitones() }

// ParseDegree reads a degree in Roman of either case, with its accidentals
// before it: "bIII", "#IV", "vi".
func ParseDegree(s string) (Degree, error) {
	alter, rest, err := pitch.ScanAccidentals(s)
	if err != nil {
		return Degree{}, err
	}
	upper := strings.ToUpper(rest)
	if rest == upper || rest == strings.ToLower(rest) {
		for n, roman := range romans {
			if upper == roman && D(n, alter).IsValid() {
				return D(n, alter), nil
			}
		}
	}
	return Degree{}, &pitch.SyntaxError{Input: s, Offset: len(s) - len(rest), Msg: "expected a degree I to VII with at most two accidentals"}
}

var romans = [...]string{"", "I", "II", "III", "IV", "V", "VI", "VII"}

// degreeNames are the degrees by number and alteration, that of no degree first.
var degreeNames = func() (names [len(romans)][5]string) {
	for n := 1; n < len(romans); n++ {
		for i := range names[n] {
			names[n][i] = string(appendDegree(nil, D(n, i-2), Upper, false, pitch.ASCII))
		}
	}
	return names
}()

// String is the degree in upper-case Roman with ASCII accidentals: "bIII".
func (d Degree) String() string { return degreeNames[d.number][d.alter+2] }
