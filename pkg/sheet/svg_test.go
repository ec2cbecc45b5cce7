package sheet

import (
	"flag"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"fifthwise/pkg/chart"
	"fifthwise/pkg/function"
	"fifthwise/pkg/pitch"
)

var update = flag.Bool("update", false, "write the drawings under testdata anew")

// golden are the charts whose drawings are held, byte for byte, against those
// under testdata.
var golden = []string{"crowded", "eight", "turns"}

func TestGoldenDrawings(t *testing.T) {
	held := 0
	for _, s := range samples(t) {
		if !slices.Contains(golden, s.name) {
			continue
		}
		held++
		file := filepath.Join("testdata", s.name+".svg")
		if *update {
			require.NoError(t, os.WriteFile(file, s.svg, 0o644))
		}
		want, err := os.ReadFile(file)
		require.NoError(t, err)
		assert.Equal(t, string(want), string(s.svg), s.name)
	}
	assert.Len(t, golden, held)
}

func TestDrawings(t *testing.T) {
	for _, s := range samples(t) {
		t.Run(s.name, func(t *testing.T) {
			checkDrawing(t, s.chart, &s.analysis, s.svg)
			again := SVG(s.chart, &s.analysis, Style{Steps: true})
			assert.Equal(t, string(s.svg), string(again), "the same twice")
		})
	}
}

// failing is a test of either kind.
type failing interface {
	Errorf(format string, args ...any)
	FailNow()
}

// checkDrawing holds a drawing against its chart: it consists of what it may,
// is named and described, and says every chord with its numeral, as played
// first, but in bars that are the one before again.
func checkDrawing(t failing, c chart.Chart, a *function.Analysis, svg []byte) {
	all, err := elements(svg)
	require.NoError(t, err, string(svg))
	require.NotEmpty(t, all)
	assert.Equal(t, "svg", all[0].name)
	title := printed(c.Title)
	if title == "" {
		title = "Chord chart"
	}
	assert.Equal(t, title, named(all, "title")[0].text)
	assert.Contains(t, named(all, "desc")[0].text, "Chord chart with numerals")

	symbols, numerals := drawnBars(all)
	require.Len(t, symbols, len(c.Bars))
	var before []string
	var wantNumerals []string
	read := readings(a)
	for i, b := range c.Bars {
		var want []string
		for _, s := range b.Chords {
			want = append(want, symbol(s.Symbol, s.Chord, pitch.Unicode))
		}
		if len(symbols[i]) == 1 && symbols[i][0] == again {
			assert.Equal(t, before, want, "bar %d is not the one before", b.Number)
			continue
		}
		assert.Equal(t, want, symbols[i], "bar %d", b.Number)
		for _, k := range read[i] {
			if r := &a.Chords[k]; !r.Event.Chord.IsSilence() {
				wantNumerals = append(wantNumerals, r.Numeral.Text(function.Upper, r.Key.Mode(), pitch.Unicode))
			}
		}
		before = want
	}
	for i := range numerals {
		numerals[i] = strings.TrimSuffix(numerals[i], "*")
	}
	assert.Equal(t, wantNumerals, numerals)
}

// readings are the chords of the analysis that start in each bar the first time
// through.
func readings(a *function.Analysis) map[int][]int {
	read := map[int][]int{}
	for i := range a.Chords {
		if e := a.Chords[i].Event; e.Pass == 1 {
			read[e.BarIndex] = append(read[e.BarIndex], i)
		}
	}
	return read
}

// again stands for the sign of a bar that is the one before again.
const again = "%"

// drawnBars are the chords in the groups of bars, parts of a bar together, and
// the numerals in theirs.
func drawnBars(all []*element) (symbols [][]string, numerals []string) {
	last := ""
	for _, e := range all {
		switch {
		case e.name == "g" && e.attributes["role"] == "group":
			label := e.attributes["aria-label"]
			end := strings.IndexAny(label, ",:")
			if end < 0 {
				end = len(label)
			}
			if label[:end] != last {
				symbols = append(symbols, nil)
			}
			last = label[:end]
			if strings.HasSuffix(label, ": the bar before again") {
				symbols[len(symbols)-1] = append(symbols[len(symbols)-1], again)
			}
		case e.name == "text" && e.parent.attributes["role"] == "group" && e.attributes["font-size"] == number(rootSize):
			s := strings.TrimPrefix(e.text, "(")
			if strings.Count(s, ")") > strings.Count(s, "(") {
				s = strings.TrimSuffix(s, ")")
			}
			symbols[len(symbols)-1] = append(symbols[len(symbols)-1], s)
		case e.name == "text" && e.parent.name == "g" && e.parent.attributes["role"] == "":
			numerals = append(numerals, e.text)
		}
	}
	return symbols, numerals
}

// TestTextSaysEveryChord: plain text has every symbol of the chart in its order,
// bars that are the one before again apart.
func TestTextSaysEveryChord(t *testing.T) {
	for _, s := range samples(t) {
		t.Run(s.name, func(t *testing.T) { checkText(t, s.chart, Text(s.chart, &s.analysis, Style{})) })
	}
}

