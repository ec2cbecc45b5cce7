package main

import (
	"regexp"

	"fifthwise/pkg/function"
)

var (
	figure  = regexp.MustCompile(`^(?:[Ss]ub ?)?[b#♭♯]*[1-7]$`)
	quality = regexp.MustCompile(`^[0-9]`)
)

// isJoint reports whether word i of a bar and the next may be one numeral in
// figures, which has a space before a quality that begins with a figure: 5 7, sub5 7/2.
func (b *bar) isJoint(i int) bool {
	if i+1 >= len(b.words) || !figure.MatchString(b.words[i].text) || !quality.MatchString(b.words[i+1].text) {
		return false
	}
	_, err := function.ParseNumeral(b.words[i].text + " " + b.words[i+1].text)
	return err == nil
}

// join makes so many numerals of the words of a bar by reading two as one, if there
// is exactly one way to do so.
func (b *bar) join(numerals int) bool {
	// ways[i][n] is in how many ways, at most two, the words from i on are n numerals.
	ways := make([][]int, len(b.words)+2)
	for i := range ways {
		ways[i] = make([]int, numerals+1)
	}
	ways[len(b.words)][0] = 1
	for i := len(b.words) - 1; i >= 0; i-- {
		for n := 1; n <= numerals; n++ {
			ways[i][n] = ways[i+1][n-1]
			if b.isJoint(i) {
				ways[i][n] = min(2, ways[i][n]+ways[i+2][n-1])
			}
		}
	}
	if ways[0][numerals] != 1 {
		return false
	}
	joined := bar{key: b.key, line: b.line, col: b.col}
	for i := 0; i < len(b.words); {
		w, size := b.words[i], 1
		if left := numerals - len(joined.words) - 1; ways[i+1][left] == 0 {
			w.text, size = w.text+" "+b.words[i+1].text, 2
		}
		joined.words, joined.keys = append(joined.words, w), append(joined.keys, b.keys[i])
		i += size
	}
	*b = joined
	return true
}
