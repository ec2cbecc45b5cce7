package main

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

func TestRuns(t *testing.T) {
	one, two := 0, 1
	chords := func(list ...Chord) *Row { return &Row{Reading: &Reading{Regions: make([]Region, 2), Chords: list}} }
	tests := []struct {
		name string
		row  *Row
		want []string
	}{
		{"none", chords(), nil},
		{"silence", chords(Chord{Numeral: "N.C."}), nil},
		{"again at once", chords(Chord{Region: &one, Numeral: "I"}, Chord{Region: &one, Numeral: "I"}, Chord{Region: &one, Numeral: "V7"}), []string{"I-V7"}},
		{"silence parts", chords(Chord{Region: &one, Numeral: "I"}, Chord{Numeral: "N.C."}, Chord{Region: &one, Numeral: "I"}), []string{"I", "I"}},
		{"a key parts", chords(Chord{Region: &one, Numeral: "I"}, Chord{Region: &two, Numeral: "I"}, Chord{Region: &two, Numeral: "IV"}), []string{"I", "I-IV"}},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) { assert.Equal(t, test.want, test.row.runs()) })
	}
}

func TestProgressions(t *testing.T) {
	tally := newTally()
	tally.add(&facts{runs: []string{"I-VIm-IIm-V-I-VIm", "V-I", "I"}})
	assert.Equal(t, []entry{{"I-VIm", 2}, {"V-I", 2}, {"IIm-V", 1}, {"VIm-IIm", 1}}, tally.progressions[2].commonest(9))
	assert.Equal(t, []entry{{"I-VIm-IIm", 1}, {"IIm-V-I", 1}, {"V-I-VIm", 1}, {"VIm-IIm-V", 1}}, tally.progressions[3].commonest(9))
	assert.Equal(t, []entry{{"I-VIm-IIm-V", 1}, {"IIm-V-I-VIm", 1}, {"VIm-IIm-V-I", 1}}, tally.progressions[4].commonest(9))
}

// However many words there are, no more than the bound are held, and no count is
// further off than is said.
func TestCensusIsBounded(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := census{}.of(rapid.IntRange(1, 10).Draw(t, "most"))
		counts := map[string]int{}
		for _, n := range rapid.SliceOf(rapid.IntRange(0, 40)).Draw(t, "words") {
			word := fmt.Sprint(n)
			counts[word]++
			c.add(word, 1)
			if len(c.counts) > c.most {
				t.Fatalf("%d words are held, of %d at most", len(c.counts), c.most)
			}
		}
		for word, n := range counts {
			got := 0
			if held := c.counts[word]; held != nil {
				got = *held
			}
			if got > n || got+c.short < n {
				t.Fatalf("%q: %d is said, short by %d, of %d", word, got, c.short, n)
			}
		}
	})
}
