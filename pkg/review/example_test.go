package review_test

import (
	"fmt"

	"fifthwise/pkg/chart"
	"fifthwise/pkg/function"
	"fifthwise/pkg/key"
	"fifthwise/pkg/review"
)

func ExampleOf() {
	c, err := chart.Parse("| Dm7 | G7 | Cmaj7 | A7 |")
	if err != nil {
		fmt.Println(err)
		return
	}
	a := function.Analyze(c)
	r, err := review.Of(&a, review.Answer{
		Regions:  []review.Region{{Key: key.MustParse("C major"), Bar: 1}},
		Numerals: []string{"ii7", "V7", "vi7", ""},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(r.Score)
	for _, m := range r.Chords {
		fmt.Printf("%v, %s: %s\n", m.Verdict, m.Expected, m.Reason)
	}
	// Output:
	// 0.5
	// agrees, IIm7: The two of C major: it prepares the dominant, G.
	// agrees, V7: The dominant of C major: B is the leading tone to C; it goes to Cmaj7.
	// contradicts, Imaj7: vi7 in C major spells Am7; the chart has Cmaj7.
	// blank, V7/II: The dominant of II: C# is the leading tone to D; it goes to Dm7 at the top.
}
