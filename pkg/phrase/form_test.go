package phrase_test

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"fifthwise/pkg/chart"
	"fifthwise/pkg/chord"
	"fifthwise/pkg/phrase"
	"fifthwise/pkg/pitch"
)

// told is a form as text, a phrase a line: name, bars, and for each occurrence
// its first bar, its motion if it has moved, "like" if it is not exact, and the
// bars that differ.
func told(f phrase.Form) (lines []string) {
	lines = append(lines, f.Letters)
	for _, p := range f.Phrases {
		var at []string
		for _, o := range p.Occurrences {
			s := strconv.Itoa(o.First)
			if o.Motion != 0 {
				s += " " + o.Motion.String()
			}
			if !o.Exact {
				s += " like"
			}
			if len(o.Differences) > 0 {
				s += fmt.Sprint(" but ", o.Differences)
			}
			at = append(at, s)
		}
		lines = append(lines, fmt.Sprintf("%s %d: %s", p.Name, p.Bars, strings.Join(at, ", ")))
	}
	return lines
}

// Phrases of eight bars, invented.
const (
	walk   = "Cmaj7 | Am7 | Dm7 | G7 | Em7 | A7 | Dm7 G7 | Cmaj7"
	bridge = "Gm7 | C7 | Fmaj7 | Fmaj7 | Fm7 | Bb7 | Ebmaj7 | G7"
	harbor = "Fm6 | Fm6 | Dbmaj7 | Bb7 | Eb | Abm | Gb7 | C7"
)

