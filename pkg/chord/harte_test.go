package chord

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The shorthands of Harte et al. 2005, table 1; from "sus2" on those of later
// corpora (mir_eval, chord.py; ChoCo).
func TestHarteShorthands(t *testing.T) {
	tests := []struct{ in, degrees, want string }{
		{"C:maj", "1 3 5", "C"},
		{"C:min", "1 b3 5", "Cm"},
		{"C:dim", "1 b3 b5", "Cdim"},
		{"C:aug", "1 3 #5", "Caug"},
		{"C:maj7", "1 3 5 7", "Cmaj7"},
		{"C:min7", "1 b3 5 b7", "Cm7"},
		{"C:7", "1 3 5 b7", "C7"},
		{"C:dim7", "1 b3 b5 bb7", "Cdim7"},
		{"C:hdim7", "1 b3 b5 b7", "Cm7b5"},
		{"C:minmaj7", "1 b3 5 7", "Cm(maj7)"},
		{"C:maj6", "1 3 5 6", "C6"},
		{"C:min6", "1 b3 5 6", "Cm6"},
		{"C:9", "1 3 5 b7 9", "C9"},
		{"C:maj9", "1 3 5 7 9", "Cmaj9"},
		{"C:min9", "1 b3 5 b7 9", "Cm9"},
		{"C:sus4", "1 4 5", "Csus4"},

		{"C:sus2", "1 2 5", "Csus2"},
		{"C:11", "1 3 5 b7 9 11", "C11"},
		{"C:13", "1 3 5 b7 9 11 13", "C13add11"},
		{"C:maj11", "1 3 5 7 9 11", "Cmaj11"},
		{"C:maj13", "1 3 5 7 9 11 13", "Cmaj13add11"},
		{"C:min11", "1 b3 5 b7 9 11", "Cm11"},
		{"C:min13", "1 b3 5 b7 9 11 13", "Cm13"},
		{"C:minmaj9", "1 b3 5 7 9", "Cm(maj9)"},
		{"C:aug7", "1 3 #5 b7", "C7#5"},
		{"C:augmaj7", "1 3 #5 7", "Cmaj7#5"},
		{"C:dom7dim5", "1 3 b5 b7", "C7b5"},
		{"C:hdim9", "1 b3 b5 b7 9", "Cm9b5"},
		{"C:dim9", "1 b3 b5 bb7 9", "Cdim9"},
		{"C:7sus4", "1 4 5 b7", "C7sus4"},
		{"C:power", "1 5", "C5"},
		{"C:pedal", "1", "C:(1)"},
	}
	for _, tt := range tests {
		t.Run(tt.in, func(t *testing.T) {
			c, err := Parse(tt.in)
			require.NoError(t, err)
			assert.Equal(t, tt.degrees, spaced(c.Quality()))
			assert.Equal(t, tt.want, c.String())
		})
	}
}

// The grammar of Harte et al. 2005: degrees in a list are added to those of
// the shorthand, a star leaves one out, the root need not be told.
func TestHarteLists(t *testing.T) {
	tests := []struct{ in, degrees, want, harte string }{
		{"C", "1 3 5", "C", "C:maj"},
		{"C/5", "1 3 5", "C/G", "C:maj/5"},
		{"C:(3,5)", "1 3 5", "C", "C:maj"},
		{"C:(1,3,5)", "1 3 5", "C", "C:maj"},
		{"C:(5,1,3)", "1 3 5", "C", "C:maj"},
		{"C:7(*5)", "1 3 b7", "C:(1,3,b7)", "C:(1,3,b7)"},
		{"C:7(*5,13)", "1 3 b7 13", "C:(1,3,b7,13)", "C:(1,3,b7,13)"},
		{"C:maj(*1)/3", "3 5", "C:(*1,3,5)/3", "C:(*1,3,5)/3"},
		{"C:7(b9,#11)", "1 3 5 b7 b9 #11", "C7b9#11", "C:(1,3,5,b7,b9,#11)"},
		{"C:7(#5)", "1 3 5 #5 b7", "C:(1,3,5,#5,b7)", "C:(1,3,5,#5,b7)"},
		{"C:min7(*5,b5)", "1 b3 b5 b7", "Cm7b5", "C:hdim7"},
		{"C:sus4(b7,9)", "1 4 5 b7 9", "C9sus4", "C:(1,4,5,b7,9)"},
		{"C:(1,3,6)", "1 3 6", "C:(1,3,6)", "C:(1,3,6)"},
		{"C:(1,bb3,b5,bb7)", "1 bb3 b5 bb7", "C:(1,bb3,b5,bb7)", "C:(1,bb3,b5,bb7)"},
		{"C:(1,b3,bb5,bb7)/bb7", "1 b3 bb5 bb7", "C:(1,b3,bb5,bb7)/bb7", "C:(1,b3,bb5,bb7)/bb7"},
		{"C:(1,b5)", "1 b5", "C:(1,b5)", "C:(1,b5)"},
		{"C:(1,b5,bb7)/b5", "1 b5 bb7", "C:(1,b5,bb7)/b5", "C:(1,b5,bb7)/b5"},
		{"C:(1,5,b7)", "1 5 b7", "C:(1,5,b7)", "C:(1,5,b7)"},
		{"C:(1)", "1", "C:(1)", "C:(1)"},
		{"C:(*1)", "", "C:(*1)", "C:(*1)"},
		{"C:(1,b3,5,b7,b9)", "1 b3 5 b7 b9", "Cm7b9", "C:(1,b3,5,b7,b9)"},
		{"C:(1,3,5,b9)", "1 3 5 b9", "C(b9)", "C:(1,3,5,b9)"},
		{"C:(1,4,5,9)", "1 4 5 9", "Csus4add9", "C:(1,4,5,9)"},
		{"C:(1,3,5,8,10)", "1 3 5 8 10", "C:(1,3,5,8,10)", "C:(1,3,5,8,10)"},
		{"C:(1,♭3,𝄫5)", "1 b3 bb5", "C:(1,b3,bb5)", "C:(1,b3,bb5)"},
		{"F#:min7/b7", "1 b3 5 b7", "F#m7/E", "F#:min7/b7"},
		{"Db:7/b7", "1 3 5 b7", "Db7/Cb", "Db:7/b7"},
		{"C:maj/#1", "1 3 5", "C/C#", "C:maj/#1"},
		{"C:maj/10", "1 3 5", "C/E", "C:maj/3"},
	}
	for _, tt := range tests {
		t.Run(tt.in, func(t *testing.T) {
			c, err := Parse(tt.in)
			require.NoError(t, err)
			assert.Equal(t, tt.degrees, spaced(c.Quality()))
			assert.Equal(t, tt.want, c.String())
			assert.Equal(t, tt.harte, c.Harte())
			again, err := Parse(c.Harte())
			require.NoError(t, err)
			assert.Equal(t, c, again)
		})
	}
	assert.Equal(t, "N", Chord{}.Harte())
}
