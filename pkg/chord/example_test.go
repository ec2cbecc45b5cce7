package chord_test

import (
	"errors"
	"fmt"

	"fifthwise/pkg/chord"
	"fifthwise/pkg/pitch"
)

func Example() {
	c, err := chord.Parse("B♭Δ7(#11)/F")
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(c)
	fmt.Println(c.Harte())
	fmt.Println(c.Notes(), c.Bass(), c.Family())
	// Output:
	// Bbmaj7#11/F
	// Bb:(1,3,5,7,#11)/5
	// [Bb D F A E] F major
}

func ExampleParse() {
	for _, s := range []string{"C-7", "Cmi7", "C:min7", "C:(1,b3,5,b7)"} {
		fmt.Println(chord.MustParse(s))
	}
	// Output:
	// Cm7
	// Cm7
	// Cm7
	// Cm7
}

func ExampleParse_error() {
	_, err := chord.Parse("c7")
	fmt.Println(err)

	var fault *pitch.SyntaxError
	_, err = chord.Parse("E♭7(b9")
	if errors.As(err, &fault) {
		fmt.Println(fault.Msg, "at byte", fault.Offset)
	}
	// Output:
	// expected the root in upper case at offset 0 of "c7" (write C7 or Cm7)
	// the bracket is not closed at byte 5
}

func ExampleNew() {
	q := chord.QualityOf(chord.D(3, 0), chord.D(5, 0), chord.D(7, -1), chord.D(9, -1))
	fmt.Println(chord.New(pitch.MustParse("D"), q).WithBass(pitch.MustParse("F#")))
	// Output: D7b9/F#
}

func ExampleChord_Transpose() {
	c := chord.MustParse("Dm7b5/Ab")
	fmt.Println(c.Transpose(pitch.MinorThird))
	// Output: Fm7b5/Cb
}

func ExampleQuality_Has() {
	q := chord.MustParse("G13").Quality()
	fmt.Println(q.Has(chord.D(13, 0)), q.Has(chord.D(11, 0)))
	// Output: true false
}

func ExampleQuality_Third() {
	third, ok := chord.MustParse("Am7b5").Quality().Third()
	fmt.Println(third, ok)
	_, ok = chord.MustParse("A7sus4").Quality().Third()
	fmt.Println(ok)
	// Output:
	// -1 true
	// false
}
