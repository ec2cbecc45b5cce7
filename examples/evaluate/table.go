package main

import (
	"fmt"
	"math"
	"strings"

	"fifthwise/examples/internal/plain"
)

// table is rows of cells, the first a heading, set in columns.
type table struct {
	align string // by column: '<' to the left, '>' to the right
	rows  [][]string
}

func (t *table) add(cells ...any) {
	row := make([]string, len(cells))
	for i, c := range cells {
		if x, ok := c.(float64); ok {
			c = share(x)
		}
		row[i] = fmt.Sprint(c)
	}
	t.rows = append(t.rows, row)
}

// share is a number from 0 to 1, or a dash where there is none.
func share(x float64) string {
	if math.IsNaN(x) {
		return "-"
	}
	return fmt.Sprintf("%.3f", x)
}

func (t *table) String() string { return strings.Join(plain.Columns(t.align, t.rows), "\n") + "\n" }
