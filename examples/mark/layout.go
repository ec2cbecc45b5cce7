package main

import (
	"fmt"

	"fifthwise/examples/internal/plain"
	"fifthwise/pkg/key"
	"fifthwise/pkg/review"
)

// laidOut lays the bars that were read beside those of the chart.
func (p *text) laidOut() given {
	g := given{name: p.name, places: []word{}}
	if len(p.bars) == 0 {
		if !p.key.IsValid() {
			p.fault(word{}, "the answer has neither bars nor a key", "write numerals between bar lines")
			return g
		}
		p.region(&g, p.key, 0)
		return g
	}
	if len(p.faults) > 0 { // which may have taken bars with them
		return g
	}
	place := p.layout()
	if place == nil {
		return g
	}
	g.Numerals = []string{}
	checked := make([]bool, len(p.bars))
	var now key.Key
	for i := 0; i < len(p.task.sounding); {
		chords := p.task.inMeasure(i)
		n := place(i)
		b := &p.bars[n]
		if len(b.words) != chords && len(b.words) > 0 && !checked[n] {
			p.fault(word{line: b.line, col: b.col}, fmt.Sprintf("bar %d has %s, and the chart %s there",
				p.task.event(i).Bar, plain.Counted(len(b.words), "numeral"), plain.Counted(chords, "chord")), "? for one that is left blank")
		}
		checked[n] = true
		for c := range chords {
			w, k := word{line: b.line, col: b.col}, b.key
			if c < len(b.words) {
				w, k = b.words[c], b.keys[c]
			}
			if w.text == "?" {
				w.text = ""
			}
			g.Numerals, g.places = append(g.Numerals, w.text), append(g.places, w)
			if k.IsValid() && k != now {
				now = k
				p.region(&g, k, i+c)
			}
		}
		i += chords
	}
	for n, b := range p.bars {
		if !checked[n] && len(b.words) > 0 {
			p.fault(word{line: b.line, col: b.col}, fmt.Sprintf("no chord of the chart starts in this bar, which has %s", plain.Counted(len(b.words), "numeral")), "")
		}
	}
	return g
}

// layout says which bar of the answer sounding chord i lies in: the answer has the
// bars that the chart has written, or those that are played. Nil if neither.
func (p *text) layout() func(i int) int {
	written := len(p.task.chart.Bars)
	played, _ := p.task.chart.PlayedLen()
	switch len(p.bars) {
	case written:
		return func(i int) int { return p.task.event(i).BarIndex }
	case played:
		first := 0 // a pickup is measure -1
		for i := range p.task.analysis.Chords {
			first = min(first, p.task.analysis.Chords[i].Event.Measure)
		}
		return func(i int) int { return p.task.event(i).Measure - first }
	}
	msg := fmt.Sprintf("the answer has %s, and the chart %d", plain.Counted(len(p.bars), "bar"), written)
	if played != written {
		msg += fmt.Sprintf(", or %d as played", played)
	}
	p.fault(word{}, msg, "a bar of the answer for each; one with nothing in it is blank")
	return nil
}

// inMeasure counts the sounding chords from i on that start in its bar.
func (t *task) inMeasure(i int) int {
	n := i + 1
	for n < len(t.sounding) && t.event(n).Measure == t.event(i).Measure {
		n++
	}
	return n - i
}

func (p *text) region(g *given, k key.Key, i int) {
	e := p.task.event(i)
	g.Regions = append(g.Regions, review.Region{Key: k, Bar: e.Bar, Beat: e.Beat, Pass: e.Pass})
}
