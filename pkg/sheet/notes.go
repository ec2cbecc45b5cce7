package sheet

import (
	"fmt"
	"strings"
)

// otherwise heads what differs on later times through; the numerals that do have
// its star.
const otherwise = "* Read otherwise when repeated"

// notes are what the chords cannot show: readings of later times through and, on
// request, the steps in which the tune is learned.
func (d *drawing) notes() []block {
	notes := d.paragraphs(otherwise, d.laterPasses())
	if d.style.Steps {
		notes = append(notes, d.paragraphs("What to remember", d.plan.Steps())...)
	}
	return notes
}

// paragraphs are texts, the first with what heads them.
func (d *drawing) paragraphs(heading string, all []string) (blocks []block) {
	for i, s := range all {
		b := block{draw: func() { d.paragraph(s) }, isNote: true, price: inNotes}
		if i == 0 {
			b.price = 0
			b.draw = func() {
				d.y += 34
				d.text(sideMargin, d.y, noteSize+1, heading, `font-weight="bold"`)
				d.paragraph(s)
			}
		}
		blocks = append(blocks, b)
	}
	return blocks
}

func (d *drawing) paragraph(s string) {
	if d.style.Accidentals != 0 {
		s = strings.ReplaceAll(s, "'", "′")
	}
	for i, l := range wrap(s, pageWidth-2*sideMargin-16, sans.in(noteSize)) {
		d.y += 20
		x := float64(sideMargin)
		if i > 0 {
			x += 16
		}
		d.text(x, d.y, noteSize, l, "")
	}
}

// laterPasses tells which chords of a repeat are read otherwise than the first
// time through, neighbours of one pass and key together.
func (p *page) laterPasses() []string {
	var said []string
	for _, run := range p.readOtherwise() {
		var words []string
		for _, i := range run {
			r := &p.analysis.Chords[i]
			words = append(words, symbol(r.Event.Symbol, r.Event.Chord, p.style.Accidentals)+" "+p.numeral(r.Numeral, r.Key))
		}
		first, last := &p.analysis.Chords[run[0]], &p.analysis.Chords[run[len(run)-1]]
		where := fmt.Sprintf("Bar %d", first.Event.Bar)
		if last.Event.Bar != first.Event.Bar {
			where = fmt.Sprintf("Bars %d–%d", first.Event.Bar, last.Event.Bar)
		}
		said = append(said, fmt.Sprintf("%s, time %d, in %s: %s", where, first.Event.Pass, p.keyName(first.Key), strings.Join(words, ", ")))
	}
	return said
}

// readOtherwise is the chords of later passes whose reading is not that of the
// first.
func (p *page) readOtherwise() (runs [][]int) {
	chords := p.analysis.Chords
	for i, first := range p.firstTimes() {
		r, was := &chords[i], &chords[first]
		if was.Numeral == r.Numeral && was.Key == r.Key {
			continue
		}
		if n := len(runs) - 1; n >= 0 {
			last := runs[n][len(runs[n])-1]
			if last == i-1 && chords[last].Key == r.Key && chords[last].Event.Pass == r.Event.Pass {
				runs[n] = append(runs[n], i)
				continue
			}
		}
		runs = append(runs, []int{i})
	}
	return runs
}

// firstTimes is for every chord as played the same chord of the first time
// through.
func (p *page) firstTimes() []int {
	chords, first := p.analysis.Chords, p.firstPasses()
	times := make([]int, len(chords))
	slot := 0 // of the chord in its bar
	for i := range chords {
		e := &chords[i].Event
		if slot++; i == 0 || chords[i-1].Event.BarIndex != e.BarIndex || chords[i-1].Event.Pass != e.Pass {
			slot = 0
		}
		times[i] = first[e.BarIndex][slot]
	}
	return times
}

// star marks the numerals that are others on a later time through.
func (p *page) star() {
	times, starred := p.firstTimes(), map[int]bool{}
	for _, run := range p.readOtherwise() {
		for _, i := range run {
			starred[times[i]] = true
		}
	}
	for i := range p.bars {
		for k := range p.bars[i].marks {
			if m := &p.bars[i].marks[k]; m.chord >= 0 && starred[m.chord] {
				m.numeral += "*"
			}
		}
	}
}

// wrap breaks a text between words into lines of at most a width. A word that
// is wider is broken. Widths add up.
func wrap(text string, within float64, width func(string) float64) []string {
	var lines []string
	space := width(" ")
	var now strings.Builder
	used := 0.0
	flush := func() {
		if now.Len() > 0 {
			lines = append(lines, now.String())
		}
		now.Reset()
		used = 0
	}
	for _, word := range strings.Fields(text) {
		w := width(word)
		if now.Len() > 0 && used+space+w > within {
			flush()
		}
		if now.Len() > 0 {
			now.WriteByte(' ')
			used += space
		}
		if used+w <= within {
			now.WriteString(word)
			used += w
			continue
		}
		for _, r := range word {
			one := width(string(r))
			if now.Len() > 0 && used+one > within {
				flush()
			}
			now.WriteRune(r)
			used += one
		}
	}
	flush()
	return lines
}
