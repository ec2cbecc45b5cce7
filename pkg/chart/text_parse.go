package chart

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"fifthwise/pkg/chord"
	"fifthwise/pkg/key"
)

// Parse reads the text notation that the package comment describes. The error
// is an [ErrorList] of all faults, each with its place; the chart is then what
// could be read.
func Parse(text string) (Chart, error) { return ParseWith(text, Header{}) }

// ParseWith is [Parse] where some of the header is known from elsewhere: it
// wins over the text, and a difference is a warning.
func ParseWith(text string, known Header) (Chart, error) {
	p := parser{lexer: newLexer(text), known: known, sound: Slot{Symbol: silence}}
	p.chart.Title, p.chart.Meter, p.chart.Key = known.Title, known.Meter, known.Key
	if at := firstInvalid(text); at < len(text) {
		p.faults = ErrorList{{BarIndex: -1, Chord: -1, Offset: at, Msg: "the text is not valid UTF-8"}}
	} else {
		p.read()
	}
	err := p.faults.sorted()
	if err == nil {
		return p.chart, nil
	}
	list := err.(ErrorList)
	list.locate(text)
	return p.chart, list
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
	known  Header
	chart  Chart
	faults ErrorList

	headers map[string]int // those met, with the offsets of their values
	yielded []string       // what the header had to give way to
	meter   Meter          // of the last bar
	draft   draft
	line    string // the last bar line; empty: none yet
	empty   bool   // nothing stands behind it so far
	heard   bool   // a chord was written
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

// group is the optional group being read.
type group struct {
	depth  int // 1 in a group, more in what is wrongly nested
	offset int
	bar    int
	words  int // chords and % so far
}

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
	e := &Error{Bar: p.number(), BarIndex: len(p.chart.Bars), Chord: -1, Symbol: symbol, Offset: offset, Msg: msg, Hint: hint}
	if len(p.faults) < MaxErrors {
		p.faults = append(p.faults, e)
	}
	return e
}

// headerFault notes a fault that lies in no bar.
func (p *parser) headerFault(offset int, symbol, msg, hint string) *Error {
	e := p.fault(offset, symbol, msg, hint)
	e.Bar, e.BarIndex = 0, -1
	return e
}

// number is that of the draft.
func (p *parser) number() int {
	if p.chart.Pickup.IsZero() {
		return len(p.chart.Bars) + 1
	}
	return len(p.chart.Bars)
}

func (p *parser) header(t token) {
	name, rest, _ := strings.Cut(t.text, ":")
	value := strings.TrimSpace(rest)
	offset := t.offset + len(name) + 1 + strings.Index(rest, value)
	known := knownHeader(name)
	switch _, twice := p.headers[known]; {
	case len(p.chart.Bars) > 0 || len(p.draft.words) > 0:
		p.headerFault(t.offset, name+":", "a header stands before the first bar", "")
		return
	case known == "":
		p.headerFault(t.offset, name+":", "unknown header", "Title, Meter, Key or Pickup; a section is written ["+name+"]")
		return
	case twice:
		p.headerFault(t.offset, name+":", "the header stands twice", "")
		return
	}
	if p.headers == nil {
		p.headers = map[string]int{}
	}
	p.headers[known] = offset
	switch known {
	case "Title":
		p.title(value, offset)
	case "Meter":
		m, err := ParseMeter(value)
		headerValue(p, &p.chart.Meter, m, err, value, offset, "meter")
	case "Key":
		k, err := key.Parse(value)
		headerValue(p, &p.chart.Key, k, err, value, offset, "key")
	case "Pickup":
		p.pickup(value, offset)
	}
}

func (p *parser) title(value string, offset int) {
	msg := nameFault(value, "title")
	switch {
	case msg != "":
		p.headerFault(offset, "", msg, "")
	case value != "":
		headerValue(p, &p.chart.Title, value, nil, value, offset, "title")
	}
}

