package chart

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"fifthwise/pkg/chord"
	"fifthwise/pkg/key"
)

func TestString(t *testing.T) {
	const head = "Meter: 4/4\n\n"
	tests := []struct{ name, in, want string }{
		{"headers", "Pickup: 0.5\nKey: F minor\nTitle: Night Bus\nMeter: 3/4\nC | F",
			"Title: Night Bus\nMeter: 3/4\nKey: F minor\nPickup: 1/2\n\n| C | F |\n"},
		{"canonical symbols", "C-7 | FΔ | B♭7(♭9) | NC | C:min7", head + "| Cm7 | Fmaj7 | Bb7b9 | N.C. |\n| Cm7 |\n"},
		{"four bars a line", "C|C|C|C|C|C|C|C|C", head + "| C | C | C | C |\n| C | C | C | C |\n| C |\n"},
		{"sections", "[A] C | C | [B] C | C | C | C | C", head + "[A]\n| C | C |\n\n[B]\n| C | C | C | C |\n| C |\n"},
		{"repeats", "C |: F :| G || A", head + "| C |: F :| G || A |\n"},
		{"repeats side by side", "|: F :|: G :|", head + "|: F :|\n|: G :|\n"},
		{"repeats and double bars", "C ||: F :|| G ||", head + "| C ||\n|: F :|| G ||\n"},
		{"endings", "|: C | 1,2. F :| 3. G", head + "|: C | 1,2. F :| 3. G |\n"},
		{"a meter", "C | 3/4 F | G | 4/4 A", head + "| C | 3/4 F | G | 4/4 A |\n"},
		{"a meter at the start", "3/4 C", "Meter: 3/4\n\n| C |\n"},
		{"a meter other than the header's", "Meter: 4/4\n3/4 C", head + "| 3/4 C |\n"},
		{"even", "C / F / | C@1 F@3", head + "| C F | C F |\n"},
		{"beats", "C F@4 | C@1 F@2 G@3", head + "| C / / F | C F G / |\n"},
		{"holds", "C | F@3 | / / / / | / / / G", head + "| C | / / F / | / / / / | / / / G |\n"},
		{"places", "C F@3.5 | C@1.5 | C F@7/3", head + "| C F@3.5 | C@1.5 | C F@7/3 |\n"},
		{"a silent start", "C@2", head + "| C@2 |\n"},
		{"eighths of a beat", "C F@1.125", head + "| C F@1.125 |\n"},
		{"the bar before again", "C F | %", head + "| C F | C F |\n"},
		{"optional groups", "C (F | G) | (A) (B)", head + "| C (F | G | A B) |\n"},
		{"an optional group and a held bar", "(C | / / / / | F) | (G@3.5) | A", head + "| (C | / / / / | F | G@3.5) |\n| A |\n"},
		{"an optional chord with brackets of its own", "C (Fm(maj7)) | (G(b9))", head + "| C (Fm(maj7) | G(b9)) |\n"},
		{"a pickup", "Pickup: 2\nC F@4.5 | G", "Meter: 4/4\nPickup: 2\n\n| C F@4.5 | G |\n"},
		{"6/8", "6/8 C / | C F@5/3 | G F", "Meter: 6/8\n\n| C | C F@5/3 | G F |\n"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			c, err := Parse(tt.in)
			require.NoError(t, err)
			assert.Equal(t, tt.want, c.String())
			again, err := Parse(c.String())
			require.NoError(t, err)
			assert.True(t, again.Equal(c))
		})
	}
}

// A last bar that ends early is printed in a meter of its length, else whole.
func TestStringOfIncompleteLastBar(t *testing.T) {
	for _, tt := range []struct {
		meter Meter
		beats Beats
		want  string
	}{
		{Meter{4, 4}, B(3, 1), "| C | 3/4 F |\n"},
		{Meter{4, 4}, B(1, 1), "| C | 1/4 F |\n"},
		{Meter{4, 4}, B(5, 2), "| C | F |\n"},
		{Meter{12, 8}, B(2, 1), "| C | 6/8 F |\n"},
		{Meter{12, 8}, B(1, 1), "| C | F |\n"},
		{Meter{7, 8}, B(6, 1), "| C | F |\n"},
	} {
		c, err := FromEntries(Header{Meter: tt.meter}, []BarEntries{{Chords: plain("C")}, {Chords: []Entry{lasts("F", tt.beats)}}})
		require.NoError(t, err)
		assert.Equal(t, "Meter: "+tt.meter.String()+"\n\n"+tt.want, c.String())
		_, err = Parse(c.String())
		assert.NoError(t, err)
	}
}

