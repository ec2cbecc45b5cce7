package chart

import (
	"fmt"
	"strings"
	"unicode/utf8"
)

// Parse reads the text notation that the package comment describes. The error
// is an [ErrorList] of all faults, each with its place; the chart is then what
// could be read.
func Parse(text string) (Chart, error) { return ParseWith(text, Header{}) }

// ParseWith is [Parse] where some of the header is known from elsewhere: it
// wins over the text, and a difference is a warning. A fault of what is known
// has no line.
func ParseWith(text string, known Header) (Chart, error) {
	p := parser{lexer: newLexer(text), sound: Slot{Symbol: silence}}
	p.chart.Title, p.chart.Meter, p.chart.Key = known.Title, known.Meter, known.Key
	if at := firstInvalid(text); at < len(text) {
		p.faults = ErrorList{{BarIndex: -1, Chord: -1, Offset: at, Msg: "the text is not valid UTF-8"}}
	} else {
		p.read()
	}
	p.faults.sort()
	p.faults.locate(text)
	v := validation{chart: Chart{Title: known.Title, Meter: known.Meter}}
	v.header()
	return p.chart, append(v.faults, p.faults...).orNil()
}

// silence is the symbol of no chord.
const silence = "N.C."

// firstInvalid is where the text stops being UTF-8, its length if it does not.
func firstInvalid(text string) int {
	for i := 0; i < len(text); {
		r, size := utf8.DecodeRuneInString(text[i:])
		if r == utf8.RuneError && size == 1 {
			return i
		}
		i += size
	}
	return len(text)
}

// parser reads the tokens of a text bar by bar.
type parser struct {
	lexer
	chart  Chart
	faults ErrorList

	headers map[string]int // those met, with the offsets of their values
	yielded []string       // what the header had to give way to
	meter   Meter          // of the last bar
	draft   draft
	line    string // the last bar line; empty: none yet
	empty   bool   // nothing stands behind it so far
	heard   bool   // a chord was written
	jumped  int    // the offset behind the last word of a jump; 0: none was met
	group   group
	sound   Slot         // the last chord of the bars read
	before  Slot         // the last chord before the last of these
	bad     bool         // that bar has faults
	places  [][marks]int // of each bar
	slots   []Slot       // room for the chords of bars
	entries []Entry      // for use in one bar after the other
}

// draft is the bar being read.
type draft struct {
	bar    Bar
	places [marks]int
	marked [marks]bool
	words  []barWord
	chords int
	bad    bool
	full   bool // and told so
}

// barWord is a chord, a / or a % of the draft.
type barWord struct {
	kind   wordKind
	offset int
	slot   Slot
	beat   Beats // of a chord with @; zero: none
}

type wordKind uint8

const (
	chordWord wordKind = iota
	slashWord
	againWord
)

func (p *parser) read() {
	for t := p.next(); t.kind != endOfText; t = p.next() {
		switch t.kind {
		case headerLine:
			p.header(t)
		case barLine:
			p.barLine(t)
		case sectionName:
			p.empty = false
			p.section(t)
		case word:
			p.empty = false
			p.word(t.text, t.offset)
		}
		if len(p.chart.Bars) > MaxPlayedBars {
			p.fault(t.offset, "", tooLong, "").cause = ErrTooLong
			return
		}
	}
	p.end()
}

// fault notes a fault in the draft.
func (p *parser) fault(offset int, symbol, msg, hint string) *Error {
	p.draft.bad = true
	e := &Error{Bar: p.number(), BarIndex: len(p.chart.Bars), Chord: -1, Symbol: clip(symbol), Offset: offset, Msg: msg, Hint: hint}
	if len(p.faults) < MaxErrors {
		p.faults = append(p.faults, e)
	}
	return e
}

// clip shortens what is too long to be shown.
func clip(s string) string {
	if len(s) <= maxWord {
		return s
	}
	return strings.ToValidUTF8(s[:maxWord], "") + "…"
}

// number is that of the draft.
func (p *parser) number() int {
	if p.chart.Pickup.IsZero() {
		return len(p.chart.Bars) + 1
	}
	return len(p.chart.Bars)
}

