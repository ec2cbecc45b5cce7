package main

import (
	"fmt"
	"strings"
)

// laterPasses tells which chords of a repeat are read otherwise than the first
// time through.
func (p *page) laterPasses() {
	runs := p.readOtherwise()
	if len(runs) == 0 {
		return
	}
	p.section("Read otherwise when repeated")
	for _, run := range runs {
		var words []string
		for _, i := range run {
			r := p.analysis.Chords[i]
			words = append(words, p.symbol(r.Event.Symbol)+" "+p.numeral(r.Numeral, r.Key))
		}
		k := p.analysis.Chords[run[0]].Key
		p.text(2, 6, fmt.Sprintf("%s in %s: %s", p.barsOf(run), p.keyName(k), strings.Join(words, ", ")))
	}
}

// readOtherwise is the chords of later passes whose reading is not that of the
// first, neighbours of one pass and key together.
func (p *page) readOtherwise() (runs [][]int) {
	chords, first := p.analysis.Chords, p.firstPasses()
	slot := 0 // of the chord in its bar
	for i, r := range chords {
		e := r.Event
		if slot++; i == 0 || chords[i-1].Event.BarIndex != e.BarIndex || chords[i-1].Event.Pass != e.Pass {
			slot = 0
		}
		was := chords[first[e.BarIndex][slot]]
		if was.Numeral == r.Numeral && was.Key == r.Key {
			continue
		}
		if n := len(runs) - 1; n >= 0 {
			last := runs[n][len(runs[n])-1]
			if last == i-1 && chords[last].Key == r.Key && chords[last].Event.Pass == e.Pass {
				runs[n] = append(runs[n], i)
				continue
			}
		}
		runs = append(runs, []int{i})
	}
	return runs
}