var forms = []struct {
	name, chart string
	want        []string
}{
	{"nothing", "", []string{""}},
	{"one chord", "C", []string{"A", "A 1: 0"}},
	{"AABA, marked", "[A] " + walk + " | [A] " + walk + " | [B] " + bridge + " | [A] " + walk,
		[]string{"AABA", "A 8: 0, 8, 24", "B 8: 16"}},
	{"AABA, without marks", strings.Join([]string{walk, walk, bridge, walk}, " | "),
		[]string{"AABA", "A 8: 0, 8, 24", "B 8: 16"}},
	{"AABA with double bars", strings.Join([]string{walk, walk, bridge, walk}, " || "),
		[]string{"AABA", "A 8: 0, 8, 24", "B 8: 16"}},
	{"AABA, the first two under one mark", "[A] " + walk + " | " + walk + " | [B] " + bridge + " | [A] " + walk,
		[]string{"AABA", "A 8: 0, 8, 24", "B 8: 16"}},
	{"one mark over all", "[Tune] " + strings.Join([]string{walk, walk, bridge, walk}, " | "),
		[]string{"AABA", "A 8: 0, 8, 24", "B 8: 16"}},
	{"sixteen bars under one mark that are one phrase", "[A] " + walk + " | " + bridge + " | [B] " + harbor,
		[]string{"AB", "A 16: 0", "B 8: 16"}},
	{"ABAC, without marks", strings.Join([]string{walk, bridge, walk, harbor}, " | "),
		[]string{"ABAC", "A 8: 0, 16", "B 8: 8", "C 8: 24"}},
	{"ABCA, the last half another, without marks", strings.Join([]string{walk, bridge, harbor, "Cmaj7 | Am7 | Dm7 | G7 | Ebmaj7 | Abm7 | Dbmaj7 | Gb7"}, " | "),
		[]string{"ABCA", "A 8: 0", "B 8: 8", "C 8: 16", "A' 8: 24"}},
	{"sections keep their letters", "[Intro] Am7 | D7 | [A] " + walk + " | [A1] " + walk + " | [B] " + bridge + " | [A2] " + walk + " | [Coda] " + harbor,
		[]string{"CAABAD", "C 2: 0", "A 8: 2, 10, 26", "B 8: 18", "D 8: 34"}},
	{"a letter is one phrase's alone", "[A] " + walk + " | [A] " + harbor + " | [B] " + walk,
		[]string{"ACA", "A 8: 0, 16", "C 8: 8"}},
	{"what sections are called does not matter", "[Verse] " + walk + " | [Refrain] " + walk + " | [Verse] " + bridge,
		[]string{"AAB", "A 8: 0, 8", "B 8: 16"}},
	{"a variant with half the bars", "[A] " + walk + " | [A] Cmaj7 | Am7 | Dm7 | G7 | Ebmaj7 | Abm7 | Dbmaj7 | Gb7 | [B] " + bridge + " | [A] " + walk,
		[]string{"AABA", "A 8: 0, 24", "A' 8: 8", "B 8: 16"}},
	{"less than half the bars is another phrase", "[A] " + walk + " | [A] Cmaj7 | Am7 | Dm7 | Abm7 | Ebmaj7 | Abm7 | Dbmaj7 | Gb7",
		[]string{"AB", "A 8: 0", "B 8: 8"}},
	{"first and second endings",
		"|: Cmaj7 | Am7 | Dm7 | G7 | Em7 | A7 | 1. Dm7 | G7 :| 2. Fm6 | Cmaj7 ||",
		[]string{"AA", "A 8: 0, 8 like but [7 8]"}},
	{"a repeat", "|: " + walk + " :|",
		[]string{"AA", "A 8: 0, 8"}},
	{"a repeat of one bar", "|: C :|",
		[]string{"AA", "A 1: 0, 1"}},
	{"a repeat within a section", "[A] C | F | G7 | C |: Am7 | D7 Dm7 | Fm6 | E7 :| [B] Eb | Abm | Db7 | G7",
		[]string{"ACCB", "A 4: 0", "C 4: 4, 8", "B 4: 12"}},
	{"a repeat after other bars, without marks", "C | Fm6 |: Am7 | D7 Dm7 | Fm6 | E7 | Abmaj7 :|",
		[]string{"ABB", "A 2: 0", "B 5: 2, 7"}},
	{"a repeat of odd length", "|: Cmaj7 | Ebmaj7 | Abm6 | Dm7 | G7 | Bbmaj7 | E7 :|",
		[]string{"AA", "A 7: 0, 7"}},
	{"four keys", "[A] " + walk + " | [A] " + "Dmaj7 | Bm7 | Em7 | A7 | F#m7 | B7 | Em7 A7 | Dmaj7" +
		" | [A] Abmaj7 | Fm7 | Bbm7 | Eb7 | Cm7 | F7 | Bbm7 Eb7 | Abmaj7 | [A] F#maj7 | D#m7 | G#m7 | C#7 | A#m7 | D#7 | G#m7 C#7 | F#maj7",
		[]string{"AAAA", "A 8: 0, 8 up a major second, 16 down a major third, 24 up a tritone"}},
	{"four bars falling by whole steps", "[A] Dm7 | G7 | Cmaj7 | Am | [A] Cm7 | F7 | Bbmaj7 | Gm | [A] Bbm7 | Eb7 | Abmaj7 | Fm",
		[]string{"AAA", "A 4: 0, 4 down a major second, 8 down a major third"}},
	{"four bars falling, without marks", "Dm7 G7 | Cmaj7 Am | F#m7b5 B7 | E Ebdim | Cm7 F7 | Bbmaj7 Gm | Em7b5 A7 | D Dbdim | Bbm7 Eb7 | Abmaj7 Fm | Dm7b5 G7 | C Bdim",
		[]string{"AAA", "A 4: 0, 4 down a major second, 8 down a major third"}},
	{"through-composed", "[A] " + walk + " | [B] " + bridge + " | [C] " + harbor,
		[]string{"ABC", "A 8: 0", "B 8: 8", "C 8: 16"}},
	{"through-composed, without marks", strings.Join([]string{walk, bridge, harbor}, " | "),
		[]string{"ABC", "A 8: 0", "B 8: 8", "C 8: 16"}},
	{"a pickup is no bar", "Pickup: 1\nG7 | [A] " + walk + " | [A] " + walk,
		[]string{"AA", "A 8: 0, 8"}},
	{"a pickup held into the first bar", "Pickup: 1\nC | / / / / | F | G7 | C",
		[]string{"A", "A 4: 0"}},
	{"marked sections of seven and ten bars",
		"[A] C | F | Bb | Eb | Ab | G7 | C | [B] Am | D7 | Gm | C7 | Fm | Bb7 | Ebm | Ab7 | Db | G7 | [A] D | G | C | F | Bb | A7 | D",
		[]string{"ABA", "A 7: 0, 17 up a major second", "B 10: 7"}},
	{"three beats", "Meter: 3/4\n[A] C | Am | Dm | G7 | [A] Eb | Cm | Fm | Bb7 | [B] C | C / F | G7 | Fm C",
		[]string{"AAB", "A 4: 0, 4 up a minor third", "B 4: 8"}},
	{"twelve bars of blues, marked", "[A] C7 | F7 | C7 | C7 | F7 | F7 | C7 | A7 | Dm7 | G7 | C7 A7 | Dm7 G7 | [A] C7 | F7 | C7 | C7 | F7 | F7 | C7 | A7 | Dm7 | G7 | C7 A7 | Dm7 G7",
		[]string{"AA", "A 12: 0, 12"}},
	{"twelve bars of blues twice, without marks", "C7 | F7 | C7 | C7 | F7 | F7 | C7 | A7 | Dm7 | G7 | C7 A7 | Dm7 G7 | C7 | F7 | C7 | C7 | F7 | F7 | C7 | A7 | Dm7 | G7 | C7 A7 | Dm7 G7",
		[]string{"AA", "A 12: 0, 12"}},
	{"AABAA, the last a half step up, without marks", strings.Join([]string{walk, walk, bridge, walk, "Dbmaj7 | Bbm7 | Ebm7 | Ab7 | Fm7 | Bb7 | Ebm7 Ab7 | Dbmaj7"}, " | "),
		[]string{"AABAA", "A 8: 0, 8, 24, 32 up a minor second", "B 8: 16"}},
	{"twelve bars of blues, repeated", "|: F7 | Bb7 | F7 | F7 | Bb7 | Bb7 | F7 | D7 | Gm7 | C7 | F7 D7 | Gm7 C7 :|",
		[]string{"AA", "A 12: 0, 12"}},
	{"colours of a family are one chord", "[A] Cmaj7 | Am7 | Dm7 | G7 | [A] C6 | Am9 | Dm11 | G7b9",
		[]string{"AA", "A 4: 0, 4"}},
	{"a two before its dominant is an ornament", "[A] C | A7 | F | G7 | [A] C | Em7 A7 | F | Dm7 G7",
		[]string{"AA", "A 4: 0, 4 like"}},
	{"a two of half-diminished kind is one too", "[A] Cm | Fm | Ab | G7 | [A] Dm | Gm | Bb | Em7b5 A7",
		[]string{"AA", "A 4: 0, 4 up a major second like"}},
	{"one chord in eight may differ", "[A] " + "C | Am | Dm | G7 | Em | A7 | Dm | G7 | [A] C | Am | Fm | G7 | Em | A7 | Dm | G7",
		[]string{"AA", "A 8: 0, 8 like but [3]"}},
	{"two of eight, not at the end, make a variant", "[A] C | Am | Dm | G7 | Em | A7 | Dm | G7 | [A] C | Fm | Fm | G7 | Em | A7 | Dm | G7",
		[]string{"AA", "A 8: 0", "A' 8: 8"}},
	{"bars that hold a chord", "[A] C | / / / / | F | / / / / | [A] G | / / / / | C | / / / / | [B] C | F | G | C",
		[]string{"AAB", "A 4: 0, 4 down a perfect fourth", "B 4: 8"}},
	{"held or struck again, it sounds", "[A] C | / / / / | F | G | [A] C | C | F | G",
		[]string{"AA", "A 4: 0, 4"}},
	{"silence within", "[A] C | N.C. | F | G7 | [A] D | N.C. | G | A7",
		[]string{"AA", "A 4: 0, 4 up a major second"}},
	{"silence first", "[A] N.C. | F | G7 | Am | [A] N.C. | F | G7 | Am",
		[]string{"AA", "A 4: 0, 4"}},
	{"silence within a bar", "[A] C / N.C. / | F | N.C. / G7 / | C | [A] Eb / N.C. / | Ab | N.C. / Bb7 / | Eb",
		[]string{"AA", "A 4: 0, 4 up a minor third"}},
	{"nothing but silence", "[A] C | F | [B] N.C. | N.C. | [A] D | G | [B] N.C. | N.C.",
		[]string{"ABAB", "A 2: 0, 4 up a major second", "B 2: 2, 6"}},
	{"another rhythm is another phrase", "[A] C | F | G7 | C | [B] C F | G7 C | C F | G7 C",
		[]string{"AB", "A 4: 0", "B 4: 4"}},
	{"a variant that goes on", "[A] C | F | G7 | C | [B] C | F | G7 | C | F | G7",
		[]string{"AA", "A 4: 0", "A' 6: 4"}},
	{"AABA with a tag", "[A] " + walk + " | [A] " + walk + " | [B] " + bridge + " | [A] Cmaj7 | Am7 | Dm7 | G7 | Em7 | Ebdim7 | Dm7 | G7 | Em7 | A7 | Dm7 G7 | C6",
		[]string{"AABA", "A 8: 0, 8", "B 8: 16", "A' 12: 24"}},
	{"what is shorter is another phrase", "[A] C | F | G7 | C | F | G7 | [B] C | F | G7 | C",
		[]string{"AB", "A 6: 0", "B 4: 6"}},
	{"what is twice as long is another phrase", "[A] C | F | G7 | C | [B] C | F | G7 | C | Dm | Am | E7 | Am",
		[]string{"AB", "A 4: 0", "B 8: 4"}},
}

