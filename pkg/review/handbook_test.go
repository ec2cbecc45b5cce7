package review_test

import (
	"fmt"
	"regexp"
	"slices"
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

var roman = regexp.MustCompile(`VII|VI|IV|V|III|II|I|vii|vi|iv|v|iii|ii|i`)

// degrees by semitones above the tonic.
var degrees = []string{"I", "bII", "II", "bIII", "III", "IV", "#IV", "V", "bVI", "VI", "bVII", "VII"}

// shifted is a numeral so many semitones higher, and whether it is right all the
// same: a diminished seventh bears the name of each of its notes, the tonic over its
// fifth that of the dominant, and III, VI and VII of minor are counted with or
// without their flats. Of a handbook's names, such as N6, it is the supertonic.
func shifted(numeral string, by int) (other string, isRight bool) {
	if strings.HasPrefix(numeral, "N") || strings.Contains(numeral, "+6") {
		return "ii7", false
	}
	at := roman.FindStringIndex(numeral)
	accidental, word, quality := numeral[:at[0]], numeral[at[0]:at[1]], numeral[at[1]:]
	from := slices.Index(degrees, strings.ToUpper(word)) + strings.Count(accidental, "#") - strings.Count(accidental, "b")
	degree := degrees[(from+by)%len(degrees)]
	if word == strings.ToLower(word) {
		degree = strings.ToLower(degree)
	}
	isDiminished := strings.HasPrefix(quality, "o") && strings.Trim(quality, "o") != ""
	isRight = isDiminished && by%3 == 0 || strings.EqualFold(numeral, "I64") && by == 7 || strings.Trim(degree, "b#") == word
	return degree + quality, isRight
}

// The same numerals on each of the eleven wrong degrees are found out.
func TestPublishedAnswersShifted(t *testing.T) {
	wrong := 0
	for i := range published {
		e := &published[i]
		c := chartOf(t, e.chart)
		answer := e.answerOf(t, c)
		c.Key = answer.Regions[0].Key
		a := function.Analyze(c)
		printed := answer.Numerals
		for by := 1; by < len(degrees); by++ {
			answer.Numerals = make([]string, len(printed))
			isRight := make([]bool, len(printed))
			for j, n := range printed {
				answer.Numerals[j], isRight[j] = shifted(n, by)
			}
			r, err := review.Of(&a, answer)
			require.NoError(t, err, e.where)
			for j, m := range r.Chords {
				if isRight[j] {
					continue
				}
				wrong++
				assert.Equal(t, review.Contradicts, m.Verdict, "%s, chord %d, %s for %s: %s", e.where, j+1, answer.Numerals[j], m.Expected, m.Reason)
			}
		}
	}
	t.Logf("%d wrong numerals", wrong)
}

// The figures that handbooks print say what stands in the bass of their charts.
func TestPublishedFigures(t *testing.T) {
	figures := 0
	for i := range published {
		e := &published[i]
		c := chartOf(t, e.chart)
		answer := e.answerOf(t, c)
		a := function.Analyze(c)
		r, err := review.Of(&a, answer)
		require.NoError(t, err, e.where)
		for j, m := range r.Chords {
			if strings.ContainsAny(strings.TrimSuffix(answer.Numerals[j], "7"), "23456") {
				figures++
			}
			assert.Empty(t, m.Note, "%s, chord %d", e.where, j+1)
		}
	}
	t.Logf("%d figures", figures)
	assert.Greater(t, figures, 50)
}
