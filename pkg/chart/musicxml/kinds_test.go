package musicxml

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fifthwise/pkg/chord"
)

// The notes of the kinds as the standard's text lists them (MusicXML 4.0,
// kind-value), but for the sixths and the kinds whose notes it does not list.
var standardKinds = []struct{ kind, degrees string }{
	{"major", "1 3 5"},
	{"minor", "1 b3 5"},
	{"augmented", "1 3 #5"},
	{"diminished", "1 b3 b5"},
	{"dominant", "1 3 5 b7"},
	{"major-seventh", "1 3 5 7"},
	{"minor-seventh", "1 b3 5 b7"},
	{"diminished-seventh", "1 b3 b5 bb7"},
	{"augmented-seventh", "1 3 #5 b7"},
	{"half-diminished", "1 b3 b5 b7"},
	{"major-minor", "1 b3 5 7"},
	{"major-sixth", "1 3 5 6"},
	{"minor-sixth", "1 b3 5 6"},
	{"dominant-ninth", "1 3 5 b7 9"},
	{"major-ninth", "1 3 5 7 9"},
	{"minor-ninth", "1 b3 5 b7 9"},
	{"dominant-11th", "1 3 5 b7 9 11"},
	{"major-11th", "1 3 5 7 9 11"},
	{"minor-11th", "1 b3 5 b7 9 11"},
	{"dominant-13th", "1 3 5 b7 9 11 13"},
	{"major-13th", "1 3 5 7 9 11 13"},
	{"minor-13th", "1 b3 5 b7 9 11 13"},
	{"suspended-second", "1 2 5"},
	{"suspended-fourth", "1 4 5"},
	{"power", "1 5"},
}

func TestKindsAreTheStandards(t *testing.T) {
	read := map[string]bool{}
	for _, k := range kinds {
		read[k.kind] = true
	}
	for _, tt := range standardKinds {
		require.True(t, read[tt.kind], tt.kind)
		var got []string
		for _, d := range qualities[tt.kind].Degrees() {
			got = append(got, d.String())
		}
		want := tt.degrees
		if tt.kind == "dominant-13th" || tt.kind == "major-13th" {
			want = strings.Replace(want, " 11", "", 1) // as players use the symbol
		}
		assert.Equal(t, want, strings.Join(got, " "), tt.kind)
	}
	for _, kind := range []string{"Neapolitan", "Italian", "French", "German", "pedal", "Tristan", "other"} {
		assert.True(t, read[kind], kind)
	}
	assert.Len(t, kinds, 32, "and none, which is no chord")
}

func TestEveryKindIsReadAsItsSymbol(t *testing.T) {
	for _, k := range kinds {
		if k.kind == otherKind {
			continue // its degrees spell it
		}
		got, err := readChord(`<harmony><root><root-step>E</root-step><root-alter>-1</root-alter></root><kind>` + k.kind + `</kind></harmony>`)
		require.NoError(t, err, k.kind)
		q, err := chord.ParseQuality(k.symbol)
		require.NoError(t, err)
		assert.Equal(t, chord.New(chord.MustParse("Eb").Root(), q).String(), got, k.kind)
	}
}