// Expected by the rule of FormOf; common practice, no source.
func TestFormOf(t *testing.T) {
	for _, tt := range forms {
		t.Run(tt.name, func(t *testing.T) {
			var events []chart.Event
			if tt.chart != "" {
				events = played(t, tt.chart)
			}
			f := phrase.FormOf(events)
			assert.Equal(t, tt.want, told(f))
			requireTiled(t, events, f)
		})
	}
}

// barsPlayed counts the bars of a tune as played, without a pickup.
func barsPlayed(c chart.Chart) int {
	bars, _ := c.PlayedLen()
	if !c.Pickup.IsZero() {
		bars--
	}
	return bars
}

// requireTiled: the occurrences follow one another without gaps, and the
// indices of chords and names are sound. It gives the bars covered.
func requireTiled(t require.TestingT, events []chart.Event, f phrase.Form) (bars int) {
	type place struct{ first, bars, phrase, occurrence int }
	var places []place
	for i, p := range f.Phrases {
		require.NotEmpty(t, p.Occurrences)
		require.Positive(t, p.Bars)
		first := p.Occurrences[0]
		require.True(t, first.Exact && first.Motion == 0 && first.Differences == nil, "the first is the phrase")
		for k, o := range p.Occurrences {
			places = append(places, place{o.First, p.Bars, i, k})
			require.True(t, 0 <= o.FirstChord && o.FirstChord <= o.LastChord && o.LastChord < len(events), "chords %+v", o)
			require.True(t, -6 < o.Motion && o.Motion <= 6, "motion %d", o.Motion)
			require.False(t, o.Exact && len(o.Differences) > 0, "exact with differences")
			for _, d := range o.Differences {
				require.True(t, 1 <= d && d <= p.Bars, "difference %d", d)
			}
		}
	}
	slices.SortFunc(places, func(a, b place) int { return a.first - b.first })
	var letters strings.Builder
	next := 0
	for _, at := range places {
		require.Equal(t, bars, at.first, "no gap and no overlap")
		bars += at.bars
		letters.WriteString(strings.TrimRight(f.Phrases[at.phrase].Name, "'"))
		if at.occurrence == 0 {
			require.Equal(t, next, at.phrase, "phrases are in the order of play")
			next++
		}
	}
	require.Equal(t, letters.String(), f.Letters)
	return bars
}

