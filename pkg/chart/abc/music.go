package abc

import (
	"strings"

	"fifthwise/pkg/chart"
)

// music reads a line of notes.
type music struct {
	r    *reader
	s    string
	pos  int
	line int
}

func (r *reader) music(text string, number int) {
	m := music{r: r, s: text, line: number}
	v := r.current()
	v.aligned = v.aligned[:0]
	for m.pos < len(m.s) {
		m.element()
	}
	for _, v := range r.voices {
		v.nextS = 0
		if len(v.aligned) > 0 {
			v.barOf = v.aligned[0].bar
		}
	}
}

func (m *music) place() place {
	v := m.r.current()
	return place{v, v.here(), m.line, m.pos}
}

// at reports whether a byte stands so far ahead.
func (m *music) at(ahead int, c byte) bool { return m.pos+ahead < len(m.s) && m.s[m.pos+ahead] == c }

// isDigit reports whether a digit stands so far ahead.
func (m *music) isDigit(ahead int) bool {
	return m.pos+ahead < len(m.s) && m.s[m.pos+ahead] >= '0' && m.s[m.pos+ahead] <= '9'
}

// element reads what stands next.
func (m *music) element() {
	v := m.r.current()
	if v.now.from.line == 0 && m.s[m.pos] != ' ' {
		v.now.from = m.place()
	}
	c := m.s[m.pos]
	if v.skipped && c != '&' && c != '[' {
		m.pos++
		return
	}
	switch {
	case c == '"':
		m.quoted()
	case c == '^', c == '_', c == '=', 'A' <= c && c <= 'G', 'a' <= c && c <= 'g':
		if length, ok := m.note(); ok {
			v.aligned = append(v.aligned, spot{v.here(), v.time})
			v.play(m.inUnits(length))
		}
	case c == 'z', c == 'x':
		m.pos++
		v.play(m.inUnits(m.length()))
	case c == 'Z', c == 'X':
		m.pos++
		v.rest(m.number(1))
	case c == '[':
		m.bracket()
	case c == '|', c == ':', c == '.' && m.at(1, '|'):
		m.barLine()
	case c == '{':
		m.grace()
	case c == '(':
		m.tuplet()
	case c == '&':
		m.overlay()
	case c == '>', c == '<':
		m.broken(c)
	case c == '!', c == '+':
		m.decoration(c)
	case c == 'y':
		m.pos++
		m.number(0)
	default:
		if c < 128 {
			v.addSign(v.settings.signs[c])
		}
		m.pos++
	}
}

func (m *music) inUnits(length chart.Beats) chart.Beats {
	num, den := length.Fraction()
	return scaled(m.r.current().unitNote(), num, den)
}

// note passes over a note and gives its length in units; false if there is
// only an accidental.
func (m *music) note() (chart.Beats, bool) {
	for m.pos < len(m.s) && strings.IndexByte("^_=", m.s[m.pos]) >= 0 {
		m.pos++
	}
	for m.isDigit(0) || m.at(0, '/') { // microtones: ^3/2G
		m.pos++
	}
	if m.pos == len(m.s) || !('A' <= m.s[m.pos] && m.s[m.pos] <= 'G' || 'a' <= m.s[m.pos] && m.s[m.pos] <= 'g') {
		return chart.Beats{}, false
	}
	m.pos++
	for m.at(0, ',') || m.at(0, '\'') {
		m.pos++
	}
	return m.length(), true
}

// length reads the length of a note in units: 2, 3/2, /, //, /4 (The abc music
// standard 2.1, section 4.3).
func (m *music) length() chart.Beats {
	const most = 1 << 20
	num, den := m.number(1), 1
	for m.at(0, '/') {
		m.pos++
		den = min(den*max(m.number(2), 1), most)
	}
	return chart.B(num, den)
}

// number reads a number; without one it is what is given.
func (m *music) number(without int) int {
	const most = 1 << 20
	if !m.isDigit(0) {
		return without
	}
	n := 0
	for ; m.isDigit(0); m.pos++ {
		n = min(10*n+int(m.s[m.pos]-'0'), most)
	}
	return n
}

// bracket reads what a [ opens: a bar line, an ending, a field or a group of
// notes.
func (m *music) bracket() {
	rest := m.s[m.pos+1:]
	switch {
	case strings.HasPrefix(rest, "|"):
		m.barLine()
	case strings.HasPrefix(rest, "]"):
		m.pos += 2
	case m.isDigit(1):
		m.pos++
		m.ending()
	case len(rest) > 1 && isLetter(rest[0]) && rest[1] == ':':
		m.inlineField(rest)
	case m.r.current().skipped:
		m.pos++
	case strings.HasPrefix(rest, `"`) && isEndingText(rest):
		end := strings.IndexByte(rest[1:], '"')
		m.pos += end + 3
		m.r.current().ending(nil)
	default:
		m.group()
	}
}

// isEndingText reports whether a [ before quotes opens an ending and not a group
// of notes, whose ] would come before the next bar line.
func isEndingText(rest string) bool {
	end := strings.IndexByte(rest[1:], '"')
	if end < 0 {
		return false
	}
	const longest = 512 // of a group of notes
	behind := rest[end+2 : min(len(rest), end+2+longest)]
	i := strings.IndexAny(behind, "]|")
	return i < 0 || behind[i] == '|'
}

