package main

import (
	"cmp"
	"errors"
	"fmt"
	"regexp"
	"strings"
	"unicode/utf8"

	"fifthwise/pkg/key"
	"fifthwise/pkg/pitch"
	"fifthwise/pkg/review"
)

// bar is a bar of an answer.
type bar struct {
	words     []word   // numerals and ?
	keys      []stated // in which they stand
	key       stated   // at its start
	line, col int
}

// stated is a key of an answer; invalid: none was stated.
type stated struct {
	key.Key
	noMode bool // it was written without a mode
}

// text reads the text form of an answer.
type text struct {
	task      *task
	name      string
	bars      []bar
	key       stated // of what comes next
	keyAt     word   // where it is stated, while nothing stands in it
	isOpen    bool   // the last bar goes on
	isMarked  bool   // a key, a section or an ending stands behind the last bar line
	lineOfBar int    // in which the last bar line stands
	faults    faults
}

func (t *task) readText(s string) (given, error) {
	p := text{task: t}
	n := 0
	for line := range strings.Lines(strings.TrimPrefix(s, "\ufeff")) {
		n++
		p.line(strings.TrimRight(line, "\r\n"), n)
	}
	if p.keyAt.text != "" && len(p.bars) > 0 {
		p.fault(p.keyAt, "nothing stands in the key", "")
	}
	g := p.laidOut()
	return g, p.faults.err()
}

func (p *text) fault(w word, msg, hint string) {
	p.faults = append(p.faults, fault{line: w.line, col: w.col, msg: msg, hint: hint})
}

func (p *text) line(l string, n int) {
	if isComment(l) {
		return
	}
	head, rest, hasColon := strings.Cut(l, ":")
	value := strings.TrimSpace(rest)
	at := word{value, n, utf8.RuneCountInString(l[:len(l)-len(strings.TrimLeft(rest, " \t"))]) + 1}
	switch name := strings.ToLower(strings.TrimSpace(head)); {
	case hasColon && name == "name":
		p.name = value
	case hasColon && name == "key":
		p.setKey(at)
	case hasColon && (name == "title" || name == "meter" || name == "pickup"): // as the chart has them
	default:
		for _, w := range wordsOf(l, n) {
			p.word(w)
		}
	}
}

// isComment reports whether a line is a comment and does not start with
// a numeral such as #IVdim7.
func isComment(l string) bool {
	rest, ok := strings.CutPrefix(strings.TrimSpace(l), "#")
	return ok && (!strings.Contains(rest, "|") || strings.IndexAny(rest, "IViv1234567") != 0)
}

// setKey reads the key of what comes next.
func (p *text) setKey(w word) {
	k, noMode, err := review.ParseKey(w.text)
	var e *pitch.SyntaxError
	if errors.As(err, &e) {
		p.fault(w, fmt.Sprintf("%q: %s", w.text, e.Msg), cmp.Or(e.Hint, "such as F major"))
		return
	}
	if p.keyAt.text != "" {
		p.fault(p.keyAt, "nothing stands in the key", "")
	}
	p.key, p.keyAt = stated{k, noMode}, w
}

// token finds bar lines, names in brackets and words.
var token = regexp.MustCompile(`[|:]*\|[|:]*|\[[^\]|]*\]?|[^\s|\[]+`)

func wordsOf(l string, n int) (words []word) {
	for _, at := range token.FindAllStringIndex(l, -1) {
		words = append(words, word{l[at[0]:at[1]], n, utf8.RuneCountInString(l[:at[0]]) + 1})
	}
	return words
}

var ending = regexp.MustCompile(`^[0-9]+(,[0-9]+)*\.$`)

func (p *text) word(w word) {
	switch {
	case strings.Contains(w.text, "|"):
		if !p.isOpen && p.lineOfBar == w.line && !p.isMarked {
			p.open(w)
		}
		p.isOpen, p.isMarked, p.lineOfBar = false, false, w.line
	case w.text[0] == '[':
		p.isMarked = true
		p.bracket(w)
	case ending.MatchString(w.text):
		p.isMarked = true
	case w.text == ":": // of a repeat
	default:
		p.open(w)
		p.numeral(w)
	}
}

// open begins a bar, if none goes on.
func (p *text) open(w word) {
	if !p.isOpen {
		p.bars = append(p.bars, bar{key: p.key, line: w.line, col: w.col})
		p.isOpen, p.keyAt = true, word{}
	}
}

// bracket reads a key, or passes over the name of a section.
func (p *text) bracket(w word) {
	name, isClosed := strings.CutSuffix(w.text[1:], "]")
	if !isClosed {
		p.fault(w, "the bracket is not closed", "")
		return
	}
	for i := range p.task.chart.Bars {
		if p.task.chart.Bars[i].Section == strings.TrimSpace(name) && strings.TrimSpace(name) != "" {
			return
		}
	}
	w.text, w.col = strings.TrimSpace(name), w.col+1
	p.setKey(w)
}

// numeral puts a word into the bar that goes on.
func (p *text) numeral(w word) {
	if w = unwrapped(w); w.text == "" || w.text == "/" || w.text == "N.C." {
		return
	}
	b := &p.bars[len(p.bars)-1]
	last := len(b.words) - 1
	switch {
	case w.text == "%":
		if len(p.bars) == 1 {
			p.fault(w, "no bar stands before this one", "")
			return
		}
		b.words = p.bars[len(p.bars)-2].words
		for range b.words {
			b.keys = append(b.keys, p.key)
		}
		return
	case last >= 0 && (w.text == "of" || strings.HasSuffix(b.words[last].text, " of") || strings.EqualFold(b.words[last].text, "sub")):
		b.words[last].text += " " + w.text
		return
	}
	b.words, b.keys = append(b.words, w), append(b.keys, p.key)
	p.keyAt = word{}
}

// unwrapped is a word without the bracket of an optional group at its edge.
func unwrapped(w word) word {
	if rest, ok := strings.CutPrefix(w.text, "("); ok {
		w.text, w.col = rest, w.col+1
	}
	if strings.Count(w.text, ")") > strings.Count(w.text, "(") {
		w.text = strings.TrimSuffix(w.text, ")")
	}
	return w
}
