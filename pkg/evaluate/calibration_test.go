package evaluate

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestCalibration(t *testing.T) {
	p := pieceOf("C:I C:V C:I C:V - C:?")
	a := readingOf("C:I C:V C:IV G:I C:I C:I")
	for i, x := range []float64{1, .75, .71, 0, 1, 1} {
		a.Chords[i].Confidence = x
	}
	var c Calibration
	c.Add(p, a)
	assert.Equal(t, Bin{Chords: 1, Right: 1, Confidence: 1, Squares: 0}, c[9], "1 lies in the last bin")
	squares := c[7].Squares
	assert.InDelta(t, .25*.25+.71*.71, squares, 1e-12, "right at .75, wrong at .71")
	assert.Equal(t, Bin{Chords: 2, Right: 1, Confidence: .75 + .71, Squares: squares}, c[7])
	assert.Equal(t, Bin{Chords: 1}, c[0])
	assert.InDelta(t, (0+.46+0)/4, c.Error(), 1e-12)
	assert.InDelta(t, (0+.0625+.5041+0)/4, c.Brier(), 1e-12)

	p.TonicOnly = true
	before := c
	c.Add(p, a)
	assert.Equal(t, before, c, "modes are not the analyst's")

	var none Calibration
	assert.True(t, math.IsNaN(none.Error()))
	assert.True(t, math.IsNaN(none.Brier()))

	twice := c
	twice.Sum(&c)
	for i := range c {
		assert.Equal(t, Bin{2 * c[i].Chords, 2 * c[i].Right, 2 * c[i].Confidence, 2 * c[i].Squares}, twice[i])
	}
}
