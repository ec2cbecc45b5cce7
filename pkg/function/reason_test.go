package function_test

import (
	"regexp"
	"testing"
	"unicode"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fifthwise/pkg/function"
)

// Reasons are sentences: never empty for a chord that sounds, with no mark left
// unfilled, upper case first, a full stop last.
func TestReasonsAreSentences(t *testing.T) {
	charts := ruledCharts()
	require.Greater(t, len(charts), 40)
	roles := map[function.Role]bool{}
	for _, text := range charts {
		a := analyze(t, text)
		for i := range a.Chords {
			if a.Chords[i].Event.Chord.IsSilence() {
				assert.Empty(t, a.Reason(i))
				continue
			}
			roles[a.Chords[i].Role] = true
			assertSentence(t, a.Reason(i), text)
			for _, alt := range a.Alternatives(i, function.MaxAlternatives) {
				assertSentence(t, alt.Reason(), text)
				assert.NotEqual(t, a.Reason(i), alt.Reason(), text)
			}
		}
		for r := range a.Regions {
			said := a.Evidence(r)
			assert.NotEmpty(t, said, text)
			for _, s := range said {
				assert.NotEmpty(t, s, text)
				assert.NotContains(t, s, "{", text)
				assert.NotContains(t, s, "invalid", text)
			}
		}
	}
	for r := function.Diatonic; r <= function.Chromatic; r++ {
		assert.True(t, roles[r], "no chart shows a %v", r)
	}
}

// doubled finds a word or a mark twice over, as a bad template leaves them.
var doubled = regexp.MustCompile(`  |; ;|\.\.|;\.| [,;.]|%!`)

func assertSentence(t *testing.T, s, text string) {
	t.Helper()
	if !assert.NotEmpty(t, s, text) {
		return
	}
	assert.NotRegexp(t, `[{}]`, s, text)
	assert.NotContains(t, s, "invalid", text)
	assert.NotRegexp(t, doubled, s, text)
	assert.True(t, unicode.IsUpper([]rune(s)[0]), "%s: %s", s, text)
	assert.Equal(t, ".", s[len(s)-1:], "%s: %s", s, text)
}

func TestReasonsOutOfRange(t *testing.T) {
	a := analyze(t, "C | N.C. | G7")
	for _, i := range []int{-1, 1, 3, 1 << 40} {
		assert.Empty(t, a.Reason(i))
		assert.Empty(t, a.Alternatives(i, function.MaxAlternatives))
	}
	assert.Nil(t, a.Evidence(-1))
	assert.Nil(t, a.Evidence(len(a.Regions)))
	assert.Empty(t, function.Alternative{}.Reason())
	var none function.Analysis
	assert.Empty(t, none.Reason(0))
	assert.Nil(t, none.Evidence(0))
}

// The notes and names that sentences give are the chord's own; common practice,
// no source.
func TestReasons(t *testing.T) {
	tests := []struct{ chart, chord, want string }{
		{"Cmaj7 | A7 | Dm7 | G7 | C6", "A7", "The dominant of II: C# is the leading tone to D; it goes to Dm7."},
		{"Ebmaj7 | Fm7 Bb7 | Ebmaj7 | Ebmaj7", "Bb7", "The dominant of Eb major: D pulls up to Eb; it goes to Ebmaj7."},
		{"C | Am | F | G7", "G7", "The dominant of C major: B pulls up to C; it goes to C at the top."},
		{"C | F | G7 | Am | F | F | G7 | C", "G7", "The dominant of C major: B pulls up to C; it is turned aside to Am, a deceptive resolution."},
		{"Cmaj7 | Fm7 | Bb7 | Cmaj7", "Bb7", "The backdoor dominant: it comes home to C by a whole step up; it goes to Cmaj7."},
		{"E | C#m | Am | E", "Am", "The minor subdominant: C, the lowered sixth, is borrowed from E minor."},
		{"Am | Dm | E | Am", "Am", "Am is the tonic: A minor rests here."},
	}
	for _, tt := range tests {
		a := analyze(t, tt.chart)
		i := find(&a, tt.chord)
		require.GreaterOrEqual(t, i, 0)
		assert.Equal(t, tt.want, a.Reason(i), tt.chart)
	}
}

func TestEvidence(t *testing.T) {
	tests := []struct {
		name, chart string
		want        [][]string // by region
	}{
		{"a cadence", "C | F | G7 | C", [][]string{{"IV V7 I, bars 2–4"}}},
		{"one of each kind, the earliest", "C | F | G7 | C | F | G7 | C | Fm | C", [][]string{{"IV V7 I, bars 2–4", "IVm I, bars 8–9"}}},
		{"in one bar", "C | F G C C | Dm | C", [][]string{{"IV V I, bar 2"}}},
		{"its tonic first", "Dm7 | / / / / | / / / / | / / / /", [][]string{{"it begins on Im7, bar 1"}}},
		{"its tonic never", "Gm7 | C7 | Gm7 | C7 | Gm7 | C7 | Gm7 | C7", [][]string{{"F is aimed at and not reached"}}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			a := analyze(t, tt.chart)
			require.Len(t, a.Regions, len(tt.want), numerals(&a))
			for r, want := range tt.want {
				assert.Equal(t, want, a.Evidence(r))
			}
		})
	}
}