// drawChart draws phrases of few chords, and a tune made of them, with and
// without marks.
func drawChart(t *rapid.T) chart.Chart {
	symbols := []string{"C", "C7", "Dm7", "G7", "Am7 D7", "Cm", "N.C.", "F / / N.C.", "N.C. / G7 /", "/ / / /", "/ / E7 /", "Bm7b5 E7"}
	var parts []string
	for range rapid.IntRange(1, 3).Draw(t, "parts") {
		bars := rapid.SliceOfN(rapid.SampledFrom(symbols), 1, 9).Draw(t, "bars")
		parts = append(parts, strings.Join(bars, " | "))
	}
	marks := rapid.SampledFrom([]string{"", "", "[A] ", "[B] "})
	text := "C"
	for range rapid.IntRange(1, 6).Draw(t, "phrases") {
		part := rapid.SampledFrom(parts).Draw(t, "part")
		if rapid.Bool().Draw(t, "repeated") {
			part = "|: " + part + " :|"
		}
		part = marks.Draw(t, "mark") + part
		if !strings.HasSuffix(text, ":|") && !strings.HasPrefix(part, "|:") {
			text += " |"
		}
		text += " " + part
	}
	c, err := chart.Parse(text)
	require.NoError(t, err, text)
	return c
}

// up moves every chord by an interval, whatever it is then called.
func up(events []chart.Event, by pitch.Interval) []chart.Event {
	moved := slices.Clone(events)
	for i := range moved {
		if !moved[i].Chord.IsSilence() {
			moved[i].Chord = moved[i].Chord.Transpose(by)
		}
	}
	return moved
}

