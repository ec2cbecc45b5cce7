package main

import (
	"fmt"

	"fifthwise/examples/internal/plain"
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
	var now stated
	for i := 0; i < len(p.task.sounding); {
		chords := p.task.inMeasure(i)
		n := place(i)
		b := &bar{key: p.bars[0].key} // of a pickup that is left out
		if n >= 0 {
			b = &p.bars[n]
			if !checked[n] {
				p.fit(b, p.task.event(i).Bar, chords)
			}
			checked[n] = true
		}
		for c := range chords {
			w, k := word{line: b.line, col: b.col}, b.key
			if c < len(b.words) {
				w, k = b.words[c], b.keys[c]
			}
			if w.text == "?" {
				w.text = ""
			}
			g.Numerals, g.places = append(g.Numerals, w.text), append(g.places, w)
			if k.IsValid() && k.Key != now.Key {
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

// fit makes the words of a bar one for each chord.
func (p *text) fit(b *bar, number, chords int) {
	if len(b.words) == chords || len(b.words) == 0 {
		return
	}
	if b.join(chords) {
		return
	}
	hint := "? for one that is left blank"
	for i := range len(b.words) - 1 {
		if len(b.words) > chords && b.isJoint(i) {
			hint = fmt.Sprintf("write %s%s for %[1]s %[2]s if that is one numeral", b.words[i].text, b.words[i+1].text)
			break
		}
	}
	p.fault(word{line: b.line, col: b.col}, fmt.Sprintf("bar %d has %s, and the chart %s there",
		number, plain.Counted(len(b.words), "numeral"), plain.Counted(chords, "chord")), hint)
}

// layout says which bar of the answer sounding chord i lies in: the answer has the
// bars that the chart has written, or those that are played, with its pickup or
// without; -1: in a pickup that it leaves out. Nil if none of these.
func (p *text) layout() func(i int) int {
	written := len(p.task.chart.Bars)
	played, _ := p.task.chart.PlayedLen()
	pickup := 0
	if !p.task.chart.Pickup.IsZero() {
		pickup = 1
	}
	switch bars := len(p.bars); bars {
	case written, written - pickup:
		return func(i int) int { return p.task.event(i).BarIndex - (written - bars) }
	case played, played - pickup:
		return func(i int) int { return p.task.event(i).Measure + pickup - (played - bars) } // a pickup is measure -1
	}
	msg := fmt.Sprintf("the answer has %s, and the chart %d", plain.Counted(len(p.bars), "bar"), written-pickup)
	if played != written {
		msg += fmt.Sprintf(", or %d as played", played-pickup)
	}
	hint := "a bar of the answer for each; one with nothing in it is blank"
	if pickup > 0 {
		msg += ", beside its pickup"
		hint += "; the pickup's may be left out"
	}
	p.fault(word{}, msg, hint)
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

func (p *text) region(g *given, k stated, i int) {
	e := p.task.event(i)
	g.Regions = append(g.Regions, review.Region{Key: k.Key, Bar: e.Bar, Beat: e.Beat, Pass: e.Pass, NoMode: k.noMode})
}
