package abc

import (
	"errors"
	"fmt"
	"slices"

	"fifthwise/pkg/chart"
	"fifthwise/pkg/chart/roadmap"
)

// chart makes the chart of what was read.
func (r *reader) chart() {
	for _, v := range r.voices {
		r.end(v)
	}
	v := r.chosen()
	number := 1
	if v != nil {
		number = v.firstNumber()
	}
	for i := range r.warnings {
		w := &r.warnings[i]
		w.Bar = max(w.Bar, 0) + number
	}
	r.tune.Chart.Warnings = r.warnings
	switch {
	case r.tooMany, v == nil && len(r.faults) > 0:
		return
	case v == nil:
		e := r.fault(place{bar: -1, line: r.tune.Line}, "", ErrNoChords.Error(), `write them in quotes before the notes, as "C"C2`)
		e.cause = ErrNoChords
		return
	}
	r.warnings = nil
	bars := r.inOrder(r.roadOf(v))
	for _, w := range r.warnings {
		r.tune.Chart.Warnings = append(r.tune.Chart.Warnings, chart.Warning{Bar: number, Message: w.Message})
	}
	r.layout(v, bars)
}

// end closes a voice.
func (r *reader) end(v *voice) {
	v.barLine(barLine{})
	for _, s := range v.pending {
		r.warn(v.from.bar, "%s stands behind the last note and is left out", quote(s.Symbol))
	}
	if v.grouped {
		r.fault(v.opened, "(", "the optional group is not closed", "write ) behind its last chord")
	}
	v.placeCodas()
	for i := range v.bars {
		if b := &v.bars[i]; b.final && i < len(v.bars)-1 {
			b.Double = true
		}
	}
}

// chosen is the voice with the most chords, of several the first; nil if no
// voice has any.
func (r *reader) chosen() *voice {
	var v *voice
	for _, w := range r.voices {
		if w.chords > 0 && (v == nil || w.chords > v.chords) {
			v = w
		}
	}
	for _, w := range r.voices {
		if w.chords > 0 && w != v && !slices.EqualFunc(v.bars, w.bars, sameChords) {
			r.warn(-1, "voice %s and voice %s have different chords; those of voice %s are read", quote(v.id), quote(w.id), quote(v.id))
		}
	}
	return v
}

func sameChords(b, c bar) bool {
	return slices.EqualFunc(b.stand, c.stand, func(s, t stand) bool { return s.at == t.at && s.Chord == t.Chord })
}

// placeCodas says of each coda sign what it means. Where a tune goes back and
// no other sign says where to leave for the coda, the first of two does.
func (v *voice) placeCodas() {
	if len(v.codas) == 0 {
		return
	}
	leaves, goesBack := false, false
	for i := range v.bars {
		leaves = leaves || v.bars[i].ToCoda != ""
		goesBack = goesBack || v.bars[i].DaCapo || v.bars[i].DalSegno != ""
	}
	first, last := v.codas[0], v.codas[len(v.codas)-1]
	if len(v.codas) > 1 && goesBack && !leaves && first.behind >= 0 && first.behind < len(v.bars) {
		v.bars[first.behind].ToCoda = codaName
	}
	if last.before < len(v.bars) {
		v.bars[last.before].Coda = codaName
	}
}

// roadOf is the bars of a voice with their signs and numbers. A voice without
// any takes over those of the first that has as many bars.
func (r *reader) roadOf(v *voice) []bar {
	bars := v.bars
	lead := slices.IndexFunc(r.voices, func(l *voice) bool { return l != v && len(l.bars) == len(bars) })
	if lead >= 0 && !slices.ContainsFunc(bars, bar.hasSigns) {
		for i := range bars {
			bars[i].Bar = r.voices[lead].bars[i].Bar
		}
	}
	signs := make([]roadmap.Bar, len(bars))
	for i := range bars {
		signs[i] = bars[i].Bar
	}
	imply(signs)
	for i := range bars {
		bars[i].Bar = signs[i]
		bars[i].Number = i + v.firstNumber()
	}
	return bars
}

func (b bar) hasSigns() bool {
	return b.Section != "" || b.RepeatStart || b.RepeatEnd || len(b.Ending) > 0 || b.Segno != "" || b.Coda != "" || b.ToCoda != "" || b.DalSegno != "" || b.DaCapo || b.Fine
}

