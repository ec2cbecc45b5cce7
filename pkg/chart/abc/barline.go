package abc

import (
	"slices"
	"strings"
)

// barLine is what a bar line says.
type barLine struct {
	back, forward int // colons before and behind
	double, final bool
	inBar         bool // dotted or dashed: it may divide a bar
}

func (v *voice) barLine(l barLine) {
	if l.inBar && longer(v.time, v.most).Less(v.meter.whole()) {
		return
	}
	if !v.isOpen() && len(v.pending) > 0 && v.from.bar == v.here() && l.forward == 0 {
		v.fill()
	}
	isOpen := v.isOpen()
	v.leaveSigns(isOpen)
	if isOpen {
		v.finish()
	}
	if n := len(v.bars); n > 0 {
		b := &v.bars[n-1]
		b.Double = b.Double || l.double && !l.final
		b.final = b.final || l.final
		if l.back > 0 {
			b.RepeatEnd = true
			b.Times = v.timesOf(l.back)
		}
	}
	if l.forward > 0 {
		v.now.RepeatStart = true
		v.times = l.forward
	}
}

// timesOf is how often a repeat is played whose sign has so many colons, 0 for
// twice (The abc music standard 2.1, section 4.8).
func (v *voice) timesOf(colons int) int {
	colons, v.times = max(colons, v.times), 0
	if colons < 2 {
		return 0
	}
	return colons + 1
}

// ending opens an ending. Without passes it follows the one before.
func (v *voice) ending(passes []int) {
	if v.isOpen() {
		v.finish()
	}
	if passes == nil {
		passes = []int{v.passes() + 1}
	}
	v.now.Ending = passes
}

// passes is the highest pass of the endings of the last repeat.
func (v *voice) passes() int {
	for i := len(v.bars) - 1; i >= 0; i-- {
		if e := v.bars[i].Ending; len(e) > 0 {
			return slices.Max(e)
		}
		if v.bars[i].RepeatStart {
			break
		}
	}
	return 0
}

// part starts a part: with a new bar.
func (v *voice) part(name string) {
	if v.isOpen() {
		v.finish()
	}
	v.now.Section = name
}

// barLine reads a bar line of any shape (The abc music standard 2.1, section
// 4.8).
func (m *music) barLine() {
	dotted := m.at(0, '.')
	if dotted {
		m.pos++
	}
	start := m.pos
	for m.pos < len(m.s) && (m.at(0, '|') || m.at(0, ':') || m.at(0, '[') && m.at(1, '|') ||
		m.at(0, ']') && m.pos > start && m.s[m.pos-1] == '|') {
		m.pos++
	}
	l := barLineOf(m.s[start:m.pos])
	l.inBar = l.inBar || dotted
	m.r.current().barLine(l)
	if m.isDigit(0) {
		m.ending()
	}
}

func barLineOf(s string) barLine {
	first, last := strings.IndexByte(s, '|'), strings.LastIndexByte(s, '|')
	if first < 0 {
		n := len(s) / 2 // "::"
		return barLine{back: n, forward: n, inBar: n == 0}
	}
	return barLine{
		back:    strings.Count(s[:first], ":"),
		forward: strings.Count(s[last:], ":"),
		double:  s != "[|]" && (strings.Contains(s, "||") || strings.Contains(s, "[|") || strings.Contains(s, "|]")),
		final:   s != "[|]" && strings.HasSuffix(s, "|]"),
	}
}

// ending reads the passes of an ending: 1 or 1,3 or 1-3 (The abc music standard
// 2.1, section 4.10).
func (m *music) ending() {
	const most = 100
	var passes []int
	add := func(n int) {
		if len(passes) < most && !slices.Contains(passes, n) {
			passes = append(passes, n)
		}
	}
	for m.isDigit(0) {
		n := m.number(0)
		if add(n); m.at(0, '-') && m.isDigit(1) {
			m.pos++
			for to := min(m.number(0), most); n < to; {
				n++
				add(n)
			}
		}
		if (m.at(0, ',') || m.at(0, '.')) && m.isDigit(1) {
			m.pos++
		}
	}
	if m.at(0, '.') && !m.at(1, '|') {
		m.pos++
	}
	m.r.current().ending(passes)
}
