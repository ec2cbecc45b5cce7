package evaluate

import (
	"fmt"

	"fifthwise/pkg/function"
)

// Folds is a cross-validation: the pieces are dealt into k folds, and each fold
// is read with weights that were fitted on the others. What is told out of fold
// is what can be hoped for of pieces that no one has fitted to; how far it falls
// behind what is told in fold, on pieces fitted to, is over-fitting. M. Stone,
// "Cross-validatory choice and assessment of statistical predictions", Journal
// of the Royal Statistical Society B 36 (1974).
//
// This holds if the weights that the fit starts from have not seen the pieces
// themselves: see [Blank].
type Folds struct {
	Fold    []int              // of each example, from 0
	Weights []function.Weights // by fold, fitted on all other folds
	// Out is each example's result by the weights of its fold, and Readings are
	// what it was measured on.
	Out      []Result
	Readings []function.Analysis
	// In is the sum of each example's results by the weights of the k-1 other
	// folds, which were fitted on it among others.
	In []Result
}

// Folds fits k times and measures. The examples are dealt in turn; those of one
// ID, such as one song of two annotators, share a fold. There must be k of
// different IDs at least, and k must be 2 or more.
func (f Fit) Folds(examples []Example, k int) (Folds, error) {
	out := Folds{
		Out:      make([]Result, len(examples)),
		Readings: make([]function.Analysis, len(examples)),
		In:       make([]Result, len(examples)),
	}
	var dealt int
	out.Fold, dealt = deal(examples, k)
	if k < 2 || dealt < k {
		return Folds{}, fmt.Errorf("expected from 2 folds to one for each of the %d pieces, not %d", dealt, k)
	}
	pieces := make([]Piece, len(examples))
	for i := range examples {
		pieces[i] = *examples[i].Piece
	}
	lessons := f.lessons(examples)
	for fold := range k {
		var others []lesson
		for i := range lessons {
			if out.Fold[i] != fold {
				others = append(others, lessons[i])
			}
		}
		w := f.run(others)
		out.Weights = append(out.Weights, w)
		out.measure(pieces, fold, function.NewModel(w))
	}
	return out, nil
}

func (f *Folds) measure(pieces []Piece, fold int, m *function.Model) {
	readings := Analyze(pieces, function.WithModel(m))
	for i, r := range Measure(pieces, readings, m) {
		if f.Fold[i] == fold {
			f.Out[i], f.Readings[i] = r, readings[i]
		} else {
			f.In[i] = f.In[i].Add(r)
		}
	}
}

// deal gives each example a fold and counts those of different IDs. A piece
// without one is like no other.
func deal(examples []Example, k int) (folds []int, dealt int) {
	of := map[string]int{}
	folds = make([]int, len(examples))
	for i := range examples {
		id := examples[i].ID
		fold, known := of[id]
		if !known || id == "" {
			fold = dealt % max(1, k)
			of[id] = fold
			dealt++
		}
		folds[i] = fold
	}
	return folds, dealt
}
