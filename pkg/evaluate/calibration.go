package evaluate

import (
	"math"

	"fifthwise/pkg/function"
)

// Calibration counts how often labels are right, by tenths of the confidence
// they were given with: the first bin holds confidences from 0 to 0.1, the last
// those from 0.9 to 1. A label is right if key, degree and target are the
// analyst's.
type Calibration [10]Bin

// Bin is the chords whose confidences lie in one tenth.
type Bin struct {
	Chords     int
	Right      int
	Confidence float64 // the sum
	Squares    float64 // sum of the squared distances of confidence from 1 where right, from 0 where wrong
}

// Add counts the labelled chords of a reading, which must be of the piece's
// chart. A piece whose modes are not the analyst's counts nothing: confidence
// is of key and mode.
func (c *Calibration) Add(p *Piece, a *function.Analysis) {
	if p.TonicOnly {
		return
	}
	for i := range p.Answers {
		if !p.Answers[i].Labeled {
			continue
		}
		x := a.Chords[i].Confidence
		b := &c[max(0, min(int(x*float64(len(c))), len(c)-1))]
		b.Chords++
		b.Confidence += x
		if !Differs(p, a, i) {
			b.Right++
			x = 1 - x
		}
		b.Squares += x * x
	}
}

// Sum adds what another has counted.
func (c *Calibration) Sum(d *Calibration) {
	for i := range c {
		c[i].Chords += d[i].Chords
		c[i].Right += d[i].Right
		c[i].Confidence += d[i].Confidence
		c[i].Squares += d[i].Squares
	}
}

// All is the bins as one.
func (c *Calibration) All() (all Bin) {
	for _, b := range c {
		all.Chords += b.Chords
		all.Right += b.Right
		all.Confidence += b.Confidence
		all.Squares += b.Squares
	}
	return all
}

// Error is the expected calibration error: the mean distance of confidence and
// share of right labels by bin, weighted by its chords, 0 to 1; NaN of no
// chord. M. P. Naeini, G. F. Cooper and M. Hauskrecht, "Obtaining well
// calibrated probabilities using Bayesian binning", AAAI 2015.
func (c *Calibration) Error() float64 {
	sum := 0.0
	for _, b := range c {
		sum += math.Abs(b.Confidence - float64(b.Right))
	}
	return sum / float64(c.All().Chords)
}

// Brier is the mean squared distance of confidence from what came true, 1 for a
// right label and 0 for a wrong one: 0 is perfect, 0.25 is what a confidence of
// a half always gets; NaN of no chord. G. W. Brier, "Verification of forecasts
// expressed in terms of probability", Monthly Weather Review 78 (1950), halved
// as is usual where there are two outcomes.
func (c *Calibration) Brier() float64 {
	all := c.All()
	return all.Squares / float64(all.Chords)
}
