package roadmap

import (
	"slices"

	"fifthwise/pkg/chart"
)

// keptSigns is the bars with the repeat signs and endings by which a chart is
// played in an order; false if there are none. Starts of repeats that are not
// printed are added only where the order needs them.
func keptSigns(list []placed, order []int) ([]placed, bool) {
	signs := signsOf(list)
	if !playsAs(signs, order) && !playsAs(withImplied(signs, list), order) && !playsAs(withStarts(signs, order), order) {
		return nil, false
	}
	kept := slices.Clone(list)
	for i, b := range signs.Bars {
		kept[i].RepeatStart, kept[i].Double = b.RepeatStart, b.Double && !b.RepeatEnd // a :| is one already
	}
	return kept, true
}

// withImplied adds the starts that bars imply.
func withImplied(signs chart.Chart, list []placed) chart.Chart {
	for i := range list {
		signs.Bars[i].RepeatStart = list[i].RepeatStart
	}
	return signs
}

// withStarts adds a start wherever the order goes back to.
func withStarts(signs chart.Chart, order []int) chart.Chart {
	for k := 1; k < len(order); k++ {
		if order[k] <= order[k-1] {
			signs.Bars[order[k]].RepeatStart = true
		}
	}
	return signs
}

func playsAs(c chart.Chart, order []int) bool {
	return c.Validate() == nil && slices.Equal(c.Order(), order)
}

// signsOf is a chart of the printed signs alone, all else in order.
func signsOf(list []placed) chart.Chart {
	silent := func(at, length int) []chart.Slot {
		return []chart.Slot{{At: chart.B(at, 1), Len: chart.B(length, 1)}}
	}
	c := chart.Chart{Bars: make([]chart.Bar, len(list))}
	for i, b := range list {
		c.Bars[i] = chart.Bar{Chords: silent(0, 4),
			RepeatStart: b.RepeatStart && !b.Implied, RepeatEnd: b.RepeatEnd, Ending: b.Ending, Double: b.Double}
		if b.Section != "" {
			c.Bars[i].Section = "A"
		}
	}
	if len(list) > 1 && isShort(list[0].Bar) {
		c.Pickup, c.Bars[0].Chords = chart.B(1, 1), silent(3, 1)
	}
	return c
}
