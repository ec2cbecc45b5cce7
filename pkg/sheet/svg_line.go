package sheet

// Heights of what a line has, in pixels.
const (
	lineGap     = 14 // before a line
	sectionGap  = 10 // … more before a section or a phrase
	labelRow    = 18
	overhang    = 14 // how far names of keys may go beyond the last bar line
	bandRow     = 12
	endingRow   = 18
	endingHook  = 14
	arrowRow    = 20
	arcRise     = 20 // of an arrow over its chords
	arcStep     = 9  // from an arc to one above it
	staffRow    = 44 // the chords between their bar lines
	chordBase   = 31 // of the chords, from the top of their row
	numeralRow  = 20
	bracketRow  = 10
	pivotRow    = 15
	phraseRow   = 22 // from a name in the margin to the next
	beatIndent  = 21 // of a beat's number, from its chord's left: beside an arrow's point
	beatBase    = 9  // … from the top of the chords' row
	legendRow   = 20
	slashWidth  = 9
	slashHeight = 17
)

// line draws a line of bars from the top.
func (d *drawing) line(g grid, l *line) {
	keys, pivots := g.labels(l)
	above := rack{page: g.page + overhang, space: 10, width: bold.in(labelSize)}
	below := rack{page: g.page, space: 10, width: serif.in(pivotSize)}
	d.goOn(l, &above, keys)
	above.stack(keys)
	below.stack(pivots)
	d.used[pivotSign] = d.used[pivotSign] || len(pivots) > 0
	arrows := d.strokes(l, arrow, func(b *placed, k int) (float64, float64) {
		width, hang := g.chord(&b.marks[k])
		at := b.at[k-b.first] + hang + min(width-hang, rootSize)/2
		return at, at
	})
	brackets := d.strokes(l, bracket, func(b *placed, k int) (float64, float64) {
		_, hang := g.chord(&b.marks[k])
		at := b.at[k-b.first] + hang
		return at, at + serif.narrow(b.marks[k].numeral, numeralSize)
	})
	d.y += lineGap
	if first := &l.bars[0]; first.index > 0 && !first.rest && (first.section != "" || len(first.phrases) > 0) {
		d.y += sectionGap
	}
	d.labels(l, above.rows)
	d.keyBands(l)
	d.endings(l)
	d.arrows(l, arrows)
	names := d.y + chordBase + float64(len(l.bars[0].phrases))*phraseRow
	d.staff(g, l)
	d.numerals(g, l)
	d.brackets(brackets)
	for _, row := range below.rows {
		d.y += pivotRow
		for _, w := range row {
			d.text(w.at, d.y-3, pivotSize, w.text, serifType+` fill="`+quiet+`" font-style="italic"`)
		}
	}
	d.y = max(d.y, names)
}
