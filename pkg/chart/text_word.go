package chart

import (
	"fmt"
	"slices"
	"strings"

	"fifthwise/pkg/chord"
)

// maxWord bounds what may be one word, in bytes.
const maxWord = 512

// word reads a word of a bar: marks, chords, slashes, with the brackets of
// optional groups at its edges.
func (p *parser) word(w string, offset int) {
	if len(w) > maxWord {
		p.fault(offset, "", fmt.Sprintf("a word of more than %d bytes is no chord symbol", maxWord), "")
		return
	}
	front, symbol, behind := Unbracket(w)
	p.brackets(front, offset)
	p.content(symbol, offset+len(front))
	p.brackets(behind, offset+len(front)+len(symbol))
}

// brackets reads those at one edge of a word.
func (p *parser) brackets(w string, offset int) {
	for i := range len(w) {
		if w[i] == '(' {
			p.open(offset + i)
		} else {
			p.close(offset + i)
		}
	}
}

// group is the optional group being read.
type group struct {
	depth  int // 1 in a group, more in what is wrongly nested
	offset int
	bar    int
	words  int // chords and % so far
}

func (p *parser) open(offset int) {
	p.group.depth++
	switch p.group.depth {
	case 1:
		p.group = group{depth: 1, offset: offset, bar: len(p.chart.Bars)}
	case 2:
		p.fault(offset, "(", "optional groups do not nest", "close the one before with )")
	}
}

func (p *parser) close(offset int) {
	switch p.group.depth {
	case 0:
		p.fault(offset, ")", "nothing opens the group that ) closes", "write ( before its first chord")
		return
	case 1:
		if p.group.words == 0 {
			p.fault(offset, ")", "no chord stands in the brackets", "")
		}
	}
	p.group.depth--
}

// content reads a word without the brackets of groups.
func (p *parser) content(w string, offset int) {
	switch {
	case w == "":
	case w == "/":
		p.slash(offset)
	case w == "%":
		p.group.words++
		p.add(barWord{kind: againWord, offset: offset, slot: Slot{Optional: p.group.depth > 0}})
	case strings.Trim(w, "/") == "":
		p.fault(offset, w, "expected one /", "write "+strings.Join(strings.Split(w, ""), " "))
	case strings.Trim(w, "%") == "":
		p.fault(offset, w, "expected one %", "it stands alone in its bar, | % | % |")
	case isJump(w):
		p.jump(w, offset)
	case w[0] >= '0' && w[0] <= '9':
		p.numbers(w, offset)
	default:
		p.chord(w, offset)
	}
}

// numbers reads a meter or an ending.
func (p *parser) numbers(w string, offset int) {
	if strings.Contains(w, "/") {
		if !p.first(meterMark, w, offset, "a meter") {
			return
		}
		m, err := ParseMeter(w)
		if err != nil {
			e := p.fault(offset, w, "", "")
			e.explain(err)
			e.Offset += e.SymbolOffset
			return
		}
		p.draft.bar.Meter = m
		return
	}
	passes, at := parseEnding(w)
	if at >= 0 {
		p.fault(offset+at, w, "expected a chord, an ending as 1. or 1,2. or a meter as 3/4", endingHint(w)).SymbolOffset = at
		return
	}
	if p.first(endingMark, w, offset, "an ending") {
		p.draft.bar.Ending = passes
	}
}

// parseEnding reads "1." or "1,2."; at is where it fails, -1 if it does not.
func parseEnding(w string) (passes []int, at int) {
	for rest := w; ; {
		number, tail := digits(rest)
		at = len(w) - len(tail)
		if number == "" || len(number) > 2 || tail == "" {
			return nil, at
		}
		n := int(number[0] - '0')
		if len(number) == 2 {
			n = 10*n + int(number[1]-'0')
		}
		passes = append(passes, n)
		switch {
		case tail == ".":
			return passes, -1
		case tail[0] != ',':
			return nil, at
		}
		rest = tail[1:]
	}
}

