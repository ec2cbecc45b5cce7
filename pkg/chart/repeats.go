package chart

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// maxPasses is how often a repeat may be played.
const maxPasses = 99

// endings are those of one repeat as they are met in the order of writing.
type endings struct {
	first, last int // the bars where they open; first -1: none
	passes      []int
	closed      bool // the last one met its :|
}

// repeats checks that repeats are closed and do not nest, and that endings
// follow each other and count from 1.
func (v *validation) repeats() {
	open := -1 // the bar of a |: not yet closed
	group := endings{first: -1}
	for i := range v.bars {
		b := &v.bars[i]
		if group.first >= 0 && (b.RepeatStart || len(b.Ending) == 0 && b.Section != "" && group.first != group.last) {
			v.complete(&group)
		}
		if b.RepeatStart {
			if open >= 0 {
				v.fault(i, -1, startMark, fmt.Sprintf("the repeat of bar %d is still open", v.bars[open].Number), "close it with :| first; repeats do not nest")
			}
			open = i
		}
		if len(b.Ending) > 0 {
			v.ending(i, &group)
		}
		if !b.RepeatEnd {
			continue
		}
		if i == 0 && !v.chart.Pickup.IsZero() && open < 0 {
			v.fault(i, -1, endMark, "no bar stands before the pickup that could be repeated", "write |: before the pickup to repeat it")
		}
		open = -1
		if group.first >= 0 && !group.closed {
			group.closed = true
			if i+1 == len(v.bars) || !isLaterEnding(v.bars[i+1].Ending) {
				v.complete(&group)
			}
		}
	}
	if group.first >= 0 {
		v.complete(&group)
	}
	if open >= 0 {
		v.fault(open, -1, startMark, "the repeat is not closed", "write :| at its end")
	}
}

// ending takes in the ending that opens at bar i.
func (v *validation) ending(i int, group *endings) {
	passes := v.bars[i].Ending
	for k, n := range passes {
		msg := ""
		switch {
		case n < 1 || n > maxPasses:
			msg = fmt.Sprintf("endings are numbered from 1 to %d", maxPasses)
		case slices.Contains(passes[:k], n), isLaterEnding(passes) && slices.Contains(group.passes, n):
			msg = fmt.Sprintf("ending %s stands twice", endingName(n))
		default:
			continue
		}
		v.fault(i, -1, endingMark, msg, "").Symbol = endingName(passes...)
		return
	}
	switch {
	case isLaterEnding(passes) && group.first < 0:
		v.fault(i, -1, endingMark, fmt.Sprintf("ending %s follows no other ending", endingName(passes...)), "ending 1. comes first, and each follows the :| of the one before").Symbol = endingName(passes...)
		return
	case isLaterEnding(passes):
		if !group.closed {
			v.notClosed(group.last)
		}
		group.last, group.closed = i, false
		group.passes = append(group.passes, passes...)
		return
	case group.first >= 0:
		v.complete(group)
	}
	*group = endings{first: i, last: i, passes: slices.Clone(passes)}
}

// complete checks the endings of a repeat when no more can follow, and forgets
// them.
func (v *validation) complete(group *endings) {
	last := v.bars[group.last].Ending
	name, msg := endingName(last...), ""
	switch highest := slices.Max(group.passes); {
	case highest > len(group.passes):
		missing := 1
		for slices.Contains(group.passes, missing) {
			missing++
		}
		msg = fmt.Sprintf("the repeat has an ending %s but no ending %s", endingName(highest), endingName(missing))
	case !slices.Contains(last, highest):
		msg = fmt.Sprintf("ending %s stands last but is not played last", name)
	case !group.closed && (group.first == group.last || len(last) > 1):
		v.notClosed(group.last)
	}
	if msg != "" {
		v.fault(group.last, -1, endingMark, msg, "").Symbol = name
	}
	*group = endings{first: -1}
}

func (v *validation) notClosed(i int) {
	name := endingName(v.bars[i].Ending...)
	v.fault(i, -1, endingMark, fmt.Sprintf("ending %s is not closed", name), "write :| where it goes back").Symbol = name
}

// endingName is the mark of an ending: "1.", "1,2.".
func endingName(passes ...int) string {
	names := make([]string, len(passes))
	for i, n := range passes {
		names[i] = strconv.Itoa(n)
	}
	return strings.Join(names, ",") + "."
}
