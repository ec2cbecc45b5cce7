package function_test

import (
	"fmt"

	"fifthwise/pkg/chart"
	"fifthwise/pkg/function"
)

func ExampleAnalyze() {
	c, err := chart.Parse("| Dm7 | G7 | Cmaj7 | A7 | Dm7 | G7 | C6 |")
	if err != nil {
		fmt.Println(err)
		return
	}
	a := function.Analyze(c)
	fmt.Println(a.Regions[0].Key)
	fmt.Println(a.Chords[3].Numeral)
	fmt.Println(a.Reason(3))
	// Output:
	// C major
	// V7/II
	// The dominant of II: C# is the leading tone to D; it goes to Dm7.
}
