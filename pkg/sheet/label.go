package sheet

import "slices"

// label is what stands above or below a mark and may be wider than it: a name
// and what is said of it.
type label struct {
	at         float64
	name, more string
}

// words is a piece of text in its place.
type words struct {
	at    float64
	text  string
	again bool // said before
}

// labels are the keys above a line's marks and, below them, what chords are in
// the key next to theirs.
func (g grid) labels(l *line) (above, below []label) {
	for i := range l.bars {
		b := &l.bars[i]
		for k, at := range b.at {
			m := &b.marks[b.first+k]
			_, hang := g.chord(m)
			if m.key != "" && !b.simile {
				above = append(above, label{at + hang, m.key, m.motion})
			}
			if m.pivot != "" && !b.simile {
				below = append(below, label{at: at + hang, name: m.pivot})
			}
		}
	}
	return above, below
}

// rack is rows of words above or below a line, the nearest to the chords first.
type rack struct {
	rows        [][]words
	page, space float64 // the sheet's width, and the least between words
	width       func(string) float64
}

// put writes words in the nearest row, from one on, where they have room, and
// says which. They keep within the page.
func (r *rack) put(from int, w words) int {
	width := r.width(w.text)
	w.at = max(0, min(w.at, r.page-width))
	for n := from; ; n++ {
		if n == len(r.rows) {
			r.rows = append(r.rows, nil)
		}
		if !slices.ContainsFunc(r.rows[n], func(o words) bool { return w.at < o.at+r.width(o.text)+r.space && o.at < w.at+width+r.space }) {
			r.rows[n] = append(r.rows[n], w)
			return n
		}
	}
}

// stack writes labels: each in one piece, if it has room before the next, else
// its name in the row beyond what is said more.
func (r *rack) stack(labels []label) {
	for i, l := range labels {
		end := r.page + r.space
		if i+1 < len(labels) {
			end = labels[i+1].at
		}
		full := l.name
		if l.more != "" {
			full += ", " + l.more
		}
		if l.more == "" || l.at+r.width(full)+r.space <= end {
			r.put(0, words{at: l.at, text: full})
			continue
		}
		at := min(l.at, r.page-max(r.width(l.more), r.width(l.name)))
		r.put(r.put(0, words{at: at, text: l.more})+1, words{at: at, text: l.name})
	}
}
