package musicxml

import (
	"slices"

	"fifthwise/pkg/chart"
)

// impliedStarts are the bars to which a :| goes back in the chart but not in
// MusicXML, which knows no sections: there the last :| or |: counts.
func impliedStarts(c chart.Chart) map[int]bool {
	order := c.Order()
	implied := map[int]bool{}
	top := 0
	if !c.Pickup.IsZero() {
		top = 1
	}
	for k := 1; k < len(order); k++ {
		to := order[k]
		if to > order[k-1] || to == top || c.Bars[to].RepeatStart {
			continue
		}
		if to == 0 || !c.Bars[to-1].RepeatEnd || len(c.Bars[to].Ending) > 0 {
			implied[to] = true
		}
	}
	open := false
	for i, b := range c.Bars {
		open = open || b.RepeatStart
		if i > 0 && !open && b.Section != "" && slices.Contains(b.Ending, 1) {
			implied[i] = true // the ending is all of its repeat and played once
		}
		open = open && !b.RepeatEnd
	}
	return implied
}

// endOfEnding is the bar behind which the ending closes that opens at a bar: that
// of the :| by which it goes back, if it does; the last ending at the first sign.
func endOfEnding(bars []chart.Bar, at int) int {
	for i := at; i < len(bars); i++ {
		if bars[i].RepeatEnd && (slices.Contains(bars[at].Ending, 1) || i+1 < len(bars) && len(bars[i+1].Ending) > 0) {
			return i
		}
		if i+1 < len(bars) && len(bars[i+1].Ending) > 0 {
			break
		}
	}
	for i := at; i < len(bars)-1; i++ {
		next := bars[i+1]
		if bars[i].RepeatEnd || bars[i].Double || next.RepeatStart || len(next.Ending) > 0 || next.Section != "" {
			return i
		}
	}
	return len(bars) - 1
}
