package chart

import "strings"

// Unbracket cuts the brackets of optional groups from the edges of a word: one
// that has no partner in it, or a pair that encloses it. Others belong to the
// chord symbol: "(Em7" is "(" and Em7, "(C7(b9))" has two around C7(b9), and
// "Bm7(b5)" none.
func Unbracket(word string) (front, symbol, behind string) {
	w := word
	for cut := true; cut && w != ""; {
		match := matching(w)
		around := match == len(w)-1
		cut = false
		if w[0] == ')' || w[0] == '(' && (match < 0 || around) {
			front, w, cut = front+w[:1], w[1:], true
		}
		if n := len(w) - 1; n >= 0 && (w[n] == '(' || w[n] == ')' && (around || strings.Count(w, ")") > strings.Count(w, "("))) {
			behind, w, cut = w[n:]+behind, w[:n], true
		}
	}
	return front, w, behind
}

// matching is the place of the bracket that closes the one at the front of w;
// -1: none does.
func matching(w string) int {
	depth := 0
	for i := range len(w) {
		switch w[i] {
		case '(':
			depth++
		case ')':
			depth--
		}
		if depth <= 0 {
			return i
		}
	}
	return -1
}
