package main

import (
	"fmt"
	"strings"

	"fifthwise/examples/internal/plain"
	"fifthwise/pkg/chart"
	"fifthwise/pkg/function"
	"fifthwise/pkg/key"
	"fifthwise/pkg/pitch"
	"fifthwise/pkg/study"
)

// pageWidth is that of a page, in characters.
const pageWidth = 80

// page writes the material over a chart.
type page struct {
	style
	chart    chart.Chart
	analysis function.Analysis
	material study.Practice
	out      strings.Builder
}

func (s style) page(c chart.Chart) string {
	p := page{style: s, chart: c, analysis: function.Analyze(c, function.Written(function.Upper, s.accidentals))}
	p.material = study.PracticeOf(&p.analysis)
	p.head()
	p.lines()
	p.chords()
	return p.out.String()
}

func (p *page) linef(format string, args ...any) {
	p.out.WriteString(strings.TrimRight(fmt.Sprintf(format, args...), " ") + "\n")
}

func (p *page) head() {
	if p.chart.Title != "" {
		p.linef("%s", p.chart.Title)
	}
	home := p.chart.Key
	if !home.IsValid() {
		home = p.analysis.Home
	}
	switch {
	case !home.IsValid():
	case p.part.Instrument != key.Concert:
		p.linef("%s, for an instrument in %s", p.keyName(home), pitch.MustParse(p.part.Instrument.String()).AppendTo(nil, p.accidentals))
	default:
		p.linef("%s", p.keyName(home))
	}
}

func (p *page) keyName(k key.Key) string { return string(k.AppendTo(nil, p.accidentals)) }

func (p *page) notes(notes []pitch.Note) string {
	names := make([]string, len(notes))
	for i, n := range notes {
		names[i] = string(n.AppendTo(nil, p.accidentals))
	}
	return strings.Join(names, " ")
}

func (p *page) symbol(i int) string {
	return string(p.analysis.Chords[i].Event.Chord.AppendTo(nil, p.accidentals))
}

// chords tells each chord once, wherever it does the same.
func (p *page) chords() {
	p.linef("\nChord tones and scales")
	seen := map[string]bool{}
	for i := range p.analysis.Chords {
		r := &p.analysis.Chords[i]
		if r.Region < 0 {
			continue
		}
		does := fmt.Sprintf("%s in %s", p.analysis.NumeralOf(i), p.keyName(r.Key))
		name := p.symbol(i) + " " + does
		if seen[name] {
			continue
		}
		seen[name] = true
		m := &p.material.Chords[i]
		p.linef("")
		p.text(p.symbol(i), does)
		p.text("", "chord: "+p.notes(m.Tones))
		if m.Scale.IsValid() {
			p.text("", string(m.Scale.AppendTo(nil, p.accidentals))+": "+p.notes(m.Notes))
		}
	}
}

// text writes words beside a label, broken to the page's width.
func (p *page) text(label, words string) {
	const column = 14
	if plain.Width(label) > column-4 {
		p.linef("  %s", label)
		label = ""
	}
	now := plain.Pad("  "+label, column)
	for _, word := range strings.Fields(words) {
		if plain.Width(now)+plain.Width(word) > pageWidth {
			p.linef("%s", now)
			now = strings.Repeat(" ", column+2)
		}
		now += word + " "
	}
	p.linef("%s", now)
}
