package abc

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"fifthwise/pkg/chart"
)

// maxParts bounds the order of parts, written out.
const maxParts = 1000

// parseOrder reads the P: field of a header, the order in which parts are
// played: "ABA", "A.B.A", "A3(BC)2" (The abc music standard 2.1, section
// 3.1.9). It is nil if the field is no such order.
func parseOrder(value string) []string {
	p := orderParser{in: strings.Map(func(r rune) rune {
		if r == '.' || unicode.IsSpace(r) {
			return -1
		}
		return r
	}, value)}
	order := p.list(0)
	if p.bad || p.pos < len(p.in) {
		return nil
	}
	return order
}

type orderParser struct {
	in  string
	pos int
	bad bool
}

func (p *orderParser) list(depth int) (order []string) {
	for p.pos < len(p.in) && !p.bad {
		var unit []string
		switch c := p.in[p.pos]; {
		case 'A' <= c && c <= 'Z':
			unit = []string{string(c)}
			p.pos++
		case c == '(' && depth < 8:
			p.pos++
			unit = p.list(depth + 1)
			if p.pos == len(p.in) {
				p.bad = true
				return nil
			}
			p.pos++
		case c == ')' && depth > 0:
			return order
		default:
			p.bad = true
			return nil
		}
		for range p.times() {
			if len(order)+len(unit) > maxParts {
				p.bad = true
				return nil
			}
			order = append(order, unit...)
		}
	}
	return order
}

// times reads how often what stands before is played.
func (p *orderParser) times() int {
	n, start := 0, p.pos
	for p.pos < len(p.in) && p.in[p.pos] >= '0' && p.in[p.pos] <= '9' {
		n = min(10*n+int(p.in[p.pos]-'0'), maxParts+1)
		p.pos++
	}
	if p.pos == start {
		return 1
	}
	return n
}

// inOrder is the bars with their parts in the order of the header. Bars before
// the first part are played once.
func (r *reader) inOrder(bars []bar) []bar {
	if len(r.order) == 0 {
		return bars
	}
	first, parts, names := partsOf(bars)
	known := 0
	for _, name := range r.order {
		if _, ok := parts[name]; ok {
			known++
		}
	}
	switch {
	case known == 0 && len(names) == 0:
		r.warn(-1, "the order of parts, P:%s, is left out: no part is marked in the tune", strings.Join(r.order, ""))
		return bars
	case slices.Equal(r.order, names):
		return bars
	case known == 0:
		r.warn(-1, "the order of parts, P:%s, is left out: it names none of the parts %s", strings.Join(r.order, ""), strings.Join(names, ", "))
		return bars
	}
	for _, name := range names {
		if !slices.Contains(r.order, name) {
			r.warn(-1, "part %s is not in the order of parts and is left out", name)
		}
	}
	played := slices.Clone(bars[:first])
	for _, name := range r.order {
		part, ok := parts[name]
		if !ok {
			r.warn(-1, "the order of parts names part %s, which is not in the tune; it is left out", name)
		}
		if len(played)+len(part) > chart.MaxPlayedBars {
			r.fault(place{bar: -1}, "", fmt.Sprintf("played in the order of its parts the tune has more than %d bars", chart.MaxPlayedBars), "")
			return bars
		}
		played = append(played, part...)
	}
	return played
}

// partsOf is the bars of each part; of parts with one name the first counts.
func partsOf(bars []bar) (first int, parts map[string][]bar, names []string) {
	parts, first = map[string][]bar{}, len(bars)
	end := len(bars)
	for i := len(bars) - 1; i >= 0; i-- {
		if name := bars[i].Section; name != "" {
			parts[name] = bars[i:end:end]
			names = append(names, name)
			first, end = i, i
		}
	}
	slices.Reverse(names)
	return first, parts, names
}
