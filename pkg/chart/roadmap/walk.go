package roadmap

import (
	"slices"

	"fifthwise/pkg/chart"
)

// walk goes through bars in the order of play. It ends: a repeat goes back a
// bounded number of times, and a jump once.
type walk struct {
	bars   []Bar
	warn   func(bar int, format string, args ...any)
	order  []int
	backTo map[int]bool // bars that a :| goes back to

	start  int  // where the next :| goes back to
	pass   int  // times through from start, from 1
	open   bool // start is a |: whose :| is not yet done with
	jumped bool
	taken  map[int]bool // bars whose jump is done
}

// maxTimes is how often a passage may be played.
const maxTimes = 99

func (w *walk) play() {
	w.backTo, w.taken = map[int]bool{}, map[int]bool{}
	w.begin(0)
	for at := 0; at >= 0 && at < len(w.bars) && len(w.order) <= chart.MaxPlayedBars; {
		b := &w.bars[at]
		if b.RepeatStart && (!w.open || at != w.start) {
			if w.open && !w.jumped {
				w.warn(b.Number, "the repeat that starts in bar %d is not closed; it is left out", w.bars[w.start].Number)
			}
			w.begin(at)
			w.open = true
		}
		if len(b.Ending) > 0 && !slices.Contains(b.Ending, w.passAt(at)) {
			if next := w.behindEnding(at); next > at {
				at = next
				continue
			}
		}
		w.order = append(w.order, at)
		at = w.next(at)
	}
}

// begin makes a bar the place to go back to, for the first time.
func (w *walk) begin(at int) { w.start, w.pass, w.open = at, 1, false }

// passAt is the time through that the ending at a bar is asked for: after a
// jump the last.
func (w *walk) passAt(at int) int {
	if !w.jumped || w.againAt(at) {
		return w.pass
	}
	return w.lastPass(at)
}

// againAt reports whether the ending that opens at a bar closes with a :| that
// holds after a jump.
func (w *walk) againAt(at int) bool {
	for i := at; i < len(w.bars) && (i == at || len(w.bars[i].Ending) == 0); i++ {
		if w.bars[i].RepeatEnd {
			return w.bars[i].AfterJump
		}
	}
	return false
}

// lastPass is the highest pass that the endings from a bar on name, up to the
// next repeat.
func (w *walk) lastPass(at int) int {
	last := 0
	for i := at; i < len(w.bars) && (i == at || !w.bars[i].RepeatStart && !slices.Contains(w.bars[i].Ending, 1)); i++ {
		if e := w.bars[i].Ending; len(e) > 0 {
			last = max(last, slices.Max(e))
		}
	}
	return last
}

// behindEnding is the bar behind the ending that opens at a bar.
func (w *walk) behindEnding(at int) int {
	i := at
	for ; i < len(w.bars); i++ {
		if i > at && (len(w.bars[i].Ending) > 0 || w.bars[i].RepeatStart) {
			return i
		}
		if w.bars[i].EndingStop || w.bars[i].RepeatEnd {
			break
		}
	}
	return i + 1
}

// next is the bar to play after one.
func (w *walk) next(at int) int {
	b := &w.bars[at]
	if b.Fine && w.jumped {
		return -1
	}
	if b.ToCoda != "" && w.jumped {
		if to := w.target(b.ToCoda, func(b Bar) string { return b.Coda }); to >= 0 {
			w.begin(to)
			return to
		}
		w.warn(b.Number, "there is no coda to go on to; the sign is left out")
	}
	if b.RepeatEnd {
		if w.pass < w.times(at) && (!w.jumped || b.AfterJump) {
			w.pass++
			to := w.from(at)
			w.backTo[to], w.start = true, to
			return to
		}
		w.begin(at + 1)
	}
	if w.taken[at] {
		return at + 1
	}
	to := -1
	switch {
	case b.DaCapo:
		to = 0
	case b.DalSegno != "":
		if to = w.target(b.DalSegno, func(b Bar) string { return b.Segno }); to < 0 {
			w.warn(b.Number, "there is no segno to go back to; the sign is left out")
		}
	}
	if to < 0 {
		return at + 1
	}
	w.taken[at], w.jumped = true, true
	w.begin(to)
	return to
}

// target is the first bar whose sign has a name; the only bar with such a sign
// has any name. It is -1 if there is none.
func (w *walk) target(name string, sign func(Bar) string) int {
	found, only := -1, true
	for i, b := range w.bars {
		switch s := sign(b); {
		case s == name:
			return i
		case s != "":
			only = only && found < 0
			found = i
		}
	}
	if !only {
		return -1
	}
	return found
}

// times is how often the passage is played whose :| stands behind a bar.
func (w *walk) times(at int) int {
	if n := w.bars[at].Times; n > 0 && n <= maxTimes {
		return n
	}
	last := 0
	for i := w.start; i <= at; i++ {
		if e := w.bars[i].Ending; len(e) > 0 {
			last = max(last, slices.Max(e))
		}
	}
	if last == 0 {
		return 2
	}
	if at+1 < len(w.bars) && len(w.bars[at+1].Ending) > 0 {
		return max(last+1, w.lastPass(at+1))
	}
	if last == 1 {
		return 2 // only a first ending is written; the last pass leaves it out
	}
	return last
}

// from is the bar that the :| behind a bar goes back to.
func (w *walk) from(at int) int {
	if w.start > 0 || w.open || len(w.bars) < 2 || !isShort(w.bars[0]) || at == 0 {
		return w.start
	}
	if first, last := w.bars[0], w.bars[at]; first.Len.Add(last.Len) == last.Meter.Beats() {
		return 0
	}
	return 1
}
