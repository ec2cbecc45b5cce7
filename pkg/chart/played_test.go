package chart

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fifthwise/pkg/chord"
)

// whole is a bar of one chord in 4/4, as Go code writes it.
func whole(symbol string) Bar {
	return Bar{Chords: []Slot{{Chord: chord.MustParse(symbol), Len: B(4, 1)}}}
}

// Common practice, no source.
func TestPlayedByHand(t *testing.T) {
	start, end := whole("C"), whole("F")
	start.RepeatStart, end.RepeatEnd = true, true
	c := Chart{Bars: []Bar{start, end, {}, whole("Dm7")}}
	require.NoError(t, c.Validate())
	assert.Equal(t, "1.1 C 4; 2.1 F 4; 1.1 C 4; 2.1 F 8; 4.1 Dm7 4", told(c))
	bars, chords := c.PlayedLen()
	assert.Equal(t, [2]int{6, 5}, [2]int{bars, chords})
}

func TestPlayedFields(t *testing.T) {
	c, err := Parse("Pickup: 1\nG7 | [A] |: C | 1. F :| 2. / Am / / || [B] 3/4 (Dm7) | / / G7 |")
	require.NoError(t, err)
	at := func(symbol string) chord.Chord { return chord.MustParse(symbol) }
	want := []Event{
		{Chord: at("G7"), Symbol: "G7", Bar: 0, BarIndex: 0, Pass: 1, Measure: -1, Beat: B(4, 1), Start: B(-1, 1), Len: B(1, 1), BarLen: B(4, 1), Boundary: true},
		{Chord: at("C"), Symbol: "C", Bar: 1, BarIndex: 1, Pass: 1, Measure: 0, Beat: B(1, 1), Start: Beats{}, Len: B(4, 1), BarLen: B(4, 1), Section: "A", SectionStart: true, Boundary: true},
		{Chord: at("F"), Symbol: "F", Bar: 2, BarIndex: 2, Pass: 1, Measure: 1, Beat: B(1, 1), Start: B(4, 1), Len: B(4, 1), BarLen: B(4, 1), Section: "A"},
		{Chord: at("C"), Symbol: "C", Bar: 1, BarIndex: 1, Pass: 2, Measure: 2, Beat: B(1, 1), Start: B(8, 1), Len: B(5, 1), BarLen: B(4, 1), Section: "A", SectionStart: true, Boundary: true},
		{Chord: at("Am"), Symbol: "Am", Bar: 3, BarIndex: 3, Pass: 1, Measure: 3, Beat: B(2, 1), Start: B(13, 1), Len: B(3, 1), BarLen: B(4, 1), Section: "A"},
		{Chord: at("Dm7"), Symbol: "Dm7", Bar: 4, BarIndex: 4, Pass: 1, Measure: 4, Beat: B(1, 1), Start: B(16, 1), Len: B(5, 1), BarLen: B(3, 1), Section: "B", SectionStart: true, Boundary: true, Optional: true},
		{Chord: at("G7"), Symbol: "G7", Bar: 5, BarIndex: 5, Pass: 1, Measure: 5, Beat: B(3, 1), Start: B(21, 1), Len: B(1, 1), BarLen: B(3, 1), Section: "B"},
	}
	assert.Equal(t, want, c.Played())
}

// A section whose first bar is held starts with the first chord that starts in it.
func TestPlayedSectionThatStartsHeld(t *testing.T) {
	c, err := Parse("[A] C | [B] / / / / | F | G")
	require.NoError(t, err)
	events := c.Played()
	assert.Equal(t, "1.1 C 8; 3.1 F 4; 4.1 G 4", told(c))
	assert.True(t, events[1].SectionStart && events[1].Boundary)
	assert.Equal(t, "B", events[1].Section)
	assert.False(t, events[2].SectionStart || events[2].Boundary)
}

