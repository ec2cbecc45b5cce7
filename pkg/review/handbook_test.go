package review_test

import (
	"fmt"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fifthwise/pkg/chart"
	"fifthwise/pkg/function"
	"fifthwise/pkg/key"
	"fifthwise/pkg/review"
)

// chartOf reads a chart; without bar lines each chord is a bar.
func chartOf(t testing.TB, text string) chart.Chart {
	t.Helper()
	if !strings.Contains(text, "|") {
		text = strings.Join(strings.Fields(text), " | ")
	}
	c, err := chart.Parse(text)
	require.NoError(t, err, text)
	return c
}

// answerOf reads the keys and numerals of an answer to a chart without silences.
func (e *example) answerOf(t testing.TB, c chart.Chart) (a review.Answer) {
	t.Helper()
	played := c.Played()
	for word := range strings.FieldsSeq(e.answer) {
		name, isKey := strings.CutSuffix(word, ":")
		if !isKey {
			a.Numerals = append(a.Numerals, word)
			continue
		}
		k, err := key.Parse(name)
		require.NoError(t, err, e.where)
		at := played[len(a.Numerals)]
		a.Regions = append(a.Regions, review.Region{Key: k, Bar: at.Bar, Beat: at.Beat})
	}
	return a
}

// leastHeld is the share of published numerals that must agree or be defensible.
const leastHeld = .98

// The numerals that handbooks print, given as an answer.
func TestPublishedAnswers(t *testing.T) {
	require.GreaterOrEqual(t, len(published), 60)
	verdicts := map[review.Verdict]int{}
	all, found := 0, map[string]string{}
	for i := range published {
		e := &published[i]
		c := chartOf(t, e.chart)
		answer := e.answerOf(t, c)
		c.Key = answer.Regions[0].Key
		a := function.Analyze(c)
		r, err := review.Of(&a, answer)
		require.NoError(t, err, e.where)
		for j, m := range r.Chords {
			all++
			verdicts[m.Verdict]++
			if m.Verdict != review.Contradicts {
				continue
			}
			place := fmt.Sprintf("%s, chord %d", e.where, j+1)
			found[place] = against[place]
			assert.NotEmpty(t, against[place], "%s: %s in %s: %s", place, answer.Numerals[j], e.chart, m.Reason)
		}
	}
	assert.Equal(t, against, found)
	held := float64(verdicts[review.Agrees]+verdicts[review.Defensible]) / float64(all)
	t.Logf("%d progressions, %d numerals, %v: %.3f held", len(published), all, verdicts, held)
	assert.GreaterOrEqual(t, held, leastHeld)
}

var (
	roman = regexp.MustCompile(`VII|VI|IV|V|III|II|I|vii|vi|iv|v|iii|ii|i`)
	after = map[string]string{"I": "II", "II": "III", "III": "IV", "IV": "V", "V": "VI", "VI": "VII", "VII": "I"}
)

// shifted is a numeral with the degree behind its own; of the handbooks' names
// the supertonic.
func shifted(numeral string) string {
	at := roman.FindStringIndex(numeral)
	if strings.HasPrefix(numeral, "N") || strings.Contains(numeral, "+6") {
		return "ii7"
	}
	word := numeral[at[0]:at[1]]
	next := after[strings.ToUpper(word)]
	if word == strings.ToLower(word) {
		next = strings.ToLower(next)
	}
	return numeral[:at[0]] + next + numeral[at[1]:]
}

// The same numerals on wrong degrees are all found out.
func TestPublishedAnswersShifted(t *testing.T) {
	for i := range published {
		e := &published[i]
		c := chartOf(t, e.chart)
		answer := e.answerOf(t, c)
		c.Key = answer.Regions[0].Key
		for j, n := range answer.Numerals {
			answer.Numerals[j] = shifted(n)
		}
		a := function.Analyze(c)
		r, err := review.Of(&a, answer)
		require.NoError(t, err, e.where)
		assert.Zero(t, r.Score, e.where)
		for j, m := range r.Chords {
			assert.Equal(t, review.Contradicts, m.Verdict, "%s, chord %d, %s for %s: %s", e.where, j+1, answer.Numerals[j], m.Expected, m.Reason)
		}
	}
}
