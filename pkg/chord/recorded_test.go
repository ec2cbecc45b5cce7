package chord

import (
	"encoding/json"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fifthwise/pkg/pitch"
)

// differences are the qualities that a library reads otherwise than we do, by
// what stands behind the root, each with our reason.
var differences = map[string]map[string]string{
	"tonal": {
		"4":     "a stack of fourths there, a suspension elsewhere: refused",
		"11":    "no third there; MusicXML 4.0 has one",
		"m13":   "no eleventh there; MusicXML 4.0 has one",
		"7b13":  "no fifth there; b13 goes with one (Hutchinson ch. 31)",
		"9b13":  "no fifth there; b13 goes with one (Hutchinson ch. 31)",
		"7b5b9": "b5 is read as #11 there",
		"7b9b5": "b5 is read as #11 there",
		"7alt":  "#5 and #9 there; any of b5, #5, b9, #9 (Hutchinson ch. 31)",
		"m7#5":  "#5 is spelled b6 there",
	},
	"chord-symbol": {
		"4":         "a suspension there, a stack of fourths elsewhere: refused",
		"dim9":      "a minor seventh there, though a diminished one in its dim7",
		"11":        "no third there; MusicXML 4.0 has one",
		"maj11":     "no third there; MusicXML 4.0 has one",
		"7(11)":     "no third there; MusicXML 4.0 has one",
		"m(11)":     "a seventh and ninth there; a degree in brackets brings none",
		"7b13":      "no fifth there; b13 goes with one (Hutchinson ch. 31)",
		"7(b13)":    "no fifth there; b13 goes with one (Hutchinson ch. 31)",
		"9b13":      "no fifth there; b13 goes with one (Hutchinson ch. 31)",
		"7b9b13":    "no fifth there; b13 goes with one (Hutchinson ch. 31)",
		"7#9b13":    "no fifth there; b13 goes with one (Hutchinson ch. 31)",
		"7(#9,b13)": "no fifth there; b13 goes with one (Hutchinson ch. 31)",
		"sus9":      "9sus4 there; sus2 in Hutchinson ch. 31",
	},
}

// Notes as two general-purpose libraries read them (testdata/record): tonal
// note by note in the same spelling, chord-symbol, which spells by rule of
// thumb, by what sounds.
func TestRecorded(t *testing.T) {
	data, err := os.ReadFile("testdata/recorded.json")
	require.NoError(t, err)
	var recorded struct {
		Versions struct{ Tonal, ChordSymbol string }
		Symbols  []struct {
			Symbol             string
			Tonal, ChordSymbol []pitch.Note
		}
	}
	require.NoError(t, json.Unmarshal(data, &recorded))
	assert.Equal(t, "6.4.3", recorded.Versions.Tonal)
	assert.Equal(t, "4.0.0", recorded.Versions.ChordSymbol)

	compared := 0
	seen := map[string]bool{}
	compare := func(library, symbol string, theirs []pitch.Note, same func(Chord, []pitch.Note) bool) {
		if theirs == nil {
			return
		}
		compared++
		_, quality, err := pitch.Scan(symbol)
		require.NoError(t, err)
		quality, _, _ = strings.Cut(quality, "/")
		c, err := Parse(symbol)
		reason := differences[library][quality]
		if reason == "" {
			require.NoError(t, err)
			assert.True(t, same(c, theirs), "%s: %v, in %s %v", symbol, c.Notes(), library, theirs)
			return
		}
		seen[library+quality] = true
		assert.False(t, err == nil && same(c, theirs), "%s is no difference from %s any more", symbol, library)
	}
	for _, s := range recorded.Symbols {
		compare("tonal", s.Symbol, s.Tonal, sameSpelling)
		compare("chord-symbol", s.Symbol, s.ChordSymbol, sameSound)
	}
	assert.Greater(t, compared, 2000)
	for library, rows := range differences {
		for quality := range rows {
			assert.True(t, seen[library+quality], "%s has nothing on %q", library, quality)
		}
	}
}

// sameSpelling counts the bass among the notes, as tonal does.
func sameSpelling(c Chord, theirs []pitch.Note) bool {
	ours := c.Notes()
	if !slices.Contains(ours, c.Bass()) {
		ours = append(ours, c.Bass())
	}
	return slices.Equal(upward(ours), upward(theirs))
}

func upward(notes []pitch.Note) []pitch.Note {
	return slices.SortedFunc(slices.Values(notes), func(a, b pitch.Note) int { return a.Fifths() - b.Fifths() })
}

func sameSound(c Chord, theirs []pitch.Note) bool {
	var set uint16
	for _, n := range theirs {
		set |= 1 << n.Class()
	}
	return c.Classes() == set
}
