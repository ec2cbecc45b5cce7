package sheet

// ruler measures the words of an output and says how it is laid out: in
// characters for plain text, in pixels for a drawing.
type ruler struct {
	page    float64 // width of the sheet
	margin  float64 // before the first bar line; names and numbers stand in it
	opener  float64 // room of the bar line that a line begins with, with what follows
	repeat  float64 // … where that is a repeat sign
	divider float64 // … of one between bars
	closer  float64 // … of the one at the end
	pad     float64 // room behind the last mark of a bar
	gap     float64 // least room between chords
	slash   float64 // … before a slash
	least   float64 // width of a bar
	fills   bool    // lines are as wide as the page

	// chord is the width of a mark's symbol, brackets and all, and how much of
	// it stands before what below is aligned to.
	chord       func(*mark) (width, hang float64)
	leadOf      func(*bar) string    // what stands in a bar before its chords
	below, lead func(string) float64 // widths
}

// ofMark is the room that a mark takes with what stands below it.
func (r *ruler) ofMark(m *mark) float64 {
	width, hang := r.chord(m)
	return max(width, hang+r.below(m.numeral))
}

// ofLead is the room of what stands in a bar before its chords.
func (r *ruler) ofLead(b *bar) float64 {
	if s := r.leadOf(b); s != "" {
		return r.lead(s) + r.slash
	}
	return 0
}

// natural is the width in which a bar's marks stand as close as they may, but
// not less than the least.
func (r *ruler) natural(b *bar) float64 {
	w := r.ofLead(b)
	if !b.simile {
		for i := range b.marks {
			if i > 0 {
				w += r.before(&b.marks[i])
			}
			w += r.ofMark(&b.marks[i])
		}
	}
	return max(w+r.pad, r.least)
}

// before is the least room before a mark that is not the first.
func (r *ruler) before(m *mark) float64 {
	if m.isSlash() {
		return r.slash
	}
	return r.gap
}
