package sheet

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fifthwise/pkg/chart"
	"fifthwise/pkg/function"
)

// TestRhythm: chords that share a bar evenly stand alone, else slashes tell
// beats on which one is held, else the beat is told.
func TestRhythm(t *testing.T) {
	tests := []struct{ name, chart, want string }{
		{"one", "| C |", "C at 0"},
		{"two", "| C G7 |", "C at 0, G7 at 0.5"},
		{"three in 4/4", "| C F G7 |", "C at 0, F at 0.33, G7 at 0.67"},
		{"three in 3/4", "Meter: 3/4\n| C F G7 |", "C at 0, F at 0.33, G7 at 0.67"},
		{"slashes", "| C / / G7 |", "C at 0, / at 0.25, / at 0.5, G7 at 0.75"},
		{"beats that slashes tell", "| C G7@4 |", "C at 0, / at 0.25, / at 0.5, G7 at 0.75"},
		{"held into the bar", "| C | / / G7 / |", "/ at 0, / at 0.25, G7 at 0.5, / at 0.75"},
		{"off the beat", "| C G7@3.5 |", "C at 0, G7 at 0.62 on 3.5"},
		{"triplets", "| C F@7/3 G7@4 |", "C at 0, F at 0.33 on 7/3, G7 at 0.75 on 4"},
		{"12/8 in four", "Meter: 12/8\n| C / F G7 |", "C at 0, / at 0.25, F at 0.5, G7 at 0.75"},
		{"a pickup", "Pickup: 2\n| Dm7 G7 | C |", "Dm7 at 0, G7 at 0.5"},
		{"groups", "| C (A7 | Dm7 G7) |", "C at 0, (A7 at 0.5"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			c, err := chart.Parse(tt.chart)
			require.NoError(t, err)
			bar := 0
			if strings.HasPrefix(tt.want, "/") {
				bar = 1
			}
			p := newPage(c, &function.Analysis{}, Style{})
			var got []string
			for _, m := range p.bars[bar].marks {
				s := m.symbol
				if m.opens {
					s = "(" + s
				}
				s = fmt.Sprintf("%s at %.2g", s, m.at)
				if m.beat != "" {
					s += " on " + m.beat
				}
				got = append(got, s)
			}
			assert.Equal(t, tt.want, strings.Join(got, ", "))
		})
	}
}

// TestSimiles: a bar is the one before again only if all that stands in it is.
func TestSimiles(t *testing.T) {
	tests := []struct{ name, chart, want string }{
		{"again", "| C | C | % | F |", ".%%."},
		{"as written", "| C | Cmaj | F |", "..."},
		{"other rhythm", "| C F | C / / F |", ".."},
		{"a section begins", "| C | C | [B] | C | C |", ".%.%"},
		{"a repeat begins", "| C |: C | C :|", "..%"},
		{"an ending begins", "|: C | 1. C :| 2. C |", "..."},
		{"the meter changes", "| C | 3/4 C | C |", "..%"},
		{"a group", "| C | (C) | C |", "..."},
		{"a line begins", "| F | C | C | C | C | C |", "..%%.%"},
		{"held", "| C | / / / / | F |", "..."},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			c, err := chart.Parse(tt.chart)
			require.NoError(t, err)
			p := newPage(c, &function.Analysis{}, Style{})
			p.grid(&textRuler).lines(p.bars)
			got := ""
			for i := range p.bars {
				if p.bars[i].simile {
					got += "%"
				} else {
					got += "."
				}
			}
			assert.Equal(t, tt.want, got)
		})
	}
}

