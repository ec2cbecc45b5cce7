package sheet

import (
	"fmt"
	"strings"
)

// staff draws the bars of a line with their chords.
func (d *drawing) staff(g grid, l *line) {
	top := d.y + 4
	d.y += 4 + staffRow
	first := &l.bars[0]
	if !first.rest {
		d.phrases(first.phrases, top+chordBase)
		d.text(first.left-8, top+chordBase, numberSize, first.number, `text-anchor="end" fill="`+quiet+`"`)
	}
	for i := range l.bars {
		b := &l.bars[i]
		fmt.Fprintf(&d.out, "<g role=\"group\" aria-label=\"%s\">\n", escaped(d.spoken(b)))
		if !b.rest {
			sign := b.opens
			if i > 0 && sign == single {
				sign = l.bars[i-1].closes
			}
			d.barLine(b.left, top, sign)
			d.text(b.content, top+chordBase, meterSize, b.meter, `font-weight="bold"`)
		}
		if b.simile {
			d.simile((b.content+d.right(l, i))/2, top)
		} else {
			for k, at := range b.at {
				d.chord(&b.marks[b.first+k], at, top)
			}
		}
		d.out.WriteString("</g>\n")
	}
	last := &l.bars[len(l.bars)-1]
	switch {
	case last.last < len(last.marks):
	case last.index == len(d.bars)-1 && last.closes == double:
		d.final(l.end, top)
	default:
		d.barLine(l.end, top, last.closes)
	}
}

// right is where the bar line behind a bar stands.
func (d *drawing) right(l *line, i int) float64 {
	if i+1 < len(l.bars) {
		return l.bars[i+1].left
	}
	return l.end
}

// phrases writes the names of phrases in the margin, those of later times
// through below.
func (d *drawing) phrases(names []string, y float64) {
	for i, name := range names {
		d.used[phraseSign], d.used[laterPhraseSign] = true, d.used[laterPhraseSign] || i > 0
		d.text(sideMargin, y+float64(i)*phraseRow, phraseSize, primes(name), serifType+` font-style="italic"`)
	}
}

func primes(name string) string { return strings.ReplaceAll(name, "'", "′") }

// spoken is a bar in words, for those who hear the sheet.
func (d *drawing) spoken(b *placed) string {
	s := "bar " + b.number
	if b.simile {
		return s + ": the bar before again"
	}
	for k := b.first; k < b.last; k++ {
		if m := &b.marks[k]; !m.isSlash() {
			s += fmt.Sprintf(", %s %s", m.symbol, m.numeral)
		}
	}
	return strings.TrimSpace(s)
}

// endings draws the lines over the bars in endings, with their numbers.
func (d *drawing) endings(l *line) {
	y := d.y
	for i := range l.bars {
		b := &l.bars[i]
		if !b.within {
			continue
		}
		d.y = y + endingRow
		path := fmt.Sprintf("M%s %s", number(b.left), number(y+3))
		if b.ending != "" && !b.rest {
			path = fmt.Sprintf("M%s %sv-%d", number(b.left), number(y+3+endingHook), endingHook)
			d.text(b.left+6, y+16, numberSize, b.ending, `font-weight="bold"`)
		}
		path += "H" + number(d.right(l, i))
		if b.closed && b.closes == repeatEnd {
			path += fmt.Sprintf("v%d", endingHook)
		}
		d.stroke(path, ink, 1.3, "")
	}
}

// chord writes a chord, or the slash that holds one.
func (d *drawing) chord(m *mark, at, top float64) {
	base := top + chordBase
	if m.isSlash() {
		d.stroke(fmt.Sprintf("M%s %sl%d -%d", number(at), number(base), slashWidth-1, slashHeight), quiet, 2, "")
		return
	}
	t := setChord(m)
	fmt.Fprintf(&d.out, `<text x="%s" y="%s" font-size="%d" font-weight="bold">%s`, number(at), number(base), rootSize, escaped(t.before+t.root))
	if t.quality != "" {
		fmt.Fprintf(&d.out, `<tspan font-size="%d" dy="-6">%s</tspan>`, qualitySize, escaped(t.quality))
	}
	drop := ""
	if t.quality != "" {
		drop = ` dy="6"`
	}
	if t.bass != "" {
		fmt.Fprintf(&d.out, `<tspan font-size="%d"%s>%s</tspan>`, bassSize, drop, escaped(t.bass))
		drop = ""
	}
	if t.after != "" {
		fmt.Fprintf(&d.out, `<tspan%s>%s</tspan>`, drop, escaped(t.after))
	}
	d.out.WriteString("</text>\n")
	if m.beat != "" {
		d.used[beatSign] = true
		width := bold.width(t.before, rootSize)
		d.text(at+width+beatIndent, top+beatBase, beatSize, m.beat, `fill="`+quiet+`"`)
	}
}

// simile draws the sign for the bar before again.
func (d *drawing) simile(at, top float64) {
	base := top + chordBase
	d.stroke(fmt.Sprintf("M%s %sl20 -18", number(at-10), number(base)), ink, 4, "")
	fmt.Fprintf(&d.out, `<circle cx="%s" cy="%s" r="2.6" fill="%s"/><circle cx="%s" cy="%s" r="2.6" fill="%s"/>`+"\n",
		number(at-8), number(base-14), ink, number(at+8), number(base-4), ink)
}

func (d *drawing) barLine(x, top float64, s sign) {
	line := func(x, width float64) {
		d.stroke(fmt.Sprintf("M%s %sv%d", number(x), number(top), staffRow), ink, width, "")
	}
	dots := func(x float64) {
		for _, y := range []float64{15, 29} {
			fmt.Fprintf(&d.out, `<circle cx="%s" cy="%s" r="2.4" fill="%s"/>`+"\n", number(x), number(top+y), ink)
		}
	}
	switch s {
	case single:
		line(x, 1.2)
	case double:
		line(x-4, 1.2)
		line(x, 1.2)
	case repeatStart:
		line(x+1, 3.6)
		line(x+6, 1.2)
		dots(x + 12)
	case repeatEnd:
		dots(x - 12)
		line(x-6, 1.2)
		line(x-1, 3.6)
	}
}

// final draws the line at the chart's end.
func (d *drawing) final(x, top float64) {
	for _, l := range [][2]float64{{x - 6, 1.2}, {x - 1, 3.6}} {
		d.stroke(fmt.Sprintf("M%s %sv%d", number(l[0]), number(top), staffRow), ink, l[1], "")
	}
}

// numerals writes the numerals under the chords.
func (d *drawing) numerals(g grid, l *line) {
	d.y += numeralRow
	d.out.WriteString("<g " + serifType + ">\n")
	defer d.out.WriteString("</g>\n")
	for i := range l.bars {
		b := &l.bars[i]
		for k, at := range b.at {
			if m := &b.marks[b.first+k]; !b.simile {
				_, hang := g.chord(m)
				d.text(at+hang, d.y-3, numeralSize, m.numeral, "")
			}
		}
	}
}
