package api

import "strings"

// nearest is the hint for a word that is none of those known: the one that was
// probably meant; empty if none is near.
func nearest(word string, known []string) string {
	if meant := closest(word, known); meant != "" {
		return "write " + meant
	}
	return ""
}

// closest is the known word with the fewest slips; empty if none is near.
func closest(word string, known []string) (best string) {
	fewest := len(word)/2 + 1
	for _, k := range known {
		if n := slips(strings.ToLower(word), k); n < fewest {
			best, fewest = k, n
		}
	}
	return best
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