func TestFormTilesAndMoves(t *testing.T) {
	c := chord.MustParse("C").Root()
	rapid.Check(t, func(t *rapid.T) {
		drawn := drawChart(t)
		events := drawn.Played()
		f := phrase.FormOf(events)
		require.Equal(t, barsPlayed(drawn), requireTiled(t, events, f), "all bars")
		to := rapid.SampledFrom([]string{"Db", "D", "Eb", "E", "F", "F#", "G", "Ab", "A", "Bb", "B"}).Draw(t, "to")
		moved := phrase.FormOf(up(events, c.To(chord.MustParse(to).Root())))
		require.Equal(t, f, moved, "the form is the same in any key")
	})
}

// One marked section played twice is one phrase, without differences.
func TestFormOfTwice(t *testing.T) {
	symbols := []string{"C", "C7", "Dm7", "G7", "Am7 D7", "Cm", "N.C.", "F / / N.C.", "N.C. / G7 /", "Bm7b5 E7"}
	rapid.Check(t, func(t *rapid.T) {
		bars := rapid.SliceOfN(rapid.SampledFrom(symbols), 1, 15).Draw(t, "bars")
		section := "[A] " + strings.Join(bars, " | ")
		require.Equal(t, []string{"A", fmt.Sprintf("A %d: 0", len(bars))}, told(phrase.FormOf(played(t, section))))
		require.Equal(t, []string{"AA", fmt.Sprintf("A %d: 0, %d", len(bars), len(bars))}, told(phrase.FormOf(played(t, section+" | "+section))))
	})
}

func FuzzFormOf(f *testing.F) {
	for _, tt := range forms {
		f.Add(tt.chart)
	}
	f.Fuzz(func(t *testing.T, text string) {
		c, err := chart.Parse(text)
		if err != nil {
			return
		}
		events := c.Played()
		if len(events) == 0 {
			return
		}
		require.Equal(t, barsPlayed(c), requireTiled(t, events, phrase.FormOf(events)))
	})
}

