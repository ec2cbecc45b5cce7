package main

import "unicode/utf8"

// bar is a written bar as it is drawn. The grid knows nothing of music but
// where things stand.
type bar struct {
	number  string
	section string // the name, where one starts
	breaks  bool   // a line starts here
	ending  string // "1." where an ending opens
	meter   string // where it changes
	opens   string // | or |:
	closes  string // | || or :|
	marks   []mark
}

// mark is a chord, or a slash, with what stands above and below it.
type mark struct {
	at    float64 // place in the bar, from 0 to 1
	text  string
	hang  int // characters of text that stand before what below is aligned to
	below string
	above label
}

// label is what stands above a chord: a name and what is said of it.
type label struct{ name, more string }

func (m mark) width() int { return max(width(m.text), m.hang+width(m.below)) }

func width(s string) int { return utf8.RuneCountInString(s) }

// lead is what stands in a bar before its chords.
func (b bar) lead() string {
	s := b.ending
	if b.ending != "" && b.meter != "" {
		s += " "
	}
	return s + b.meter
}

// leadWidth is the room that the lead takes.
func (b bar) leadWidth() int {
	if w := width(b.lead()); w > 0 {
		return w + 1
	}
	return 0
}

// natural is the width in which the bar's marks stand as close as they may,
// with a space behind, but not less than the least.
func (b bar) natural() int {
	w := b.leadWidth()
	for i, m := range b.marks {
		if i > 0 {
			w += gap(m)
		}
		w += m.width()
	}
	return max(w+1, least)
}

// gap is the least room before a mark that is not the first.
func gap(m mark) int {
	if m.text == "/" {
		return 1
	}
	return 2
}

// places are the columns of the marks in a bar of some width: where their time
// would have them, or as near as their neighbours allow.
func (b bar) places(within int) []int {
	boxes := make([]box, len(b.marks))
	lead := b.leadWidth()
	for i, m := range b.marks {
		boxes[i] = box{wanted: lead + int(m.at*float64(within-lead)), width: m.width()}
		if i > 0 {
			boxes[i].gap = gap(m)
		}
	}
	return spread(boxes, lead, within-1)
}

// box is a piece of text that is to stand at a column.
type box struct {
	wanted, width int
	gap           int // the least room before it
}

// spread gives boxes columns from one to another, in their order, as near to
// where they are wanted as the others allow. Where the room is too small they
// go beyond it.
func spread(boxes []box, from, to int) []int {
	latest := make([]int, len(boxes))
	for i := len(boxes) - 1; i >= 0; i-- {
		latest[i] = to - boxes[i].width
		to = latest[i] - boxes[i].gap
	}
	columns := make([]int, len(boxes))
	for i, b := range boxes {
		columns[i] = max(from+b.gap, min(b.wanted, latest[i]))
		from = columns[i] + b.width
	}
	return columns
}
