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
// # Order of play
//
// A jump is taken once, when the repeats at its bar are done. After it, repeats
// that were played before are not taken again and of their endings the last is
// played, unless a repeat says otherwise; "to coda" and fine hold only then, when
// the repeats at their bar are done. A coda lies ahead of where one goes to it
// from, a segno behind. A :| without |: goes back to the last :|, to the end of
// the last ending or to the start. To the start means to the first whole bar,
// unless the bar that goes back lacks just the upbeat; so too for a D.C. Common
// practice, as MusicXML 4.0 has it of its sound element; but that a jump there
// is taken "the first time through", which of a repeat must mean the last, since
// nothing would repeat it otherwise.
//
// # Bars that are not as long as their meter
//
// A short first bar is a pickup; a short last bar with chords stays as it is. Two short bars
// that make up a whole one become one, where no sign stands between them that
// the chart needs; an upbeat without chords becomes part of the bar before it
// across any sign, so that the last bar may come out whole. A bar at a repeat that
// lacks just an upbeat is whole, with a warning where the way through the repeats
// does not supply it: phrases count bars so. Other bars get a meter of their own
// length.
package roadmap

import (
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
	Times int // how often a passage is played whose :| stands behind the bar, 1 to 99; 0: twice, or as its endings say
	// EndingStop says that the ending that the bar lies in closes behind it.
	EndingStop bool
	AfterJump  bool // the :| behind the bar holds after a jump too
	Implied    bool // a |: before the bar is meant and not printed

	Segno, Coda string // the name of the sign before the bar; empty: none
	ToCoda      string // the name of the coda to go on to behind the bar; empty: none
	DalSegno    string // the name of the segno to go back to; empty: none
	DaCapo      bool
	Fine        bool // behind the bar
}

// Tune is a chart with the places of its bars in what it was made of.
type Tune struct {
	Chart   chart.Chart
	Written []int // one for each bar of the chart; of two bars made one the first
}

// Layout makes the chart. What head says of title, meter and key is kept, its
// bars are not looked at, and to its warnings those of odd signs and bars are
// added. Signs that lead nowhere are warned of and not followed.
//
// Bars without a number are counted on, two short ones that make up a whole one
// as one. Chords are put in the order of their places; of several in one place
// the first is kept, with a warning. Places finer than a chart has them, to
// 1/10000 of a beat, are rounded to 1/480 of a beat.
//
// An error is that of [chart.Chart.Validate], with the places of bars in the
// chart as it is returned.
func Layout(head chart.Chart, bars []Bar) (Tune, error) {
	n := notes{list: slices.Clone(head.Warnings)}
	list := unsplit(resolved(head.Meter, bars, &n))
	order := inPlay(list, &n)
	list, order = withoutUpbeats(list, order)
	if filled, any := filledUp(list, order, &n); any {
		list, order = filled, inPlay(filled, &notes{})
	}
	if kept, ok := keptSigns(list, order); ok {
		list = kept
	} else {
		list = unsplit(writtenOut(list, order))
		list, _ = withoutUpbeats(list, asWritten(list))
	}
	t := fit(head, list, &n)
	t.Chart.Warnings = n.list
	return t, t.Chart.Validate()
}

// inPlay is the order in which the bars are played. More bars than a chart may
// have are not looked into.
func inPlay(list []placed, n *notes) []int {
	if len(list) > chart.MaxPlayedBars {
		return asWritten(list)
	}
	mend(list, n)
	return play(list, n)
}

func asWritten(list []placed) []int {
	order := make([]int, len(list))
	for i := range order {
		order[i] = i
	}
	return order
}
