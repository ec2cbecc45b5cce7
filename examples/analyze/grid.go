package main

import (
	"unicode/utf8"
)

// The measures of a page, in columns.
const (
	pageWidth = 80
	margin    = 5 // bar numbers stand in it
	barsALine = 4
	least     = 9 // of a bar
)

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
// with a space behind.
func (b bar) natural() int {
	w := b.leadWidth()
	for i, m := range b.marks {
		if i > 0 {
			w += gap(m)
		}
		w += m.width()
	}
	return w + 1
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

// line is bars side by side.
type line struct {
	indent int // in bars
	bars   []bar
}

// grid is a page of bars.
type grid struct {
	opener int // width of the bar line that a line begins with
	cell   int // width of a bar that needs no more
}

func newGrid(bars []bar) grid {
	g := grid{opener: len("| "), cell: least}
	for _, b := range bars {
		if b.opens != "|" {
			g.opener = len("|: ")
		}
	}
	most := (pageWidth-margin-g.opener-len("||"))/barsALine - len("| ")
	for _, b := range bars {
		if w := b.natural(); w <= most {
			g.cell = max(g.cell, w)
		}
	}
	return g
}

// lines breaks bars into lines: four bars each at most, sections, repeats and
// later endings from a new one, these under the first ending.
func (g grid) lines(bars []bar) []line {
	var lines []line
	var now line
	column, firstEnding := 0, 0
	flush := func() {
		if len(now.bars) > 0 {
			lines = append(lines, g.fitted(now)...)
		}
		now, column = line{}, 0
	}
	for i, b := range bars {
		if b.breaks || column == barsALine {
			flush()
		}
		switch {
		case b.ending == "":
		case i > 0 && bars[i-1].closes == ":|":
			if len(now.bars) == 0 {
				now.indent, column = firstEnding, firstEnding
			}
		default:
			firstEnding = column
		}
		now.bars = append(now.bars, b)
		column++
	}
	flush()
	return lines
}

// fitted is a line as one that fits the page, or as several.
func (g grid) fitted(l line) []line {
	if g.width(l) <= pageWidth {
		return []line{l}
	}
	if l.indent > 0 {
		return g.fitted(line{bars: l.bars})
	}
	if n := len(l.bars); n > 1 {
		half := (n + 1) / 2
		return append(g.fitted(line{bars: l.bars[:half]}), g.fitted(line{bars: l.bars[half:]})...)
	}
	return g.wrapped(l.bars[0])
}

// wrapped breaks a bar that is too long for a page into lines of its own.
func (g grid) wrapped(b bar) []line {
	n := len(b.marks)
	for n > 1 && g.width(line{bars: []bar{b.part(0, n)}}) > pageWidth {
		n--
	}
	if n == len(b.marks) {
		return []line{{bars: []bar{b}}}
	}
	rest := b.part(n, len(b.marks))
	rest.number, rest.section, rest.ending, rest.meter, rest.opens = "", "", "", "", " "
	return append([]line{{bars: []bar{b.part(0, n)}}}, g.fitted(line{bars: []bar{rest}})...)
}

// part is a bar with some of its marks, without a bar line behind if the last
// is not among them.
func (b bar) part(from, to int) bar {
	if to < len(b.marks) {
		b.closes = ""
	}
	b.marks = b.marks[from:to]
	return b
}

// width is that of the whole line with the least room for each bar.
func (g grid) width(l line) int {
	w := margin + g.opener + len("||") + l.indent*(g.cell+len("| "))
	for i, b := range l.bars {
		if i > 0 {
			w += len("| ")
		}
		w += b.natural()
	}
	return w
}

// barLines are the columns of a line's bar lines, with the one at its end: those
// of the grid, moved where a bar needs more room than its cell.
func (g grid) barLines(l line) []int {
	boxes := make([]box, len(l.bars)+1)
	for i := range boxes {
		boxes[i].wanted = g.column(l.indent + i)
		if i > 0 {
			boxes[i].gap = l.bars[i-1].natural()
			boxes[i].width = len("| ")
		}
	}
	boxes[0].width = g.column(l.indent+1) - g.column(l.indent) - g.cell
	return spread(boxes, margin, pageWidth)
}

// column is where bar line i of the grid stands.
func (g grid) column(i int) int {
	if i == 0 {
		return margin
	}
	return margin + g.opener + i*(g.cell+len("| ")) - len("| ")
}

// draw gives a line's rows: what stands above, the chords, what stands below.
func (g grid) draw(l line) []string {
	var chords, below row
	var above above
	first := l.bars[0]
	chords.put(margin-1-width(first.number), first.number)
	lines := g.barLines(l)
	for i, b := range l.bars {
		chords.put(lines[i], b.opens)
		at := lines[i] + len("| ")
		if i == 0 && l.indent == 0 {
			at = margin + g.opener
		}
		chords.put(at, b.lead())
		for k, column := range b.places(lines[i+1] - at) {
			m := b.marks[k]
			chords.put(at+column, m.text)
			below.put(at+column+m.hang, m.below)
			above.add(at+column+m.hang, m.above)
		}
	}
	chords.put(lines[len(l.bars)], l.bars[len(l.bars)-1].closes)
	var rows []string
	for _, r := range append(above.rows(first.section), chords, below) {
		if s := r.String(); s != "" {
			rows = append(rows, s)
		}
	}
	return rows
}
