package main

import (
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"strings"

	"fifthwise/api/wire"
)

// fifths are roots, each a fifth above the one before.
var fifths = []string{"Db", "Ab", "Eb", "Bb", "F", "C", "G", "D", "A", "E", "B", "F#"}

// step is a chord so many fifths above the tonic.
type step struct {
	fifths  int
	quality string
}

// cells are turns of four chords, common practice.
var cells = [][4]step{
	{{0, "maj7"}, {3, "m7"}, {2, "m7"}, {1, "7"}},
	{{0, "maj7"}, {3, "7b9"}, {2, "m7"}, {1, "7"}},
	{{2, "m7"}, {1, "7"}, {0, "maj7"}, {0, "6"}},
	{{2, "m7b5"}, {1, "7b9"}, {0, "m7"}, {0, "m6"}},
	{{-1, "maj7"}, {-1, "m6"}, {0, "maj7"}, {0, "maj7"}},
	{{0, "7"}, {-1, "7"}, {0, "7"}, {1, "7sus4"}},
	{{4, "m7b5"}, {3, "7b9"}, {2, "7"}, {-5, "7"}},
	{{0, "m7"}, {-3, "7"}, {-4, "maj7"}, {1, "7"}},
}

// inventor makes charts up; of one seed always the same.
type inventor struct{ *rand.Rand }

func newInventor(seed uint64) inventor { return inventor{rand.New(rand.NewPCG(seed, 0))} }

func pick[T any](in inventor, list []T) T { return list[in.IntN(len(list))] }

// requests are so many lines of NDJSON. About one in forty is a bad chart, but not
// the first.
func (in inventor) requests(n int) []string {
	lines, bad := make([]string, n), 0
	for i := range lines {
		lines[i] = in.request(i)
		if i > 0 && in.IntN(40) == 0 {
			lines[i] = spoiled(lines[i], bad)
			bad++
		}
	}
	return lines
}

// request is a chart in sections, bar by bar or in the text notation.
func (in inventor) request(n int) string {
	r := wire.AnalysisRequest{Chart: wire.Chart{Title: fmt.Sprintf("Kiln Lane %d", n)}}
	if in.IntN(5) == 0 {
		r.Meter = new("3/4")
	}
	sections, home := map[rune][]string{}, in.IntN(len(fifths))
	var bars []wire.Bar
	var text strings.Builder
	for _, letter := range pick(in, []string{"AB", "AABA", "ABAC", "AABC"}) {
		if sections[letter] == nil {
			sections[letter] = in.section(home)
		}
		fmt.Fprintf(&text, "[%c] | %s |\n", letter, strings.Join(sections[letter], " | "))
		for i, symbols := range sections[letter] {
			bar := wire.Bar{Chords: []wire.Chord{}}
			if i == 0 {
				bar.Section = string(letter)
			}
			for _, symbol := range strings.Fields(symbols) {
				bar.Chords = append(bar.Chords, wire.Chord{Symbol: symbol})
			}
			bars = append(bars, bar)
		}
	}
	if in.IntN(2) == 0 {
		r.Bars = bars
	} else {
		r.Changes = new(text.String())
	}
	line, err := json.Marshal(r)
	if err != nil {
		panic(err) // of strings alone
	}
	return string(line)
}

// section is bars of one or two chords, at times in another key.
func (in inventor) section(tonic int) (bars []string) {
	if in.IntN(4) == 0 {
		tonic += in.IntN(len(fifths))
	}
	for range 1 + in.IntN(3) {
		cell, two := pick(in, cells), in.IntN(2) == 0
		for i := 0; i < len(cell); i++ {
			bar := cell[i].symbol(tonic)
			if two {
				i++
				bar += " " + cell[i].symbol(tonic)
			}
			bars = append(bars, bar)
		}
	}
	if in.IntN(12) == 0 {
		bars = append(bars, "N.C.")
	}
	return bars
}

func (s step) symbol(tonic int) string {
	n := len(fifths)
	return fifths[((tonic+s.fifths)%n+n)%n] + s.quality
}

// spoiled makes a bad chart of a good one, in the nth way.
func spoiled(line string, n int) string {
	ways := []string{
		line[:len(line)/2],
		`{"tittle":` + line[len(`{"title":`):],
		strings.Replace(line, "m7", "m7x", 3),
		`{"title":"Without chords"}`,
		`{"changes":"| C | F |","bars":[{"chords":[{"symbol":"C"}]}]}`,
		`{"bars":[{"chords":[{"symbol":"C"}]},{"number":9,"chords":[{"symbol":"G7","beat":0.5}]}]}`,
		`{"key":"H major","changes":"| C |"}`,
		`{"changes":"| ` + strings.Repeat("Q ", 25) + `|"}`,
		`{"changes":7}`,
		`no chart`,
	}
	return ways[n%len(ways)]
}
