// Package plain sets plain text in lines and columns.
package plain

import (
	"fmt"
	"strings"
	"unicode/utf8"
)

// Width is that of a text, in characters.
func Width(s string) int { return utf8.RuneCountInString(s) }

// Pad fills s up to a width with spaces.
func Pad(s string, to int) string { return s + strings.Repeat(" ", max(0, to-Width(s))) }

// Wrap breaks a text between words into lines of at most a width.
func Wrap(text string, within int) (lines []string) {
	now := ""
	for word := range strings.FieldsSeq(text) {
		switch {
		case now == "":
			now = word
		case Width(now)+1+Width(word) <= within:
			now += " " + word
		default:
			lines = append(lines, now)
			now = word
		}
	}
	if now != "" {
		lines = append(lines, now)
	}
	return lines
}

// Columns sets rows of cells in columns two spaces apart, a line each. Align has a
// sign for each column: '<' to the left, '>' to the right.
func Columns(align string, rows [][]string) []string {
	widths := make([]int, len(align))
	for _, row := range rows {
		for i, cell := range row {
			widths[i] = max(widths[i], Width(cell))
		}
	}
	lines := make([]string, len(rows))
	for n, row := range rows {
		line := ""
		for i, cell := range row {
			space := strings.Repeat(" ", widths[i]-Width(cell))
			if align[i] == '<' {
				line += cell + space + "  "
			} else {
				line += space + cell + "  "
			}
		}
		lines[n] = strings.TrimRight(line, " ")
	}
	return lines
}

// Counted is so many of something: "1 chord", "2 chords".
func Counted(n int, what string) string {
	if n != 1 {
		what += "s"
	}
	return fmt.Sprint(n) + " " + what
}