// endingHint says what was meant where an ending and a chord run together.
func endingHint(w string) string {
	mark, rest, found := strings.Cut(w, ".")
	switch _, at := parseEnding(mark + "."); {
	case at >= 0:
		return ""
	case !found:
		return "an ending is written " + mark + "."
	case rest == "":
		return ""
	}
	if _, at := parseEnding(strings.TrimPrefix(rest, "-")); rest[0] == '-' && at < 0 {
		return "write each time, as 1,2,3."
	}
	return "write " + mark + ". " + rest
}

// jumps are words that send a player elsewhere, without their dots and in lower
// case.
var jumps = []string{"dc", "ds", "da", "dal", "capo", "segno", "al", "fine", "coda", "to"}

func isJump(w string) bool {
	return slices.Contains(jumps, strings.ToLower(strings.ReplaceAll(w, ".", "")))
}

// jump refuses the words of one, once for all that stand together.
func (p *parser) jump(w string, offset int) {
	if p.jumped == 0 || p.jumped < offset {
		p.fault(offset, w, "the text notation has repeats and endings, but no jumps", "write out the bars in the order of play")
	}
	p.jumped = offset + len(w) + len(" ")
}

func (p *parser) slash(offset int) {
	if !p.heard {
		p.fault(offset, "/", "no chord stands before / that could be held", "write N.C. for silence")
		p.heard = true
	}
	p.add(barWord{kind: slashWord, offset: offset})
}

func (p *parser) chord(w string, offset int) {
	p.heard = true
	p.group.words++
	symbol, place, found := strings.Cut(w, "@")
	b := barWord{offset: offset, slot: Slot{Symbol: symbol, Optional: p.group.depth > 0}}
	c, err := chord.Parse(symbol)
	b.slot.Chord = c
	switch {
	case found && symbol == "":
		p.chordFault(offset, w, "expected a chord symbol before @", "for example C@3")
	case err != nil:
		e := p.chordFault(offset, symbol, "", "")
		e.explain(err)
		e.Offset += e.SymbolOffset
		if e.Hint == "" {
			e.Hint = symbolHint(symbol)
		}
	}
	if found {
		b.beat, err = ParseBeats(place)
		at := offset + len(symbol) + 1
		switch {
		case err != nil:
			e := p.chordFault(at, w, "", "")
			e.explain(err)
			e.Offset += e.SymbolOffset
			e.SymbolOffset += len(symbol) + 1
		case b.beat.Less(B(1, 1)):
			p.chordFault(at, w, fmt.Sprintf("beat %v lies before the bar", b.beat), "beats count from 1").SymbolOffset = len(symbol) + 1
			b.beat = Beats{}
		}
	}
	p.add(b)
	p.draft.chords++
}

func (p *parser) chordFault(offset int, symbol, msg, hint string) *Error {
	e := p.fault(offset, symbol, msg, hint)
	e.Chord = p.draft.chords
	return e
}

// symbolHint says what is right where a sign of some other notation stands for
// a chord.
func symbolHint(symbol string) string {
	switch {
	case symbol[0] == '/':
		return "write the whole chord, as C" + symbol
	case symbol == "]":
		return "the last bar line is | or ||"
	case strings.Contains(symbol, "]"):
		return "a section is written [A]"
	case symbol[0] == '#':
		return "a comment is a line of its own"
	case symbol == "-" || symbol == ".":
		return "/ holds the chord for a beat, % writes the bar before again"
	}
	return ""
}

// add puts a word into the draft. A bar holds so many at most, so that a
// broken text cannot fill the memory.
func (p *parser) add(w barWord) {
	switch n := len(p.draft.words); {
	case n < MaxChords:
		p.draft.words = append(p.draft.words, w)
	case !p.draft.full:
		p.draft.full = true
		p.fault(w.offset, "", fmt.Sprintf("a bar holds at most %d chords", MaxChords), "bar lines are written |")
	}
}
