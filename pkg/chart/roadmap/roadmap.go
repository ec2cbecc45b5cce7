// Package roadmap makes a chart of bars as notation writes them, with all the
// signs that say where to go on: repeats and endings, da capo, dal segno, coda
// and fine.
//
// Readers of notation list the bars with their signs; [Layout] gives the chart:
//
//	tune, err := roadmap.Layout(chart.Chart{Title: "Low Tide"}, bars)
//	tune.Chart      // of the bars as written, or as played where signs need it
//	tune.Written[k] // the place in bars that bar k of the chart comes from
//
// Where repeats and endings say all, the chart keeps them. A chart knows no
// jumps, no passage played three times without endings and no repeat that a
// sign implies elsewhere; bars with such signs are written out in the order of
// play, a double bar where they go elsewhere.
//
// # Conventions
//
// A jump is taken once, when the repeats at its bar are done. After it repeats
// are not taken again and of endings the last is played, unless a repeat says
// otherwise; "to coda" and fine hold only then. A :| without |: goes back to the
// last :| or to the start, which is the first whole bar unless the bar before
// the :| lacks just the upbeat. Common practice, as MusicXML 4.0 has it of its
// sound element; but that a jump there is taken "the first time through", which
// of a repeat must mean the last, since nothing would repeat it otherwise.
package roadmap

import (
	"fmt"
	"slices"

	"fifthwise/pkg/chart"
)

// Bar is a written bar with its signs. Of its chords the places are given, in
// beats from its first note; lengths are found.
type Bar struct {
	chart.Bar
	// Len is the length of the bar as it is filled, which may be less than its
	// meter says, or more; zero: as the meter says.
	Len   chart.Beats
	Times int // how often a passage is played whose :| stands behind the bar; 0: twice, or as its endings say
	// EndingStop says that the ending that the bar lies in closes behind it.
	EndingStop bool
	AfterJump  bool // the :| behind the bar holds after a jump too

	Segno, Coda string // the name of the sign before the bar; empty: none
	ToCoda      string // the name of the coda to go on to behind the bar; empty: none
	DalSegno    string // the name of the segno to go back to; empty: none
	DaCapo      bool
	Fine        bool // behind the bar
}

// Tune is a chart with the places of its bars in what it was made of.
type Tune struct {
	Chart   chart.Chart
	Written []int // one for each bar of the chart
}

// Layout makes the chart. What head says of title, meter and key is kept, its
// bars are not looked at, and to its warnings those of odd signs and bars are
// added. Signs that lead nowhere are warned of and not followed. An error is
// that of [chart.Chart.Validate], with the places of bars in the chart as it
// is returned.
func Layout(head chart.Chart, bars []Bar) (Tune, error) {
	bars = slices.Clone(bars)
	meter := head.Meter
	if meter == (chart.Meter{}) {
		meter = chart.Meter{Num: 4, Den: 4}
	}
	for i := range bars {
		b := &bars[i]
		if b.Meter == (chart.Meter{}) {
			b.Meter = meter
		}
		meter = b.Meter
		if b.Len.IsZero() {
			b.Len = b.Meter.Beats()
		}
		switch {
		case b.Number != 0:
		case i > 0:
			b.Number = bars[i-1].Number + 1
		case !isShort(*b):
			b.Number = 1
		}
	}
	f := fitting{head: head}
	w := walk{bars: bars, warn: f.warn}
	w.play()
	if signs, ok := keptSigns(bars, w); ok {
		for i := range bars {
			f.list = append(f.list, placed{signs[i], i})
		}
	} else {
		f.list = writtenOut(bars, w.order)
	}
	t := f.fit()
	return t, t.Chart.Validate()
}

// keptSigns is the bars with the repeat signs and endings by which a chart is
// played in the order of the walk; false if there are none.
func keptSigns(bars []Bar, w walk) ([]Bar, bool) {
	plain := chart.Chart{Bars: make([]chart.Bar, len(bars))}
	for i, b := range bars {
		plain.Bars[i] = chart.Bar{Section: b.Section, RepeatStart: b.RepeatStart, RepeatEnd: b.RepeatEnd, Ending: b.Ending, Double: b.Double || b.EndingStop}
	}
	if isShort(bars[0]) {
		plain.Pickup = bars[0].Len
	}
	if !slices.Equal(plain.Order(), w.order) {
		for i := range w.backTo {
			plain.Bars[i].RepeatStart = true
		}
		if !slices.Equal(plain.Order(), w.order) {
			return nil, false
		}
	}
	kept := slices.Clone(bars)
	for i, b := range plain.Bars {
		kept[i].RepeatStart, kept[i].Double = b.RepeatStart, b.Double && !b.RepeatEnd
	}
	return kept, true
}

// writtenOut is the bars in the order of play, without signs.
func writtenOut(bars []Bar, order []int) []placed {
	list := make([]placed, 0, len(order))
	for k, i := range order {
		b := bars[i]
		b.Double = b.Double || b.RepeatEnd || k+1 < len(order) && order[k+1] != i+1
		if n := len(list); n > 0 && (b.RepeatStart || len(b.Ending) > 0) {
			list[n-1].Double = true
		}
		b.RepeatStart, b.RepeatEnd, b.Ending = false, false, nil
		b.Chords = slices.Clone(b.Chords)
		list = append(list, placed{b, i})
	}
	return list
}

func (f *fitting) warn(bar int, format string, args ...any) {
	w := chart.Warning{Bar: bar, Message: fmt.Sprintf(format, args...)}
	if !slices.Contains(f.head.Warnings, w) {
		f.head.Warnings = append(f.head.Warnings, w)
	}
}

func isShort(b Bar) bool { return b.Len.Less(b.Meter.Beats()) }
