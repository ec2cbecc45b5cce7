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
	"fifthwise/pkg/pitch"
)

// told is all that an analysis says, as text.
func told(a *function.Analysis) string {
	var s strings.Builder
	fmt.Fprintln(&s, a.Home, a.Regions, a.Cadences, a.Warnings)
	for i := range a.Regions {
		fmt.Fprintln(&s, a.Evidence(i))
	}
	for i, r := range a.Chords {
		fmt.Fprintln(&s, r, a.Reason(i))
		for _, alt := range a.Alternatives(i, function.MaxAlternatives) {
			fmt.Fprintln(&s, alt.Key, alt.Numeral, alt.Degree, alt.Target, alt.Function, alt.Role, alt.Confidence, alt.Reason())
		}
	}
	return s.String()
}

func TestSameAnswerAlways(t *testing.T) {
	charts := []string{
		song,
		"C7 | F7 | C7 | / / / / | F7 | Fdim7 | C7 | A7 | Dm7 | G7 | C7 A7 | Dm7 G7",
		"Cdim7 | Ebdim7 | Gbdim7 | Adim7", // ties
		"C | C | Caug | Caug | Eaug | Abaug",
		"N.C. | G7 | N.C. | Db7",
	}
	for _, text := range charts {
		c, err := chart.Parse(text)
		require.NoError(t, err)
		a := function.Analyze(c)
		want := told(&a)
		for range 100 {
			b := function.Analyze(c)
			require.Equal(t, want, told(&b), text)
		}
	}
}

func TestNothingSounds(t *testing.T) {
	for name, c := range map[string]chart.Chart{
		"no bars":      {},
		"an empty bar": {Bars: make([]chart.Bar, 1)},
		"silence":      {Bars: []chart.Bar{{Chords: []chart.Slot{{Len: chart.B(4, 1)}}}}},
	} {
		t.Run(name, func(t *testing.T) {
			a := function.Analyze(c)
			checkAnalysis(t, c, &a)
			assert.Empty(t, a.Regions)
			assert.False(t, a.Home.IsValid())
		})
	}
}

func TestOneChord(t *testing.T) {
	for _, symbol := range fuzzSymbols {
		for fifths := -7; fifths <= 7; fifths++ {
			c := chart.Chart{Bars: []chart.Bar{{Chords: []chart.Slot{{Chord: chord.MustParse(symbol).Transpose(pitch.IntervalAt(fifths)), Len: chart.B(4, 1)}}}}}
			a := function.Analyze(c)
			checkAnalysis(t, c, &a)
		}
	}
}

// checkAnalysis checks what must hold of any chart.
func checkAnalysis(t *testing.T, c chart.Chart, a *function.Analysis) {
	t.Helper()
	events := c.Played()
	require.Len(t, a.Chords, len(events))
	checkRegions(t, a)
	for i := range a.Chords {
		r := &a.Chords[i]
		require.Equal(t, events[i], r.Event)
		if r.Event.Chord.IsSilence() {
			require.Equal(t, function.Reading{Event: r.Event, Region: -1, ResolvesTo: -1, Confidence: 1}, *r)
			require.Empty(t, a.Alternatives(i, function.MaxAlternatives))
			continue
		}
		checkReading(t, a, i)
		checkAlternatives(t, a, i)
	}
	for _, cadence := range a.Cadences {
		require.NotEmpty(t, cadence.Kind.String())
		require.True(t, cadence.Key.IsValid())
		for _, i := range cadence.Chords {
			require.True(t, 0 <= i && i < len(a.Chords), "cadence over %v", cadence.Chords)
		}
	}
}

// checkRegions: in order, every sounding chord in exactly one.
func checkRegions(t *testing.T, a *function.Analysis) {
	t.Helper()
	owner := make([]int, len(a.Chords))
	for i := range owner {
		owner[i] = -1
	}
	last := -1
	for n, r := range a.Regions {
		require.True(t, last < r.First && r.First <= r.Last && r.Last < len(a.Chords), "region %d from %d to %d after %d", n, r.First, r.Last, last)
		require.True(t, r.Key.IsValid())
		requireProbability(t, r.Confidence)
		if n > 0 {
			require.NotEqual(t, a.Regions[n-1].Key, r.Key, "two regions of one key")
		}
		for i := r.First; i <= r.Last; i++ {
			owner[i] = n
		}
		last = r.Last
	}
	for i := range a.Chords {
		r := &a.Chords[i]
		if r.Event.Chord.IsSilence() {
			continue
		}
		require.GreaterOrEqual(t, owner[i], 0, "chord %d lies in no region", i)
		require.Equal(t, owner[i], r.Region)
		require.Equal(t, a.Regions[r.Region].Key, r.Key)
	}
	require.Equal(t, len(a.Regions) > 0, a.Home.IsValid())
}

func requireProbability(t *testing.T, p float64) {
	t.Helper()
	require.True(t, 0 <= p && p <= 1, "probability %v", p)
}

func checkReading(t *testing.T, a *function.Analysis, i int) {
	t.Helper()
	r := &a.Chords[i]
	requireProbability(t, r.Confidence)
	require.True(t, r.Degree.IsValid())
	require.NotEqual(t, function.Silence, r.Role)
	require.Equal(t, r.Degree, r.Numeral.Degree())
	require.Equal(t, r.Target, r.Numeral.Target())
	requireSpells(t, r.Numeral, r.Key, r.Event.Chord)
	require.True(t, -1 <= r.ResolvesTo && r.ResolvesTo < len(a.Chords), "resolves to %d", r.ResolvesTo)
	if r.ResolvesTo >= 0 {
		require.False(t, a.Chords[r.ResolvesTo].Event.Chord.IsSilence(), "resolves to silence")
	}
	if r.Pivot.Key.IsValid() {
		require.NotEqual(t, r.Key, r.Pivot.Key)
		requireSpells(t, r.Pivot.Numeral, r.Pivot.Key, r.Event.Chord)
	}
	requireSentence(t, a.Reason(i))
}