func TestEqual(t *testing.T) {
	const text = "Title: X\nKey: F\nPickup: 1\nC | [A] |: C7(b9) F@3.5 | 1. (G) :| 2. / / G / || 3/4 N.C."
	c, err := Parse(text)
	require.NoError(t, err)
	same, err := Parse(strings.Replace(text, "C7(b9)", "C7b9", 1))
	require.NoError(t, err)
	assert.True(t, c.Equal(same), "symbols as written do not enter")
	for _, change := range [][2]string{
		{"Title: X", "Title: Y"}, {"Key: F", "Key: G"}, {"Pickup: 1", "Pickup: 2"}, {"[A]", "[B]"}, {"[A]", ""}, {"|: C7", "| C7"}, {":|", ":||"},
		{"(b9)", ""}, {"3.5", "3"}, {"(G)", "G"}, {"/ / G /", "/ G / /"}, {"||", "|"}, {"3/4", "2/4"}, {"N.C.", "C"}, {"3/4 N.C.", ""},
	} {
		changed := strings.Replace(text, change[0], change[1], 1)
		require.NotEqual(t, text, changed)
		other, _ := Parse(changed)
		assert.False(t, c.Equal(other), changed)
		assert.False(t, other.Equal(c), changed)
	}
	byHand := Chart{Bars: []Bar{whole("C"), whole("F")}}
	parsed, err := Parse("C | F")
	require.NoError(t, err)
	assert.True(t, byHand.Equal(parsed), "numbers and meters unsaid")
}

// drawnChart is any valid chart: pickups, meters, sections, repeats with
// endings, holds, optional chords, lengths of every kind.
func drawnChart(t *rapid.T) Chart {
	symbols := []string{"C", "F#m7b5", "Bb7(b9)", "Ebmaj7#11", "Am/G", "D(b9)", "G:(1,3,6)", "N.C.", "Abm(maj7)"}
	meters := []Meter{{4, 4}, {3, 4}, {6, 8}, {12, 8}, {7, 8}, {2, 2}, {5, 4}}
	c := Chart{
		Title: rapid.SampledFrom([]string{"", "Night Bus", "Überfahrt: 2"}).Draw(t, "title"),
		Meter: rapid.SampledFrom(meters).Draw(t, "meter"),
		Key:   rapid.SampledFrom([]key.Key{{}, key.MustParse("Eb major"), key.MustParse("F# dorian")}).Draw(t, "key"),
	}
	meter := c.Meter
	fill := func(from, to Beats) (slots []Slot) {
		places := rapid.SliceOfNDistinct(rapid.IntRange(0, 47), 0, 6, rapid.ID[int]).Draw(t, "places")
		if rapid.Bool().Draw(t, "from the start") || !from.IsZero() {
			places = append(places, 0)
		}
		step := rapid.SampledFrom([]Beats{B(1, 1), B(1, 2), B(1, 3), B(1, 8), B(5, 7)}).Draw(t, "step")
		at := map[Beats]bool{}
		for _, p := range places {
			place := from
			for range p {
				place = place.Add(step)
			}
			if place.Less(to) {
				at[place] = true
			}
		}
		for place := range at {
			slots = append(slots, Slot{Chord: chord.MustParse(rapid.SampledFrom(symbols).Draw(t, "chord")), At: place, Optional: rapid.Bool().Draw(t, "optional")})
		}
		sortSlots(slots)
		for k := range slots {
			end := to
			if k+1 < len(slots) {
				end = slots[k+1].At
			}
			slots[k].Len = end.Sub(slots[k].At)
		}
		return slots
	}
	add := func() *Bar {
		b := Bar{Double: rapid.Bool().Draw(t, "double")}
		if rapid.IntRange(0, 5).Draw(t, "change of meter") == 0 {
			meter = rapid.SampledFrom(meters).Draw(t, "meter")
			b.Meter = meter
		}
		b.Section = rapid.SampledFrom([]string{"", "", "", "A", "Verse 2"}).Draw(t, "section")
		if len(c.Bars) == 0 {
			b.Meter, meter = Meter{}, c.Meter
			if rapid.Bool().Draw(t, "pickup") && B(1, 1).Less(meter.Beats()) {
				c.Pickup = rapid.SampledFrom([]Beats{B(1, 1), B(1, 2), B(4, 3)}).Draw(t, "length")
				b.Chords = fill(meter.Beats().Sub(c.Pickup), meter.Beats())
			} else {
				b.Chords = []Slot{{Chord: chord.MustParse("C"), Len: meter.Beats()}}
			}
		} else {
			b.Chords = fill(Beats{}, meter.Beats())
		}
		c.Bars = append(c.Bars, b)
		return &c.Bars[len(c.Bars)-1]
	}
	add()
	for range rapid.IntRange(0, 5).Draw(t, "parts") {
		first := len(c.Bars)
		for range rapid.IntRange(1, 3).Draw(t, "bars") {
			add()
		}
		if rapid.Bool().Draw(t, "repeated") {
			continue
		}
		c.Bars[first].RepeatStart = rapid.Bool().Draw(t, "marked")
		endings := rapid.IntRange(0, 3).Draw(t, "endings")
		for n := range endings {
			b := add()
			b.Section = ""
			b.Ending = []int{n + 1}
			b.RepeatEnd = n == 0 || n < endings-1 || rapid.Bool().Draw(t, "closed")
		}
		if endings == 0 {
			c.Bars[len(c.Bars)-1].RepeatEnd = true
		}
	}
	return c
}

