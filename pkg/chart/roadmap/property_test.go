package roadmap

import (
	"fmt"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"fifthwise/pkg/chart"
)

// drawnBars are bars with any signs and with chords that each have a name of
// their own, all in their bars. Every length is one of whole beats.
func drawnBars(t *rapid.T) []Bar {
	often := func(n int, what string) bool { return rapid.IntRange(0, n).Draw(t, what) == 0 }
	sign := func(what string) string {
		if often(5, what) {
			return rapid.SampledFrom([]string{"x", "y"}).Draw(t, "name")
		}
		return ""
	}
	bars := make([]Bar, rapid.IntRange(1, 10).Draw(t, "bars"))
	for i := range bars {
		b := &bars[i]
		b.RepeatStart, b.RepeatEnd, b.Double = often(4, "|:"), often(3, ":|"), often(8, "||")
		if often(3, "ending") {
			b.Ending = rapid.SampledFrom([][]int{{1}, {2}, {1, 2}, {3}, {2, 3}, {0}}).Draw(t, "passes")
		}
		if often(5, "section") {
			b.Section = "A"
		}
		if often(6, "times given") {
			b.Times = rapid.IntRange(0, 4).Draw(t, "times")
		}
		b.Implied = often(6, "(|:)")
		b.EndingStop, b.AfterJump = often(4, "]"), often(4, "again")
		b.Segno, b.Coda, b.ToCoda, b.DalSegno = sign("segno"), sign("coda"), sign("to coda"), sign("D.S.")
		b.DaCapo, b.Fine = often(6, "D.C."), often(6, "fine")
		if often(4, "meter") {
			b.Meter = chart.Meter{Num: uint8(rapid.IntRange(2, 4).Draw(t, "beats")), Den: 4}
		}
		beats := 2 // fewer than any bar has by its meter: all places lie within
		if often(2, "length") {
			beats = rapid.IntRange(1, 6).Draw(t, "length in beats")
			b.Len = chart.B(beats, 1)
		}
		for at := range min(beats, 2) {
			if rapid.Bool().Draw(t, "chord") {
				b.Chords = append(b.Chords, chart.Slot{Symbol: fmt.Sprintf("%d/%d", i, at), At: chart.B(at, 1)})
			}
		}
	}
	return bars
}

// What is laid out is played as the bars are in their order of play: every chord
// in its place, but that a last bar may have been made whole.
func TestLayoutPlaysTheBars(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		bars := drawnBars(t)
		tune, err := Layout(chart.Chart{}, bars)
		require.NoError(t, err)

		if slices.ContainsFunc(tune.Chart.Warnings, func(w chart.Warning) bool { return w.Message == filledUpWarning }) {
			return // longer than it is written
		}
		var told notes
		list := resolved(chart.Meter{}, bars, &told)
		whole := unsplit(list)
		order := inPlay(whole, &told)
		var want []string
		now := chart.Beats{}
		for _, i := range order {
			for _, s := range whole[i].Chords {
				want = append(want, fmt.Sprintf("%s on %v", s.Symbol, now.Add(s.At)))
			}
			now = now.Add(whole[i].Len)
		}
		t.Log(written(tune.Chart), "in the order", order)
		events := tune.Chart.Played()
		start := events[0].Start
		var got []string
		for _, e := range events {
			if e.Symbol != "N.C." {
				got = append(got, fmt.Sprintf("%s on %v", e.Symbol, e.Start.Sub(start)))
			}
		}
		assert.Equal(t, want, got)

		last := events[len(events)-1]
		total := last.Start.Add(last.Len).Sub(start)
		end := whole[order[len(order)-1]]
		missing := chart.Beats{}
		if isShort(end.Bar) {
			missing = end.Meter.Beats().Sub(end.Len)
		}
		assert.Contains(t, []chart.Beats{now, now.Add(missing)}, total)
	})
}

// Every chord of the chart is one of the written bar it is linked to, or of
// the second part of that.
func TestWrittenLinks(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		bars := drawnBars(t)
		tune, err := Layout(chart.Chart{}, bars)
		require.NoError(t, err)
		require.Len(t, tune.Written, len(tune.Chart.Bars))
		for k, b := range tune.Chart.Bars {
			i := tune.Written[k]
			names := symbols(b.Chords)
			own := symbols(bars[i].Chords)
			require.GreaterOrEqual(t, len(names), len(own))
			assert.Equal(t, own, names[:len(own)])
			if rest := names[len(own):]; len(rest) > 0 {
				second := slices.IndexFunc(bars, func(b Bar) bool { return len(b.Chords) > 0 && b.Chords[0].Symbol == rest[0] })
				assert.Equal(t, symbols(bars[second].Chords), rest)
			}
		}
	})
}

func symbols(slots []chart.Slot) []string {
	names := []string{}
	for _, s := range slots {
		if s.Symbol != "" {
			names = append(names, s.Symbol)
		}
	}
	return names
}

// Whatever the bars, Layout comes to an end within the bounds of a chart, and
// what is too much or no bar is an error.
func TestLayoutOfNonsense(t *testing.T) {
	beats := rapid.Custom(func(t *rapid.T) chart.Beats {
		return chart.B(rapid.IntRange(-9, 99).Draw(t, "num"), rapid.SampledFrom([]int{1, 1, 2, 3, 480, 9999, 1<<31 - 1}).Draw(t, "den"))
	})
	rapid.Check(t, func(t *rapid.T) {
		bars := drawnBars(t)
		for i := range bars {
			b := &bars[i]
			b.Times = rapid.SampledFrom([]int{0, -1, 99, 100, 1 << 62}).Draw(t, "times")
			if rapid.Bool().Draw(t, "odd ending") {
				b.Ending = rapid.SliceOf(rapid.Int()).Draw(t, "passes")
			}
			if rapid.Bool().Draw(t, "odd length") {
				b.Len = beats.Draw(t, "length")
			}
			if rapid.Bool().Draw(t, "odd places") {
				for k := range b.Chords {
					b.Chords[k].At = beats.Draw(t, "place")
				}
			}
			b.Meter = chart.Meter{Num: rapid.SampledFrom([]uint8{0, 1, 4, 6, 64, 255}).Draw(t, "upper"), Den: rapid.SampledFrom([]uint8{0, 1, 4, 8, 32, 7}).Draw(t, "lower")}
		}
		tune, err := Layout(chart.Chart{}, bars)
		played, _ := tune.Chart.PlayedLen()
		assert.LessOrEqual(t, len(tune.Chart.Bars), chart.MaxPlayedBars+1)
		assert.Len(t, tune.Written, len(tune.Chart.Bars))
		if played > chart.MaxPlayedBars {
			assert.Error(t, err)
		}
		assert.NotEmpty(t, tune.Chart.String())
	})
}
