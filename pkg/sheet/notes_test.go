package sheet

import (
	"strings"
	"testing"

	"fifthwise/pkg/chart"
	"fifthwise/pkg/function"
	"fifthwise/pkg/key"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestReadOtherwise changes readings by hand: whether a chart has such chords is
// for the analysis to say.
func TestReadOtherwise(t *testing.T) {
	c, err := chart.Parse("|: C | F G | 1. C | G :| 2. C | C |")
	require.NoError(t, err)
	a := function.Analyze(c)
	p := newPage(c, &a, Style{})
	require.Len(t, p.analysis.Chords, 10)
	read := func(name string, chords ...int) {
		for _, i := range chords {
			r := &p.analysis.Chords[i]
			r.Key = key.MustParse(name)
			r.Numeral = function.NumeralOf(r.Event.Chord, r.Key)
		}
	}
	read("C major", 0, 1, 2, 3, 4, 5, 6, 7, 8, 9)
	assert.Empty(t, p.readOtherwise())

	read("F major", 5, 6) // C and F the second time
	read("G major", 7)
	assert.Equal(t, [][]int{{5, 6}, {7}}, p.readOtherwise())
	assert.Equal(t, []string{"Bars 1–2, time 2, in F major: C V, F I", "Bar 2, time 2, in G major: G I"}, p.laterPasses())
}

// A star stands at the numerals that a later time through has otherwise.
func TestStars(t *testing.T) {
	c, err := chart.Parse("|: C | F G | 1. C | G :| 2. C | C |")
	require.NoError(t, err)
	a := function.Analyze(c)
	r := &a.Chords[5] // C the second time
	r.Key = key.MustParse("F major")
	r.Numeral = function.NumeralOf(r.Event.Chord, r.Key)
	p := newPage(c, &a, Style{})
	var starred []string
	for _, b := range p.bars {
		for _, m := range b.marks {
			if strings.HasSuffix(m.numeral, "*") {
				starred = append(starred, b.number+" "+m.numeral)
			}
		}
	}
	assert.Equal(t, []string{"1 I*"}, starred)
}
