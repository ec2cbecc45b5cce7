package sheet

import (
	"slices"
	"strings"
)

// row is a line of plain text that is written at columns.
type row struct{ text []rune }

// put writes s at a column, over what stands there.
func (r *row) put(column int, s string) {
	written := []rune(s)
	for need := column + len(written); s != "" && len(r.text) < need; {
		r.text = append(r.text, ' ')
	}
	copy(r.text[min(column, len(r.text)):], written)
}

// bracket underlines the columns of a stroke, with corners where it begins and
// ends.
func (r *row) bracket(s stroke) {
	from, to := int(s.from), int(s.to)-1
	if to <= from {
		return
	}
	dash := "─"
	if s.dashed {
		dash = "╌"
	}
	r.put(from, strings.Repeat(dash, to-from+1))
	if !s.enters {
		r.put(from, "└")
	}
	if !s.leaves {
		r.put(to, "┘")
	}
}

func (r row) String() string { return strings.TrimRight(string(r.text), " ") }

// textRows are stacked labels as rows, the nearest to the chords first.
func textRows(stacked [][]words) []row {
	rows := make([]row, len(stacked))
	for i, all := range stacked {
		for _, w := range all {
			rows[i].put(int(w.at), w.text)
		}
	}
	return rows
}

// upward is rows from the farthest to the nearest.
func upward(rows []row) []row {
	up := slices.Clone(rows)
	slices.Reverse(up)
	return up
}
