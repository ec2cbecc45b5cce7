package api

import (
	"math"
	"testing"

	"github.com/go-json-experiment/json"
	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"fifthwise/api/wire"
)

// Answers are written as the JSON package writes them, whatever they hold.
func TestAppendJSON(t *testing.T) {
	t.Run("analysis", rapid.MakeCheck(func(t *rapid.T) { checkJSON[wire.Analysis](t) }))
	t.Run("chart", rapid.MakeCheck(func(t *rapid.T) { checkJSON[wire.WrittenChart](t) }))
	t.Run("numbers", rapid.MakeCheck(func(t *rapid.T) {
		n := rapid.OneOf(rapid.Float64(), rapid.SampledFrom([]float64{math.NaN(), math.Inf(1), math.Copysign(0, -1), 1e-6, 9.9e-7, 1e21, 1e15, 1 << 60})).Draw(t, "n")
		compareJSON(t, &wire.Position{Beat: n})
	}))
	t.Run("review", rapid.MakeCheck(func(t *rapid.T) { checkJSON[wire.Review](t) }))
}

func checkJSON[T any](t *rapid.T) {
	v := rapid.Make[T]().Draw(t, "v")
	compareJSON(t, &v)
}

func compareJSON(t *rapid.T, v any) {
	want, wantErr := json.Marshal(v)
	got, err := appendJSON(nil, v)
	if wantErr != nil {
		assert.Error(t, err)
		return
	}
	assert.NoError(t, err)
	assert.Equal(t, string(want), string(got))
}
