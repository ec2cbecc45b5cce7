package sheet

import (
	"cmp"
	"fmt"
	"slices"
)

// arrows draws dominants' arrows to the chords that they resolve to.
func (d *drawing) arrows(l *line, all []stroke) {
	if len(all) == 0 {
		return
	}
	levels, highest := arcLevels(all)
	d.y += arrowRow + float64(highest)*arcStep
	base := d.y + 8
	for i, s := range all {
		attributes := ""
		d.used[arrowSign] = d.used[arrowSign] || !s.dashed
		if s.dashed {
			d.used[dashedArrowSign], attributes = true, dashes("5 3")
		}
		from, to := s.from+3, s.to-3
		switch {
		case s.leaves:
			d.used[leavingSign] = true
			to = s.to + 4
		case s.enters:
			from = l.bars[0].left - 4
		}
		d.arrow(from, to, base, base-arcRise-float64(levels[i])*arcStep, s, attributes)
	}
}

// arcLevels gives arcs that share some of their way levels of their own, the
// shorter ones the lower.
func arcLevels(all []stroke) (levels []int, highest int) {
	order := make([]int, len(all))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(i, k int) int {
		return cmp.Compare(all[i].to-all[i].from, all[k].to-all[k].from)
	})
	levels = make([]int, len(all))
	for n, i := range order {
		for _, k := range order[:n] {
			if all[i].from < all[k].to && all[k].from < all[i].to {
				levels[i] = max(levels[i], levels[k]+1)
			}
		}
		highest = max(highest, levels[i])
	}
	return levels, highest
}

// arrow draws an arc from one place to another with a point at its end, from its
// base to its top. One that leaves the line ends level at its edge, one that
// enters begins so.
func (d *drawing) arrow(from, to, base, top float64, s stroke, attributes string) {
	reach := min((to-from)/2, 28)
	path := ""
	switch {
	case s.leaves:
		path = fmt.Sprintf("M%s %sC%s %s %s %s %s %sH%s", number(from), number(base), number(from), number(top+4), number(from+8), number(top), number(from+reach), number(top), number(to))
	case s.enters:
		path = fmt.Sprintf("M%s %sH%sC%s %s %s %s %s %s", number(from), number(top), number(to-reach), number(to-8), number(top), number(to), number(top+4), number(to), number(base-2))
	default:
		path = fmt.Sprintf("M%s %sC%s %s %s %s %s %sH%sC%s %s %s %s %s %s", number(from), number(base), number(from), number(top+4), number(from+8), number(top), number(from+reach), number(top),
			number(to-reach), number(to-8), number(top), number(to), number(top+4), number(to), number(base-2))
	}
	d.stroke(path, ink, 1.3, attributes)
	if s.leaves {
		d.point(fmt.Sprintf("M%s %sl-8 -4v8z", number(to+2), number(top)))
		return
	}
	d.point(fmt.Sprintf("M%s %sl-4 -8h8z", number(to), number(base)))
}

func (d *drawing) point(path string) {
	fmt.Fprintf(&d.out, `<path d="%s" fill="%s"/>`+"\n", path, ink)
}

// brackets draws the brackets under two-fives.
func (d *drawing) brackets(all []stroke) {
	if len(all) == 0 {
		return
	}
	y := d.y + 2
	d.y += bracketRow
	for _, s := range all {
		attributes := ""
		d.used[bracketSign] = d.used[bracketSign] || !s.dashed
		if s.dashed {
			d.used[dashedBracketSign], attributes = true, dashes("5 3")
		}
		path := "M" + number(s.from) + " " + number(y)
		if !s.enters {
			path += "v6"
		} else {
			path = "M" + number(s.from) + " " + number(y+6)
		}
		path += "H" + number(s.to)
		if !s.leaves {
			path += "v-6"
		}
		d.stroke(path, ink, 1.3, attributes)
	}
}