// imply says what the signs of bars leave unsaid: a :| without |: goes back to
// the last double bar, :| or the start (The abc music standard 2.1, section
// 4.8), or to the start of its part; and the last ending closes with a double
// bar (section 4.9).
func imply(bars []roadmap.Bar) {
	s := repeat{}
	for i := range bars {
		b := &bars[i]
		switch {
		case b.RepeatStart:
			s = repeat{from: i, open: true}
		case b.Section != "" && len(b.Ending) == 0 && (!s.open && !s.inFirst || s.inLater):
			s = repeat{from: i, marked: true}
		}
		if len(b.Ending) > 0 {
			s.inFirst, s.inLater = slices.Contains(b.Ending, 1), !slices.Contains(b.Ending, 1)
		}
		switch {
		case b.RepeatEnd:
			if !s.open && s.marked && !s.inLater {
				bars[s.from].RepeatStart = true
			}
			if s.open = true; !isLater(bars, i+1) {
				s = repeat{from: i + 1}
			}
		case b.Double && s.inLater && !closesLater(bars, i):
			b.EndingStop = true
			s = repeat{from: i + 1, marked: true}
		case b.Double && !s.open && !s.inFirst && !s.inLater:
			s = repeat{from: i + 1, marked: true}
		}
	}
}

// repeat is where a :| goes back to, as far as it was met.
type repeat struct {
	from             int
	marked           bool // by a double bar or a part
	open             bool // by a |:
	inFirst, inLater bool // the first ending or another is open
}

// isLater reports whether a bar opens an ending that follows another.
func isLater(bars []roadmap.Bar, i int) bool {
	return i < len(bars) && len(bars[i].Ending) > 0 && !slices.Contains(bars[i].Ending, 1)
}

// closesLater reports whether the ending that bar i lies in goes on to a :|
// with another ending behind it.
func closesLater(bars []roadmap.Bar, i int) bool {
	for i++; i < len(bars) && len(bars[i].Ending) == 0 && !bars[i].RepeatStart; i++ {
		if bars[i].RepeatEnd {
			return isLater(bars, i+1)
		}
	}
	return false
}

// layout makes the chart of bars in their order.
func (r *reader) layout(v *voice, bars []bar) {
	laid := make([]roadmap.Bar, len(bars))
	for i := range bars {
		laid[i] = r.laid(&bars[i])
	}
	t, err := roadmap.Layout(r.tune.Chart, laid)
	r.tune.Chart = t.Chart
	var list chart.ErrorList
	if !errors.As(err, &list) || len(r.faults) > 0 {
		return
	}
	for _, e := range list {
		p := place{bar: -1, line: r.tune.Line}
		if e.BarIndex >= 0 && e.BarIndex < len(t.Written) {
			from := bars[t.Written[e.BarIndex]].from
			p.line, p.offset = from.line, from.offset
		}
		f := r.fault(p, e.Symbol, e.Msg, e.Hint)
		f.cause = e
		if e.BarIndex >= 0 {
			f.Bar = e.Bar
			r.faults[len(r.faults)-1].voice = nil
		}
	}
}

// maxBeats is how many beats of its meter a bar may last.
const maxBeats = 64

// laid is a bar with its chords in beats.
func (r *reader) laid(b *bar) roadmap.Bar {
	l := b.Bar
	l.Meter = b.meter.Meter
	if b.meter.isFree() {
		l.Meter = chart.Meter{Num: 4, Den: 4}
		if m, ok := meterAs(b.len); ok {
			l.Meter = m
		}
	}
	l.Len = beats(l.Meter, b.len)
	if chart.B(maxBeats, 1).Less(l.Len) {
		r.fault(b.from, "", fmt.Sprintf("the bar lasts more than %d beats", maxBeats), "bar lines are written |")
	}
	slices.SortStableFunc(b.stand, func(s, t stand) int { return s.at.Cmp(t.at) })
	for i, s := range b.stand {
		s.At = beats(l.Meter, s.at)
		if n := len(l.Chords); i > 0 && s.At == l.Chords[n-1].At {
			if s.Chord != l.Chords[n-1].Chord {
				r.tune.Chart.Warnings = append(r.tune.Chart.Warnings, chart.Warning{Bar: b.Number, Message: fmt.Sprintf("%s and %s stand at one place; the first is read", quote(l.Chords[n-1].Symbol), quote(s.Symbol))})
			}
			continue
		}
		l.Chords = append(l.Chords, s.Slot)
	}
	return l
}
