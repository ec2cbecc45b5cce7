package abc

import (
	"fmt"
	"iter"
	"strconv"
	"strings"

	"fifthwise/pkg/chart"
)

// Tune is a tune of a book.
type Tune struct {
	Number int // behind X:; 0: none
	Line   int // of the file, from 1, where it begins
	Chart  chart.Chart
}

// Parse reads a file that holds one tune. A file of several is an error that
// names them; [Tunes] reads those. The error is an [ErrorList]; the chart is
// then what could be made.
func Parse(data []byte) (chart.Chart, error) {
	text, note, fault := decode(data)
	if fault != nil {
		return chart.Chart{}, ErrorList{fault}
	}
	var head settings
	var one block
	count, names := 0, []string(nil)
	for b := range cut(text) {
		if b.isTune {
			if count++; count == 1 {
				one = b
			}
			if count <= maxNames {
				names = append(names, b.name())
			}
			continue
		}
		head = fileHeader(b)
		one = b
	}
	switch {
	case count > 1:
		return chart.Chart{}, ErrorList{several(count, names)}
	case count == 0 && !one.hasKey():
		return chart.Chart{}, ErrorList{noTune(one)}
	}
	t, err := readTune(one, head, note)
	return t.Chart, err
}

// Tunes goes through a tune book: the tunes in their order, each with its own
// error, an [ErrorList]. A file that cannot be read or holds no tune gives one
// error.
func Tunes(data []byte) iter.Seq2[Tune, error] {
	return func(yield func(Tune, error) bool) {
		text, note, fault := decode(data)
		if fault != nil {
			yield(Tune{}, ErrorList{fault})
			return
		}
		var head settings
		var first block
		found := false
		for b := range cut(text) {
			if !b.isTune {
				head, first = fileHeader(b), b
				continue
			}
			found = true
			if !yield(readTune(b, head, note)) {
				return
			}
		}
		switch {
		case found:
		case first.hasKey():
			yield(readTune(first, head, note))
		default:
			yield(Tune{}, ErrorList{noTune(first)})
		}
	}
}

// maxNames is how many tunes an error names.
const maxNames = 20

func several(count int, names []string) *Error {
	list := strings.Join(names, ", ")
	if count > len(names) {
		list += fmt.Sprintf(" and %d more", count-len(names))
	}
	return &Error{Bar: -1, Msg: fmt.Sprintf("expected one tune, the file holds %d: %s", count, list), Hint: "leave one of them, or choose one by its number"}
}

func noTune(b block) *Error {
	if strings.TrimSpace(b.text) == "" {
		return &Error{Bar: -1, Msg: "the file is empty, expected a tune", Hint: "a tune begins with X:1, then T: with its title, M:4/4 and K:C"}
	}
	return &Error{Bar: -1, Msg: "the file holds no tune, expected a line X:1 where one begins", Hint: "a tune begins with X:1, then T: with its title, M:4/4 and K:C"}
}

// name is the tune's number and title: `1 "Low Tide"`.
func (b block) name() string {
	number, title := "", ""
	for l := range b.lines() {
		switch l.field() {
		case 'X':
			number = strconv.Itoa(tuneNumber(l.text[2:]))
		case 'T':
			title = name(withoutComment(l.text)[2:])
		}
		if title != "" || l.field() == 'K' {
			break
		}
	}
	if title == "" {
		return "X:" + number
	}
	const longest = 60
	if len([]rune(title)) > longest {
		title = string([]rune(title)[:longest]) + "..."
	}
	return "X:" + number + " " + quote(title)
}

func (b block) hasKey() bool {
	for l := range b.lines() {
		if l.field() == 'K' {
			return true
		}
	}
	return false
}

func tuneNumber(value string) int {
	n := 0
	for _, c := range strings.TrimSpace(value) {
		if c < '0' || c > '9' || n > 1_000_000 {
			break
		}
		n = 10*n + int(c-'0')
	}
	return n
}

func quote(s string) string { return strconv.Quote(s) }

// withoutComment is a line up to its comment: a % without a backslash before
// it (The abc music standard 2.1, sections 2.2.3 and 8.2).
func withoutComment(s string) string {
	for i := 0; i < len(s); i++ {
		switch s[i] {
		case '\\':
			i++
		case '%':
			return s[:i]
		}
	}
	return s
}
