package chord

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fifthwise/pkg/pitch"
)

func TestEveryDegree(t *testing.T) {
	assert.Equal(t, "1", Degree{}.String())
	assert.Equal(t, Degree{}, D(1, 0))
	seen := map[Degree]bool{{}: true}
	for number := 2; number <= maxDegree; number++ {
		for alter := -maxAlter; alter <= maxAlter; alter++ {
			d := D(number, alter)
			assert.False(t, seen[d])
			seen[d] = true
			assert.Equal(t, number, d.Number())
			assert.Equal(t, alter, d.Alter())
			assert.Equal(t, pitch.Degree(number, alter), d.Interval())
			text, err := d.MarshalText()
			require.NoError(t, err)
			var again Degree
			require.NoError(t, again.UnmarshalText(text))
			assert.Equal(t, d, again)
			unicode, err := ParseDegree(string(d.AppendTo(nil, pitch.Unicode)))
			require.NoError(t, err)
			assert.Equal(t, d, unicode)
		}
	}
	for _, n := range [][2]int{{0, 0}, {1, -1}, {14, 0}, {5, 3}, {5, -3}, {-2, 0}} {
		assert.Panics(t, func() { D(n[0], n[1]) }, n)
	}
}

func TestParseDegreeErrors(t *testing.T) {
	tests := []struct{ name, in, wantErr string }{
		{"empty", "", `expected a degree from 1 to 13 at offset 0 of ""`},
		{"no number", "bb", `expected a degree from 1 to 13 at offset 2 of "bb"`},
		{"beyond", "b14", `expected a degree from 1 to 13 at offset 3 of "b14"`},
		{"altered root", "b1", `the root cannot be altered at offset 0 of "b1" (write the octave, b8 or #8)`},
		{"three sharps", "###4", `a degree has at most two flats or sharps at offset 0 of "###4"`},
		{"mixed", "#b4", `flats and sharps mixed on one degree at offset 1 of "#b4"`},
		{"lead-sheet sign", "-5", `expected a degree from 1 to 13 at offset 0 of "-5"`},
		{"trailing text", "b9x", `expected the end of the degree at offset 2 of "b9x"`},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			_, err := ParseDegree(tt.in)
			assert.EqualError(t, err, tt.wantErr)
		})
	}
}

func FuzzParseDegree(f *testing.F) {
	for _, s := range []string{"1", "b9", "♯11", "𝄫7", "##13", "b1", "14", "#b5", ""} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		d, err := ParseDegree(s)
		if err != nil {
			return
		}
		again, err := ParseDegree(d.String())
		require.NoError(t, err)
		require.Equal(t, d, again)
	})
}
