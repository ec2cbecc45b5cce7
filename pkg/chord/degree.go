package chord

import "fifthwise/pkg/pitch"

// Degree is a member of a chord: a degree of the major scale on its root, 2 to
// 13, with an alteration of at most two flats or sharps, or the root itself,
// which is never altered. Degrees beyond the octave are not folded: a ninth is
// no second. The zero value is the root.
type Degree struct{ place uint8 }

// root is the degree that chords stand on.
var root Degree

const (
	maxDegree = 13
	maxAlter  = 2
	// alterations a degree may have; places run by number, then from flat to sharp.
	alterations = 2*maxAlter + 1
)

// D is a degree by its number and its alteration in semitones: D(9, -1) is
// b9, D(1, 0) the root. It panics where there is no such degree, and is meant
// for constants; [ParseDegree] reads what comes from outside.
func D(number, alter int) Degree {
	d, ok := degreeAt(number, alter)
	if !ok {
		panic(noDegree)
	}
	return d
}

const noDegree = "chord: degrees are 1 and 2 to 13 with at most two flats or sharps"

func degreeAt(number, alter int) (Degree, bool) {
	if number == 1 && alter == 0 {
		return Degree{}, true
	}
	if number < 2 || number > maxDegree || alter < -maxAlter || alter > maxAlter {
		return Degree{}, false
	}
	return Degree{uint8(1 + (number-2)*alterations + alter + maxAlter)}, true
}

// Number is the degree's number, 1 to 13.
func (d Degree) Number() int { return (int(d.place)+alterations-1)/alterations + 1 }

// Alter is the alteration in semitones, -2 to 2.
func (d Degree) Alter() int {
	if d.place == 0 {
		return 0
	}
	return (int(d.place)-1)%alterations - maxAlter
}

// heights are the intervals of all degrees, by their places in a set.
var heights = func() (list [64]pitch.Interval) {
	for place := range list {
		d := Degree{uint8(place)}
		list[place] = pitch.Degree(d.Number(), d.Alter())
	}
	return list
}()

// Interval is the distance from the root up to the degree, within the octave.
func (d Degree) Interval() pitch.Interval { return heights[d.place] }

// String is the degree in ASCII: "1", "b9", "#11", "bb7".
func (d Degree) String() string { return string(d.AppendTo(nil, pitch.ASCII)) }

// AppendTo prints the degree behind dst.
func (d Degree) AppendTo(dst []byte, a pitch.Accidentals) []byte {
	return appendNumber(a.Append(dst, d.Alter()), d.Number())
}

// appendNumber prints a number from 0 to 99.
func appendNumber(dst []byte, n int) []byte {
	if n > 9 {
		dst = append(dst, byte('0'+n/10))
	}
	return append(dst, byte('0'+n%10))
}

// MarshalText prints as [Degree.String] does.
func (d Degree) MarshalText() ([]byte, error) { return d.AppendTo(nil, pitch.ASCII), nil }

// UnmarshalText reads what [ParseDegree] reads.
func (d *Degree) UnmarshalText(text []byte) (err error) {
	*d, err = ParseDegree(string(text))
	return err
}

// ParseDegree reads a degree: at most two flats or sharps, in ASCII or
// Unicode, and a number from 1 to 13. The root cannot be altered.
func ParseDegree(s string) (Degree, error) {
	p := parser{in: s}
	d, err := p.degree(readSign)
	if err != nil {
		return Degree{}, err
	}
	if p.pos < len(s) {
		return Degree{}, p.fail(p.pos, "expected the end of the degree", "")
	}
	return d, nil
}