func (p *parser) barLine(t token) {
	ends, starts := t.text[0] == ':', strings.HasSuffix(t.text, ":")
	empty := false
	switch {
	case len(p.draft.words) > 0:
		p.finish()
	case p.line == "" || !p.empty || t.newLine:
	case starts && (p.line[0] == ':' || p.line == "||"): // :| |: is one sign written as two
	default:
		empty = true
		hint := "% writes the bar before again, N.C. is silence"
		if !strings.Contains(p.line+t.text, ":") {
			hint += "; if two bars were joined, drop one of the lines"
		}
		p.fault(t.offset, p.line+" "+t.text, "the bar is empty", hint)
	}
	p.line, p.empty = t.text, true
	last := len(p.chart.Bars) - 1
	if last >= 0 && strings.Contains(t.text, "||") {
		p.chart.Bars[last].Double = true
	}
	switch {
	case !ends:
	case last >= 0 && !p.draft.marked[startMark] && !p.chart.Bars[last].RepeatEnd:
		p.chart.Bars[last].RepeatEnd = true
		p.places[last][endMark] = t.offset
	default:
		if !empty {
			p.fault(t.offset, t.text, "no bar stands before the repeat sign that could be repeated", "")
		}
		p.draft.bar.RepeatStart, p.draft.marked[startMark] = false, false
	}
	if !starts {
		return
	}
	if p.draft.marked[startMark] && !empty {
		p.fault(t.offset, t.text, "no bar stands between two repeat signs", "")
	}
	p.draft.bar.RepeatStart = true
	p.draft.mark(startMark, t.offset)
}

func (d *draft) mark(m mark, offset int) {
	d.marked[m], d.places[m] = true, offset
}

// tokenAt is the token that starts at an offset.
func (p *parser) tokenAt(offset int) string {
	l := lexer{text: p.text, pos: offset, begun: true}
	return l.next().text
}

// first notes where a mark stands and reports whether it may stand there:
// before all chords of its bar, and once.
func (p *parser) first(m mark, text string, offset int, what string) bool {
	switch {
	case len(p.draft.words) > 0:
		p.fault(offset, text, what+" stands first in its bar", "write | before it")
		return false
	case p.draft.marked[m]:
		at := p.draft.places[m]
		p.fault(at, p.tokenAt(at), "no bar stands between the mark and "+clip(text), "")
	}
	p.draft.mark(m, offset)
	return true
}

func (p *parser) section(t token) {
	name, closed := strings.CutSuffix(t.text[1:], "]")
	name = strings.TrimSpace(name)
	if !p.first(sectionMark, t.text, t.offset, "a section mark") {
		return
	}
	if !closed {
		p.fault(t.offset, t.text, "the section mark is not closed", fmt.Sprintf("write ] behind the name, which has at most %d bytes", maxSection))
	} else if msg := sectionFault(name); msg != "" {
		p.fault(t.offset, t.text, msg, "for example [A]")
	}
	p.draft.bar.Section = name
}

// end checks what is still open at the end of the text, and what holds
// between bars.
func (p *parser) end() {
	if len(p.draft.words) > 0 {
		p.finish()
	}
	for m, offset := range p.draft.places {
		if p.draft.marked[m] {
			p.fault(offset, p.tokenAt(offset), "no bar stands behind the mark", "")
		}
	}
	if p.group.depth > 0 {
		e := p.fault(p.group.offset, "(", "the optional group is not closed", "write ) behind its last chord")
		e.BarIndex, e.Bar = p.group.bar, p.group.bar+p.number()-len(p.chart.Bars)
	}
	p.differences()
	if len(p.chart.Bars) == 0 {
		if len(p.faults) == 0 {
			p.headerFault(len(p.text), "", noBars, noBarsHint)
		}
		return
	}
	if p.chart.Meter == (Meter{}) {
		p.chart.Meter = p.chart.Bars[0].Meter
	}
	v := validation{chart: p.chart, bars: p.chart.Bars, place: func(e *Error, m mark) {
		e.Offset = len(p.text)
		if e.BarIndex >= 0 {
			e.Offset = p.places[e.BarIndex][m]
		}
	}}
	v.form()
	p.faults = append(p.faults, v.faults...)
}
