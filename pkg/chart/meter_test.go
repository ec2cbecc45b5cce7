package chart

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Common practice, no source: the dotted quarter is the beat in 6/8, 9/8, 12/8.
func TestMeter(t *testing.T) {
	for in, beats := range map[string]int{
		"4/4": 4, "3/4": 3, "2/2": 2, "5/4": 5, "7/8": 7, "3/8": 3, "6/4": 6, "6/8": 2, "9/8": 3, "12/8": 4, "15/8": 15, "64/32": 64,
	} {
		m, err := ParseMeter(in)
		require.NoError(t, err, in)
		assert.Equal(t, B(beats, 1), m.Beats(), in)
		assert.Equal(t, in, m.String())
		text, err := m.MarshalText()
		require.NoError(t, err)
		var again Meter
		require.NoError(t, again.UnmarshalText(text))
		assert.Equal(t, m, again)
	}
	assert.False(t, Meter{}.IsValid())
	assert.Equal(t, "0/0", Meter{}.String())
	assert.Equal(t, Meter{3, 4}, MustParseMeter("3/4"))
	assert.Panics(t, func() { MustParseMeter("4") })
}

func TestMeterErrors(t *testing.T) {
	tests := []struct{ name, in, wantErr string }{
		{"empty", "", `expected a meter at offset 0 of "" (for example 3/4)`},
		{"no lower number", "3/", `expected a meter at offset 2 of "3/" (for example 3/4)`},
		{"one number", "3", `expected a meter at offset 0 of "3" (for example 3/4)`},
		{"trailing text", "3/4x", `expected a meter at offset 3 of "3/4x" (for example 3/4)`},
		{"upper number zero", "0/4", `expected 1 to 64 as the upper number of a meter at offset 0 of "0/4"`},
		{"upper number too large", "65/4", `expected 1 to 64 as the upper number of a meter at offset 0 of "65/4"`},
		{"upper number beyond a byte", "999/4", `expected 1 to 64 as the upper number of a meter at offset 0 of "999/4"`},
		{"lower number no note value", "3/5", `expected 1, 2, 4, 8, 16 or 32 as the lower number of a meter at offset 2 of "3/5"`},
		{"lower number beyond a byte", "3/256", `expected 1, 2, 4, 8, 16 or 32 as the lower number of a meter at offset 2 of "3/256"`},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			_, err := ParseMeter(tt.in)
			assert.EqualError(t, err, tt.wantErr)
		})
	}
}
