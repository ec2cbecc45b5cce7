package evaluate

import (
	"math"
	"runtime"
	"sync"

	"fifthwise/pkg/function"
)

// Fit finds weights under which what the analysts said is likely: it
// maximizes the mean logarithm of the probability of their keys, pulled
// towards the weights it starts from. The reading is a conditional random field
// (J. Lafferty, A. McCallum and F. Pereira, ICML 2001) whose gradient is the
// difference of the terms' expected counts over all readings and over those
// that agree with the analyst.
type Fit struct {
	Start function.Weights // where the search begins and what it is pulled to
	Pull  function.Weights // of each term: weight of its squared distance from Start
	Steps int
	Watch func(step int, loss float64) // called after each step, if set
}

// Example is a piece with its weight in the sum.
type Example struct {
	*Piece
	Weight float64
}

// gradient sums the loss and its gradient over the examples. Pieces whose
// annotation no path of the lattice can follow are counted as lost.
func gradient(examples []Example, w function.Weights) (loss float64, grad function.Weights, lost int) {
	m := function.NewModel(w)
	var mu sync.Mutex
	var wg sync.WaitGroup
	next := make(chan *Example)
	for range runtime.GOMAXPROCS(0) {
		wg.Go(func() {
			for e := range next {
				given := e.given()
				free, bound := function.Expect(e.Chart, m, given)
				mu.Lock()
				if math.IsInf(bound.LogSum, 0) || math.IsNaN(bound.LogSum) || math.IsNaN(free.LogSum) {
					lost++
				} else {
					loss += e.Weight * (free.LogSum - bound.LogSum)
					for t := range grad {
						grad[t] += e.Weight * (bound.Counts[t] - free.Counts[t])
					}
				}
				mu.Unlock()
			}
		})
	}
	for i := range examples {
		next <- &examples[i]
	}
	close(next)
	wg.Wait()
	return loss, grad, lost
}

func (e *Example) given() []function.Given {
	given := make([]function.Given, len(e.Answers))
	for i, a := range e.Answers {
		given[i] = function.Given{Key: a.Key, AnyMode: e.TonicOnly}
		if a.Labeled {
			given[i].Degree, given[i].Target = a.Degree, a.Target
		}
	}
	return given
}

// Run fits by resilient backpropagation (M. Riedmiller and H. Braun, ICNN
// 1993): each weight has a step of its own that grows while the gradient keeps
// its sign and shrinks where it turns.
func (f Fit) Run(examples []Example) function.Weights {
	w := f.Start
	var last function.Weights
	var size function.Weights
	for t := range size {
		size[t] = .05
	}
	for step := range f.Steps {
		loss, grad, _ := gradient(examples, w)
		for t := range grad {
			d := w[t] - f.Start[t]
			loss += f.Pull[t] * d * d
			g := grad[t] + 2*f.Pull[t]*d
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
