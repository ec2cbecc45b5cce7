package function_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fifthwise/pkg/chart"
	"fifthwise/pkg/chord"
	"fifthwise/pkg/function"
	"fifthwise/pkg/key"
)

// label is a key, a degree and the target of an applied chord.
type label struct {
	key            key.Key
	degree, target function.Degree
}

func (l label) String() string {
	if l.target.IsValid() {
		return fmt.Sprintf("%v: %v/%v", l.key, l.degree, l.target)
	}
	return fmt.Sprintf("%v: %v", l.key, l.degree)
}

// is compares labels. Keys are compared by sound and third: of a few chords
// nobody can tell the church modes.
func (l label) is(m label) bool {
	return l.degree == m.degree && l.target == m.target && l.key.Tonic().Sounds(m.key.Tonic()) && l.key.IsMinor() == m.key.IsMinor()
}

// read gives the labels of each chord, those printed at once together.
func (p *progression) read(t *testing.T) (list [][]label) {
	t.Helper()
	var k key.Key
	for word := range strings.FieldsSeq(p.labels) {
		var equal []label
		for name := range strings.SplitSeq(word, "=") {
			l := label{key: k}
			if tonic, rest, ok := strings.Cut(name, ":"); ok {
				l.key = mustKey(t, tonic)
				name = rest
			}
			degree, target, applied := strings.Cut(name, "/")
			l.degree = mustDegree(t, degree)
			if applied {
				l.target = mustDegree(t, target)
			}
			if len(equal) == 0 {
				k = l.key
			}
			equal = append(equal, l)
		}
		list = append(list, equal)
	}
	return list
}

func mustKey(t *testing.T, s string) key.Key {
	t.Helper()
	k, err := key.Parse(s)
	require.NoError(t, err)
	return k
}

func mustDegree(t *testing.T, s string) function.Degree {
	t.Helper()
	d, err := function.ParseDegree(s)
	require.NoError(t, err)
	return d
}

// played reads a chart with its key as a hint.
func (p *progression) played(t *testing.T, hint key.Key) chart.Chart {
	t.Helper()
	text := p.chart
	if !strings.Contains(text, "|") {
		text = strings.Join(strings.Fields(text), " | ")
	}
	c, err := chart.Parse(text)
	require.NoError(t, err, p.chart)
	c.Key = hint
	return c
}

// tally counts chords whose label was asked for.
type tally struct{ chords, shown, among int }

// compare reads a progression. Every label must be among the readings of its
// chord; where it is not the one shown, that is logged.
func (n *tally) compare(t *testing.T, p *progression) {
	t.Helper()
	want := p.read(t)
	a := function.Analyze(p.played(t, want[0][0].key))
	require.Len(t, a.Chords, len(want), p.chart)
	for i, labels := range want {
		n.chords++
		r := &a.Chords[i]
		shown := label{r.Key, r.Degree, r.Target}
		if shown.isOneOf(labels) {
			n.shown++
			n.among++
			continue
		}
		var others []string
		among := false
		for _, alt := range a.Alternatives(i, function.MaxAlternatives) {
			l := label{alt.Key, alt.Degree, alt.Target}
			among = among || l.isOneOf(labels)
			others = append(others, fmt.Sprintf("%v %.2f", l, alt.Confidence))
		}
		if among {
			n.among++
		}
		report := t.Logf
		if !among {
			report = t.Errorf
		}
		report("%s, chord %d, %s: want %v, shown %v %.2f, others %s (%s)", p.chart, i+1, r.Event.Symbol, labels, shown, r.Confidence, strings.Join(others, ", "), p.where)
	}
}

func (l label) isOneOf(list []label) bool {
	for _, m := range list {
		if l.is(m) {
			return true
		}
	}
	return false
}

// leastShown is the share of published labels that must be the ones shown.
const leastShown = .90

func TestPublishedProgressions(t *testing.T) {
	require.GreaterOrEqual(t, len(published), 70)
	compareAll(t, published)
}

// Common practice, no source.
func TestCommonProgressions(t *testing.T) {
	require.GreaterOrEqual(t, len(practice), 40)
	compareAll(t, practice)
}

func compareAll(t *testing.T, list []progression) {
	t.Helper()
	var n tally
	for i := range list {
		n.compare(t, &list[i])
	}
	share := float64(n.shown) / float64(n.chords)
	t.Logf("%d progressions, %d chords: %.3f shown, %.3f among the readings", len(list), n.chords, share, float64(n.among)/float64(n.chords))
	assert.GreaterOrEqual(t, share, leastShown)
}

func TestPublishedChords(t *testing.T) {
	for _, row := range publishedChords {
		k := mustKey(t, row.key)
		chords, numerals := strings.Fields(row.chords), strings.Fields(row.numerals)
		require.Len(t, numerals, len(chords), row.where)
		for i, symbol := range chords {
			n, err := function.ParseNumeral(numerals[i])
			require.NoError(t, err, row.where)
			assert.Equal(t, symbol, n.In(k).String(), "%s in %s, %s", numerals[i], row.key, row.where)

			in := k
			if n.Target().IsValid() {
				in = key.New(n.Target().Above(k.Tonic()), key.Major)
			}
			head, _, _ := strings.Cut(numerals[i], "/")
			assert.Equal(t, head, function.NumeralOf(chord.MustParse(symbol), in).String(), "%s in %s, %s", symbol, in, row.where)
		}
	}
}
