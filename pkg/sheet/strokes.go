package sheet

// stroke is a link as it is drawn on one line.
type stroke struct {
	from, to float64
	leaves   bool // it goes on to the next line
	enters   bool // it comes from the line before
	dashed   bool
}

// strokes are the links of a kind that a line has, from the place of one mark to
// that of another as at gives them.
func (p *page) strokes(l *line, kind linkKind, at func(b *placed, k int) (from, to float64)) []stroke {
	marks := map[place][2]float64{}
	for i := range l.bars {
		b := &l.bars[i]
		for k := b.first; k < b.last && !b.simile; k++ {
			from, to := at(b, k)
			marks[place{b.index, k}] = [2]float64{from, to}
		}
	}
	start, end := l.bars[0].content, l.end
	var strokes []stroke
	for _, k := range p.links {
		from, starts := marks[k.from]
		to, ends := marks[k.to]
		if k.kind != kind || !starts && !ends {
			continue
		}
		s := stroke{from: from[0], to: to[1], leaves: !ends, enters: !starts, dashed: k.dashed}
		if s.leaves {
			s.to = end
		}
		if s.enters {
			s.from = start
		}
		strokes = append(strokes, s)
	}
	return strokes
}