func sortSlots(slots []Slot) {
	for i := range slots {
		for k := i; k > 0 && slots[k].At.Less(slots[k-1].At); k-- {
			slots[k], slots[k-1] = slots[k-1], slots[k]
		}
	}
}

func TestChartsRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := drawnChart(t)
		if err := c.Validate(); err != nil {
			t.Fatalf("%s\n%v", c, err)
		}
		again, err := Parse(c.String())
		if err != nil {
			t.Fatalf("%s\n%v", c, err)
		}
		if !again.Equal(c) || again.String() != c.String() {
			t.Fatalf("%s\n%s", c, again)
		}
		checkPlayed(t, c)
		checkPlayed(t, again)
	})
}

// checkPlayed holds the events of a valid chart against what must be true of
// any: no gap and no overlap, and every bar as often as it is passed.
func checkPlayed(t interface{ Fatalf(string, ...any) }, c Chart) {
	events := c.Played()
	_, chords := c.PlayedLen()
	if len(events) != chords {
		t.Fatalf("%d events, %d counted", len(events), chords)
	}
	for i, e := range events {
		switch {
		case !(Beats{}).Less(e.Len):
			t.Fatalf("%s\nevent %d lasts %v", c, i, e.Len)
		case i > 0 && events[i-1].Start.Add(events[i-1].Len) != e.Start:
			t.Fatalf("%s\nevent %d starts at %v, the one before ends at %v", c, i, e.Start, events[i-1].Start.Add(events[i-1].Len))
		case e.Pass < 1 || e.Beat.Less(B(1, 1)) || e.BarLen.Less(e.Beat.Sub(B(1, 1))):
			t.Fatalf("%s\nevent %d: %+v", c, i, e)
		}
	}
}

// No chart, however broken, makes printing, validating or playing panic.
func TestBrokenChartsDoNotPanic(t *testing.T) {
	number := rapid.SampledFrom([]int{math.MinInt32, -7, -1, 0, 1, 2, 3, 5, 1000, math.MaxInt32})
	beats := rapid.Custom(func(t *rapid.T) Beats { return B(number.Draw(t, "num"), max(1, number.Draw(t, "den"))) })
	bar := rapid.Custom(func(t *rapid.T) Bar {
		return Bar{
			Number:  number.Draw(t, "number"),
			Meter:   Meter{rapid.Uint8().Draw(t, "upper"), rapid.Uint8().Draw(t, "lower")},
			Section: rapid.String().Draw(t, "section"),
			Chords: rapid.SliceOfN(rapid.Custom(func(t *rapid.T) Slot {
				return Slot{At: beats.Draw(t, "at"), Len: beats.Draw(t, "len"), Optional: rapid.Bool().Draw(t, "optional")}
			}), 0, 4).Draw(t, "chords"),
			RepeatStart: rapid.Bool().Draw(t, "start"), RepeatEnd: rapid.Bool().Draw(t, "end"), Double: rapid.Bool().Draw(t, "double"),
			Ending: rapid.SliceOfN(number, 0, 3).Draw(t, "ending"),
		}
	})
	rapid.Check(t, func(t *rapid.T) {
		c := Chart{Pickup: beats.Draw(t, "pickup"), Bars: rapid.SliceOfN(bar, 0, 6).Draw(t, "bars")}
		_ = c.Validate()
		_ = c.String()
		if got, most := len(c.Played()), MaxPlayedChords; got > most {
			t.Fatalf("%d events", got)
		}
		c.Unfolded()
		c.Equal(c)
	})
}

func FuzzParse(f *testing.F) {
	for _, n := range notation {
		for _, in := range n.in {
			f.Add(in)
		}
	}
	for _, n := range badNotation {
		f.Add(n.in)
	}
	f.Add(benchmarkChart)
	f.Fuzz(func(t *testing.T, in string) {
		c, err := Parse(in)
		if err != nil {
			list, ok := err.(ErrorList)
			if !ok || len(list) == 0 {
				t.Fatalf("%q: %v", in, err)
			}
			for i, e := range list {
				if e.Line < 1 || e.Column < 1 || e.Offset < 0 || e.Offset > len(in) || e.Msg == "" || i > 0 && e.Offset < list[i-1].Offset {
					t.Fatalf("%q: %+v", in, e)
				}
			}
			return
		}
		if err := c.Validate(); err != nil {
			t.Fatalf("%q: %v", in, err)
		}
		again, err := Parse(c.String())
		if err != nil || !again.Equal(c) || again.String() != c.String() {
			t.Fatalf("%q: %s does not round trip: %s %v", in, c, again, err)
		}
	})
}
