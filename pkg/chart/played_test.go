package chart

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"fifthwise/pkg/chord"
)

// Common practice, no source.
func TestPlayedByHand(t *testing.T) {
	bar := func(symbol string) Bar {
		return Bar{Chords: []Slot{{Chord: chord.MustParse(symbol), Len: B(4, 1)}}}
	}
	start, end := bar("C"), bar("F")
	start.RepeatStart, end.RepeatEnd = true, true
	held := Bar{}
	events := Chart{Bars: []Bar{start, end, held}}.Played()
	var got []string
	for _, e := range events {
		got = append(got, e.Symbol)
	}
	assert.Equal(t, []string{"C", "F", "C", "F"}, got)
	assert.Equal(t, B(8, 1), events[3].Len)
	assert.Equal(t, 2, events[3].Pass)
}
