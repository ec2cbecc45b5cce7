package evaluate

import (
	"fifthwise/pkg/function"
)

// Fit finds weights under which what the analysts said is likely: it
// minimizes the loss, the sum over the examples of minus the logarithm of the
// probability of what was said times the example's weight, plus the pull towards
// the weights it starts from. The reading is a conditional random field
// (J. Lafferty, A. McCallum and F. Pereira, ICML 2001) whose gradient is the
// difference of the terms' expected counts over all readings and over those
// that agree with the analyst. What no reading can follow is not asked for.
type Fit struct {
	Start function.Weights             // where the search begins and what it is pulled to
	Pull  function.Weights             // of each term: weight of its squared distance from Start
	Steps int                          // 50 are enough for a few hundred pieces
	Watch func(step int, loss float64) // called after each step, if set
}

// Example is a piece with its weight in the loss.
type Example struct {
	*Piece
	Weight float64
}

// share is the sum of the weights of a file's chords.
const share = 1000

// Weigh makes examples of the pieces of several files. Each file counts the
// same, however many chords it has, times its share if one is given; and a piece
// that n files have, by the same ID, counts one n-th in each.
func Weigh(files [][]Piece, shares []float64) []Example {
	holders := map[string]int{}
	for _, pieces := range files {
		for _, id := range ids(pieces) {
			holders[id]++
		}
	}
	var examples []Example
	for i, pieces := range files {
		chords := 0
		for j := range pieces {
			chords += len(pieces[j].Answers)
		}
		weight := share / float64(chords)
		if i < len(shares) {
			weight *= shares[i]
		}
		for j := range pieces {
			examples = append(examples, Example{&pieces[j], weight / float64(max(1, holders[pieces[j].ID]))})
		}
	}
	return examples
}

// ids lists the IDs of pieces that have one, each once.
func ids(pieces []Piece) (list []string) {
	seen := map[string]bool{"": true}
	for i := range pieces {
		if id := pieces[i].ID; !seen[id] {
			seen[id] = true
			list = append(list, id)
		}
	}
	return list
}

// lesson is an example made ready for the search.
type lesson struct {
	Example
	given []function.Given
}

func (f *Fit) lessons(examples []Example) []lesson {
	list := make([]lesson, len(examples))
	m := function.NewModel(f.Start)
	each(len(list), func(i int) {
		given := examples[i].labels()
		examples[i].loosen(given, m)
		list[i] = lesson{examples[i], given}
	})
	return list
}

// Run fits by resilient backpropagation (M. Riedmiller and H. Braun, ICNN
// 1993): each weight has a step of its own that grows while the gradient keeps
// its sign and shrinks where it turns.
func (f Fit) Run(examples []Example) function.Weights { return f.run(f.lessons(examples)) }

func (f *Fit) run(lessons []lesson) function.Weights {
	w := f.Start
	var last, size function.Weights
	for t := range size {
		size[t] = .05
	}
	for step := range f.Steps {
		loss, grad := f.loss(lessons, w)
		for t, g := range grad {
			switch {
			case g*last[t] > 0:
				size[t] = min(size[t]*1.2, .5)
			case g*last[t] < 0:
				size[t] = max(size[t]*.5, 1e-4)
				g = 0
			}
			if g > 0 {
				w[t] -= size[t]
			} else if g < 0 {
				w[t] += size[t]
			}
			last[t] = g
		}
		if f.Watch != nil {
			f.Watch(step, loss)
		}
	}
	return w
}

// loss is the loss of some weights and its gradient. It is summed in the order
// of the lessons, so that a fit is the same each time.
func (f *Fit) loss(lessons []lesson, w function.Weights) (loss float64, grad function.Weights) {
	type sums struct{ free, told function.Expectation }
	list := make([]sums, len(lessons))
	m := function.NewModel(w)
	each(len(lessons), func(i int) {
		list[i].free, list[i].told = function.Expect(lessons[i].Chart, m, lessons[i].given)
	})
	for t := range w {
		d := w[t] - f.Start[t]
		loss += f.Pull[t] * d * d
		grad[t] = 2 * f.Pull[t] * d
	}
	for i := range list {
		free, told := &list[i].free, &list[i].told
		if !finite(free.LogSum) || !finite(told.LogSum) {
			continue // too unlikely for a float
		}
		weight := lessons[i].Weight
		loss += weight * (free.LogSum - told.LogSum)
		for t := range grad {
			grad[t] += weight * (told.Counts[t] - free.Counts[t])
		}
	}
	return loss, grad
}