func (m *music) inlineField(rest string) {
	end := strings.IndexByte(rest, ']')
	if end < 0 {
		m.r.fault(m.place(), clip(m.s[m.pos:]), "the field in brackets is not closed", "write ] behind it")
		m.pos = len(m.s)
		return
	}
	m.r.field(rest[0], strings.TrimSpace(rest[2:end]), place{m.r.voice, m.r.current().here(), m.line, m.pos + 3})
	m.pos += end + 2
}

// group reads notes in brackets, which sound together as long as the first
// (The abc music standard 2.1, section 4.17).
func (m *music) group() {
	v := m.r.current()
	start := m.place()
	m.pos++
	var length chart.Beats
	for m.pos < len(m.s) && m.s[m.pos] != ']' {
		switch c := m.s[m.pos]; {
		case c == '"':
			m.quoted()
		case c == '!':
			m.decoration(c)
		case c == '|':
			m.r.fault(start, clip(m.s[start.offset:m.pos]), "the notes in brackets are not closed", "write ] behind them")
			return
		case strings.IndexByte("^_=abcdefgABCDEFGzx", c) >= 0:
			if c == 'z' || c == 'x' {
				m.pos++
			}
			if l, ok := m.note(); ok && length.IsZero() {
				length = l
			}
		default:
			m.pos++
		}
	}
	if m.pos == len(m.s) {
		m.r.fault(start, clip(m.s[start.offset:]), "the notes in brackets are not closed", "write ] behind them")
		return
	}
	m.pos++
	if length.IsZero() {
		return
	}
	num, den := m.length().Fraction()
	v.aligned = append(v.aligned, spot{v.here(), v.time})
	v.play(m.inUnits(scaled(length, num, den)))
}

// clip shortens what an error cites.
func clip(s string) string {
	const longest = 40
	if len(s) <= longest {
		return s
	}
	return strings.ToValidUTF8(s[:longest], "") + "..."
}

// grace passes over grace notes, which take no time.
func (m *music) grace() {
	end := strings.IndexByte(m.s[m.pos:], '}')
	if end < 0 {
		m.r.fault(m.place(), clip(m.s[m.pos:]), "the grace notes are not closed", "write } behind them")
		m.pos = len(m.s)
		return
	}
	m.pos += end + 1
}

// tuplet reads (p:q:r: p notes in the time of q for the next r (The abc music
// standard 2.1, section 4.13); or passes over the start of a slur.
func (m *music) tuplet() {
	v := m.r.current()
	m.pos++
	if m.at(0, '&') {
		m.pos++
		v.inMulti = true
	}
	if !m.isDigit(0) {
		return
	}
	p := m.number(0)
	q, r := 0, 0
	if m.at(0, ':') && !m.at(1, '|') {
		m.pos++
		q = m.number(0)
		if m.at(0, ':') && !m.at(1, '|') {
			m.pos++
			r = m.number(0)
		}
	}
	if q == 0 {
		q = v.tupletTime(p)
	}
	if r == 0 {
		r = p
	}
	const deepest = 8
	if p > 0 && len(v.tuplets) < deepest {
		v.tuplets = append(v.tuplets, tuplet{q, p, r})
	}
}

// tupletTime is the notes in whose time p notes are played where no number says
// so (The abc music standard 2.1, section 4.13, its table).
func (v *voice) tupletTime(p int) int {
	switch p {
	case 2, 4, 8:
		return 3
	case 3, 6:
		return 2
	}
	if v.meter.IsCompound() {
		return 3
	}
	return 2
}

// overlay reads a & that goes back to the start of the bar. One that goes back
// further, between (& and &), is passed over.
func (m *music) overlay() {
	v := m.r.current()
	m.pos++
	switch {
	case m.at(0, ')'):
		v.inMulti, v.skipped = false, false
	case v.inMulti:
		v.skipped = true
	default:
		v.overlay()
	}
}

// broken reads the signs of broken rhythm (The abc music standard 2.1, section
// 4.4).
func (m *music) broken(c byte) {
	n := 0
	for m.at(0, c) {
		m.pos++
		n++
	}
	whole := 1 << min(n, 4)
	long, short := 2*whole-1, 1
	v := m.r.current()
	if c == '<' {
		long, short = short, long
	}
	v.lengthen(long, whole)
	v.next = chart.B(short, whole)
}

// decoration reads a name between two ! or +. A ! alone is a line break of
// older tunes.
func (m *music) decoration(c byte) {
	const longest = 64
	rest := m.s[m.pos+1 : min(len(m.s), m.pos+1+longest)]
	end := strings.IndexByte(rest, c)
	if end < 0 || strings.ContainsAny(rest[:end], " \t|\"") {
		m.pos++
		return
	}
	m.r.current().addSign(decorations[rest[:end]])
	m.pos += end + 2
}

// quoted reads text in quotes.
func (m *music) quoted() {
	text, size := unquote(m.s[m.pos:])
	if size < 0 {
		m.r.fault(m.place(), clip(m.s[m.pos:]), "the quotes are not closed", `write " behind the chord`)
		m.pos = len(m.s)
		return
	}
	m.r.quoted(text, m.place())
	m.pos += size
}

// unquote is the text in the quotes at the front of s and its size with them; -1
// if they are not closed. Behind a backslash they are part of an annotation.
func unquote(s string) (text string, size int) {
	for i := 1; i < len(s); i++ {
		if s[i] == '"' && (s[i-1] != '\\' || !strings.HasPrefix(s[1:], "^") && !strings.HasPrefix(s[1:], "_") || strings.IndexByte(s[i+1:], '"') < 0) {
			return s[1:i], i + 1
		}
	}
	return "", -1
}
