package key_test

import (
	"fmt"

	"fifthwise/pkg/chord"
	"fifthwise/pkg/key"
	"fifthwise/pkg/pitch"
)

func ExampleParse() {
	for _, in := range []string{"Eb", "F#min", "D Dorian", "A aeolian"} {
		k, err := key.Parse(in)
		fmt.Println(k, err)
	}
	_, err := key.Parse("D dorain")
	fmt.Println(err)
	// Output:
	// Eb major <nil>
	// F# minor <nil>
	// D dorian <nil>
	// A minor <nil>
	// expected a mode: major, minor, dorian, phrygian, lydian or mixolydian at offset 2 of "D dorain" (write dorian)
}

func ExampleKey_Sevenths() {
	fmt.Println(key.MustParse("Eb major").Sevenths())
	fmt.Println(key.MustParse("C minor").Sevenths())
	// Output:
	// [Ebmaj7 Fm7 Gm7 Abmaj7 Bb7 Cm7 Dm7b5]
	// [Cm7 Dm7b5 Ebmaj7 Fm7 Gm7 Abmaj7 Bb7]
}

func ExampleScale_Sevenths() {
	c := pitch.MustParse("C")
	fmt.Println(key.HarmonicMinorScale.On(c).Sevenths())
	fmt.Println(key.MelodicMinorScale.On(c).Sevenths())
	// Output:
	// [Cm(maj7) Dm7b5 Ebmaj7#5 Fm7 G7 Abmaj7 Bdim7]
	// [Cm(maj7) Dm7 Ebmaj7#5 F7 G7 Am7b5 Bm7b5]
}

func ExampleKey_SignatureNotes() {
	k := key.MustParse("G# major")
	fmt.Println(k.Signature(), k.SignatureNotes())
	fmt.Println(k.Simplify(), k.Simplify().SignatureNotes())
	// Output:
	// 8 [C# G# D# A# E# B# F##]
	// Ab major [Bb Eb Ab Db]
}

func ExampleKey_Degree() {
	k := key.MustParse("C minor")
	fmt.Println(k.Degree(3, -1), k.Degree(7, 0))
	number, alter := k.DegreeOf(pitch.MustParse("Ab"))
	fmt.Println(number, alter, key.DegreeName(number, alter))
	// Output:
	// Eb B
	// 6 -1 submediant
}

func ExampleParseScale() {
	s, err := key.ParseScale("D phrygian dominant")
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(s.Notes(), s.Degrees())
	fmt.Println(s.ContainsChord(chord.MustParse("D7b9")), s.Contains(pitch.MustParse("E")))
	// Output:
	// [D Eb F# G A Bb C] [1 b2 3 4 5 b6 b7]
	// true false
}

func ExampleKey_Related() {
	fmt.Println(key.MustParse("A major").Related())
	// Output: [F# minor E major C# minor D major B minor]
}