// headerValue takes in the value of a header unless it is known already.
func headerValue[T comparable](p *parser, field *T, value T, err error, text string, offset int, what string) {
	var none T
	switch {
	case err != nil:
		e := p.headerFault(offset, text, "", "")
		e.explain(err)
		e.Offset += e.SymbolOffset
	case *field == none:
		*field = value
	case *field != value:
		p.yielded = append(p.yielded, fmt.Sprintf("the %s in the text, %v, gives way to %v", what, value, *field))
	}
}

func (p *parser) pickup(value string, offset int) {
	b, err := ParseBeats(value)
	if err == nil && b.Less(Beats{}) {
		p.headerFault(offset, value, "a pickup has more than 0 beats", "")
		return
	}
	headerValue(p, &p.chart.Pickup, b, err, value, offset, "pickup")
}

func (p *parser) barLine(t token) {
	ends, starts := t.text[0] == ':', strings.HasSuffix(t.text, ":")
	empty := false
	switch {
	case len(p.draft.words) > 0:
		p.finish()
	case p.line == "" || !p.empty || t.newLine:
	case starts && p.line[0] == ':': // :| |: is one sign written as two
	default:
		empty = true
		p.fault(t.offset, p.line+" "+t.text, "the bar is empty", "% writes the bar before again, N.C. is silence")
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
	case !empty:
		p.fault(t.offset, t.text, "no bar stands before the repeat sign that could be repeated", "")
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

// first notes where a mark stands and reports whether it may stand there:
// before all chords of its bar, and once.
func (p *parser) first(m mark, text string, offset int, what string) bool {
	switch {
	case len(p.draft.words) > 0:
		p.fault(offset, text, what+" stands first in its bar", "write | before it")
		return false
	case p.draft.marked[m]:
		p.fault(p.draft.places[m], "", "no bar stands between this mark and "+text, "")
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
	switch msg := nameFault(name, "name of the section"); {
	case !closed:
		p.fault(t.offset, t.text, "the section mark is not closed", "write ] behind the name")
	case name == "":
		p.fault(t.offset, t.text, "the section has no name", "for example [A]")
	case msg != "":
		p.fault(t.offset, "", msg, "")
	}
	p.draft.bar.Section = name
}

// maxWord bounds what may be one word, in bytes.
const maxWord = 512

// word reads a word of a bar: marks, chords, slashes, with the brackets of
// optional groups at its edges.
func (p *parser) word(w string, offset int) {
	if len(w) > maxWord {
		p.fault(offset, "", fmt.Sprintf("a word of more than %d bytes is no chord symbol", maxWord), "")
		return
	}
	var behind []int // offsets of the brackets behind, from the last
	for cut := true; cut; {
		match := matching(w)
		cut = false
		if strings.HasPrefix(w, ")") {
			p.close(offset)
			w, offset, cut = w[1:], offset+1, true
			continue
		}
		around := match == len(w)-1
		if strings.HasPrefix(w, "(") && (match < 0 || around) {
			p.open(offset)
			w, offset, cut = w[1:], offset+1, true
		}
		if strings.HasSuffix(w, "(") || strings.HasSuffix(w, ")") && (around || strings.Count(w, ")") > strings.Count(w, "(")) {
			w, cut = w[:len(w)-1], true
			behind = append(behind, offset+len(w))
		}
	}
	p.content(w, offset)
	for i := len(behind) - 1; i >= 0; i-- {
		if p.text[behind[i]] == '(' {
			p.open(behind[i])
		} else {
			p.close(behind[i])
		}
	}
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
	case strings.Trim(w, "/") == "", strings.Trim(w, "%") == "":
		p.fault(offset, w, "expected one "+w[:1], "write "+strings.Join(strings.Split(w, ""), " "))
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
	if _, at := parseEnding(mark + "."); !found || at >= 0 || rest == "" {
		return ""
	}
	return "write " + mark + ". " + rest
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
	case strings.Contains(symbol, "]"):
		return "a section is written [A]"
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
