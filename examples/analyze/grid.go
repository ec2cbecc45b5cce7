package main

// The measures of a page, in columns.
const (
	pageWidth = 80
	margin    = 5 // bar numbers stand in it
	barsALine = 4
	least     = 9 // of a bar
)

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
	g := grid{opener: len("| ")}
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