// A jump that is written out plays bars of the same number again; a bar in two
// parts is one bar.
func TestPlayedPassesOfNumbers(t *testing.T) {
	tests := []struct {
		name            string
		numbers, passes []int
	}{
		{"in order", []int{1, 2, 3}, []int{1, 1, 1}},
		{"written out", []int{1, 2, 3, 1, 2, 9}, []int{1, 1, 1, 2, 2, 1}},
		{"in two parts", []int{1, 2, 2, 3, 1, 2, 2}, []int{1, 1, 1, 1, 2, 2, 2}},
		{"numbered backwards", []int{3, 2, 1}, []int{1, 1, 1}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			c := Chart{Bars: make([]Bar, len(tt.numbers))}
			for i, n := range tt.numbers {
				c.Bars[i] = whole("C")
				c.Bars[i].Number = n
			}
			var passes []int
			for _, e := range c.Played() {
				passes = append(passes, e.Pass)
			}
			assert.Equal(t, tt.passes, passes)
		})
	}
}

func TestPlayedBoundaries(t *testing.T) {
	tests := []struct {
		name, in string
		want     []bool
	}{
		{"the first chord alone", "C | F | G", []bool{true, false, false}},
		{"a section", "C | [B] F | G", []bool{true, true, false}},
		{"a double bar", "C || F | G", []bool{true, true, false}},
		{"a repeat that opens", "C |: F | G :|", []bool{true, true, false, true, false}},
		{"a repeat that closes", "C | F :| G", []bool{true, false, true, false, true}},
		{"endings", "C | 1. F :| 2. G | A", []bool{true, false, true, false, false}},
		{"a left-out ending", "C | 1. F :| G", []bool{true, false, true, true}},
		{"an ending behind a double bar", "C || 1. F :| 2. G", []bool{true, true, true, true}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			c, err := Parse(tt.in)
			require.NoError(t, err)
			var got []bool
			for _, e := range c.Played() {
				got = append(got, e.Boundary)
			}
			assert.Equal(t, tt.want, got)
		})
	}
}

// Charts that do not validate come to an end all the same.
func TestPlayedOfNonsense(t *testing.T) {
	marked := func(b Bar, start, end bool, ending ...int) Bar {
		b.RepeatStart, b.RepeatEnd, b.Ending = start, end, ending
		return b
	}
	c := whole("C")
	tests := map[string][]Bar{
		"nested repeats":       {marked(c, true, false), marked(c, true, true), marked(c, false, true)},
		"an ending far off":    {c, marked(c, false, true, 7), c},
		"endings without end":  {marked(c, true, true, 1), marked(c, true, true, 1, 2), marked(c, false, true, 3)},
		"an ending in another": {marked(c, true, false, 1), marked(c, false, true, 1), marked(c, false, true, 2)},
		"no bars":              nil,
		"chords out of order":  {{Chords: []Slot{{At: B(3, 1), Len: B(-9, 1)}, {At: B(-1, 1)}}}},
		"no meter":             {{Meter: Meter{0, 7}}},
	}
	for name, bars := range tests {
		t.Run(name, func(t *testing.T) {
			nonsense := Chart{Bars: bars, Pickup: B(1, 3)}
			assert.Error(t, nonsense.Validate())
			_, chords := nonsense.PlayedLen()
			assert.Len(t, nonsense.Played(), chords)
			assert.NotEmpty(t, nonsense.String())
			assert.Len(t, nonsense.Unfolded().Played(), chords)
		})
	}
	many := Chart{Bars: make([]Bar, 3*MaxPlayedBars)}
	for i := range many.Bars {
		many.Bars[i] = c
	}
	bars, _ := many.PlayedLen()
	assert.Equal(t, MaxPlayedBars+1, bars)
	assert.Len(t, many.Played(), MaxPlayedBars)
	assert.ErrorIs(t, many.Validate(), ErrTooLong)
}

