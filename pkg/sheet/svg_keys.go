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
			attributes := `font-weight="bold"`
			if w.again {
				attributes = `fill="` + quiet + `"`
			}
			d.text(w.at, d.y, labelSize, w.text, attributes)
		}
	}
}

// goOn names, at the start of a line, the key that is the one before, where the
// sheet has several and the name has room.
func (d *drawing) goOn(l *line, above *rack, keys []label) {
	if len(d.bands) < 2 {
		return
	}
	region := -1
	for i := range l.bars {
		b := &l.bars[i]
		for k := b.first; k < b.last && region < 0; k++ {
			if m := &b.marks[k]; m.region >= 0 {
				if m.key != "" {
					return
				}
				region = m.region
			}
		}
	}
	if region < 0 {
		return
	}
	w := words{at: l.bars[0].content, text: d.keyName(d.analysis.Regions[region].Key), again: true}
	if len(keys) == 0 || w.at+above.width(w.text)+above.space <= keys[0].at {
		above.put(0, w)
	}
}

// section writes the name of a section that starts with a line: beside the
// nearest row of keys if it has room there, else above all.
func (d *drawing) section(l *line, rows [][]words) {
	first := &l.bars[0]
	if first.section == "" || first.rest {
		return
	}
	name := wrap(first.section, pageWidth-2*sideMargin-12, bold.in(labelSize))
	width := 0.0
	for _, s := range name {
		width = max(width, bold.width(s, labelSize)+12)
	}
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
	if sideMargin+width+8 > room {
		y = d.y + labelRow + 2
		d.y += labelRow*float64(len(name)) + 6
	}
	fmt.Fprintf(&d.out, `<rect x="%d" y="%s" width="%s" height="%d" rx="3" fill="%s" stroke="%s"/>`+"\n", sideMargin, number(y-14), number(width), 1+labelRow*len(name), paper, ink)
	for i, s := range name {
		d.text(sideMargin+width/2, y+float64(i*labelRow), labelSize, s, `text-anchor="middle" font-weight="bold"`)
	}
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
			d.used[homeBandSign] = d.used[homeBandSign] || k.dashes == "" && len(d.bands) > 1
			d.used[bandSign] = d.used[bandSign] || k.dashes != ""
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
