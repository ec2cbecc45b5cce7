package abc_test

import (
	"fmt"

	"fifthwise/pkg/chart"
	"fifthwise/pkg/chart/abc"
)

func ExampleParse() {
	c, err := abc.Parse([]byte(`X:1
T:Low Tide
M:3/4
L:1/8
K:Dmix
|:"D"d2 f>e d2|"Am7"c2 "(D7"A4|1 "G"G6:|2 "G)"G6|]
`))
	if err != nil {
		fmt.Println(err)
	}
	fmt.Print(c)
	// Output:
	// Title: Low Tide
	// Meter: 3/4
	// Key: D mixolydian
	//
	// |: D | Am7 (D7 / | 1. G :| 2. G) |
}

func ExampleParse_errors() {
	_, err := abc.Parse([]byte("X:3\nM:4/4\nL:1/4\nK:C\n\"C\"c4|\"Xm7\"f2 \"am\"a2|"))
	fmt.Println(err)
	// Output:
	// tune 3, bar 2, line 5, column 8, "Xm7": expected a root A to G or N.C.
	// tune 3, bar 2, line 5, column 16, "am": expected the root in upper case (write Am)
}

func ExampleTunes() {
	book := []byte("X:1\nT:Low Tide\nK:C\n\"C\"c8|\n\nX:2\nT:Night Bus\nK:F\nf8|\n")
	for t, err := range abc.Tunes(book) {
		fmt.Println(t.Number, t.Chart.Title, len(t.Chart.Bars), err)
	}
	// Output:
	// 1 Low Tide 1 <nil>
	// 2 Night Bus 0 tune 2, line 6, column 1: the tune holds no chord symbols (write them in quotes before the notes, as "C"C2)
}

func ExampleFormat() {
	c, err := chart.Parse(`
Title: Night Bus
Key: F major
|: Fmaj7 | Gm7 C7 | 1. A7 / Dm (C7) :| 2. F Bb F | 3/4 N.C. ||`)
	if err != nil {
		fmt.Println(err)
	}
	marks := []chart.Mark{{Bar: 1, Chord: 0, Above: "IIm7"}, {Bar: 1, Chord: 1, Above: "V7", Below: `"back home"`}}
	fmt.Printf("%s", abc.Format(c, marks))
	// Output:
	// X:1
	// T:Night Bus
	// M:4/4
	// L:1/8
	// K:F
	// |: "Fmaj7"x8 | "Gm7""^IIm7"x4 "C7""^V7""_&quot;back home&quot;"x4 | [1 "A7"x4 "Dm"x2 "(C7)"x2 :| [2 (3"F"x4 "Bb"x4 "F"x4 |
	// [M:3/4] "N.C."x6 ||
}
