package evaluate

import (
	"cmp"
	"slices"

	"fifthwise/pkg/function"
)

// Passage is a run of chords on which reading and analyst differ: in the key
// or, if that is right, in the label.
type Passage struct {
	Piece   *Piece
	Reading *function.Analysis
	// First and Last are the run's chords, both included: indexes into
	// Piece.Answers and Reading.Chords. Chords between them that the analyst
	// said nothing of do not end the run.
	First, Last int
	// Weight is the sum of our confidences in the run: how many chords we
	// expected to be right.
	Weight float64
}

// Differs reports whether chord i is read otherwise than the analyst did. A
// chord of which nothing was said does not differ, nor does one in the same key
// whose label is none of ours.
func Differs(p *Piece, a *function.Analysis, i int) bool {
	want, got := &p.Answers[i], &a.Chords[i]
	switch {
	case !want.Key.IsValid():
		return false
	case !p.same(want.Key, got.Key):
		return true
	}
	return want.Labeled && !want.agrees(got)
}

// Passages lists where a reading, which must be of the piece's chart, differs
// from the analyst, in order.
func Passages(p *Piece, a *function.Analysis) []Passage {
	var list []Passage
	open := false
	for i := range p.Answers {
		if !p.Answers[i].Key.IsValid() {
			continue
		}
		differs := Differs(p, a, i)
		if differs && !open {
			list = append(list, Passage{Piece: p, Reading: a, First: i})
		}
		if open = differs; open {
			last := &list[len(list)-1]
			last.Last = i
			last.Weight += a.Chords[i].Confidence
		}
	}
	return list
}

// Worst is the n passages of the greatest weight: the longest of which we were
// the surest. Of equal ones the earlier comes first.
func Worst(pieces []Piece, readings []function.Analysis, n int) []Passage {
	var list []Passage
	for i := range pieces {
		list = append(list, Passages(&pieces[i], &readings[i])...)
	}
	slices.SortStableFunc(list, func(a, b Passage) int { return cmp.Compare(b.Weight, a.Weight) })
	return list[:max(0, min(n, len(list)))]
}
