package chord

import (
	"slices"
	"strings"
)

// lexicon finds the longest of its words at the front of a text. Words are
// filed by their first byte, the longest first.
type lexicon[T any] [256][]entry[T]

type entry[T any] struct {
	word  string
	size  int // how much of the word is read; what is behind it only looks ahead
	value T
}

func lexiconOf[Row, T any](rows []Row, read func(Row) (words string, value T)) *lexicon[T] {
	l := &lexicon[T]{}
	for _, r := range rows {
		l.add(read(r))
	}
	return l
}

// add files the words of a table cell, which are divided by spaces. In "m|add"
// only what is before the bar is read, and the rest must follow. Words of two
// letters or more are also known in capitals and with a capital first.
func (l *lexicon[T]) add(words string, value T) {
	for _, word := range strings.Fields(words) {
		read, ahead, _ := strings.Cut(word, "|")
		for _, r := range cases(read) {
			for _, a := range cases(ahead) {
				l.file(entry[T]{r + a, len(r), value})
			}
		}
	}
}

func (l *lexicon[T]) file(e entry[T]) {
	row := &l[e.word[0]]
	*row = append(*row, e)
	slices.SortStableFunc(*row, func(a, b entry[T]) int { return len(b.word) - len(a.word) })
}

func cases(word string) []string {
	if len(word) < 2 || !isLetter(word[0]) || !isLetter(word[1]) {
		return []string{word}
	}
	upper := strings.ToUpper(word)
	return []string{word, upper[:1] + word[1:], upper}
}

func isLetter(c byte) bool { return 'a' <= c|0x20 && c|0x20 <= 'z' }

// match is the value of the longest word at the front of s, and the size of
// what is read; ok is false if there is none.
func (l *lexicon[T]) match(s string) (value *T, size int, ok bool) {
	if s == "" {
		return nil, 0, false
	}
	row := l[s[0]]
	for i := range row {
		if strings.HasPrefix(s, row[i].word) {
			return &row[i].value, row[i].size, true
		}
	}
	return nil, 0, false
}
