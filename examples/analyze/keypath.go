package main

import (
	"fmt"

	"fifthwise/examples/internal/plain"
	"fifthwise/pkg/chart"
)

// keyPath tells where the tune goes: a line for each key region, with what
// speaks for it.
func (p *page) keyPath() {
	if len(p.analysis.Regions) == 0 {
		return
	}
	p.section("Key path")
	rows := make([][]string, len(p.analysis.Regions))
	for i, r := range p.analysis.Regions {
		rows[i] = []string{p.stretch(i), p.keyName(r.Key), p.analysis.Move(i), percent(r.Confidence)}
	}
	for i, line := range plain.Columns("<<<<", rows) {
		p.linef("  %s", line)
		for _, s := range p.evidence(i) {
			p.text(6, 8, s)
		}
	}
}

// evidence is what speaks for region i, with the chords that it shares.
func (p *page) evidence(i int) []string {
	said := p.analysis.Evidence(i)
	r := p.analysis.Regions[i]
	for j := r.First; j <= r.Last; j++ {
		c := p.analysis.Chords[j]
		if c.Pivot.Key.IsValid() {
			said = append(said, fmt.Sprintf("%s is %s here and %s in %s", p.symbol(c.Event.Symbol),
				p.numeral(c.Numeral, c.Key), p.numeral(c.Pivot.Numeral, c.Pivot.Key), p.keyName(c.Pivot.Key)))
		}
	}
	return said
}

// stretch is the bars of region i. A beat is told where two regions share a
// bar, a time through where bars are repeated.
func (p *page) stretch(i int) string {
	r := p.analysis.Regions[i]
	first, last := p.analysis.Chords[r.First].Event, p.analysis.Chords[r.Last].Event
	shared := i > 0 && p.analysis.Chords[r.First-1].Event.Measure == first.Measure
	to := p.lastBar(r.Last)
	if !shared && first.Pass == 1 && last.Pass == 1 {
		if first.Bar == to {
			return fmt.Sprintf("bar %d", to)
		}
		return fmt.Sprintf("bars %d–%d", first.Bar, to)
	}
	from := fmt.Sprintf("bar %d", first.Bar)
	if shared {
		from += " beat " + first.Beat.Place()
	}
	switch {
	case first.Pass != last.Pass:
		return fmt.Sprintf("%s (%s time) to bar %d (%s time)", from, chart.Ordinal(first.Pass), to, chart.Ordinal(last.Pass))
	case first.Bar != to:
		from += fmt.Sprintf(" to bar %d", to)
	}
	if first.Pass > 1 {
		from += fmt.Sprintf(" (%s time)", chart.Ordinal(first.Pass))
	}
	return from
}

// lastBar is the number of the bar in which chord i ends: one of those after
// its own in which no chord starts on the first beat.
func (p *page) lastBar(i int) int {
	e := p.analysis.Chords[i].Event
	at, bars := e.BarIndex, p.chart.Bars
	left := len(bars) - 1 - at
	if i+1 < len(p.analysis.Chords) {
		next := p.analysis.Chords[i+1].Event
		left = next.Measure - e.Measure
		if next.Beat == beat {
			left--
		}
	}
	for ; left > 0 && at+1 < len(bars) && (len(bars[at+1].Chords) == 0 || beat.Less(bars[at+1].Chords[0].At.Add(beat))); left-- {
		at++
	}
	return bars[at].Number
}

var beat = chart.B(1, 1)
