package sheet

import (
	"fmt"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fifthwise/pkg/chart"
	"fifthwise/pkg/function"
)

// linked is a page with its links.
func linked(t *testing.T, text string) *page {
	c, err := chart.Parse(text)
	require.NoError(t, err)
	a := function.Analyze(c)
	p := newPage(c, &a, Style{})
	p.grid(&svgRuler).lines(p.bars)
	p.link()
	return p
}

// said are links as text: "[Dm7 G7]" for a bracket, "G7 -> C" for an arrow, each
// with a ~ where it is dashed.
func said(p *page) []string {
	all := []string{}
	for _, l := range p.links {
		from, to := p.bars[l.from.bar].marks[l.from.mark].symbol, p.bars[l.to.bar].marks[l.to.mark].symbol
		s := fmt.Sprintf("%s -> %s", from, to)
		if l.kind == bracket {
			s = fmt.Sprintf("[%s %s]", from, to)
		}
		if l.dashed {
			s = "~" + s
		}
		all = append(all, s)
	}
	return all
}

// TestLinks: brackets tie a two to its five, arrows lead from dominants to where
// they resolve; solid where the root falls a fifth, dashed where it falls a half
// step (B. Nettles, R. Graf, The Chord Scale Theory and Jazz Harmony, on the
// signs of analysis, from memory). Rows marked with * are common practice, no
// source.
func TestLinks(t *testing.T) {
	const home = "Key: C major\n"
	tests := []struct {
		name, chart string
		want        []string
	}{
		{"two-five-one", "| Dm7 | G7 | Cmaj7 | C6 |", []string{"[Dm7 G7]", "G7 -> Cmaj7"}},
		{"in minor", "Key: A minor\n| Bm7b5 | E7b9 | Am7 | Am6 |", []string{"[Bm7b5 E7b9]", "E7b9 -> Am7"}},
		{"substitute", "| Dm7 | Db7 | Cmaj7 | C6 |", []string{"~[Dm7 Db7]", "~Db7 -> Cmaj7"}},
		{"secondary dominant", "| Cmaj7 | A7 | Dm7 | G7 | Cmaj7 | C6 |", []string{"A7 -> Dm7", "[Dm7 G7]", "G7 -> Cmaj7"}},
		{"secondary dominant with its two", "| Cmaj7 | Em7b5 A7 | Dm7 | G7 | Cmaj7 | C6 |", []string{"[Em7b5 A7]", "A7 -> Dm7", "[Dm7 G7]", "G7 -> Cmaj7"}},
		{"dominants in a row", "| Cmaj7 | E7 | A7 | D7 | G7 | Cmaj7 |", []string{"E7 -> A7", "A7 -> D7", "D7 -> G7", "G7 -> Cmaj7"}},
		{"a dominant over its two", "| Cmaj7 | D7 | Dm7 | G7 | Cmaj7 | C6 |", []string{"D7 -> G7", "[Dm7 G7]", "G7 -> Cmaj7"}},
		{"* deceptive: no arrow", "| Cmaj7 | Fmaj7 | Dm7 | G7 | Am7 | Fmaj7 | C6 | C6 |", []string{"[Dm7 G7]"}},
		{"* from a suspension and its seventh one arrow", "| Dm7 | G7sus G7 | Cmaj7 | C6 |", []string{"[Dm7 G7sus]", "G7 -> Cmaj7"}},
		{"* from a dominant that is struck again behind a silence one arrow", "| Cmaj7 | A7 | N.C. A7 | Dm7 | G7 | Cmaj7 |", []string{"A7 -> Dm7", "[Dm7 G7]", "G7 -> Cmaj7"}},
		{"* from a dominant that comes again with its two one arrow", "| Cmaj7 | A7 | Em7b5 A7 | Dm7 | G7 | Cmaj7 |", []string{"[Em7b5 A7]", "A7 -> Dm7", "[Dm7 G7]", "G7 -> Cmaj7"}},
		{"a triad is no dominant's two", "| Dm | G7 | Cmaj7 | C6 |", []string{"G7 -> Cmaj7"}},
		{"no chord of its own", "| Dm7 | G7 | N.C. | C6 |", []string{"[Dm7 G7]", "G7 -> C6"}},
		{"* the sign for a bar again bears nothing", "| Cmaj7 | % | Dm7 | G7 | % | Cmaj7 |", []string{"[Dm7 G7]", "G7 -> Cmaj7"}},
		{"* … nor takes an arrow away", "| Cmaj7 | Dm7 | G7 | % | Cmaj7 | C6 |", []string{"[Dm7 G7]", "G7 -> Cmaj7"}},
		{"* nothing leads back to a repeat's start", "|: Cmaj7 | Am7 | Dm7 | G7 :|", []string{"[Dm7 G7]"}},
		{"* an ending leads to what comes behind it", "|: Cmaj7 | Am7 | 1. Dm7 | G7 :| 2. Dm7 G7 | Cmaj7 |", []string{"[Dm7 G7]", "[Dm7 G7]", "G7 -> Cmaj7"}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			text := tt.chart
			if text[0] == '|' {
				text = home + text
			}
			assert.Equal(t, tt.want, said(linked(t, text)))
		})
	}
}

