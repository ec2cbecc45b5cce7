// Reader reads a chart and looks up a chord at a running service, with nothing
// but the client that is generated from the API's document.
package main

import (
	"context"
	"fmt"
	"log"
	"os"
)

func main() {
	client, err := NewClientWithResponses(os.Args[1])
	if err != nil {
		log.Fatal(err)
	}
	ctx := context.Background()
	changes := "| Dm7 | G7 | Cmaj7 | N.C. |"
	read, err := client.AnalyzeWithResponse(ctx, AnalyzeJSONRequestBody{Changes: &changes})
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(read.JSON200.HomeKey)
	for _, c := range read.JSON200.Chords {
		fmt.Println(c.Symbol, c.Numeral, c.Role, c.Region != nil, c.Pivot == nil)
	}
	wrong := "| c7 |"
	refused, err := client.AnalyzeWithResponse(ctx, AnalyzeJSONRequestBody{Changes: &wrong})
	if err != nil {
		log.Fatal(err)
	}
	fault := (*refused.ApplicationproblemJSON422.Errors)[0]
	fmt.Println(refused.StatusCode(), fault.Pointer, fault.Detail, *fault.Offset)
	signs := GetChordParamsAccidentals("unicode")
	chord, err := client.GetChordWithResponse(ctx, "F#7/A#", &GetChordParams{Accidentals: &signs})
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(chord.JSON200.Canonical, chord.JSON200.Notes, *chord.JSON200.Enharmonic)
}
