package roadmap

import (
	"slices"

	"fifthwise/pkg/chart"
)

// walk goes through bars in the order of play. It ends: a repeat goes back a
// bounded number of times, a jump once, and a coda lies ahead.
type walk struct {
	*notes
	bars   []placed
	order  []int
	first  []int  // where in order a bar stands first, from 1; 0: not yet
	last   []int  // the last pass that the endings of a repeat name, from one of them on
	done   []bool // jumps that were taken, or go nowhere
	met    []bool // bars played after a jump
	jumped int    // bars played before the last jump; 0: none was taken

	start int  // where the next :| goes back to
	pass  int  // times through from start, from 1
	open  bool // start is a |: whose :| is not yet done with
}

// maxTimes is how often a passage may be played.
const maxTimes = 99

// play is the places of bars in the order of play, at most one more than a
// chart may have.
func play(bars []placed, told *notes) []int {
	w := walk{notes: told, bars: bars, last: lastPasses(bars),
		first: make([]int, len(bars)), done: make([]bool, len(bars)), met: make([]bool, len(bars))}
	w.begin(0)
	for at := 0; at >= 0 && at < len(bars) && len(w.order) <= chart.MaxPlayedBars; {
		if bars[at].RepeatStart && !(w.open && at == w.start) {
			w.begin(at)
			w.open = true
		}
		if w.leavesOut(at) {
			at = w.skip(at)
			continue
		}
		w.order = append(w.order, at)
		if w.first[at] == 0 {
			w.first[at] = len(w.order)
		}
		at = w.next(at)
	}
	if n := len(w.order); n > 0 && n <= chart.MaxPlayedBars {
		w.tellUnmet()
	}
	return w.order
}

// begin makes a bar the place to go back to, for the first time.
func (w *walk) begin(at int) { w.start, w.pass, w.open = at, 1, false }

// isKnown reports whether a bar was played before the last jump.
func (w *walk) isKnown(at int) bool { return w.first[at] > 0 && w.first[at] <= w.jumped }

// leavesOut reports whether a bar opens an ending that is not played now: of
// known endings the last is.
func (w *walk) leavesOut(at int) bool {
	passes := w.bars[at].Ending
	if len(passes) == 0 || w.isOpening(at) {
		return false
	}
	if w.isKnown(at) && !w.isTakenAgain(at) {
		w.pass = max(w.pass, w.last[at]) // never back, or the way would not end
	}
	return !slices.Contains(passes, w.pass)
}

// isOpening reports whether a bar opens the last ending of one repeat and the
// next repeat, of which it is no ending.
func (w *walk) isOpening(at int) bool {
	return w.bars[at].RepeatStart && isLaterEnding(w.bars[at].Ending)
}

// isTakenAgain reports whether the ending that opens at a bar closes with a :|
// that holds after a jump.
func (w *walk) isTakenAgain(at int) bool {
	for i := at; i < len(w.bars) && (i == at || len(w.bars[i].Ending) == 0); i++ {
		if w.bars[i].RepeatEnd {
			return w.bars[i].AfterJump
		}
	}
	return false
}

// lastPasses is for each bar the highest pass that the endings from it on name,
// up to the next repeat. An ending 1 alone is left out by the second pass.
func lastPasses(bars []placed) []int {
	last := make([]int, len(bars))
	highest := 0
	for i, b := range slices.Backward(bars) {
		if len(b.Ending) > 0 {
			highest = max(highest, slices.Max(b.Ending), 2)
		}
		last[i] = highest
		if b.RepeatStart && !isLaterEnding(b.Ending) || slices.Contains(b.Ending, 1) {
			highest = 0
		}
	}
	return last
}

// skip is the bar behind the ending that opens at a bar. Where no other ending
// follows, the repeat is done with.
func (w *walk) skip(at int) int {
	i := at + 1
	for i < len(w.bars) && !w.bars[i-1].EndingStop && !w.bars[i-1].RepeatEnd && !w.opens(i) {
		i++
	}
	if i < len(w.bars) && w.bars[i-1].RepeatEnd && !isLaterEnding(w.bars[i].Ending) {
		w.begin(i)
	}
	return i
}

// opens reports whether an ending or a repeat starts at a bar.
func (w *walk) opens(at int) bool {
	return at < len(w.bars) && (w.bars[at].RepeatStart || len(w.bars[at].Ending) > 0)
}

