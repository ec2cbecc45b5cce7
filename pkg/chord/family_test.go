package chord

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Common practice, no source; that C+7 is dominant, a suspended seventh
// suspended and a bare fifth a power chord is our convention.
func TestFamily(t *testing.T) {
	tests := []struct {
		want    Family
		symbols []string
	}{
		{None, []string{"N.C."}},
		{Major, []string{"C", "C6", "C6/9", "Cmaj7", "Cmaj9", "Cmaj7#5", "Cmaj7#11", "Cadd9", "C(b5)", "C(b9)", "C:(1,3)", "C:(1,3,6)", "C:(1,5,7)", "C:(1,5,10)"}},
		{Minor, []string{"Cm", "Cm6", "Cm7", "Cm(maj7)", "Cm9", "Cm11", "Cm13", "Cmadd9", "Cm(#5)", "Cm(b6)", "C:(1,b3)", "C:(1,b3,5,bb7)", "C:(1,5,b10)"}},
		{Dominant, []string{"C7", "C9", "C13", "C7b9", "C7#5", "C7b5", "C+7", "C7alt", "C11", "C7#11", "C7b9#11", "C7no5", "C7no3", "C:(1,b7)", "C7no1"}},
		{HalfDiminished, []string{"Cm7b5", "Cø9", "Cm11b5", "C:(1,b5,b7)"}},
		{Diminished, []string{"Cdim", "Cdim7", "Cdim9", "Cdim(maj7)", "Cm6b5", "C:(1,b5)", "C:(1,b5,bb7)", "C:(1,b3,bb5,bb7)", "C:(1,bb3,b5,bb7)", "C:(1,bb7)"}},
		{Augmented, []string{"Caug", "Caugadd9", "C:(1,#5)"}},
		{Suspended, []string{"Csus4", "Csus2", "C7sus4", "C9sus4", "C13sus4", "C7sus4b9", "Cmaj7sus4", "Csus2sus4", "C:(1,5,b7,9,11)"}},
		{Power, []string{"C5", "C:(1)", "C:(*1)", "C:(1,5,9)"}},
	}
	for _, tt := range tests {
		for _, s := range tt.symbols {
			c, err := Parse(s)
			require.NoError(t, err, s)
			assert.Equal(t, tt.want.String(), c.Family().String(), s)
		}
	}
}

func TestFamilyText(t *testing.T) {
	for f := None; f <= Power; f++ {
		text, err := f.MarshalText()
		require.NoError(t, err)
		var again Family
		require.NoError(t, again.UnmarshalText(text))
		assert.Equal(t, f, again)
	}
	var f Family
	assert.EqualError(t, f.UnmarshalText([]byte("jazzy")), `expected a chord family at offset 0 of "jazzy" (one of none, major, minor, dominant, half-diminished, diminished, augmented, suspended, power)`)
	assert.Equal(t, "family(9)", Family(9).String())
}
