package main

import (
	"fmt"
	"strings"

	"fifthwise/examples/internal/plain"
	"fifthwise/pkg/chart"
	"fifthwise/pkg/function"
	"fifthwise/pkg/key"
	"fifthwise/pkg/pitch"
	"fifthwise/pkg/sheet"
)

// page writes a chart with its reading.
type page struct {
	style
	chart    chart.Chart
	analysis function.Analysis
	out      strings.Builder
}

// render is the page of a chart.
func render(c chart.Chart, s style) string {
	p := page{style: s, chart: c, analysis: function.Analyze(c, function.Written(s.numerals, s.accidentals))}
	p.out.WriteString(sheet.Text(c, &p.analysis, sheet.Style{Numerals: s.numerals, Accidentals: s.accidentals}))
	p.keyPath()
	p.why()
	p.study()
	p.others()
	p.warnings()
	return p.out.String()
}

func (p *page) linef(format string, args ...any) {
	fmt.Fprintf(&p.out, format+"\n", args...)
}

// section begins a part of the page.
func (p *page) section(name string) { p.linef("\n%s", name) }

func (p *page) keyName(k key.Key) string { return string(k.AppendTo(nil, p.accidentals)) }

func (p *page) numeral(n function.Numeral, k key.Key) string {
	return n.Text(p.numerals, k.Mode(), p.accidentals)
}

// symbol is a chord as the chart writes it, but for the signs of its
// accidentals. In a chord symbol every b is a flat.
func (p *page) symbol(s string) string {
	if p.accidentals == pitch.ASCII {
		return s
	}
	return strings.NewReplacer("b", "♭", "#", "♯").Replace(s)
}

// warnings tells what was read but may not have been meant.
func (p *page) warnings() {
	if len(p.analysis.Warnings) == 0 {
		return
	}
	p.section("Warnings")
	for _, w := range p.analysis.Warnings {
		p.text(2, 6, fmt.Sprintf("bar %d: %s", w.Bar, w.Message))
	}
}

// text writes words from column first, broken to the page's width, further
// lines from column rest.
func (p *page) text(first, rest int, words string) {
	column := first
	for _, line := range plain.Wrap(words, pageWidth-max(first, rest)) {
		p.linef("%s%s", strings.Repeat(" ", column), line)
		column = rest
	}
}

// pageWidth is that of a page, in characters.
const pageWidth = 80
