package function_test

import (
	"fmt"

	"fifthwise/pkg/chord"
	"fifthwise/pkg/function"
	"fifthwise/pkg/key"
	"fifthwise/pkg/pitch"
)

func ExampleParseNumeral() {
	for _, s := range []string{"ii-7", "V7 of ii", "57", "viiø7/V", "sub V7/V"} {
		n := function.MustParseNumeral(s)
		fmt.Println(n, n.In(key.MustParse("Eb major")))
	}
	_, err := function.ParseNumeral("V7/")
	fmt.Println(err)
	// Output:
	// IIm7 Fm7
	// V7/II C7
	// V7 Bb7
	// VIIm7b5/V Am7b5
	// subV7/V Cb7
	// expected the tonicised degree, I to VII or 1 to 7 at offset 3 of "V7/"
}

func ExampleNumeral_Text() {
	n := function.MustParseNumeral("IIm7b5/VI")
	for _, s := range []function.NumeralStyle{function.Upper, function.Cased, function.Arabic} {
		fmt.Println(n.Text(s, key.Major, pitch.ASCII))
	}
	// Output:
	// IIm7b5/VI
	// ii7b5/vi
	// 2m7b5/6
}

func ExampleNumeralOf() {
	fmt.Println(function.NumeralOf(chord.MustParse("Ebm7"), key.MustParse("G minor")))
	// Output: bVIm7
}
