package chord

import (
	"slices"
	"strings"
)

// lexicon finds the longest word at the front of a text. Words are filed by
// their first byte, the longest first.
type lexicon[T any] [256][]entry[T]

type entry[T any] struct {
	word  string
	size  int // how much of the word is read; the rest only looks ahead
	value T
}

// add files the words of a table cell, which are divided by spaces. In "m|add"
// what is behind the bar must follow and is not read. Words of two letters or
// more are also known in capitals and with a capital first.
func (l *lexicon[T]) add(cell string, value T) {
	for _, word := range strings.Fields(cell) {
		size := strings.IndexByte(word, '|')
		if size < 0 {
			size = len(word)
		}
		head, ahead := word[:size], strings.TrimPrefix(word[size:], "|")
		for _, h := range cases(head) {
			for _, a := range cases(ahead) {
				l.file(entry[T]{h + a, size, value})
			}
		}
	}
}

func (l *lexicon[T]) file(e entry[T]) {
	row := append(l[e.word[0]], e)
	slices.SortStableFunc(row, func(a, b entry[T]) int { return len(b.word) - len(a.word) })
	l[e.word[0]] = row
}

// cases is a word as it is and, if it begins with two letters, in other cases.
func cases(word string) []string {
	if len(word) < 2 || !isLetter(word[0]) || !isLetter(word[1]) {
		return []string{word}
	}
	upper := strings.ToUpper(word)
	return []string{word, upper[:1] + word[1:], upper}
}

func isLetter(c byte) bool { return 'a' <= c|0x20 && c|0x20 <= 'z' }

// match is the value of the longest word at the front of s, and its size; ok
// is false if there is none.
func (l *lexicon[T]) match(s string) (value T, size int, ok bool) {
	if s == "" {
		return value, 0, false
	}
	for _, e := range l[s[0]] {
		if strings.HasPrefix(s, e.word) {
			return e.value, e.size, true
		}
	}
	return value, 0, false
}
