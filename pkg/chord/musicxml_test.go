package chord

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The kinds of MusicXML 4.0 (kind-value in the schema) that have a symbol on
// lead sheets, with the degrees which the schema's words spell out. The
// Neapolitan, Italian, French, German, Tristan, other and none have no degrees
// or no root there.
func TestMusicXMLKinds(t *testing.T) {
	tests := []struct{ kind, degrees, symbol string }{
		{"major", "1 3 5", "C"},
		{"minor", "1 b3 5", "Cm"},
		{"augmented", "1 3 #5", "Caug"},
		{"diminished", "1 b3 b5", "Cdim"},
		{"dominant", "1 3 5 b7", "C7"},
		{"major-seventh", "1 3 5 7", "Cmaj7"},
		{"minor-seventh", "1 b3 5 b7", "Cm7"},
		{"diminished-seventh", "1 b3 b5 bb7", "Cdim7"},
		{"augmented-seventh", "1 3 #5 b7", "C7#5"},
		{"half-diminished", "1 b3 b5 b7", "Cm7b5"},
		{"major-minor", "1 b3 5 7", "Cm(maj7)"},
		{"major-sixth", "1 3 5 6", "C6"},
		{"minor-sixth", "1 b3 5 6", "Cm6"},
		{"dominant-ninth", "1 3 5 b7 9", "C9"},
		{"major-ninth", "1 3 5 7 9", "Cmaj9"},
		{"minor-ninth", "1 b3 5 b7 9", "Cm9"},
		{"dominant-11th", "1 3 5 b7 9 11", "C11"},
		{"major-11th", "1 3 5 7 9 11", "Cmaj11"},
		{"minor-11th", "1 b3 5 b7 9 11", "Cm11"},
		// C13 and Cmaj13 leave the eleventh out, as players do; the kinds have it.
		{"dominant-13th", "1 3 5 b7 9 11 13", "C13add11"},
		{"major-13th", "1 3 5 7 9 11 13", "Cmaj13add11"},
		{"minor-13th", "1 b3 5 b7 9 11 13", "Cm13"},
		{"suspended-second", "1 2 5", "Csus2"},
		{"suspended-fourth", "1 4 5", "Csus4"},
		{"pedal", "1", "C:(1)"},
		{"power", "1 5", "C5"},
	}
	for _, tt := range tests {
		t.Run(tt.kind, func(t *testing.T) {
			c, err := Parse(tt.symbol)
			require.NoError(t, err)
			assert.Equal(t, tt.degrees, spaced(c.Quality()))
			assert.Equal(t, tt.symbol, c.String())
		})
	}
}