// randomTune is a tune of some bars, made of a dozen phrases of four to eight
// bars in any key, now and then with a chord of its own.
func randomTune(b *testing.B, bars int) []chart.Event {
	r := rand.New(rand.NewPCG(1, 2))
	families := []string{"maj7", "m7", "7", "m7b5", "6"}
	symbol := func() string {
		return []string{"C", "Db", "D", "Eb", "E", "F", "F#", "G", "Ab", "A", "Bb", "B"}[r.IntN(12)] + families[r.IntN(len(families))]
	}
	phrases := make([][]chord.Chord, 12)
	for i := range phrases {
		for range 4 * (1 + r.IntN(2)) {
			phrases[i] = append(phrases[i], chord.MustParse(symbol()))
		}
	}
	var tune chart.Chart
	for len(tune.Bars) < bars {
		by := chord.MustParse("C").Root().To(chord.MustParse(symbol()).Root())
		for _, c := range phrases[r.IntN(len(phrases))] {
			if len(tune.Bars) == bars {
				break
			}
			if c = c.Transpose(by).Simplify(); r.IntN(20) == 0 {
				c = chord.MustParse(symbol())
			}
			tune.Bars = append(tune.Bars, chart.Bar{Chords: []chart.Slot{{Chord: c, Len: chart.B(4, 1)}}})
		}
	}
	require.NoError(b, tune.Validate())
	return tune.Played()
}

func benchmarkForm(b *testing.B, bars int) {
	events := randomTune(b, bars)
	b.ReportAllocs()
	for b.Loop() {
		phrase.FormOf(events)
	}
}

func BenchmarkForm32Bars(b *testing.B)    { benchmarkForm(b, 32) }
func BenchmarkForm1000Bars(b *testing.B)  { benchmarkForm(b, 1000) }
func BenchmarkForm10000Bars(b *testing.B) { benchmarkForm(b, 10_000) }

func ExampleFormOf() {
	c, err := chart.Parse(`
		[A] Cmaj7 | Am7 | Dm7 | G7 |
		[B] Fm7 | Bb7 | Em7 A7 | D7 G7 |
		[A] Ebmaj7 | Cm7 | Fm7 | Bb7 |`)
	if err != nil {
		panic(err)
	}
	f := phrase.FormOf(c.Played())
	fmt.Println(f.Letters)
	for _, p := range f.Phrases {
		for _, o := range p.Occurrences {
			fmt.Printf("%s from bar %d, moved by %d\n", p.Name, o.First+1, o.Motion)
		}
	}
	// Output:
	// ABA
	// A from bar 1, moved by 0
	// A from bar 9, moved by 3
	// B from bar 5, moved by 0
}

// Forms as encyclopedia and textbooks give them: a chord a bar, without marks.
func TestPublishedForms(t *testing.T) {
	blues := "C | C | C | C | F | F | C | C | G | F | C | C"
	eight := "C | G7 | F7 | F7 | C | G7 | C | G7"
	tests := []struct{ source, chart, letters, phrase string }{
		{"R. Hutchinson, Music Theory for the 21st-Century Classroom, table 12.4.1", blues + " | " + blues, "AA", "A 12: 0, 12"},
		{"Wikipedia, List of chord progressions, folia", "Am | E | Am | G | C | G | Am | E | Am | E | Am | G | C | G | Am E | Am",
			"AA", "A 8: 0, 8 like but [7 8]"},
		{"Wikipedia, List of chord progressions, 50s progression", strings.Repeat("C | Am | F | G | ", 3) + "C | Am | F | G", "AAAA", "A 4: 0, 4, 8, 12"},
		{"an eight-bar blues, from memory", eight + " | " + eight, "AA", "A 8: 0, 8"},
	}
	for _, tt := range tests {
		got := told(phrase.FormOf(played(t, tt.chart)))
		assert.Equal(t, []string{tt.letters, tt.phrase}, got, tt.source)
	}
}
