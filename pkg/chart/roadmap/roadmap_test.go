package roadmap

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fifthwise/pkg/chart"
	"fifthwise/pkg/key"
)

// The chart keeps its signs where it can say the same with them; else it is
// written out. Common practice, no source.
func TestSignsKeptOrWrittenOut(t *testing.T) {
	tests := []struct{ name, in, want string }{
		{"a repeat", "a |: b c :| d", "a |: b c :| d"},
		{"a repeat without |:", "a b :| c :|", "a b :| c :|"},
		{"a repeat across a section gets its |:", "[A] a [B] b :|", "[A] |: a [B] b :|"},
		{"a repeat in a section", "[A] a || [B] |: b :|", "[A] a || [B] |: b :|"},
		// MusicXML 4.0, sound element: forward-repeat is a forward repeat that is implied and not displayed.
		{"a |: that a section implies", "[A] a b :| [B] (|:) c d :|", "[A] a b :| [B] c d :|"},
		{"a |: that a section implies, no repeat before", "[A] a b || [B] (|:) c d :|", "[A] a b || [B] c d :|"},
		{"a |: implied before a later ending", "|: a 1. b :| (|:) 2. c || d :|", "|: a 1. b :| 2. c || d :|"},
		{"and its end is not that of the repeat", "|: a 1. b :| (|:) 2. c ] || d :| e :|", "|: a 1. b :| 2. c || d :| e :|"},
		{"a |: that nothing else implies", "a b (|:) c :|", "a b |: c :|"},
		{"endings", "|: a 1,2. b :| 3. c ]", "|: a 1,2. b :| 3. c"},
		{"an ending 1 alone", "|: a 1. b :| c", "|: a 1. b :| c"},
		{"what goes back behind the last ending gets its |:", "|: a 1. b :| 2. c ] d :|", "|: a 1. b :| 2. c |: d :|"},
		{"ending 1 not closed", "|: a 1. b 2. c", "|: a 1. b :| 2. c"},
		{"|: never closed", "a |: b", "a b"},
		{"played twice", "a :|x2", "a :|"},
		{"played three times", "a |: b :|x3 c", "a || b || b || b || c"},
		{"a jump", "[A] a || b [B] c DC", "[A] a || b [B] c || [A] a || b [B] c"},
		{"a jump into a section", "[A] a $ b [B] c DS", "[A] a b [B] c || [A] b [B] c"},
		{"a repeat and a jump", "|: a 1. b :| 2. c Fine d DC", "a b || a c d || a c"},
		{"a jump that is not followed", "|: a :| DS", "|: a :|"},
		{"a coda", "a To b DC O c", "a b || a || [Coda] c"},
		{"a coda with a name", "[A] a To b DC O [B] c", "[A] a b || [A] a || [B] c"},
		{"a coda that is not gone to", "a O b", "a b"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			tune, err := Layout(chart.Chart{}, barsOf(t, tt.in))
			require.NoError(t, err)
			assert.Equal(t, tt.want, written(tune.Chart))
		})
	}
}

// Bars written out begin their phrases where the chart with the signs does.
func TestWrittenOutBeginsPhrasesAsSignsDo(t *testing.T) {
	phrases := func(c chart.Chart) (all []string) {
		for _, e := range c.Played() {
			all = append(all, fmt.Sprintf("%s %v", e.Symbol, e.Boundary))
		}
		return all
	}
	for _, in := range []string{
		"a |: b c :| d", "|: a 1. b :| 2. c d", "|: a 1. b c :| 2. d || e", "|: a 1,2. b :| 3. c", "[A] |: a b 1. c :| 2. d [B] e",
		"|: a 1. b :| 2. c :| 3. d", "|: a 1. b :| c", "a b :| |: c 1. d :| 2. e", "|: a 1. b :| (|:) 2. c || d",
	} {
		var n notes
		list := resolved(chart.Meter{}, barsOf(t, in), &n)
		order := inPlay(list, &n)
		kept, ok := keptSigns(list, order)
		require.True(t, ok, in)
		assert.Equal(t, phrases(fit(chart.Chart{}, kept, &n).Chart), phrases(fit(chart.Chart{}, writtenOut(list, order), &n).Chart), in)
	}
}

