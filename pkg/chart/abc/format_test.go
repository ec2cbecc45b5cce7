package abc

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fifthwise/pkg/chart"
	"fifthwise/pkg/chord"
)

func TestFormat(t *testing.T) {
	for _, f := range []struct{ name, in, want string }{
		{"even", "| C | F G | C |", `"C"x8 | "F"x4 "G"x4 | "C"x8 |]`},
		{"three in a bar", "| C F G |", `(3"C"x4 "F"x4 "G"x4 |]`},
		{"five in a bar", "| C F G C F |", `(5:4:5"C"x2 "F"x2 "G"x2 "C"x2 "F"x2 |]`},
		{"a third in a bar", "| C F@7/3 |", `(3:2:2"C"x4 "F"x8 |]`},
		{"elevenths", "| C F@12/11 |", `"C"x2/11 "F"x86/11 |]`},
		{"compound", "| 6/8 C F | Am |", `"C"x3 "F"x3 | "Am"x6 |]`},
		{"lengths that no note has", "| 7/8 C | 5/4 F |", `"C"x6 x | [M:5/4] "F"x8 x2 |]`},
		{"tuplets of many notes", "| 5/4 C F G C F G |", `(3:2:9"C"x2 x/ "F"x2 x/ "G"x2 x/ "C"x2 x/ "F"x2 (3x/ "G"x2 x/ |]`},
		{"holds", "| C | / / / / | / / F / |", `"C"x8 | x8 | x4 "F"x4 |]`},
		{"optional", "| C (F | G7) (C7) |", `"C"x4 "(F"x4 | "G7"x4 "C7)"x4 |]`},
		{"repeat and endings", "|: C | 1,2. F :| 3. G :| C ||", "|: \"C\"x8 | [1,2 \"F\"x8 :| [3 \"G\"x8 :| \"C\"x8 ||"},
		{"parts", "[A 100%] |: C :| [B & C] | F || |: G :|", "P:A 100\\%\n|: \"C\"x8 :|\nP:B \\& C\n\"F\"x8 ||\n|: \"G\"x8 :|"},
		{"five bars", "| C | F | G | C | F |", "\"C\"x8 | \"F\"x8 | \"G\"x8 | \"C\"x8 |\n\"F\"x8 |]"},
		{"start of a repeat", "| C || F :|", "|: \"C\"x8 || \"F\"x8 :|"},
		{"no such repeat", "|: C | 1. F :| 2. G || Am :| C |", "\"C\"x8 | \"F\"x8 || \"C\"x8 | \"G\"x8 ||\n\"Am\"x8 || \"G\"x8 || \"Am\"x8 || \"C\"x8 |]"},
	} {
		t.Run(f.name, func(t *testing.T) {
			c, err := chart.Parse(f.in)
			require.NoError(t, err)
			_, got, _ := strings.Cut(string(Format(c, nil)), "K:none\n")
			assert.Equal(t, f.want+"\n", got)
		})
	}
}

func TestFormatUpbeat(t *testing.T) {
	c, err := chart.Parse("Title: 50% & more\nMeter: 3/4\nPickup: 3/2\n| G7 | C | F |")
	require.NoError(t, err)
	c.Bars[2].Chords[0].Len = chart.B(1, 2)
	assert.Equal(t, "X:1\nT:50\\% \\& more\nM:3/4\nL:1/8\nK:none\n\"G7\"x3 | \"C\"x6 | \"F\"x |]\n", string(Format(c, nil)))
}

// Marks of several times through are merged, and stand where their chord does
// when repeats are written out.
func TestFormatMarks(t *testing.T) {
	c, err := chart.Parse("|: C | 1. F :| 2. G || Am :| C |")
	require.NoError(t, err)
	marks := []chart.Mark{{Bar: 2, Above: "V"}, {Bar: 0, Above: "I"}, {Bar: 0, Above: `a\b`}, {Bar: 3, Below: "VIm"}}
	_, got, _ := strings.Cut(string(Format(c, marks)), "K:none\n")
	assert.Equal(t, `"C""^I (2nd: a\\b)"x8 | "F"x8 || "C""^I (2nd: a\\b)"x8 | "G""^V"x8 ||`+"\n"+`"Am""_VIm"x8 || "G""^V"x8 || "Am""_VIm"x8 || "C"x8 |]`+"\n", got)
}

// Charts that do not validate are written as far as they go.
func TestFormatBrokenCharts(t *testing.T) {
	for _, c := range []chart.Chart{
		{},
		{Meter: chart.Meter{Num: 3}, Bars: []chart.Bar{{}}},
		{Pickup: chart.B(9, 1), Bars: []chart.Bar{{RepeatEnd: true, Ending: []int{-1, 400}}, {Meter: chart.Meter{Num: 200, Den: 7}}}},
		{Title: "a\nb", Bars: []chart.Bar{{Chords: []chart.Slot{{At: chart.B(-5, 3), Len: chart.B(-1, 1)}, {Chord: chord.MustParse("C"), At: chart.B(2000, 1)}}}}},
	} {
		assert.Contains(t, string(Format(c, []chart.Mark{{Bar: -1, Chord: 7, Above: "x"}})), "X:1\nT:")
	}
}
