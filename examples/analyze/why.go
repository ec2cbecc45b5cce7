package main

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"fifthwise/pkg/chart"
	"fifthwise/pkg/function"
)

// note is what is said of a chord, once for all the places where the same
// holds.
type note struct {
	symbol, numeral, key, reason string
}

// why gives the reasons.
func (p *page) why() {
	var notes []note
	places := map[note][]int{}
	for i, r := range p.analysis.Chords {
		if !p.wantsReason(i) {
			continue
		}
		n := note{p.symbol(r.Event.Symbol), p.numeral(r.Numeral, r.Key), p.keyName(r.Key), p.analysis.Reason(i)}
		if places[n] == nil {
			notes = append(notes, n)
		}
		places[n] = append(places[n], i)
	}
	if len(notes) == 0 {
		return
	}
	p.section("Why")
	for _, n := range notes {
		p.text(2, 6, fmt.Sprintf("%s, %s in %s, %s", n.symbol, n.numeral, n.key, p.barsOf(places[n])))
		p.text(6, 6, n.reason)
	}
}

// wantsReason: of the key's own chords only those that open a moving line are
// more than plain.
func (p *page) wantsReason(i int) bool {
	r := p.analysis.Chords[i]
	if r.Role == function.Silence || p.reasons == none {
		return false
	}
	line, at := p.analysis.Line(i)
	return p.reasons == all || r.Role != function.Diatonic || line != nil && at == 0
}

// others gives the other readings of each chord, once for each symbol and
// numeral. Readings in another key that are hardly probable are left out.
func (p *page) others() {
	told := map[note]bool{}
	for i, r := range p.analysis.Chords {
		n := note{symbol: p.symbol(r.Event.Symbol), numeral: p.numeral(r.Numeral, r.Key), key: p.keyName(r.Key)}
		list := slices.DeleteFunc(p.analysis.Alternatives(i, p.alternatives), func(a function.Alternative) bool {
			return a.Key != r.Key && a.Confidence < hardly
		})
		if told[n] || len(list) == 0 {
			continue
		}
		if len(told) == 0 {
			p.section("Other readings")
		}
		told[n] = true
		p.linef("  %s, bar %d, beside %s in %s, %s", n.symbol, r.Event.Bar, n.numeral, n.key, percent(r.Confidence))
		for _, a := range list {
			p.linef("      %s in %s, %s", p.numeral(a.Numeral, a.Key), p.keyName(a.Key), percent(a.Confidence))
			p.text(10, 10, a.Reason())
		}
	}
}

// hardly is a probability below which a reading is not worth a line.
const hardly = .01

func percent(chance float64) string {
	if chance < hardly {
		return "under 1%"
	}
	return fmt.Sprintf("%.0f%%", 100*chance)
}

// barsOf names the bars in which chords start. A later time through is told
// only of bars that an earlier one did not name.
func (p *page) barsOf(chords []int) string {
	named := map[int]bool{}
	passes := map[int][]string{}
	for _, i := range chords {
		if e := p.analysis.Chords[i].Event; !named[e.Bar] {
			named[e.Bar] = true
			passes[e.Pass] = append(passes[e.Pass], fmt.Sprint(e.Bar))
		}
	}
	var words []string
	for _, pass := range slices.Sorted(maps.Keys(passes)) {
		bars := passes[pass]
		w := "bar " + bars[0]
		if len(bars) > 1 {
			w = "bars " + strings.Join(bars, ", ")
		}
		if pass > 1 {
			w += " (" + chart.Ordinal(pass) + " time)"
		}
		words = append(words, w)
	}
	return strings.Join(words, ", ")
}
