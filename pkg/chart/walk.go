package chart

import "slices"

// walk goes through the written bars in the order of play. Going back is
// always to a later place, or to the same place on a later pass, than the last
// time, so that every chart comes to its end.
type walk struct {
	bars    []Bar
	at      int    // the bar to look at next
	section string // that the bar before it lies in
	current string // section of the bar that next gave
	start   place  // where the next :| goes back to
	pass    int    // times through from start, from 1
	open    bool   // start is a |: not yet done with
	ending  int    // the bar where the ending in play opened; -1: none
	passes  int    // the highest pass that an ending met so far names
	after   place  // where a :| goes back to that no longer belongs to that ending; bar -1: none
	left    int    // bars that may still be played
	cut     bool   // bars were left out for being too many
}

// place is a bar and the section before it.
type place struct {
	bar     int
	section string
}

var nowhere = place{bar: -1}

func (c Chart) walk(bars []Bar) walk {
	w := walk{bars: bars, pass: 1, ending: -1, after: nowhere, left: MaxPlayedBars}
	if !c.Pickup.IsZero() {
		w.start.bar = 1
	}
	return w
}

// next is the next bar to play; false at the end.
func (w *walk) next() (i int, ok bool) {
	for w.at < len(w.bars) {
		i = w.at
		b := &w.bars[i]
		w.enter(i, b)
		if len(b.Ending) > 0 && !isLaterEnding(b.Ending) && w.inLaterEnding() {
			w.beginBehind()
		}
		if len(b.Ending) > 0 && !(i == w.start.bar && isLaterEnding(b.Ending)) {
			w.passes = max(w.passes, slices.Max(b.Ending))
			if !slices.Contains(b.Ending, w.pass) {
				w.skip(i)
				continue
			}
			w.ending, w.after = i, nowhere
		}
		if w.left == 0 {
			w.cut = true
			return 0, false
		}
		w.left--
		w.current = w.section
		w.leave(i, b)
		return i, true
	}
	return 0, false
}

// enter takes note of a repeat or a section that starts at bar i.
func (w *walk) enter(i int, b *Bar) {
	here := place{i, w.section}
	if b.Section != "" {
		w.section = b.Section
	}
	switch {
	case b.RepeatStart && !(w.open && i == w.start.bar):
		w.begin(here)
		w.open = true
	case b.Section == "" || i <= w.start.bar: // a pickup lies before the start
	case w.inLaterEnding():
		w.after = here
	case !w.open && w.ending < 0:
		w.begin(here)
	}
}

// leave decides where to go after bar i.
func (w *walk) leave(i int, b *Bar) {
	w.at = i + 1
	if !b.RepeatEnd {
		if b.Double && w.inLaterEnding() && w.after == nowhere {
			w.after = place{w.ending, w.section}
		}
		return
	}
	more := w.at < len(w.bars) && isLaterEnding(w.bars[w.at].Ending)
	var back bool
	switch {
	case w.ending < 0:
		back = w.pass < 2
	case more || !w.inLaterEnding():
		back = true
	case w.after != nowhere:
		w.begin(w.after)
		back = true
	default:
		back = w.pass < w.passes
	}
	if !back {
		w.begin(place{w.at, w.section})
		return
	}
	w.pass++
	w.ending, w.after = -1, nowhere
	w.at, w.section = w.start.bar, w.start.section
}

// skip passes over the ending that opens at bar i.
func (w *walk) skip(i int) {
	for ; i < len(w.bars); i++ {
		if s := w.bars[i].Section; s != "" {
			w.section = s
		}
		if w.bars[i].RepeatEnd {
			break
		}
	}
	w.at = i + 1
	if w.at < len(w.bars) && !isLaterEnding(w.bars[w.at].Ending) {
		w.begin(place{w.at, w.section})
	}
}

// begin makes p the place to go back to, for the first time.
func (w *walk) begin(p place) {
	w.start, w.pass, w.passes = p, 1, 0
	w.open, w.ending, w.after = false, -1, nowhere
}

// beginBehind begins another repeat, of which a first ending tells, behind the
// last :|.
func (w *walk) beginBehind() {
	start := w.after
	if start == nowhere {
		start = place{w.ending, w.section}
	}
	w.begin(start)
}

func (w *walk) inLaterEnding() bool {
	return w.ending >= 0 && isLaterEnding(w.bars[w.ending].Ending)
}

// isLaterEnding reports whether an ending follows another of its repeat.
func isLaterEnding(passes []int) bool { return len(passes) > 0 && !slices.Contains(passes, 1) }
