package roadmap

import (
	"slices"

	"fifthwise/pkg/chart"
)

// placed is a bar with its place in what was written.
type placed struct {
	Bar
	written int
}

// resolved is the bars with every meter, length and number stated. They share
// no chords with those given.
func resolved(meter chart.Meter, bars []Bar, n *notes) []placed {
	if meter == (chart.Meter{}) {
		meter = chart.Meter{Num: 4, Den: 4}
	}
	list := make([]placed, len(bars))
	for i, b := range bars {
		b.Chords = slices.Clone(b.Chords)
		if b.Meter == (chart.Meter{}) {
			b.Meter = meter
		}
		meter = b.Meter
		if b.Len.IsZero() {
			b.Len = b.Meter.Beats()
		}
		b.Implied = b.Implied && !b.RepeatStart
		b.RepeatStart = b.RepeatStart || b.Implied
		list[i] = placed{b, i}
		if b.Number == 0 {
			list[i].Number = counted(list[:i+1], len(bars) == 1)
		}
		list[i].tidy(n)
	}
	return list
}

// counted is the number of the last bar of a list by the one before: 0 for an
// upbeat, and the same for both parts of a bar.
func counted(list []placed, only bool) int {
	i := len(list) - 1
	switch {
	case i == 0 && (only || !isShort(list[0].Bar)):
		return 1
	case i == 0:
		return 0
	case !isUpbeat(list, i-1) && completes(list[i-1].Bar, list[i].Bar):
		return list[i-1].Number
	}
	return list[i-1].Number + 1
}

func isShort(b Bar) bool { return b.Len.Less(b.Meter.Beats()) }

// isUpbeat reports whether a bar is the upbeat that the tune starts with, and
// so no part of the next bar.
func isUpbeat(list []placed, i int) bool {
	return i == 0 && list[0].Number == 0 && isShort(list[0].Bar)
}

// completes reports whether two short bars make up a whole one.
func completes(first, second Bar) bool {
	return isShort(first) && isShort(second) && first.Meter == second.Meter && first.Len.Add(second.Len) == first.Meter.Beats()
}
