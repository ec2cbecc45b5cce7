package sheet

// barsALine is how many bars a line has at most.
const barsALine = 4

// line is bars side by side, with their places.
type line struct {
	indent int // in columns
	span   int // columns that a bar takes
	bars   []placed
	end    float64 // of the last bar, where its bar line stands
}

// placed is a bar, or a part of one that is too long for a line, in its place.
type placed struct {
	*bar
	index       int // of the bar
	first, last int // its marks, last not included
	rest        bool
	left        float64   // of its bar line
	content     float64   // where its lead and marks may start
	at          []float64 // of its marks
}

func (p *placed) isWhole() bool { return !p.rest && p.last == len(p.marks) }

// grid is a page of bars.
type grid struct {
	*ruler
	first float64 // room of the bar line that a line begins with
	cell  float64 // width of a bar that needs no more
}

func (p *page) grid(r *ruler) grid {
	g := grid{ruler: r, first: r.opener}
	for i := range p.bars {
		if p.bars[i].opens != single {
			g.first = r.repeat
		}
	}
	most := (r.page-r.margin-g.first-r.closer)/barsALine - r.divider
	if r.fills {
		g.cell = most + r.divider/barsALine
		return g
	}
	for i := range p.bars {
		if w := r.natural(&p.bars[i]); w <= most {
			g.cell = max(g.cell, w)
		}
	}
	return g
}

// lines breaks bars into lines: four bars each at most, sections, phrases,
// repeats and later endings from a new one, these under the first ending.
func (g grid) lines(bars []bar) []line {
	var lines []line
	now := line{span: 1}
	column, firstEnding := 0, 0
	flush := func() {
		if len(now.bars) > 0 {
			lines = append(lines, g.fitted(now)...)
		}
		now, column = line{span: 1}, 0
	}
	for i := range bars {
		b := &bars[i]
		if b.empty {
			continue
		}
		if b.breaks || column == barsALine {
			flush()
		}
		switch {
		case b.ending == "":
		case i > 0 && bars[i-1].closes == repeatEnd:
			if len(now.bars) == 0 {
				now.indent, column = firstEnding, firstEnding
			}
		default:
			firstEnding = column
		}
		if len(now.bars) == 0 {
			b.simile = false // a line begins with chords
		}
		now.bars = append(now.bars, placed{bar: b, index: i, last: len(b.marks)})
		column++
	}
	flush()
	for i := range lines {
		g.place(&lines[i])
	}
	return lines
}

// fitted is a line as one that fits the page, or as several, whose bars are
// drawn the wider for it.
func (g grid) fitted(l line) []line {
	if g.width(l) <= g.page {
		return []line{l}
	}
	if l.indent > 0 {
		return g.fitted(line{bars: l.bars, span: l.span})
	}
	if n := len(l.bars); n > 1 {
		half := (n + 1) / 2
		l.bars[half].bar.simile = false
		span := l.span
		if g.fills {
			span = min(2*span, barsALine)
		}
		return append(g.fitted(line{bars: l.bars[:half], span: span}), g.fitted(line{bars: l.bars[half:], span: span})...)
	}
	return g.wrapped(l.bars[0])
}

// wrapped breaks a bar that is too long for a page into lines of its own.
func (g grid) wrapped(b placed) []line {
	part := b
	for part.last > part.first+1 && g.width(line{bars: []placed{part}}) > g.page {
		part.last--
	}
	if part.last == b.last {
		return []line{{bars: []placed{b}, span: 1}}
	}
	rest := b
	rest.first, rest.rest = part.last, true
	return append([]line{{bars: []placed{part}, span: 1}}, g.fitted(line{bars: []placed{rest}, span: 1})...)
}

// naturalOf is the least room of a bar or a part of one.
func (g grid) naturalOf(p *placed) float64 {
	if p.isWhole() {
		return g.natural(p.bar)
	}
	part := *p.bar
	part.marks = p.marks[p.first:p.last]
	if p.rest {
		part.ending, part.meter = "", ""
	}
	return g.natural(&part)
}

// width is that of the whole line with the least room for each bar.
func (g grid) width(l line) float64 {
	w := g.margin + g.first + g.closer + float64(l.indent)*(g.cell+g.divider)
	for i := range l.bars {
		if i > 0 {
			w += g.divider
		}
		w += g.naturalOf(&l.bars[i])
	}
	return w
}

// place gives the bars of a line their places: those of the grid, moved where a
// bar needs more room than its cell.
func (g grid) place(l *line) {
	boxes := make([]box, len(l.bars)+1)
	for i := range boxes {
		boxes[i].wanted = g.column(l.indent + i*l.span)
		if i > 0 {
			boxes[i].gap = g.naturalOf(&l.bars[i-1])
			boxes[i].width = g.divider
		}
	}
	boxes[0].width = g.column(l.indent+1) - g.column(l.indent) - g.cell
	boxes[len(l.bars)].width = g.closer
	columns := spread(boxes, g.margin, g.page)
	for i := range l.bars {
		b := &l.bars[i]
		b.left, b.content = columns[i], columns[i]+g.divider
		if i == 0 && l.indent == 0 {
			b.content = g.margin + g.first
		}
		b.at = g.marks(b, columns[i+1])
	}
	l.end = columns[len(l.bars)]
}

// column is where bar line i of the grid stands.
func (g grid) column(i int) float64 {
	if i == 0 {
		return g.margin
	}
	return g.margin + g.first + float64(i)*(g.cell+g.divider) - g.divider
}

// marks are the places of a bar's marks: where their time would have them or, from
// one on that a neighbour pushes on or the bar line holds back, where their time
// would have them in the room that is left.
func (g grid) marks(b *placed, end float64) []float64 {
	from := b.content
	if !b.rest {
		from += g.ofLead(b.bar)
	}
	marks := b.marks[b.first:b.last]
	latest := make([]float64, len(marks))
	for i, next := len(marks)-1, end-g.pad; i >= 0; i-- {
		latest[i] = next - g.ofMark(&marks[i])
		next = latest[i] - g.before(&marks[i])
	}
	at := make([]float64, len(marks))
	last, time, next := from, 0.0, from
	for i := range marks {
		m := &marks[i]
		speed := (end - last) / (1 - time)
		for k := i; k < len(marks); k++ {
			if marks[k].at > time {
				speed = min(speed, (latest[k]-last)/(marks[k].at-time))
			}
		}
		if i > 0 {
			next += g.before(m)
		}
		at[i] = max(next, last+speed*(m.at-time))
		last, time, next = at[i], m.at, at[i]+g.ofMark(m)
	}
	return at
}

// box is a piece of the sheet that is to stand at a place.
type box struct {
	wanted, width float64
	gap           float64 // the least room before it
}

// spread gives boxes places from one to another, in their order, as near to
// where they are wanted as the others allow. Where the room is too small they go
// beyond it.
func spread(boxes []box, from, to float64) []float64 {
	latest := make([]float64, len(boxes))
	for i := len(boxes) - 1; i >= 0; i-- {
		latest[i] = to - boxes[i].width
		to = latest[i] - boxes[i].gap
	}
	at := make([]float64, len(boxes))
	for i, b := range boxes {
		at[i] = max(from+b.gap, min(b.wanted, latest[i]))
		from = at[i] + b.width
	}
	return at
}
