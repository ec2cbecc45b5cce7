package evaluate

import "fifthwise/pkg/function"

// Result is all that is measured of pieces.
type Result struct {
	Score       Score
	Calibration Calibration
	Margin      Margin
}

// Add adds up two results.
func (r Result) Add(s Result) Result {
	r.Score = r.Score.Add(s.Score)
	r.Calibration.Sum(&s.Calibration)
	r.Margin = r.Margin.Add(s.Margin)
	return r
}

// Measure gives a result for each piece, whose readings must be by the model.
func Measure(pieces []Piece, readings []function.Analysis, m *function.Model) []Result {
	results := make([]Result, len(pieces))
	each(len(pieces), func(i int) {
		p, r := &pieces[i], &results[i]
		r.Score = Compare(p, &readings[i])
		r.Calibration.Add(p, &readings[i])
		r.Margin = MarginOf(p, m)
	})
	return results
}
