package abc

import (
	"iter"
	"strings"
)

// block is the text of a tune, or of what stands before the first, in its file.
type block struct {
	text   string
	line   int  // its first line in the file, from 1
	isTune bool // it begins with X:
	lost   int  // a line behind the tune's end that looks like music; 0: none
}

// line is a line without its end.
type line struct {
	text   string
	number int // in the file, from 1
	offset int // of its first byte in the block
}

// lines goes through the lines, which end with LF, CR or both.
func (b block) lines() iter.Seq[line] {
	return func(yield func(line) bool) {
		for at, n := 0, b.line; at < len(b.text); n++ {
			end, next := len(b.text), len(b.text)
			if i := strings.IndexAny(b.text[at:], "\r\n"); i >= 0 {
				end, next = at+i, at+i+1
				if strings.HasPrefix(b.text[end:], "\r\n") {
					next++
				}
			}
			if !yield(line{b.text[at:end], n, at}) {
				return
			}
			at = next
		}
	}
}

// isBlank reports whether a line ends a tune.
func (l line) isBlank() bool { return strings.TrimSpace(l.text) == "" }

// field is the letter of the field that the line is, 0 if it is none. In a
// body a note may stand before a repeat sign: `G:|`.
func (l line) field() byte {
	if len(l.text) < 2 || l.text[1] != ':' || !isLetter(l.text[0]) && l.text[0] != '+' {
		return 0
	}
	if len(l.text) > 2 && (l.text[2] == '|' || l.text[2] == ':') && isMusicLetter(l.text[0]) {
		return 0
	}
	return l.text[0]
}

func isLetter(c byte) bool { return 'A' <= c && c <= 'Z' || 'a' <= c && c <= 'z' }

func isMusicLetter(c byte) bool {
	return 'A' <= c && c <= 'G' || 'a' <= c && c <= 'g' || c == 'z' || c == 'x'
}

// begun is the name of what a directive %%beginNAME opens, up to %%endNAME.
func (l line) begun() string {
	name, found := strings.CutPrefix(l.text, "%%begin")
	if !found {
		return ""
	}
	if i := strings.IndexAny(name, " \t"); i >= 0 {
		name = name[:i]
	}
	return name
}

// cut divides a file into its header, which may be empty, and its tunes: each
// goes from X: to an empty line (The abc music standard 2.1, section 2.2).
func cut(text string) iter.Seq[block] {
	return func(yield func(block) bool) {
		b := block{line: 1}
		start, open, skip := 0, true, "" // skip: the directive whose end is awaited
		for l := range (block{text: text, line: 1}).lines() {
			switch {
			case l.field() == 'X':
				if open {
					b.text = text[start:l.offset]
				}
				if !yield(b) {
					return
				}
				b = block{line: l.number, isTune: true}
				start, open, skip = l.offset, true, ""
			case skip != "":
				if strings.HasPrefix(l.text, "%%end"+skip) {
					skip = ""
				}
			case l.begun() != "":
				skip = l.begun()
			case b.isTune && open && l.isBlank():
				b.text, open = text[start:l.offset], false
			case b.isTune && !open && b.lost == 0 && strings.Contains(l.text, "|") && strings.Count(l.text, `"`) > 1:
				b.lost = l.number
			}
		}
		if open {
			b.text = text[start:]
		}
		yield(b)
	}
}
