package chart

import (
	"fmt"
	"strings"

	"fifthwise/pkg/key"
)

func (p *parser) header(t token) {
	name, rest, _ := strings.Cut(t.text, ":")
	value := strings.TrimSpace(rest)
	offset := t.offset + len(name) + 1 + strings.Index(rest, value)
	known := knownHeader(name)
	switch _, twice := p.headers[known]; {
	case known == "":
		p.headerFault(t.offset, name+":", "unknown header", "Title, Meter, Key or Pickup; a section is written ["+clip(name)+"], anything else behind #")
		return
	case len(p.chart.Bars) > 0 || len(p.draft.words) > 0:
		p.headerFault(t.offset, name+":", "a header stands before the first bar", "")
		return
	case twice:
		p.headerFault(t.offset, name+":", "the header stands twice", "")
		return
	}
	if p.headers == nil {
		p.headers = map[string]int{}
	}
	p.headers[known] = offset
	switch known {
	case "Title":
		p.title(value, offset)
	case "Meter":
		m, err := ParseMeter(value)
		headerValue(p, &p.chart.Meter, m, err, value, offset, "meter")
	case "Key":
		k, err := key.Parse(value)
		headerValue(p, &p.chart.Key, k, err, value, offset, "key")
	case "Pickup":
		p.pickup(value, offset)
	}
}

func (p *parser) title(value string, offset int) {
	msg := nameFault(value, "title")
	switch {
	case msg != "":
		p.headerFault(offset, "", msg, "")
	case value != "":
		headerValue(p, &p.chart.Title, value, nil, value, offset, "title")
	}
}

// headerValue takes in the value of a header unless it is known already.
func headerValue[T comparable](p *parser, field *T, value T, err error, text string, offset int, what string) {
	var none T
	switch {
	case err != nil:
		e := p.headerFault(offset, text, "", "")
		e.explain(err)
		e.Offset += e.SymbolOffset
	case *field == none:
		*field = value
	case *field != value:
		p.yielded = append(p.yielded, fmt.Sprintf("the %s in the text, %v, gives way to %v", what, value, *field))
	}
}

func (p *parser) pickup(value string, offset int) {
	b, err := ParseBeats(value)
	if err == nil && b.Less(Beats{}) {
		p.headerFault(offset, value, "a pickup has more than 0 beats", "")
		return
	}
	headerValue(p, &p.chart.Pickup, b, err, value, offset, "pickup")
}

// headerFault notes a fault that lies in no bar.
func (p *parser) headerFault(offset int, symbol, msg, hint string) *Error {
	e := p.fault(offset, symbol, msg, hint)
	e.Bar, e.BarIndex = 0, -1
	return e
}

// differences warns of what the header had to give way to, first of all.
func (p *parser) differences() {
	if len(p.yielded) == 0 || len(p.chart.Bars) == 0 {
		return
	}
	var warnings []Warning
	for _, msg := range p.yielded {
		warnings = append(warnings, Warning{Bar: p.chart.Bars[0].Number, Message: msg})
	}
	p.chart.Warnings = append(warnings, p.chart.Warnings...)
}
