package chart

import (
	"slices"
	"strings"

	"fifthwise/pkg/pitch"
)

// barsALine is how many bars stand in a line of printed text.
const barsALine = 4

// String is the chart in the text notation, chords under their canonical
// names, four bars a line, each section from a new line. For a valid chart
// [Parse] reads from it a chart that is [Chart.Equal]; numbers of bars and
// symbols as written are not kept. A last bar that is incomplete is printed
// in a meter of its length where that is whole beats, else complete.
func (c Chart) String() string { return string(c.AppendTo(nil)) }

// AppendTo prints the chart behind dst as [Chart.String] does.
func (c Chart) AppendTo(dst []byte) []byte {
	w := writer{dst: dst, chart: c, bars: c.resolved(), meter: c.meter()}
	w.header()
	column := 0
	for i := range w.bars {
		b := &w.bars[i]
		if i > 0 && (column == barsALine || w.breaks(i)) {
			w.dst = append(w.dst, '\n')
			column = 0
		}
		if b.Section != "" {
			if i > 0 {
				w.dst = append(w.dst, '\n')
			}
			w.dst = append(w.dst, '[')
			w.dst = append(w.dst, strings.ReplaceAll(oneLine(b.Section), "]", ")")...)
			w.dst = append(w.dst, "]\n"...)
		}
		w.bar(i, column == 0)
		column++
	}
	return append(w.dst, '\n')
}

// oneLine is a name without line breaks and space around.
func oneLine(name string) string { return strings.TrimSpace(strings.ReplaceAll(name, "\n", " ")) }

// writer prints a chart whose bars are resolved.
type writer struct {
	dst     []byte
	chart   Chart
	bars    []Bar
	meter   Meter // of the last bar printed
	grouped bool  // an optional group is open
}

func (w *writer) header() {
	line := func(name, value string) {
		w.dst = append(append(append(w.dst, name...), ": "...), value...)
		w.dst = append(w.dst, '\n')
	}
	if title := oneLine(w.chart.Title); title != "" {
		line("Title", title)
	}
	line("Meter", w.meter.String())
	if w.chart.Key.IsValid() {
		line("Key", w.chart.Key.String())
	}
	if !w.chart.Pickup.IsZero() {
		line("Pickup", w.chart.Pickup.String())
	}
	w.dst = append(w.dst, '\n')
}

// breaks reports whether bar i starts a line whatever stands before it: with
// a section, or where its repeat sign cannot be joined to the bar line.
func (w *writer) breaks(i int) bool {
	b, before := &w.bars[i], &w.bars[i-1]
	return b.Section != "" || b.RepeatStart && (before.RepeatEnd || before.Double)
}

// bar prints bar i and the bar line behind it.
func (w *writer) bar(i int, first bool) {
	b := &w.bars[i]
	if first {
		w.dst = append(w.dst, '|')
	}
	if b.RepeatStart {
		w.dst = append(w.dst, ':')
	}
	w.dst = append(w.dst, ' ')
	if len(b.Ending) > 0 {
		w.dst = append(append(w.dst, endingName(b.Ending...)...), ' ')
	}
	slots, meter := b.Chords, b.Meter
	from, to, end := Beats{}, meter.Beats(), b.end(meter.Beats())
	if pickup := w.chart.Pickup; i == 0 && (Beats{}).Less(pickup) && pickup.Less(to) {
		from = to.Sub(pickup)
		slots = moved(slots, to.Sub(end))
	} else if short, ok := meter.shortened(end); ok {
		meter, to = short, end
	} else {
		slots = lengthened(slots, to.Sub(end))
	}
	if meter != w.meter {
		w.dst = append(meter.AppendTo(w.dst), ' ')
		w.meter = meter
	}
	w.chords(i, slots, from, to)
	if b.RepeatEnd {
		w.dst = append(w.dst, ':')
	}
	if b.Double {
		w.dst = append(w.dst, '|')
	}
	w.dst = append(w.dst, '|')
}

// shortened is the meter of a bar that ends early, if there is one that counts
// the same beats.
func (m Meter) shortened(end Beats) (Meter, bool) {
	short := Meter{uint8(end.Int()), m.Den}
	if m.IsCompound() {
		short.Num *= 3
	}
	return short, end.Less(m.Beats()) && short.IsValid() && short.IsCompound() == m.IsCompound() && short.Beats() == end
}

// moved is the slots so much later.
func moved(slots []Slot, by Beats) []Slot {
	if by.IsZero() {
		return slots
	}
	slots = slices.Clone(slots)
	for k := range slots {
		slots[k].At = slots[k].At.Add(by)
	}
	return slots
}

// lengthened is the slots with the last so much longer.
func lengthened(slots []Slot, by Beats) []Slot {
	if by.IsZero() {
		return slots
	}
	slots = slices.Clone(slots)
	last := &slots[len(slots)-1]
	last.Len = last.Len.Add(by)
	return slots
}

// chords prints the chords of bar i in the plainest way that keeps their
// places: alone, with a / for every further beat, or with @.
func (w *writer) chords(i int, slots []Slot, from, to Beats) {
	prompt := len(slots) > 0 && slots[0].At == from
	even, whole := prompt, from.IsWhole() && (prompt || i > 0) // there is nothing to hold into the first bar
	for _, s := range slots {
		even = even && s.Len == slots[0].Len
		whole = whole && s.At.IsWhole() && !s.At.Less(from) && s.At.Less(to)
	}
	beat := from
	for k, s := range slots {
		if whole && !even {
			beat = w.slashes(beat, s.At).Add(B(1, 1))
		}
		if s.Optional && !w.grouped {
			w.dst, w.grouped = append(w.dst, '('), true
		}
		w.dst = s.Chord.AppendTo(w.dst, pitch.ASCII)
		if !even && !whole && s.At != from {
			w.dst = s.At.Add(B(1, 1)).appendPlace(append(w.dst, '@'))
		}
		if w.grouped && !w.nextOptional(i, k+1) {
			w.dst, w.grouped = append(w.dst, ')'), false
		}
		w.dst = append(w.dst, ' ')
	}
	if !even && (whole || len(slots) == 0) {
		w.slashes(beat, to)
	}
}

// slashes prints a / for every beat from one place to another.
func (w *writer) slashes(from, to Beats) Beats {
	for ; from.Less(to); from = from.Add(B(1, 1)) {
		w.dst = append(w.dst, "/ "...)
	}
	return to
}

// nextOptional reports whether the next chord from slot k of bar i on is
// optional.
func (w *writer) nextOptional(i, k int) bool {
	for ; i < len(w.bars); i, k = i+1, 0 {
		if k < len(w.bars[i].Chords) {
			return w.bars[i].Chords[k].Optional
		}
	}
	return false
}
