package chart

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// kind is what a token of the text notation is.
type kind uint8

const (
	endOfText kind = iota
	barLine        // | || |: :| and what joins them
	sectionName
	headerLine
	word
)

// token is a piece of the text with its place in bytes.
type token struct {
	kind    kind
	text    string
	offset  int
	newLine bool // a line break stands between it and the token before
}

// lexer cuts the text into tokens.
type lexer struct {
	text  string
	pos   int
	begun bool // a token was met
}

const byteOrderMark = "\ufeff"

func newLexer(text string) lexer {
	l := lexer{text: text}
	if strings.HasPrefix(text, byteOrderMark) {
		l.pos = len(byteOrderMark)
	}
	return l
}

func (l *lexer) next() token {
	newLine := l.blanks()
	rest := l.text[l.pos:]
	t := token{offset: l.pos, newLine: newLine}
	size := 0
	switch {
	case rest == "":
		return t
	case newLine && isHeader(rest):
		t.kind, size = headerLine, len(line(rest))
	case rest[0] == '|' || strings.HasPrefix(rest, ":|"):
		t.kind, size = barLine, barLineSize(rest)
	case rest[0] == '[':
		t.kind, size = sectionName, sectionSize(rest)
	default:
		t.kind, size = word, wordSize(rest)
	}
	t.text = rest[:size]
	l.pos += size
	return t
}

// blanks passes over space and comments, and reports whether the next token
// is the first of its line.
func (l *lexer) blanks() (newLine bool) {
	newLine = !l.begun
	l.begun = true
	for l.pos < len(l.text) {
		r, size := utf8.DecodeRuneInString(l.text[l.pos:])
		switch {
		case r == '\n':
			newLine = true
		case unicode.IsSpace(r):
		case r == '#' && newLine:
			size = len(line(l.text[l.pos:]))
		default:
			return newLine
		}
		l.pos += size
	}
	return newLine
}

// line is s up to its first line break.
func line(s string) string {
	before, _, _ := strings.Cut(s, "\n")
	return before
}

// barLineSize measures the bar line at the front of s: a : before it and one
// behind, with one | or two between.
func barLineSize(s string) int {
	n := 0
	if s[0] == ':' {
		n++
	}
	n++
	if strings.HasPrefix(s[n:], "|") {
		n++
	}
	if strings.HasPrefix(s[n:], ":") {
		n++
	}
	return n
}

// sectionSize measures the section mark at the front of s, up to its ], or to
// the end of the word where the line has none within reach.
func sectionSize(s string) int {
	reach := s[:min(len(s), len("[]")+maxSection)]
	if n := strings.IndexAny(reach, "]\n"); n >= 0 && reach[n] == ']' {
		return n + 1
	}
	return 1 + wordSize(s[1:])
}

// wordSize measures the word at the front of s. A bracket before a section
// mark is a word of its own.
func wordSize(s string) int {
	for i, r := range s {
		switch {
		case unicode.IsSpace(r), r == '|', strings.HasPrefix(s[i:], ":|"):
			return i
		case r == '[' && strings.Trim(s[:i], "(") == "":
			return i
		}
	}
	return len(s)
}

// headers are the lines that may stand before the first bar.
var headers = []string{"Title", "Meter", "Key", "Pickup"}

// isHeader reports whether the line at the front of s is a header: one of the
// names and a colon, or any other word of two letters or more with a colon and
// space behind, which Harte's chord symbols never have.
func isHeader(s string) bool {
	name, value, found := strings.Cut(line(s), ":")
	if !found || len(name) < 2 || strings.ContainsFunc(name, func(r rune) bool { return !unicode.IsLetter(r) }) {
		return false
	}
	if knownHeader(name) != "" {
		return !strings.HasPrefix(value, "|")
	}
	return value == "" || unicode.IsSpace(rune(value[0]))
}

// knownHeader is the name as it is printed, or "".
func knownHeader(name string) string {
	for _, h := range headers {
		if strings.EqualFold(name, h) {
			return h
		}
	}
	return ""
}
