// Embed shows the least that reading a chart takes.
package main

import (
	"fmt"
	"log"

	"fifthwise/pkg/chart"
	"fifthwise/pkg/function"
)

func main() {
	tune, err := chart.Parse("| Dm7 | G7 | Cmaj7 | % | Fm7 | Bb7 | Ebmaj7 | % |")
	if err != nil {
		log.Fatal(err)
	}
	analysis := function.Analyze(tune)
	for _, region := range analysis.Regions {
		fmt.Println(region.Key)
		for _, c := range analysis.Chords[region.First : region.Last+1] {
			fmt.Println(" ", c.Event.Symbol, c.Numeral)
		}
	}
}
