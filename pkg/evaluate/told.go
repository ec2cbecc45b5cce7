package evaluate

import (
	"math"
	"sort"

	"fifthwise/pkg/function"
)

// keys are the analyst's, as the search takes them.
func (p *Piece) keys() []function.Given {
	given := make([]function.Given, len(p.Answers))
	for i, a := range p.Answers {
		given[i] = function.Given{Key: a.Key, AnyMode: p.TonicOnly}
	}
	return given
}

// labels are the keys with degrees and targets.
func (p *Piece) labels() []function.Given {
	given := p.keys()
	for i, a := range p.Answers {
		if a.Labeled {
			given[i].Degree, given[i].Target = a.Degree, a.Target
		}
	}
	return given
}

// loosen takes out of what is given of a piece's chords what no reading can
// follow, such as a change of key between two strokes of one chord: of the first
// chord with which the chart has no reading left, the label or, if there is
// none, the key, until there is a reading. It returns how many chords lost one.
func (p *Piece) loosen(given []function.Given, m *function.Model) (loosened int) {
	possible := func(n int) bool {
		_, told := function.Expect(p.Chart, m, given[:n])
		return finite(told.LogSum)
	}
	last := -1
	for from := 0; !possible(len(given)); {
		from += sort.Search(len(given)-1-from, func(n int) bool { return !possible(from + n + 1) })
		if from != last {
			loosened++
		}
		last = from
		g := &given[from]
		switch {
		case g.Degree.IsValid():
			g.Degree, g.Target = function.Degree{}, function.Degree{}
		case g.Key.IsValid():
			*g = function.Given{}
		default:
			return loosened // not by what is given
		}
	}
	return loosened
}

func finite(x float64) bool { return !math.IsInf(x, 0) && !math.IsNaN(x) }
