package main

import (
	"fmt"

	"fifthwise/examples/internal/plain"
	"fifthwise/pkg/chart"
)

// cell is what stands over and under one chord.
type cell struct {
	bar     string // the number, where a bar starts
	starts  bool   // a bar starts
	section string // that starts
	rows    [3]string
}

// barsALine is how many bars stand in a line.
const barsALine = 4

// lines prints the guide-tone lines under the changes.
func (p *page) lines() {
	p.linef("\nGuide-tone lines")
	cells := p.cells()
	for first := 0; first < len(cells); {
		last := fitting(cells, first)
		p.system(cells[first:last])
		first = last
	}
}

// fitting is how far a line goes that begins with a cell: to a section, or as many
// bars, or chords, as fit.
func fitting(cells []cell, first int) int {
	bars, used := 0, len(margin)
	bar := first // the last place where a bar starts
	for i := first; i < len(cells); i++ {
		c := &cells[i]
		if c.starts {
			if i > first && (bars == barsALine || c.section != "") {
				return i
			}
			bars++
			bar = i
		}
		if used += c.width(); used > pageWidth && i > first {
			if bar > first {
				return bar
			}
			return i
		}
	}
	return len(cells)
}

// margin stands before each line.
const margin = "  "

// mark is before a chord where a bar starts, gap where none does.
const (
	mark = "| "
	gap  = "  "
)

func (c *cell) width() int {
	w := plain.Width(c.bar)
	for _, row := range c.rows {
		w = max(w, plain.Width(row))
	}
	return len(mark) + w + 1
}

func (p *page) system(cells []cell) {
	p.linef("")
	if s := cells[0].section; s != "" {
		p.linef("  [%s]", s)
	}
	numbers := margin
	var rows [3]string
	for i := range cells {
		c := &cells[i]
		numbers += plain.Pad(gap+c.bar, c.width())
		before := gap
		if c.starts {
			before = mark
		}
		for n := range rows {
			if i == 0 {
				rows[n] = margin
			}
			rows[n] += plain.Pad(before+c.rows[n], c.width())
		}
	}
	p.linef("%s", numbers)
	for _, row := range rows {
		p.linef("%s", row)
	}
}

// cells are the chords, bar by bar as played.
func (p *page) cells() (cells []cell) {
	next := 0
	measure := 0
	if !p.chart.Pickup.IsZero() {
		measure = -1
	}
	for _, bar := range p.chart.Order() {
		first := len(cells)
		if !p.startsWithChord(next, measure) && next > 0 {
			cells = append(cells, cell{rows: [3]string{"/"}}) // the chord before sounds on
		}
		for ; next < len(p.analysis.Chords) && p.analysis.Chords[next].Event.Measure == measure; next++ {
			cells = append(cells, p.cell(next))
		}
		if first < len(cells) {
			cells[first].starts, cells[first].bar = true, fmt.Sprint(p.chart.Bars[bar].Number)
			cells[first].section = p.chart.Bars[bar].Section
		}
		measure++
	}
	return cells
}

// startsWithChord reports whether the next chord stands at the front of a bar.
func (p *page) startsWithChord(next, measure int) bool {
	if next == len(p.analysis.Chords) {
		return false
	}
	e := &p.analysis.Chords[next].Event
	return e.Measure == measure && e.Beat == chart.B(1, 1)
}

func (p *page) cell(i int) cell {
	c := cell{rows: [3]string{p.symbol(i)}}
	for v, line := range p.material.Lines {
		if s := line[i]; !s.Rests {
			c.rows[v+1] = string(s.Note.AppendTo(nil, p.accidentals))
		}
	}
	return c
}
