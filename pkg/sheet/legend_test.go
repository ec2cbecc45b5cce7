package sheet

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fifthwise/pkg/chart"
	"fifthwise/pkg/function"
)

// TestLegend: every sign that a drawing has is explained, and no other.
func TestLegend(t *testing.T) {
	const (
		home    = "the home key"
		other   = "another key, dashed in its own way"
		fifth   = "a dominant resolves down a fifth"
		half    = "a dominant resolves down a half step"
		below   = "the chord it resolves to is on a line below"
		twoFive = "a two-five"
		phrase  = "a phrase, by its letter in the form"
		later   = "below it, of a later time through"
	)
	tests := []struct {
		name, chart string
		with        []string
		without     []string
	}{
		{"a chord", "Key: C major\n| C6 |", nil, []string{home, other, fifth, half, below, twoFive}},
		{"one key", "Key: C major\n| Dm7 | G7 | Cmaj7 | C6 |", []string{fifth, twoFive}, []string{home, other, half, below}},
		{"two keys", "Key: C major\n| Dm7 | G7 | Cmaj7 | C6 | Fm7 | Bb7 | Ebmaj7 | Eb6 | Dm7 | G7 | Cmaj7 | C6 |", []string{home, other, fifth}, []string{below}},
		{"over the end of a line", "Key: C major\n| Cmaj7 | Am7 | Dm7 | G7 | Cmaj7 | C6 |", []string{fifth, below}, []string{home, other, half}},
		{"phrases", "[Verse]\n" + verse + "||\n[Chorus]\n" + chorus, []string{phrase}, []string{later}},
		{"one phrase", "[Verse]\n" + verse + "|", nil, []string{phrase, later}},
		{"a phrase of a later time through", "[Verse]\n|: Cmaj7 | Am7 | 1. Em7 | A7 | Dm7 | G7 :| 2. Fm7 | Bb7 | Ebmaj7 | % | Abmaj7 | Db7 | C6 | C6 |", []string{phrase, later}, nil},
		{"a substitute alone", "Key: C major\n| Cmaj7 | C6 | Db7 | Cmaj7 |", []string{half}, []string{fifth, below, twoFive}},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			c, err := chart.Parse(test.chart)
			require.NoError(t, err)
			a := function.Analyze(c)
			drawn := string(SVG(c, &a, Style{}))
			for _, words := range test.with {
				assert.Equal(t, 1, strings.Count(drawn, ">"+words+"<"), words)
			}
			for _, words := range test.without {
				assert.NotContains(t, drawn, ">"+words+"<")
			}
		})
	}
}
