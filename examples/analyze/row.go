package main

import "strings"

// row is a line of text that is written at columns.
type row struct{ text []rune }

// put writes s at a column, over what stands there.
func (r *row) put(column int, s string) {
	for need := column + width(s); s != "" && len(r.text) < need; {
		r.text = append(r.text, ' ')
	}
	copy(r.text[min(column, len(r.text)):], []rune(s))
}

// isFree reports whether s has room at a column, with a space on both sides.
func (r *row) isFree(column int, s string) bool {
	from, to := max(0, column-1), min(len(r.text), column+width(s)+1)
	return from >= to || strings.TrimSpace(string(r.text[from:to])) == ""
}

func (r row) String() string { return strings.TrimRight(string(r.text), " ") }

// above is what stands above the chords of a line.
type above struct {
	labels  []label
	columns []int
}

func (a *above) add(column int, l label) {
	if l.name != "" {
		a.labels, a.columns = append(a.labels, l), append(a.columns, column)
	}
}

// rows are the labels and the name of the section, from the top. A label stands
// in the lowest row where it has room, in one piece if it can; else what is
// said more stands above its name.
func (a *above) rows(section string) []row {
	var up []row // from the lowest
	put := func(from, column int, s string) int {
		for n := from; ; n++ {
			for n >= len(up) {
				up = append(up, row{})
			}
			if up[n].isFree(column, s) {
				up[n].put(column, s)
				return n
			}
		}
	}
	for i, l := range a.labels {
		end := pageWidth + 1
		if i+1 < len(a.labels) {
			end = a.columns[i+1]
		}
		full := l.name + ", " + l.more
		switch {
		case l.more == "":
			put(0, a.columns[i], l.name)
		case a.columns[i]+width(full) < end:
			put(0, a.columns[i], full)
		default:
			n := put(0, a.columns[i], l.name)
			put(n+1, min(a.columns[i], pageWidth-width(l.more)), l.more)
		}
	}
	if section != "" {
		put(0, 0, section)
	}
	rows := make([]row, len(up))
	for i, r := range up {
		rows[len(up)-1-i] = r
	}
	return rows
}
