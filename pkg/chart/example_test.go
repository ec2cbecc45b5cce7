package chart_test

import (
	"fmt"

	"fifthwise/pkg/chart"
	"fifthwise/pkg/pitch"
)

func Example() {
	c, err := chart.Parse("Title: Night Bus\n|: Dm7 | G7 | 1. Cmaj7 :| 2. C6 / / N.C. |")
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, e := range c.Played() {
		fmt.Println("bar", e.Bar, "beat", e.Beat, e.Chord, "for", e.Len)
	}
	fmt.Print(c.Transpose(pitch.MinorThird))
	// Output:
	// bar 1 beat 1 Dm7 for 4
	// bar 2 beat 1 G7 for 4
	// bar 3 beat 1 Cmaj7 for 4
	// bar 1 beat 1 Dm7 for 4
	// bar 2 beat 1 G7 for 4
	// bar 4 beat 1 C6 for 3
	// bar 4 beat 4 N.C. for 1
	// Title: Night Bus
	// Meter: 4/4
	//
	// |: Fm7 | Bb7 | 1. Ebmaj7 :| 2. Eb6 / / N.C. |
}

// All faults are told at once, each with its place.
func ExampleParse_faults() {
	_, err := chart.Parse("| Dm7 | G7 / C |\n| | % F |")
	fmt.Println(err)
	// Output:
	// bar 2, line 1, column 9: the bar has 3 of 4 beats (in a bar with / each chord and each / is one beat)
	// bar 3, line 2, column 3, "| |": the bar is empty (% writes the bar before again, N.C. is silence; if two bars were joined, drop one of the lines)
	// bar 3, line 2, column 5, "%": % stands alone in its bar (it writes the whole bar before again)
}

func ExampleFromEntries() {
	c, err := chart.FromEntries(chart.Header{Title: "Night Bus"}, []chart.BarEntries{
		{Chords: []chart.Entry{{Symbol: "G7", Beats: chart.B(1, 1)}}},
		{Section: "A", Chords: []chart.Entry{{Symbol: "Cmaj7"}, {Symbol: "A7", Beat: chart.B(7, 2)}}},
		{},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Print(c)
	// Output:
	// Title: Night Bus
	// Meter: 4/4
	// Pickup: 1
	//
	// | G7 |
	//
	// [A]
	// | Cmaj7 A7@3.5 | / / / / |
}
