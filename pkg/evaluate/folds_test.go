package evaluate

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fifthwise/pkg/function"
)

func TestFolds(t *testing.T) {
	pieces := restless(t)
	twin := invented(t, "Weir", "C:I Am:VI Dm:II G:V C:I F:IV G7:V C:I") // by another analyst
	examples := Weigh([][]Piece{pieces, {twin}}, nil)
	steps := 0
	fit := Fit{Start: Blank(function.Default()), Pull: Pulls(1), Steps: 5, Watch: func(int, float64) { steps++ }}
	const k = 2
	got, err := fit.Folds(examples, k)
	require.NoError(t, err)
	assert.Equal(t, k*fit.Steps, steps)

	assert.Equal(t, []int{0, 1, 0, 1, 0, 1}, got.Fold, "both Weirs in one, five in turn")
	require.Len(t, got.Weights, k)
	for fold, w := range got.Weights {
		var others []Example
		var left []Piece
		for i := range examples {
			if got.Fold[i] == fold {
				left = append(left, *examples[i].Piece)
			} else {
				others = append(others, examples[i])
			}
		}
		assert.Equal(t, fit.Run(others), w, "fitted on the others alone")
		readings := Analyze(left, function.WithModel(function.NewModel(w)))
		results := Measure(left, readings, function.NewModel(w))
		for i := range examples {
			if got.Fold[i] == fold {
				assert.Equal(t, results[0], got.Out[i])
				assert.Equal(t, readings[0].Chords, got.Readings[i].Chords)
				results, readings = results[1:], readings[1:]
			}
		}
	}
	for i := range examples {
		assert.Equal(t, 1, got.Out[i].Score.Pieces, "each once out of fold")
		assert.Equal(t, k-1, got.In[i].Score.Pieces, "and else in fold")
		assert.Equal(t, (k-1)*got.Out[i].Margin.Chords, got.In[i].Margin.Chords)
	}
}

func TestDeal(t *testing.T) {
	var examples []Example
	for _, id := range []string{"a", "b", "", "a", "", "c", "b", "d"} {
		examples = append(examples, Example{Piece: &Piece{ID: id}})
	}
	for k := 2; k <= 6; k++ {
		folds, dealt := deal(examples, k)
		assert.Equal(t, 6, dealt)
		assert.Equal(t, folds[0], folds[3])
		assert.Equal(t, folds[1], folds[6])
		for fold := range k {
			assert.Contains(t, folds, fold, "none is empty")
		}
		assert.Less(t, slices.Max(folds), k)
	}
}

func TestFoldsErrors(t *testing.T) {
	p := invented(t, "Weir", "C:I G7:V C:I")
	q := invented(t, "Slip", "C:I G7:V C:I")
	examples := Weigh([][]Piece{{p, q}, {p}}, nil)
	for _, k := range []int{-1, 0, 1, 3} {
		_, err := Fit{}.Folds(examples, k)
		require.Error(t, err)
		assert.Regexp(t, `^expected from 2 folds to one for each of the 2 pieces, not -?\d$`, err.Error())
	}
	_, err := Fit{}.Folds(examples, 2)
	assert.NoError(t, err)
}
