package roadmap

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fifthwise/pkg/chart"
)

// Upbeats and divided bars: common practice, no source.
func TestBarsThatAreNotWhole(t *testing.T) {
	tests := []struct {
		name, in, want string
		warnings       []string
	}{
		{"a pickup", "u:1 a b", "u:1 a b", nil},
		{"a pickup with a chord that starts late", "u@1:2 a b", "N.C.,u@1:2 a b", nil},
		{"a pickup without a chord", "-:1 a b", "N.C.:1 a b", nil},
		{"a whole first bar without a chord", "- a", "N.C. a", nil},
		{"a first bar whose chord starts late", "a@2 b", "N.C.,a@2 b", nil},
		{"|: before a pickup, the last bar short", "|: u:1 a b:3 :|", "|: u:1 a b:3 :|", nil},
		{"|: before a pickup, and on", "|: u:1 a b:3 :| c", "|: u:1 a 3/4 b :| 4/4 c", nil},
		{"no |: before a pickup, the last bar short", "u:1 a b:3 :|", "|: u:1 a b:3 :|", nil},
		{"|: before a pickup without a chord", "|: -:1 a b:3 :|", "N.C.:1 |: a b :|", nil},
		{"|: before a pickup without a chord, the last bar whole", "|: -:1 a b :|", "|: N.C.:1 a b :|", nil},
		{"a pickup without a chord and endings", "|: -:1 a 1. b:3 :| 2. c:3", "N.C.:1 |: a 1. b :| 2. c:3", nil},
		{"upbeats without chords in mid-tune", "-:1 a b:3 || [B] |: -:1 c d:3 :|", "N.C.:1 a b || [B] |: c d :|", nil},
		{"upbeats without chords in two repeats", "|: -:1 a b:3 :| |: -:1 c d:3 :|", "N.C.:1 |: a b :| |: c d :|", nil},
		{"upbeats with chords in two repeats", "|: u:1 a b:3 :| |: v:1 c d:3 :|", "|: u:1 a 3/4 b :| |: 1/4 v 4/4 c d:3 :|", nil},
		{"an upbeat without a chord that not every time completes a bar", "|: -:1 a b:3 :| c", "|: N.C.:1 a b :| c", []string{"2: the bar lacks an upbeat and is read as whole"}},
		{"an upbeat behind a repeat that does not come within it", "a b:3 :| |: -:1 c d:3 :|", "a b :| |: c d:3 :|", []string{"2: the bar lacks an upbeat and is read as whole"}},
		{"the upbeat of the tune, not repeated", "u:1 |: a b:3 :| c d", "u:1 |: a b :| c d", []string{"2: the bar lacks an upbeat and is read as whole"}},
		{"an upbeat without a chord at an ending", "x |: a:3 1. -:1 b :| 2. -:1 c", "x |: a 1. b :| 2. c", nil},
		{"an upbeat without a chord before a double bar", "a b:3 [B] -:1 || c", "a b || [B] c", nil},
		{"an upbeat without a chord before a :|", "a b:3 [B] -:1 :| c", "a b :| [B] c", nil},
		{"a section that starts with an upbeat without a chord", "[A] |: -:1 a b:3 :|", "[A] N.C.:1 |: a b :|", nil},
		{"a section that starts so, written out", "[A] -:1 a b:3 DC c", "[A] N.C.:1 a b || [A] a 3/4 b 4/4 c", nil},
		{"an upbeat and a held bar", "u:1 -:3 a", "u:1 3/4 - 4/4 a", nil},
		{"a held bar before an upbeat without a chord", "a b -:3 || [B] -:1 c", "a b - || [B] c", nil},
		{"an upbeat with a chord, played again by a D.C.", "u:1 a b:3 DC", "u:1 a b,u@3 || a b:3", nil},
		{"an upbeat with a chord after a double bar", "a b:3 || u:1 c", "a b,u@3 || c", nil},
		{"an upbeat with a chord in a new section", "a b:3 [B] u:1 c", "a 3/4 b [B] 1/4 u 4/4 c", nil},

		{"a divided bar", "a b:1 c:3 d", "a b,c@1 d", nil},
		{"a divided bar with a sign on both sides", "a |: b:1 c,d@1:3 :| e", "a |: b,c@1,d@2 :| e", nil},
		{"a divided first bar", "=1 a:2 b:2 c", "a,b@2 c", nil},
		{"a divided bar with a repeat between", "a b:2 :| c:2 d", "a 2/4 b :| c 4/4 d", nil},
		{"both parts held", "a -:2 -:2 b", "a - b", nil},

		{"a bar of 3/4", "a b,c@2:3 d", "a 3/4 b,c@2 4/4 d", nil},
		{"a bar of 1/4", "a b:1 c", "a 1/4 b 4/4 c", nil},
		{"a bar of 3/8", "a b,c@1:3/2 d", "a 3/8 b,c@2 4/4 d", nil},
		{"half a bar of 6/8", "6/8 a b,c@1/3:1 d", "6/8 a 3/8 b,c@1 6/8 d", nil},
		{"a bar of 5/16 in 6/8", "6/8 a b,c@1/3:5/6 d", "6/8 a 5/16 b,c@2 6/8 d", nil},
		{"two bars of 3/8", "3/8 a b,c@3:6 d", "3/8 a 6/8 b,c@1 3/8 d", []string{"2: the bar is longer than its meter, 3/8, and is read in 6/8"}},
		{"a bar longer than its meter", "a b,c@4:5 d", "a 5/4 b,c@4 4/4 d", []string{"2: the bar is longer than its meter, 4/4, and is read in 5/4"}},
		{"a first bar longer than its meter", "a:6 b", "6/4 a 4/4 b", []string{"1: the bar is longer than its meter, 4/4, and is read in 6/4"}},
		{"a length that no meter has", "a b:7/3 c", "a b c", []string{"2: the bar has 7/3 of 4 beats and is read as whole"}},
		{"a length beyond all meters", "a b,c@4:65 c", "a b c", []string{"2: the bar has 65 of 4 beats and is read as whole", "2: c stands behind the bar's end and is left out"}},
		{"a negative length", "a b:-1 c", "a - c", []string{"2: b stands behind the bar's end and is left out", "2: the bar has -1 of 4 beats and is read as whole"}},

		{"the last bar incomplete", "a b:3", "a b:3", nil},
		{"the last bar incomplete and repeated", "a b:3 :|", "a b:3 :|", nil},
		{"the last bar incomplete and held", "a -:3", "a 3/4 -", nil},
		{"one bar", "a", "a", nil},
		{"one bar, incomplete", "a:3", "a:3", nil},
		{"one bar without a chord", "-", "N.C.", nil},
		{"one bar without a chord, incomplete", "-:3", "N.C.:3", nil},
		{"one bar, repeated", "|: a:3 :|", "|: a:3 :|", nil},

		{"a chord at the bar's end", "a,b@4 c", "a c", []string{"1: b stands behind the bar's end and is left out"}},
		{"a chord behind the bar's end", "a,b@5 c", "a c", []string{"1: b stands behind the bar's end and is left out"}},
		{"a chord behind the end of a short bar", "a b,c@3:3 d", "a 3/4 b 4/4 d", []string{"2: c stands behind the bar's end and is left out"}},
		{"chords out of order", "a,b@2,c@1", "a,c@1,b@2", nil},
		{"two chords in one place", "a,b@1,c@1", "a,b@1", []string{"1: c stands where b does and is left out"}},
		{"a place too fine", "a,b@10007/20011 c", "a,b@1/2 c", nil},
		{"a place too fine for what is left", "a,b@1/9999,c@1/9998,d@1 e", "a,d@1 e", []string{"1: b stands where a does and is left out", "1: c stands where a does and is left out"}},
		{"a place too fine in a meter of its own", "3/8 a b,c@3001/9001:6 d", "3/8 a 6/8 b,c@53/480 3/8 d", []string{"2: the bar is longer than its meter, 3/8, and is read in 6/8"}},
		{"a place too fine, at the end", "a,b@80043/20011 c", "a c", []string{"1: b stands behind the bar's end and is left out"}},
		{"a pickup too fine, without a chord", "-:10007/19973 a", "N.C.:1/2 a", nil},
		{"a pickup too fine", "u:10007/19973 a", "u:1/2 a", nil},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			tune, err := Layout(chart.Chart{}, barsOf(t, tt.in))
			require.NoError(t, err)
			assert.Equal(t, tt.want, written(tune.Chart))
			assert.Equal(t, tt.warnings, warnings(tune.Chart))
		})
	}
}

func TestNumbers(t *testing.T) {
	tests := []struct {
		name, in string
		want     []int
	}{
		{"counted on", "a b c", []int{1, 2, 3}},
		{"an upbeat", "u:1 a b", []int{0, 1, 2}},
		{"an upbeat and a short bar", "u:1 a:3 b", []int{0, 1, 2}},
		{"one short bar", "a:1", []int{1}},
		{"a divided bar", "a b:1 c:3 d", []int{1, 2, 3}},
		{"an upbeat in mid-tune", "a b:3 [B] u:1 c", []int{1, 2, 2, 3}},
		{"as given", "=5 a b =9 c d", []int{5, 6, 9, 10}},
		{"written out", "a $ b DS c", []int{1, 2, 2, 3}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			tune, err := Layout(chart.Chart{}, barsOf(t, tt.in))
			require.NoError(t, err)
			var got []int
			for _, b := range tune.Chart.Bars {
				got = append(got, b.Number)
			}
			assert.Equal(t, tt.want, got)
		})
	}
}
