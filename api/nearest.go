package api

import (
	"reflect"
	"strings"
)

// nearest is the hint for an unknown field: the name that was probably meant,
// or all names that there are.
func nearest(name string, t reflect.Type) string {
	var names []string
	best, fewest := "", len(name)/2+1
	for _, f := range reflect.VisibleFields(t) {
		known := jsonName(f)
		if known == "" {
			continue
		}
		names = append(names, known)
		if n := slips(strings.ToLower(name), known); n < fewest {
			best, fewest = known, n
		}
	}
	if best != "" {
		return "write " + best
	}
	return "the fields are " + inWords(names, "and")
}

// inWords is "a", "a and b", "a, b and c".
func inWords(list []string, last string) string {
	if len(list) < 2 {
		return strings.Join(list, "")
	}
	n := len(list) - 1
	return strings.Join(list[:n], ", ") + " " + last + " " + list[n]
}

// slips counts the bytes left out, put in or mistaken that lead from a to b
// (Levenshtein distance). Names longer than any field's are not looked into.
func slips(a, b string) int {
	const longest = 40
	if len(a) > longest {
		return len(a)
	}
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := range len(a) {
		diagonal := row[0]
		row[0] = i + 1
		for j := range len(b) {
			n := diagonal
			if a[i] != b[j] {
				n = 1 + min(diagonal, row[j], row[j+1])
			}
			diagonal, row[j+1] = row[j+1], n
		}
	}
	return row[len(b)]
}
