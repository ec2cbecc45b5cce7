package main

import (
	"fmt"
	"strings"
)

// laterPasses tells which chords of a repeat are read otherwise than the first
// time through, a line for each run of them in one key.
func (p *page) laterPasses() {
	first := p.firstPasses()
	slot, bar, pass := 0, -1, 0
	var run []int
	flush := func() {
		if len(run) > 0 {
			p.changedRun(run)
		}
		run = nil
	}
	begun := false
	for i, r := range p.analysis.Chords {
		if e := r.Event; e.BarIndex != bar || e.Pass != pass {
			slot, bar, pass = 0, e.BarIndex, e.Pass
		} else {
			slot++
		}
		if pass == 1 || slot >= len(first[bar]) {
			flush()
			continue
		}
		was := p.analysis.Chords[first[bar][slot]]
		if was.Numeral == r.Numeral && was.Key == r.Key {
			flush()
			continue
		}
		if !begun {
			p.section("Read otherwise when repeated")
			begun = true
		}
		if len(run) > 0 && p.analysis.Chords[run[0]].Key != r.Key {
			flush()
		}
		run = append(run, i)
	}
	flush()
}

func (p *page) changedRun(run []int) {
	var words []string
	for _, i := range run {
		r := p.analysis.Chords[i]
		words = append(words, p.symbol(r.Event.Symbol)+" "+p.numeral(r.Numeral, r.Key))
	}
	k := p.analysis.Chords[run[0]].Key
	p.text(2, 6, fmt.Sprintf("%s in %s: %s", p.barsOf(run), p.keyName(k), strings.Join(words, ", ")))
}