func TestUnfolded(t *testing.T) {
	tests := []struct{ name, in, want string }{
		{"a repeat", "|: C | F :| G", "Meter: 4/4\n\n| C | F || C | F ||\n| G |\n"},
		{"endings", "[A] C | 1. F :| 2. / G / / |", "Meter: 4/4\n\n[A]\n| C | F ||\n\n[A]\n| C | / G / / |\n"},
		{"a pickup", "Pickup: 1\nG7 | C :|", "Meter: 4/4\nPickup: 1\n\n| G7 | C || C ||\n"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			c, err := Parse(tt.in)
			require.NoError(t, err)
			u := c.Unfolded()
			require.NoError(t, u.Validate())
			assert.Equal(t, tt.want, u.String())
			before, after := c.Played(), u.Played()
			require.Len(t, after, len(before))
			for i := range after {
				b, a := before[i], after[i]
				b.BarIndex, b.Pass, a.BarIndex, a.Pass = 0, 0, 0, 0
				assert.Equal(t, b, a)
			}
		})
	}
}

// Incomplete bars that come again keep their time.
func TestUnfoldedKeepsTime(t *testing.T) {
	tests := []struct{ name, in, want string }{
		{"a repeated pickup fills the last bar", "Pickup: 1\n|: G7 | C | 3/4 F :|", "Meter: 4/4\nPickup: 1\n\n| G7 | C | 3/4 F || 1/4 G7 |\n| 4/4 C | 3/4 F ||\n"},
		{"an ending skipped", "|: G | C | 1. F :| G", "Meter: 4/4\n\n| G | C | F || G |\n| C || G |\n"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			c, err := Parse(tt.in)
			require.NoError(t, err)
			assert.Equal(t, tt.want, c.Unfolded().String())
			sameTime(t, c)
		})
	}
	// As notation has it: the last bar lacks just the upbeat.
	c := Chart{Pickup: B(1, 1), Bars: []Bar{
		{RepeatStart: true, Chords: []Slot{{Chord: chord.MustParse("G7"), At: B(3, 1), Len: B(1, 1)}}},
		{Chords: []Slot{{Chord: chord.MustParse("C"), Len: B(4, 1)}}},
		{RepeatEnd: true, Chords: []Slot{{Chord: chord.MustParse("F"), Len: B(3, 1)}}},
	}}
	require.NoError(t, c.Validate())
	assert.Equal(t, "Meter: 4/4\nPickup: 1\n\n| G7 | C | F / / G7 | C |\n| 3/4 F ||\n", c.Unfolded().String())
	sameTime(t, c)
}

func sameTime(t *testing.T, c Chart) {
	before, after := c.Played(), c.Unfolded().Played()
	require.Len(t, after, len(before))
	for i := range after {
		assert.Equal(t, []any{before[i].Chord, before[i].Start, before[i].Len}, []any{after[i].Chord, after[i].Start, after[i].Len}, i)
	}
}

func BenchmarkPlayed(b *testing.B) {
	c, err := Parse(benchmarkChart)
	require.NoError(b, err)
	b.ReportAllocs()
	for b.Loop() {
		c.Played()
	}
}

func BenchmarkParse(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Parse(benchmarkChart); err != nil {
			b.Fatal(err)
		}
	}
}

func TestPlayedAllocatesOneSlice(t *testing.T) {
	c, err := Parse(benchmarkChart)
	require.NoError(t, err)
	assert.Equal(t, 1.0, testing.AllocsPerRun(10, func() { c.Played() }))
}

const benchmarkChart = `Title: Night Bus
Key: F major

[A]
|: Fmaj7 | Dm7 G7 | Gm7 / / C7 | Am7 D7b9 |
| Gm7 | C7 F@3.5 | Fmaj7 Dm7 | Gm7 C7 |
| Fmaj7 | % | Cm7 F7 | Bbmaj7 |
| 1. Bbm7 Eb7 | Am7 D7 | Gm7 C7 | Fmaj7 :|
| 2. Gm7 | C7 | F6 | % ||
[B]
| Am7b5 D7 | Gm | Gm7b5 C7 | Fmaj7 |
| Abm7 Db7 | Gbmaj7 | Gm7 | (Gm7 C7) |
| Fmaj7 | Dm7 | Gm7 | C7 ||
`
