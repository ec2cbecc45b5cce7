package musicxml

import (
	"fmt"
	"math"
	"strconv"

	"fifthwise/pkg/chord"
)

// withTensions is a quality in which an added second or fourth beside a third is
// named ninth or eleventh, as in chord symbols.
func withTensions(q chord.Quality) chord.Quality {
	if _, ok := q.Third(); !ok {
		return q
	}
	for _, d := range q.Degrees() {
		if n := d.Number(); n == 2 || n == 4 {
			q = q.Without(d).With(chord.D(n+7, d.Alter()))
		}
	}
	return q
}

// altered is a quality with a degree added, altered or taken away (MusicXML
// 4.0, degree-alter: an added degree counts from a dominant chord, another from
// the one in the chord).
func altered(q chord.Quality, e *element) (chord.Quality, error) {
	number, err := strconv.Atoi(e.textOf("degree-value"))
	if err != nil || number < 1 || number > 13 {
		return q, fault(fmt.Sprintf("%q is no degree of a chord", e.textOf("degree-value")), "a number from 1 to 13")
	}
	alter, ok := semitones(e.textOf("degree-alter"))
	if !ok {
		return q, fault(fmt.Sprintf("%q is no alteration of a degree", e.textOf("degree-alter")), "a whole number of semitones")
	}
	in, has := degreeOf(q, number)
	if _, symbol := e.child("degree-value").attr("symbol"); symbol && has && alter == 0 {
		return q, nil // a sign for the degree, no other one
	}
	switch kind := e.textOf("degree-type"); {
	case kind == "subtract":
		if has {
			q = q.Without(in)
		}
		return q, nil
	case kind == "alter" && has:
		q, alter = q.Without(in), alter+in.Alter()
	case kind == "add", kind == "alter": // what is not there can only be added
		if number == 7 {
			alter--
		}
		if number == 5 && alter != 0 {
			q = q.Without(chord.D(5, 0)) // no symbol has both
		}
	default:
		return q, fault(fmt.Sprintf("%q is nothing that is done to a degree", kind), "add, alter or subtract")
	}
	d, err := chord.ParseDegree(accidentals(alter) + strconv.Itoa(number))
	if err != nil {
		return q, fault(fmt.Sprintf("degree %d cannot be altered by %d semitones", number, alter), "at most two")
	}
	return q.With(d), nil
}

// degreeOf is the degree of a number in a chord.
func degreeOf(q chord.Quality, number int) (chord.Degree, bool) {
	for d := range q.All() {
		if d.Number() == number {
			return d, true
		}
	}
	return chord.Degree{}, false
}

// stacked is a chord with the notes of another over it.
func stacked(upper, lower chord.Chord) (chord.Chord, error) {
	q := lower.Quality()
	for _, n := range upper.Notes() {
		number, alter := lower.Root().To(n).Degree()
		if number%2 == 0 {
			number += 7
		}
		if number == 1 && alter == 0 {
			continue
		}
		d, err := chord.ParseDegree(accidentals(alter) + strconv.Itoa(number))
		if err != nil {
			return lower, fault(fmt.Sprintf("%v over %v cannot be told as one chord", upper, lower), "write it as one symbol")
		}
		q = q.With(d)
	}
	return chord.New(lower.Root(), q).WithBass(lower.Bass()), nil
}

// semitones reads a number of them, which the format allows to be a decimal.
func semitones(text string) (int, bool) {
	if text == "" {
		return 0, true
	}
	f, err := strconv.ParseFloat(text, 64)
	if err != nil || math.Abs(f) > 12 || f != math.Trunc(f) {
		return 0, false
	}
	return int(f), true
}