func checkText(t failing, c chart.Chart, text string) {
	bars := textBars(c, text)
	require.Len(t, bars, len(c.Bars), text)
	var before []string
	for i, b := range c.Bars {
		var want []string
		for _, s := range b.Chords {
			want = append(want, symbol(s.Symbol, s.Chord, pitch.ASCII))
		}
		if len(bars[i]) == 1 && bars[i][0] == again {
			assert.Equal(t, before, want, "bar %d is not the one before", b.Number)
			continue
		}
		assert.Equal(t, want, bars[i], "bar %d", b.Number)
		before = want
	}
}

var (
	barSign  = regexp.MustCompile(`^(\|[|:]?|:\|)$`)
	noSymbol = regexp.MustCompile(`^(/|[\d,–]+\.|\d+/\d+)$`) // slashes, endings, meters
)

// textBars are the symbols of each bar of a text, a simile as one.
func textBars(c chart.Chart, text string) (bars [][]string) {
	text, _, _ = strings.Cut(text, "\n"+otherwise)
	begins := false
	for row := range strings.Lines(text) {
		if !strings.Contains(row, "|") || row[0] != ' ' {
			continue // titles and names stand at the edge
		}
		for i, w := range strings.Fields(row) {
			if i == 0 && isNumber(w) {
				continue
			}
			if barSign.MatchString(w) {
				begins = true
				continue
			}
			if begins {
				bars, begins = append(bars, nil), false
			}
			if noSymbol.MatchString(w) {
				continue
			}
			w, _, _ = strings.Cut(strings.TrimPrefix(w, "("), "@")
			if strings.Count(w, ")") > strings.Count(w, "(") {
				w = strings.TrimSuffix(w, ")")
			}
			bars[len(bars)-1] = append(bars[len(bars)-1], w)
		}
	}
	return bars
}

func isNumber(s string) bool { return strings.Trim(s, "0123456789") == "" }

// hostile are texts that would break a drawing were they not escaped.
var hostile = []string{
	`</title><script>alert(1)</script>`,
	`"><svg onload="alert(1)">`,
	`' onmouseover='alert(1)`,
	`<!--`, `]]>`, `<![CDATA[`, `&lt;&amp;&#x0;`, `<?xml version="1.0"?>`, `%s%d`, `{{.}}`,
	"a\x00b\x1b[31mc", "line\nline\r\nline", "\u202eright to left", "\ufffe\uffff", "e\u0301\u20dd", "𝄞 合唱",
	strings.Repeat("endless", 60), strings.Repeat("W ", 300), "", " ",
}

// TestHostileTexts draws charts with titles and sections of any kind. Neither
// drawing nor text fails, and what is written stays text.
func TestHostileTexts(t *testing.T) {
	texts := rapid.OneOf(rapid.SampledFrom(hostile), rapid.String())
	bars := []string{"C", "Dm7 G7", "% ", "F / C7 B7", "Gm7 C7@3.5", "N.C.", "(A7b9 | Dm7 G7)", "3/4 Am7 | 4/4 F", "Ebm11(b5) Ab13(b9,#11) B7(b9,#9,#11,b13) E", "|: Cmaj7 | 1. G7 :| 2. E7"}
	rapid.Check(t, func(t *rapid.T) {
		written := strings.Join(rapid.SliceOfN(rapid.SampledFrom(bars), 1, 24).Draw(t, "bars"), " | ")
		c, err := chart.Parse(strings.ReplaceAll("| C | "+written+" |", "| |:", "|:"))
		require.NoError(t, err)
		c.Title = texts.Draw(t, "title")
		for i := range c.Bars {
			c.Bars[i].Double = rapid.IntRange(0, 7).Draw(t, "double") == 0
			if rapid.IntRange(0, 3).Draw(t, "named") == 0 {
				c.Bars[i].Section = texts.Draw(t, "section")
			}
		}
		a := function.Analyze(c)
		svg := SVG(c, &a, Style{Steps: true})
		checkDrawing(t, c, &a, svg)
		all, err := elements(svg)
		require.NoError(t, err)
		for _, b := range c.Bars {
			checkSaid(t, all, printed(b.Section))
		}
		for _, p := range sizes {
			checkPages(t, c, &a, Pages(c, &a, Style{Steps: true}, p), p)
		}
		text := Text(c, &a, Style{})
		checkText(t, c, text)
		for row := range strings.Lines(text) {
			assert.LessOrEqual(t, utf8.RuneCountInString(strings.TrimRight(row, "\n")), 80)
		}
		assert.False(t, strings.ContainsAny(text, "\x00\x1b\r"))
	})
}

// TestHostileSymbols draws chords with symbols that no parser lets through.
func TestHostileSymbols(t *testing.T) {
	for _, text := range hostile {
		for _, written := range []string{text, "C" + text, "(" + text + ")", "Am7/" + text} {
			c, err := chart.Parse("| Dm7 G7 | N.C. | (C6) |")
			require.NoError(t, err)
			for i := range c.Bars {
				for k := range c.Bars[i].Chords {
					c.Bars[i].Chords[k].Symbol = written
				}
			}
			a := function.Analyze(c)
			_, err = elements(SVG(c, &a, Style{Steps: true}))
			require.NoError(t, err, "%q", written)
		}
	}
}

// checkSaid finds a text that may stand in several lines.
func checkSaid(t failing, all []*element, s string) {
	var said strings.Builder
	for _, e := range named(all, "text") {
		said.WriteString(strings.Join(strings.Fields(e.text), ""))
	}
	assert.Contains(t, said.String(), strings.Join(strings.Fields(s), ""))
}