// next is the bar to play after one; -1: none.
func (w *walk) next(at int) int {
	b := &w.bars[at]
	switch {
	case b.RepeatEnd && w.goesBack(at):
		w.pass++
		if w.start == 0 && !w.open {
			w.start = w.top(at)
		}
		return w.start
	case b.RepeatEnd, b.EndingStop && w.pass > 1 && !w.opens(at+1) && !w.isOpening(w.start):
		w.begin(at + 1)
	}
	if w.jumped > 0 {
		if to := w.lead(at); to != at+1 {
			return to
		}
	}
	if !w.done[at] {
		return w.jump(at)
	}
	return at + 1
}

// goesBack reports whether the :| behind a bar holds now.
func (w *walk) goesBack(at int) bool {
	return w.pass < w.times(at) && (w.bars[at].AfterJump || !w.isKnown(at))
}

// times is how often the passage is played whose :| stands behind a bar.
func (w *walk) times(at int) int {
	if n := w.bars[at].Times; n > 0 {
		return n
	}
	named := 0
	for i := w.start; i <= at; i++ {
		if e := w.bars[i].Ending; len(e) > 0 && !w.isOpening(i) {
			named = max(named, slices.Max(e))
		}
	}
	if named > 0 && at+1 < len(w.bars) && isLaterEnding(w.bars[at+1].Ending) {
		named = max(named, w.last[at+1])
	}
	return max(named, 2)
}

// top is the bar where the tune starts over behind a bar: the first whole one,
// unless the bar lacks just the upbeat.
func (w *walk) top(at int) int {
	if first := w.bars[0].Bar; at == 0 || !isShort(first) || completes(w.bars[at].Bar, first) {
		return 0
	}
	return 1
}

// lead follows what holds after a jump: fine, and the sign to go to the coda.
func (w *walk) lead(at int) int {
	b := &w.bars[at]
	w.met[at] = true
	if b.Fine {
		return -1
	}
	if b.ToCoda == "" {
		return at + 1
	}
	to := w.find(b.ToCoda, at+1, 1, func(b *placed) string { return b.Coda })
	if to < 0 {
		w.warn(b.Number, "no coda lies ahead to go on to; the sign is left out")
		return at + 1
	}
	w.begin(to)
	return to
}

// jump is the bar to which a bar's D.C. or D.S. goes, or else the next.
func (w *walk) jump(at int) int {
	b := &w.bars[at]
	to := -1
	switch {
	case b.DaCapo:
		to = w.top(at)
	case b.DalSegno != "":
		if to = w.find(b.DalSegno, at, -1, func(b *placed) string { return b.Segno }); to < 0 {
			w.warn(b.Number, "no segno lies behind to go back to; the sign is left out")
		}
	default:
		return at + 1
	}
	w.done[at] = true
	if to < 0 {
		return at + 1
	}
	w.jumped = len(w.order)
	w.begin(to)
	w.reopen(to)
	return to
}

// reopen lets the next :| go back to where the passage starts that a jump goes
// into: to its |:, or else to the last :| or to the start.
func (w *walk) reopen(at int) {
	for at > 0 && !w.bars[at].RepeatStart && !w.bars[at-1].RepeatEnd {
		at--
	}
	w.start, w.open = at, w.bars[at].RepeatStart
}

// find is the nearest bar whose sign has a name, from a bar on by steps of 1 or
// -1; -1 if there is none. The only bar with such a sign has any name.
func (w *walk) find(name string, from, step int, sign func(*placed) string) int {
	found, others := -1, 0
	for i := from; i >= 0 && i < len(w.bars); i += step {
		switch s := sign(&w.bars[i]); s {
		case name:
			return i
		case "":
		default:
			found = i
			others++
		}
	}
	if others > 1 {
		return -1
	}
	return found
}

// tellUnmet warns of signs that were never followed and bars never played.
func (w *walk) tellUnmet() {
	end := w.order[len(w.order)-1]
	leads := slices.ContainsFunc(w.bars, func(b placed) bool { return b.ToCoda != "" })
	for i, b := range w.bars {
		if b.Coda != "" && w.jumped > 0 && !leads {
			w.warn(b.Number, "no sign says where to go on to the coda here; it is played in its place")
		}
		if (b.DaCapo || b.DalSegno != "") && !w.done[i] {
			w.warn(b.Number, "the D.C. or D.S. here is never come to when it holds; it is left out")
		}
		if (b.ToCoda != "" || b.Fine && i != end) && !w.met[i] {
			w.warn(b.Number, "the sign to the coda or fine here is never come to after a jump; it is left out")
		}
		if w.first[i] == 0 && (i == 0 || w.first[i-1] > 0) {
			w.warn(b.Number, "the signs lead past the bars from here to bar %d; they are never played", w.bars[w.unplayedTo(i)].Number)
		}
	}
}

func (w *walk) unplayedTo(i int) int {
	for i+1 < len(w.first) && w.first[i+1] == 0 {
		i++
	}
	return i
}
