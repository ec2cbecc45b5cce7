package key

import (
	"strings"
	"unicode"
)

var signs = strings.NewReplacer("♭", "b", "♯", "#", "♮", "natural ", "-", " ")

// fold brings a name to the form in which names are compared: lower case,
// ASCII accidentals, one space where there are spaces or hyphens.
func fold(name string) string {
	return strings.Join(strings.Fields(signs.Replace(strings.ToLower(name))), " ")
}

// indent counts the bytes of space before s.
func indent(s string) int {
	return len(s) - len(strings.TrimLeftFunc(s, unicode.IsSpace))
}

// near is the hint for an unknown folded word, given rows of names, the
// canonical one first: "write dorian", or "" if nothing is near. Canonical names
// that hold the word whole go first, if they are three at most ("pentatonic":
// two scales); then the name with the fewest slips, one in three letters at
// most, the earlier of two. A number is never a slip: lydian #4 is not lydian
// #5.
func near(word string, rows [][]string) string {
	const shortest, longest, most = 3, 40, 3
	if len(word) < shortest || len(word) > longest {
		return ""
	}
	var holding []string
	closest, fewest := "", len(word)/3+1
	for _, names := range rows {
		canonical := names[0]
		if strings.Contains(fold(canonical), word) {
			holding = append(holding, canonical)
		}
		for _, name := range names {
			if n := slips(word, fold(name)); n < fewest {
				closest, fewest = canonical, n
			}
		}
	}
	switch {
	case len(holding) == 1:
		return "write " + holding[0]
	case len(holding) > 1 && len(holding) <= most:
		last := len(holding) - 1
		return "write " + strings.Join(holding[:last], ", ") + " or " + holding[last]
	case closest == "" || strings.ContainsAny(word, "0123456789"):
		return ""
	}
	return "write " + closest
}

// slips counts the letters left out, put in, mistaken or swapped with their
// neighbour that lead from a to b (optimal string alignment).
func slips(a, b string) int {
	var before []int
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := range len(a) {
		next := make([]int, len(b)+1)
		next[0] = i + 1
		for j := range len(b) {
			mistaken := 1
			if a[i] == b[j] {
				mistaken = 0
			}
			next[j+1] = min(row[j]+mistaken, row[j+1]+1, next[j]+1)
			if i > 0 && j > 0 && a[i] == b[j-1] && a[i-1] == b[j] {
				next[j+1] = min(next[j+1], before[j-1]+1)
			}
		}
		before, row = row, next
	}
	return row[len(b)]
}