func requireSentence(t *testing.T, s string) {
	t.Helper()
	require.NotEmpty(t, s)
	require.NotContains(t, s, "{")
	require.NotContains(t, s, "invalid")
}

// requireSpells: the numeral stands for the chord in the key, on its root, on
// another of a diminished seventh's, or on the bass.
func requireSpells(t *testing.T, n function.Numeral, k key.Key, c chord.Chord) {
	t.Helper()
	got := n.In(k).Root()
	roots := []pitch.Note{c.Root(), c.Bass()}
	if q := c.Quality(); q.Has(chord.D(7, -2)) {
		for _, d := range []pitch.Interval{pitch.MinorThird, pitch.DiminishedFifth, pitch.DiminishedSeventh} {
			roots = append(roots, c.Root().Add(d))
		}
	}
	for _, root := range roots {
		if got.Sounds(root) {
			return
		}
	}
	require.Fail(t, "wrong numeral", "%v in %v for %v", n, k, c)
}

// checkAlternatives: other labels than the one shown, the likeliest first, none
// likelier than it, together at most certain.
func checkAlternatives(t *testing.T, a *function.Analysis, i int) {
	t.Helper()
	r := &a.Chords[i]
	type name struct {
		key            key.Key
		degree, target function.Degree
	}
	seen := map[name]bool{{r.Key, r.Degree, r.Target}: true}
	sum, last := r.Confidence, r.Confidence
	list := a.Alternatives(i, function.MaxAlternatives)
	require.LessOrEqual(t, len(list), function.MaxAlternatives)
	for _, alt := range list {
		n := name{alt.Key, alt.Degree, alt.Target}
		require.False(t, seen[n], "%v twice", n)
		seen[n] = true
		requireProbability(t, alt.Confidence)
		require.LessOrEqual(t, alt.Confidence, last, "order")
		last = alt.Confidence
		sum += alt.Confidence
		requireSpells(t, alt.Numeral, alt.Key, r.Event.Chord)
		requireSentence(t, alt.Reason())
	}
	require.LessOrEqual(t, sum, 1+1e-6)
	for n := range function.MaxAlternatives {
		require.Len(t, a.Alternatives(i, n), min(n, len(list)))
	}
}

// fuzzSymbols are chords on C of all families and of odd build.
var fuzzSymbols = []string{
	"C", "Cm", "C7", "Cmaj7", "Cm7", "Cm7b5", "Cdim7", "Cdim", "Caug", "C7sus4", "Csus4", "Csus2", "C5", "C6", "Cm6", "Cm(maj7)", "C7#5", "C7b5",
	"Cmaj7#5", "C7alt", "C13", "C7b9#11", "C6/9", "Cm11", "Cadd9", "C/E", "C/G", "C/Bb", "C/D", "Cm7/F", "Cm/G", "C7/F#", "C:(1)", "C:(1,5,b7)",
	"C:(1,3,6)", "C:(1,bb3,b5,bb7)", "C:(b3,b5)", "N.C.",
}

// chartOf builds a chart from bytes: the first chooses a hint, then each pair
// is a chord and how it stands.
func chartOf(data []byte) chart.Chart {
	var c chart.Chart
	if len(data) > 0 {
		if m := key.Mode(data[0] % 7); m > 0 {
			c.Key = key.New(pitch.At(int(data[0]/7)%23-11), m)
		}
		data = data[1:]
	}
	four := chart.B(4, 1)
	for ; len(data) >= 2 && len(c.Bars) < 200; data = data[2:] {
		what, how := int(data[0]), int(data[1])
		symbol := chord.MustParse(fuzzSymbols[what%len(fuzzSymbols)])
		s := chart.Slot{Chord: symbol.Transpose(pitch.IntervalAt(how%25 - 12)), Len: four, Optional: how%17 == 0}
		if n := len(c.Bars); n > 0 && how%3 == 0 && len(c.Bars[n-1].Chords) == 1 && !c.Bars[n-1].RepeatEnd {
			half := chart.B(2, 1)
			bar := &c.Bars[n-1]
			bar.Chords[0].Len = half
			s.At, s.Len = half, half
			bar.Chords = append(bar.Chords, s)
			continue
		}
		bar := chart.Bar{Chords: []chart.Slot{s}}
		switch how % 31 {
		case 1, 2:
			bar.Section = string(rune('A' + what%3))
		case 4:
			bar.Double = true
		case 5:
			bar.RepeatStart = true
		case 7, 8:
			bar.RepeatEnd = true
		case 10, 11:
			bar.Chords = nil // the chord before goes on
		}
		c.Bars = append(c.Bars, bar)
	}
	return c
}

func FuzzAnalyze(f *testing.F) {
	f.Add([]byte{})
	f.Add([]byte{0, 37, 0, 37, 0})
	f.Add([]byte("a tune of any chords at all, with repeats and sections here and there"))
	f.Add([]byte{1, 3, 12, 4, 14, 2, 13, 3, 12, 6, 1, 6, 2, 6, 5, 6, 8})
	f.Add([]byte{9, 2, 12, 2, 11, 2, 10, 2, 9, 2, 8, 2, 7, 2, 6, 2, 5, 2, 4})
	f.Fuzz(func(t *testing.T, data []byte) {
		c := chartOf(data)
		a := function.Analyze(c)
		checkAnalysis(t, c, &a)
	})
}
