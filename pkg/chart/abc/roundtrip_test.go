package abc

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"fifthwise/pkg/chart"
	"fifthwise/pkg/chord"
	"fifthwise/pkg/key"
)

// drawnChart is any valid chart: pickups, meters, sections, repeats with
// endings, holds, optional chords, silences, lengths of every kind, an
// incomplete end.
func drawnChart(t *rapid.T) chart.Chart {
	meters := []chart.Meter{{Num: 4, Den: 4}, {Num: 3, Den: 4}, {Num: 6, Den: 8}, {Num: 12, Den: 8}, {Num: 7, Den: 8}, {Num: 2, Den: 2}, {Num: 5, Den: 16}}
	c := chart.Chart{
		Title: rapid.SampledFrom([]string{"", "Night Bus", `Überfahrt: 100% \'e & "so" &amp; \u00e9`}).Draw(t, "title"),
		Meter: rapid.SampledFrom(meters).Draw(t, "meter"),
		Key:   rapid.SampledFrom([]key.Key{{}, key.MustParse("Eb major"), key.MustParse("F# dorian"), key.MustParse("A minor"), key.MustParse("Cb lydian")}).Draw(t, "key"),
	}
	meter := c.Meter
	add := func() *chart.Bar {
		b := chart.Bar{Double: rapid.Bool().Draw(t, "double")}
		if len(c.Bars) > 0 && rapid.IntRange(0, 5).Draw(t, "change of meter") == 0 {
			meter = rapid.SampledFrom(meters).Draw(t, "meter")
			b.Meter = meter
		}
		b.Section = rapid.SampledFrom([]string{"", "", "", "A", `Verse "2" 50%`}).Draw(t, "section")
		from, held := chart.Beats{}, len(c.Bars) > 0
		if !held && rapid.Bool().Draw(t, "pickup") && chart.B(4, 3).Less(meter.Beats()) {
			c.Pickup = rapid.SampledFrom([]chart.Beats{chart.B(1, 1), chart.B(1, 2), chart.B(4, 3)}).Draw(t, "length")
			from = meter.Beats().Sub(c.Pickup)
		}
		b.Chords = drawnSlots(t, from, meter.Beats(), held)
		c.Bars = append(c.Bars, b)
		return &c.Bars[len(c.Bars)-1]
	}
	add()
	for range rapid.IntRange(1, 5).Draw(t, "parts") {
		first := len(c.Bars)
		for range rapid.IntRange(1, 3).Draw(t, "bars") {
			add()
		}
		if rapid.Bool().Draw(t, "plain") {
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
	if last := &c.Bars[len(c.Bars)-1]; len(last.Chords) > 0 && rapid.Bool().Draw(t, "incomplete") {
		s := &last.Chords[len(last.Chords)-1]
		s.Len = s.Len.Share(2)
	}
	return c
}

func drawnSlots(t *rapid.T, from, to chart.Beats, held bool) (slots []chart.Slot) {
	symbols := []string{"C", "F#m7b5", "Bb7(b9)", "Ebmaj7#11", "Am/G", "D(b9)", "G:(1,3,6)", "N.C.", "Abm(maj7)"}
	if n := rapid.IntRange(0, 7).Draw(t, "even"); n > 0 {
		for k := range n {
			length := to.Sub(from).Share(n)
			slots = append(slots, chart.Slot{At: from, Len: length})
			for range k {
				slots[k].At = slots[k].At.Add(length)
			}
		}
	} else {
		slots = unevenSlots(t, from, to, held)
	}
	for k := range slots {
		slots[k].Chord = chord.MustParse(rapid.SampledFrom(symbols).Draw(t, "chord"))
		slots[k].Optional = rapid.IntRange(0, 3).Draw(t, "optional") == 0
	}
	return slots
}

func unevenSlots(t *rapid.T, from, to chart.Beats, held bool) (slots []chart.Slot) {
	places := rapid.SliceOfNDistinct(rapid.IntRange(0, 47), 0, 6, rapid.ID[int]).Draw(t, "places")
	if !held {
		places = append(places, 0)
	}
	slices.Sort(places)
	step := rapid.SampledFrom([]chart.Beats{chart.B(1, 1), chart.B(1, 2), chart.B(1, 3), chart.B(1, 8), chart.B(5, 7), chart.B(3, 11)}).Draw(t, "step")
	for _, p := range slices.Compact(places) {
		num, den := step.Fraction()
		if at := from.Add(chart.B(num*p, den)); at.Less(to) {
			slots = append(slots, chart.Slot{At: at})
		}
	}
	for k := range slots {
		end := to
		if k+1 < len(slots) {
			end = slots[k+1].At
		}
		slots[k].Len = end.Sub(slots[k].At)
	}
	return slots
}

// plain is a chart without what Format may state otherwise.
func plain(c chart.Chart) chart.Chart {
	c.Bars = slices.Clone(c.Bars)
	for i := range c.Bars {
		b := &c.Bars[i]
		b.Double = b.Double && !b.RepeatEnd
		b.RepeatStart = false
	}
	return c
}

// undivided is a chart written out, without the double bars at which it was
// divided.
func undivided(c chart.Chart) chart.Chart {
	c = c.Unfolded()
	for i := range c.Bars {
		c.Bars[i].Double = false
	}
	return c
}

func TestFormatRoundTrip(t *testing.T) {
	same, all := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		c := drawnChart(t)
		if err := c.Validate(); err != nil {
			t.Fatalf("%s\n%v", c, err)
		}
		original := c
		text := Format(c, nil)
		again, err := Parse(text)
		if err != nil {
			t.Fatalf("%s\n%s\n%v", c, text, err)
		}
		all++
		if plain(again).Equal(plain(c)) {
			same++
		} else if c = c.Unfolded(); !undivided(again).Equal(undivided(c)) {
			t.Fatalf("%s\n%s\n%s", c, text, again)
		}
		if got, want := sounds(again), sounds(c); !slices.Equal(got, want) {
			t.Fatalf("%s\n%s\n%s\n%v\n%v", c, text, again, got, want)
		}
		if twice := Format(again, nil); again.Equal(original) && string(twice) != string(text) {
			t.Fatalf("%s\n%s", text, twice)
		}
	})
	t.Logf("%d charts, %d of them bar by bar the same", all, same)
	require.Less(t, all/2, same)
}

// sound is a chord as it is heard.
type sound struct {
	chord      chord.Chord
	start, len chart.Beats
	optional   bool
}

func sounds(c chart.Chart) (list []sound) {
	for _, e := range c.Played() {
		list = append(list, sound{e.Chord, e.Start, e.Len, e.Optional})
	}
	return list
}