// TestArcLevels: arcs that share some of their way do not lie on one another.
func TestArcLevels(t *testing.T) {
	tests := []struct {
		name string
		arcs []stroke
		want []int
	}{
		{"apart", []stroke{{from: 0, to: 10}, {from: 20, to: 30}}, []int{0, 0}},
		{"one begins where one ends", []stroke{{from: 0, to: 10}, {from: 10, to: 30}}, []int{0, 0}},
		{"within", []stroke{{from: 0, to: 30}, {from: 10, to: 20}}, []int{1, 0}},
		{"to one end", []stroke{{from: 0, to: 30}, {from: 10, to: 30}}, []int{1, 0}},
		{"crossing", []stroke{{from: 0, to: 20}, {from: 10, to: 35}}, []int{0, 1}},
		{"over two", []stroke{{from: 0, to: 40}, {from: 5, to: 15}, {from: 20, to: 30}}, []int{1, 0, 0}},
		{"over one that is over one", []stroke{{from: 0, to: 40}, {from: 5, to: 30}, {from: 10, to: 20}}, []int{2, 1, 0}},
		{"none", nil, []int{}},
	}
	for _, tt := range tests {
		levels, highest := arcLevels(tt.arcs)
		assert.Equal(t, tt.want, levels, tt.name)
		assert.Equal(t, slices.Max(append(levels, 0)), highest, tt.name)
	}
}

// TestStrokes: a link that goes from line to line leaves the first at its end and
// enters the next at its start.
func TestStrokes(t *testing.T) {
	p := linked(t, "Key: C major\n| Cmaj7 | Am7 | Cmaj7 | Dm7 | G7 | Cmaj7 | C6 | A7 | Dm7 | G7 | C6 | C6 |")
	g := p.grid(&svgRuler)
	lines := g.lines(p.bars)
	require.Len(t, lines, 3)
	at := func(b *placed, k int) (from, to float64) { return b.at[k-b.first], b.at[k-b.first] }
	for _, tt := range []struct {
		kind linkKind
		want []string
	}{
		{bracket, []string{"leaves", "enters", "whole"}},
		{arrow, []string{"whole", "leaves", "enters", "whole"}},
	} {
		var got []string
		for i := range lines {
			for _, s := range p.strokes(&lines[i], tt.kind, at) {
				assert.Less(t, s.from, s.to+1)
				switch {
				case s.leaves:
					got = append(got, "leaves")
					assert.Equal(t, lines[i].end, s.to)
				case s.enters:
					got = append(got, "enters")
					assert.Equal(t, lines[i].bars[0].content, s.from)
				default:
					got = append(got, "whole")
				}
			}
		}
		assert.Equal(t, tt.want, got)
	}
}