// TestRegions: keys are told where they are new on paper, their bands begin and
// end with their chords as written.
func TestRegions(t *testing.T) {
	c, err := chart.Parse("Key: C major\n| Cmaj7 | Dm7 G7 | Cmaj7 | N.C. | Abm7 | Db7 | Gbmaj7 | Gb6 | Dm7 | G7 | Cmaj7 | C6 |")
	require.NoError(t, err)
	a := function.Analyze(c)
	var got []string
	for _, b := range newPage(c, &a, Style{}).bars {
		for _, m := range b.marks {
			s := m.symbol
			if m.begins {
				s = "<" + s
			}
			if m.ends {
				s += ">"
			}
			if m.key != "" {
				s += " " + m.key
			}
			if m.motion != "" {
				s += ", " + m.motion
			}
			if s != m.symbol {
				got = append(got, s)
			}
		}
	}
	assert.Equal(t, []string{
		"<Cmaj7 C major", "Cmaj7>",
		"<Abm7 Gb major, up a tritone", "Gb6>",
		"<Dm7 C major, up a tritone", "C6>",
	}, got)
}

const (
	verse  = "| Cmaj7 | Ebdim7 | Dm7 | Bb7 | Am7 | Fm6 | Em7b5 | A7 "
	chorus = "| Fmaj7 | Fm6 | Em7 | A7 | D7 | G7 | C6 | C6 |"
)

// TestPhrases: phrases are named in the margin where they begin, those of later
// times through with the first; a section's own name is not said twice.
func TestPhrases(t *testing.T) {
	tests := []struct{ name, chart, want string }{
		{"one alone", verse + "|", ""},
		{"no sections", verse + "||" + chorus[1:], "1 A; 9 B"},
		{"sections of other names", "[Verse]\n" + verse + "|\n[Chorus]\n" + chorus, "1 A; 9 B"},
		{"sections of these names", "[A]\n" + verse + "|\n[B]\n" + chorus, ""},
		{"one of these names", "[A]\n" + verse + "|\n[Chorus]\n" + chorus, "9 B"},
		{"repeated alike", "[Verse]\n|:" + verse[1:] + ":|\n[Chorus]\n" + chorus, "1 A; 9 B"},
		{"repeated otherwise", "[A]\n|: Cmaj7 | Am7 | 1. Em7 | A7 | Dm7 | G7 :| 2. Fm7 | Bb7 | Ebmaj7 | % | Abmaj7 | Db7 | C6 | C6 |", "1 A, B"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			c, err := chart.Parse(tt.chart)
			require.NoError(t, err)
			a := function.Analyze(c)
			var got []string
			for _, b := range newPage(c, &a, Style{}).bars {
				if len(b.phrases) > 0 {
					assert.True(t, b.breaks, "from a new line")
					got = append(got, b.number+" "+strings.Join(b.phrases, ", "))
				}
			}
			assert.Equal(t, tt.want, strings.Join(got, "; "))
		})
	}
}

// TestWithoutReading: a chart that was not read is drawn with its chords alone.
func TestWithoutReading(t *testing.T) {
	for _, s := range samples(t) {
		var a function.Analysis
		svg := SVG(s.chart, &a, Style{Steps: true})
		all, err := elements(svg)
		require.NoError(t, err)
		symbols, numerals := drawnBars(all)
		assert.Len(t, symbols, len(s.chart.Bars), s.name)
		assert.Empty(t, numerals)
		checkText(t, s.chart, Text(s.chart, &a, Style{}))
	}
}

func TestPrinted(t *testing.T) {
	for in, want := range map[string]string{
		"Verse":             "Verse",
		" Verse  2 ":        "Verse  2",
		"two\nlines\r\nand": "two lines and",
		"\x1b[31mred\x00":   "[31mred",
		"\u202ename":        "name",
		"\t":                "",
		"合唱 𝄞":              "合唱 𝄞",
	} {
		assert.Equal(t, want, printed(in), "%q", in)
	}
}

func TestPasses(t *testing.T) {
	tests := []struct {
		times []int
		want  string
	}{
		{[]int{1}, "1."},
		{[]int{1, 2}, "1,2."},
		{[]int{1, 2, 3}, "1–3."},
		{[]int{1, 3}, "1,3."},
		{[]int{1, 2, 4, 5, 6, 9}, "1,2,4–6,9."},
	}
	for _, tt := range tests {
		assert.Equal(t, tt.want, passes(tt.times))
	}
}