func TestWritten(t *testing.T) {
	tests := []struct {
		name, in string
		want     []int
	}{
		{"kept", "|: a :| b", []int{0, 1}},
		{"written out", "a $ b DS c", []int{0, 1, 1, 2}},
		{"two bars made one", "a b:1 c:3 d", []int{0, 1, 3}},
		{"an upbeat in the bar before", "a b:3 |: -:1 c d:3 :|", []int{0, 1, 3, 4}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			tune, err := Layout(chart.Chart{}, barsOf(t, tt.in))
			require.NoError(t, err)
			assert.Equal(t, tt.want, tune.Written)
		})
	}
}

func TestLayoutHead(t *testing.T) {
	head := chart.Chart{Title: "Low Tide", Meter: chart.MustParseMeter("3/4"), Key: key.MustParse("G minor"), Pickup: chart.B(1, 1),
		Bars: make([]chart.Bar, 7), Warnings: []chart.Warning{{Bar: 1, Message: "odd"}}}
	tune, err := Layout(head, barsOf(t, "a b DS"))
	require.NoError(t, err)
	assert.Equal(t, "Low Tide", tune.Chart.Title)
	assert.Equal(t, head.Key, tune.Chart.Key)
	assert.Equal(t, head.Meter, tune.Chart.Meter)
	assert.Equal(t, "3/4 a b", written(tune.Chart))
	assert.True(t, tune.Chart.Pickup.IsZero())
	assert.Equal(t, []string{"1: odd", "2: no segno lies behind to go back to; the sign is left out"}, warnings(tune.Chart))
}

func TestLayoutErrors(t *testing.T) {
	tests := []struct {
		name string
		head chart.Chart
		bars []Bar
		want string
	}{
		{"no bars", chart.Chart{}, nil, "the chart has no bars (write chords between bar lines: | C | F G |)"},
		{"no bars, though the head has", chart.Chart{Bars: make([]chart.Bar, 3)}, []Bar{}, "the chart has no bars (write chords between bar lines: | C | F G |)"},
		{"a meter that is none", chart.Chart{}, []Bar{{Len: chart.B(1, 1)}, {Bar: chart.Bar{Meter: chart.Meter{Num: 3}}, Len: chart.B(2, 1)}, {}}, "bar 1: 3/0 is no meter\nbar 2: 3/0 is no meter"},
		{"a chord before the bar", chart.Chart{}, barsOf(t, "a,b@-1"), `bar 1, "b": the chord starts on beat 0, before the bar`},
		{"a title that is none", chart.Chart{Title: "\n"}, barsOf(t, "a"), "the title holds a line break or another control character"},
		{"a section that is none", chart.Chart{}, []Bar{{}, {Bar: chart.Bar{Section: " "}}}, `bar 2, " ": the section has no name`},
		{"more bars than a chart has", chart.Chart{}, barsOf(t, strings.Repeat("a ", chart.MaxPlayedBars+1)), "played with its repeats the chart has more than 10000 bars or 50000 chords"},
		{"and signs that pass them over", chart.Chart{}, barsOf(t, "a To b DC "+strings.Repeat("a ", chart.MaxPlayedBars)+"O c"), "played with its repeats the chart has more than 10000 bars or 50000 chords"},
		{"repeats without end", chart.Chart{}, barsOf(t, strings.Repeat("a ", 200)+":|x99"), "played with its repeats the chart has more than 10000 bars or 50000 chords"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			tune, err := Layout(tt.head, tt.bars)
			assert.EqualError(t, err, tt.want)
			assert.Len(t, tune.Written, len(tune.Chart.Bars))
		})
	}
}

// What is given is not written to: neither bars nor warnings.
func TestLayoutLeavesItsInput(t *testing.T) {
	const text = "u:1 a c:1 d@1:3 [B] 6/8 d e@1/2:1 f DC"
	bars := barsOf(t, text)
	warned := make([]chart.Warning, 0, 4)
	_, err := Layout(chart.Chart{Warnings: warned}, append(bars, barsOf(t, "a DS b Fine c:5")...))
	require.NoError(t, err)
	assert.Equal(t, barsOf(t, text), bars)
	assert.Zero(t, warned[:4][0])
}
