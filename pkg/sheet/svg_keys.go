package sheet

import (
	"fmt"
)

// labels writes the names of keys, the nearest row last, and that of the
// section.
func (d *drawing) labels(l *line, rows [][]words) {
	d.section(l, rows)
	for i := len(rows) - 1; i >= 0; i-- {
		d.y += labelRow
		for _, w := range rows[i] {
			d.text(w.at, d.y, labelSize, w.text, `font-weight="bold"`)
		}
	}
}

// section writes the name of a section that starts with a line: beside the
// nearest row of keys if it has room there, else above all.
func (d *drawing) section(l *line, rows [][]words) {
	first := &l.bars[0]
	if first.section == "" || first.rest {
		return
	}
	width := widthOf(first.section, labelSize) + 12
	room := l.bars[0].content
	if len(rows) > 0 {
		room = pageWidth
		for _, w := range rows[0] {
			room = min(room, w.at)
		}
	}
	y := d.y + labelRow*float64(len(rows))
	if len(rows) == 0 {
		d.y += bandRow // the band goes on below it
		y = d.y
	}
	if sectionLeft+width+8 > room {
		d.y += labelRow + 6
		y = d.y - 4
	}
	fmt.Fprintf(&d.out, `<rect x="%d" y="%s" width="%s" height="19" rx="3" fill="%s" stroke="%s"/>`+"\n", sectionLeft, number(y-14), number(width), paper, ink)
	d.text(sectionLeft+6, y, labelSize, first.section, `font-weight="bold"`)
}

// keyBands draws the bands of the keys that a line is in. A tick tells that a
// key begins or ends there; without one it goes on from line to line.
func (d *drawing) keyBands(l *line) {
	y := d.y + 6
	d.y += bandRow
	tick := func(x float64, k band) {
		d.stroke(fmt.Sprintf("M%s %sv9", number(x), number(y-2)), k.colour, 2, "")
	}
	from, region := l.bars[0].content, -1
	draw := func(to float64) {
		if region >= 0 {
			k := d.bands[d.analysis.Regions[region].Key]
			d.stroke(fmt.Sprintf("M%s %sH%s", number(from), number(y), number(to)), k.colour, 4, dashes(k.dashes))
		}
	}
	ends := false
	for i := range l.bars {
		b := &l.bars[i]
		for k, at := range b.at {
			m := &b.marks[b.first+k]
			if m.region < 0 {
				continue
			}
			if m.begins {
				if region >= 0 {
					draw(at - 8)
					tick(at-8, d.bands[d.analysis.Regions[region].Key])
				}
				from = at
				tick(at, d.bands[d.analysis.Regions[m.region].Key])
			}
			region, ends = m.region, m.ends
		}
	}
	draw(l.end)
	if ends {
		tick(l.end, d.bands[d.analysis.Regions[region].Key])
	}
}
