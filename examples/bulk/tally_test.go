package main

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"fifthwise/examples/internal/corpus"
)

func TestProgressions(t *testing.T) {
	tally := newTally()
	tally.add(&corpus.Facts{Runs: []string{"I-VIm-IIm-V-I-VIm", "V-I", "I"}})
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
