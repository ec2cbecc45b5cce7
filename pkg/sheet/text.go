package sheet

import (
	"slices"
	"strings"
	"unicode/utf8"

	"fifthwise/pkg/chart"
	"fifthwise/pkg/function"
)

// textRuler is that of plain text.
var textRuler = ruler{
	page: 80, margin: 5, opener: 2, repeat: 3, divider: 2, closer: 2, pad: 1, gap: 2, slash: 1, least: 9,
	chord: func(m *mark) (width, hang float64) {
		if m.opens {
			hang = 1
		}
		return characters(textOf(m)), hang
	},
	leadOf: func(b *bar) string {
		return strings.TrimSpace(b.ending + " " + b.meter)
	},
	below: characters, lead: characters,
}

func characters(s string) float64 { return float64(utf8.RuneCountInString(s)) }

// textOf is a chord as the text notation writes it.
func textOf(m *mark) string {
	s := m.symbol
	if m.opens {
		s = "(" + s
	}
	if m.beat != "" {
		s += "@" + m.beat
	}
	if m.closes {
		s += ")"
	}
	return s
}

// Text is the chart in plain text, eighty characters wide: each chord over its
// numeral as it is read the first time through, keys above, two-fives
// underlined, phrases in the margin; below, chords that are read otherwise when
// repeated. It is laid out as [SVG] is, and leaves out the arrows, the legend and
// the steps.
func Text(c chart.Chart, a *function.Analysis, s Style) string {
	p := newPage(c, a, s)
	g := p.grid(&textRuler)
	lines := g.lines(p.bars)
	p.link()
	var b strings.Builder
	for _, s := range wrap(p.chart.Title, g.page, characters) {
		b.WriteString(s + "\n")
	}
	b.WriteString(p.facts() + "\n")
	for i := range lines {
		b.WriteByte('\n')
		for _, r := range p.textLine(g, &lines[i]) {
			if s := r.String(); s != "" {
				b.WriteString(s + "\n")
			}
		}
	}
	if said := p.laterPasses(); len(said) > 0 {
		b.WriteString("\n" + otherwise + "\n")
		for _, s := range said {
			b.WriteString("  " + strings.Join(wrap(s, g.page-6, characters), "\n      ") + "\n")
		}
	}
	return b.String()
}

var (
	textOpens  = [...]string{single: "|", double: "||", repeatStart: "|:", repeatEnd: ":|"}
	textCloses = [...]string{single: "|", double: "||", repeatEnd: ":|"}
)

// textLine gives a line's rows: what stands above, the chords, what stands
// below.
func (p *page) textLine(g grid, l *line) []row {
	var chords, numerals, brackets row
	first, last := &l.bars[0], &l.bars[len(l.bars)-1]
	if !first.rest {
		chords.put(int(first.left)-1-utf8.RuneCountInString(first.number), first.number)
	}
	for i := range l.bars {
		b := &l.bars[i]
		if !b.rest {
			chords.put(int(b.left), textOpens[b.opens])
			chords.put(int(b.content), g.leadOf(b.bar))
		}
		if b.simile {
			chords.put(int(b.content), "%")
			continue
		}
		for k, at := range b.at {
			m := &b.marks[b.first+k]
			_, hang := g.chord(m)
			chords.put(int(at), textOf(m))
			numerals.put(int(at+hang), m.numeral)
		}
	}
	if last.last == len(last.marks) {
		chords.put(int(l.end), textCloses[last.closes])
	}
	for _, s := range p.strokes(l, bracket, func(b *placed, k int) (float64, float64) {
		_, hang := g.chord(&b.marks[k])
		at := b.at[k-b.first] + hang
		return at, at + max(2, characters(b.marks[k].numeral))
	}) {
		brackets.bracket(s)
	}
	keys, pivots := g.labels(l)
	above := rack{page: g.page, space: 1, width: characters}
	below := above
	above.stack(keys)
	row := -1
	for _, s := range slices.Backward(wrap(names(first), g.page, characters)) {
		row = above.put(row+1, words{text: s})
	}
	below.stack(pivots)
	rows := upward(textRows(above.rows))
	rows = append(rows, chords, numerals, brackets)
	return append(rows, textRows(below.rows)...)
}

// names are those of the section and the phrases that start with a bar.
func names(b *placed) string {
	phrases := strings.Join(b.phrases, ", ")
	switch {
	case b.rest:
		return ""
	case b.section == "":
		return phrases
	}
	return strings.TrimSpace("[" + b.section + "] " + phrases)
}
