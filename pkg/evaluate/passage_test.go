package evaluate

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestPassages(t *testing.T) {
	p := pieceOf("C:I C:V - C:VI C:V C:I C:? Am:I")
	a := readingOf("C:I G:I C:I C:IV C:V Cm:I C:II Am:I")
	a.Chords[5].Confidence = .75
	type span struct {
		first, last int
		weight      float64
	}
	var got []span
	for _, x := range Passages(p, a) {
		require.Same(t, p, x.Piece)
		require.Same(t, a, x.Reading)
		got = append(got, span{x.First, x.Last, x.Weight})
	}
	assert.Equal(t, []span{{1, 3, 1}, {5, 5, .75}}, got,
		"key then label wrong, over a chord without an answer; mode wrong; a label that is none of ours does not count")

	assert.Empty(t, Passages(p, readingOf("C:I C:V - C:VI C:V C:I C:II Am:I")))
	p.TonicOnly = true
	assert.Len(t, Passages(p, a), 1, "the mode is not the analyst's")
}

func TestWorst(t *testing.T) {
	pieces := []Piece{*pieceOf("C:I C:V C:I C:V C:I"), *pieceOf("G:I"), *pieceOf("D:I D:V")}
	readings := Analyze(pieces)
	readings[0] = *readingOf("C:I C:IV C:I C:IV C:I") // two passages of one chord
	readings[1] = *readingOf("G:IV")
	readings[2] = *readingOf("G:V G:II") // one of two
	list := Worst(pieces, readings, 3)
	require.Len(t, list, 3)
	assert.Same(t, &pieces[2], list[0].Piece, "the longest first")
	assert.Same(t, &pieces[0], list[1].Piece, "of equal ones the earlier")
	assert.Equal(t, 1, list[1].First)
	assert.Equal(t, 3, list[2].First)
	assert.Len(t, Worst(pieces, readings, 99), 4)
	assert.Empty(t, Worst(pieces, readings, 0))
	assert.Empty(t, Worst(pieces, readings, -1))

	readings[1].Chords[0].Confidence = 1.5
	assert.Same(t, &pieces[1], Worst(pieces, readings, 1)[0].Piece, "the surest first")
}
