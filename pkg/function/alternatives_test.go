package function_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fifthwise/pkg/function"
	"fifthwise/pkg/key"
	"fifthwise/pkg/pitch"
)

// What As gives is what is shown and what is told as alternatives.
func TestAs(t *testing.T) {
	a := analyze(t, "| Cmaj7 | A7 | Dm7 | G7 | Cmaj7 | N.C. |")
	for i, r := range a.Chords {
		shown, ok := a.As(i, r.Key, r.Degree, r.Target)
		require.Equal(t, !r.Event.Chord.IsSilence(), ok)
		if !ok {
			assert.Zero(t, a.KeyChance(i, key.MustParse("C major")))
			continue
		}
		assert.InDelta(t, r.Confidence, shown.Confidence, 1e-6)
		assert.Equal(t, r.Numeral, shown.Numeral)
		sum := 0.0
		for tonic := range pitch.Class(12) {
			sum += a.KeyChance(i, key.Of(tonic, key.Major)) + a.KeyChance(i, key.Of(tonic, key.Minor))
		}
		assert.InDelta(t, 1, sum, 1e-4)
		for _, other := range a.Alternatives(i, function.MaxAlternatives) {
			same, ok := a.As(i, other.Key, other.Degree, other.Target)
			require.True(t, ok)
			assert.Equal(t, other.Confidence, same.Confidence)
			assert.Equal(t, other.Reason(), same.Reason())
		}
	}
	_, ok := a.As(1, key.MustParse("C major"), function.D(3, 0), function.Degree{})
	assert.False(t, ok, "A7 is no III")
	_, ok = a.As(99, key.MustParse("C major"), function.D(1, 0), function.Degree{})
	assert.False(t, ok)
	assert.InDelta(t, a.KeyChance(0, key.MustParse("D dorian")), a.KeyChance(0, key.MustParse("D minor")), 0)
}
