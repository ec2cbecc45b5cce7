package chart

import (
	"slices"

	"fifthwise/pkg/chord"
)

// Bounds of a chart as played, beyond which it does not validate and is not
// unfolded: many hours of music.
const (
	MaxPlayedBars   = 10_000
	MaxPlayedChords = 50_000
)

// Event is a chord as it is played.
type Event struct {
	Chord        chord.Chord
	Symbol       string // as written
	Bar          int    // written number of the bar it starts in
	BarIndex     int    // that bar's place in Chart.Bars
	Pass         int    // times through that bar so far, from 1; bars of one number are one bar, written out for a jump
	Measure      int    // played bars before the one it starts in; -1 in a pickup
	Beat         Beats  // in its bar, from 1
	Start        Beats  // from the first beat of measure 0; negative in a pickup
	Len          Beats  // with all that it is held for
	BarLen       Beats  // of a whole bar where it starts
	Section      string // that it starts in
	SectionStart bool   // it is the first to start in its section, this time
	Boundary     bool   // it is the first to start after a section mark, double bar or repeat sign, or of all; an ending goes on with its phrase
	Optional     bool
}

// Played is the tune as it is played: repeats and endings unfolded, a chord
// held over bar lines one event. A chart that does not validate is unfolded as
// far as the bounds allow.
//
// Repeats do not nest. A repeat is played twice, with endings as often as
// these number; where only a first ending is written, the last pass leaves
// it out. A `:|` without `|:` goes back to the last `:|`, section or the start,
// which is the first whole bar; a `:|` that closes the last ending goes back
// nowhere. A pickup is played once, unless a `|:` stands before it.
func (c Chart) Played() []Event {
	bars := c.resolved()
	_, chords := c.playedLen(bars)
	events := make([]Event, 0, chords)
	var few [64]uint16
	passes := few[:]
	if len(bars) > len(few) {
		passes = make([]uint16, len(bars))
	}
	origins := originsOf(bars)
	now := Beats{}.Sub(c.Pickup)
	measure := 0
	if !c.Pickup.IsZero() {
		measure = -1
	}
	previous, section, boundary := -1, false, true
	w := c.walk(bars)
	for i, ok := w.next(); ok; i, ok = w.next() {
		b := &bars[i]
		origin := i
		if origins != nil {
			origin = origins[i]
		}
		passes[origin]++
		section = section || b.Section != ""
		boundary = boundary || b.Section != "" || breaks(bars, previous, i)
		previous = i
		length, full := c.span(bars, i), b.Meter.Beats()
		first := now // of the beats in the bar counted whole, so of its front
		if i == 0 && !c.Pickup.IsZero() {
			first = now.Add(length).Sub(b.end(full))
		}
		if n := len(events); n > 0 {
			events[n-1].Len = events[n-1].Len.Add(b.held(first, now, length))
		}
		for k := range b.Chords {
			s := &b.Chords[k]
			if len(events) == MaxPlayedChords {
				return events
			}
			events = append(events, Event{
				Chord: s.Chord, Symbol: s.symbol(),
				Bar: b.Number, BarIndex: i, Pass: int(passes[origin]), Measure: measure,
				Beat: s.At.Add(B(1, 1)), Start: first.Add(s.At), Len: s.Len, BarLen: full,
				Section: w.current, SectionStart: section, Boundary: boundary, Optional: s.Optional,
			})
			section, boundary = false, false
		}
		now = now.Add(length)
		measure++
	}
	return events
}

// originsOf is for each bar the first of its number, as where a jump is written out;
// nil if numbers only rise. Neighbours of one number are the parts of one bar.
func originsOf(bars []Bar) []int {
	if slices.IsSortedFunc(bars, func(a, b Bar) int { return a.Number - b.Number }) {
		return nil
	}
	type place struct{ number, part int }
	first := map[place]int{}
	origins, part := make([]int, len(bars)), 0
	for i := range bars {
		if part++; i == 0 || bars[i].Number != bars[i-1].Number {
			part = 0
		}
		at := place{bars[i].Number, part}
		if _, known := first[at]; !known {
			first[at] = i
		}
		origins[i] = first[at]
	}
	return origins
}

// breaks reports whether a double bar or repeat sign stands between two bars
// that are played one after the other; -1 is before the first. An ending goes on
// with its phrase.
func breaks(bars []Bar, before, i int) bool {
	if i <= before || bars[i].RepeatStart {
		return true
	}
	leftOut := i > before+1 && len(bars[i].Ending) == 0 // an ending, with its :|
	return before >= 0 && (bars[before].Double || bars[before].RepeatEnd || leftOut)
}

// Order is the written bars in the order of play, as places in Bars, by the
// rules of [Chart.Played].
func (c Chart) Order() []int {
	var order []int
	w := c.walk(c.Bars)
	for i, ok := w.next(); ok; i, ok = w.next() {
		order = append(order, i)
	}
	return order
}

// PlayedLen counts the bars and chords as played, up to one more than the
// bounds.
func (c Chart) PlayedLen() (bars, chords int) { return c.playedLen(c.Bars) }

func (c Chart) playedLen(written []Bar) (bars, chords int) {
	w := c.walk(written)
	for i, ok := w.next(); ok; i, ok = w.next() {
		bars++
		chords += len(written[i].Chords)
		if chords > MaxPlayedChords {
			break
		}
	}
	if w.cut {
		bars++
	}
	return bars, min(chords, MaxPlayedChords+1)
}

// Unfolded is the chart with its repeats written out: the same tune without
// repeat signs and endings, which become double bars. Bars keep their numbers.
// An incomplete bar that comes again, as the last before a repeated pickup, makes
// one bar with it if both fill one; else it gets a meter of its length, or where
// there is none is made whole.
func (c Chart) Unfolded() Chart {
	written := c.resolved()
	bars := make([]Bar, 0, len(written))
	previous, section := -1, ""
	w := c.walk(written)
	for i, ok := w.next(); ok; i, ok = w.next() {
		b := written[i]
		if i != previous+1 && w.current != section {
			b.Section = w.current // gone back into the midst of one
		}
		section = w.current
		n := len(bars)
		if n > 0 && breaks(written, previous, i) {
			bars[n-1].Double = true
		}
		b.Double = b.Double || b.RepeatEnd
		b.RepeatStart, b.RepeatEnd, b.Ending = false, false, nil
		b.Chords = slices.Clone(b.Chords)
		isPickup := i == 0 && !c.Pickup.IsZero()
		if n > 0 && isPickup && bars[n-1].completes(&b, c.Pickup) {
			previous = i
			continue
		}
		if n > 0 {
			bars[n-1].close(n == 1 && !c.Pickup.IsZero())
		}
		if n > 0 && isPickup {
			b.advance(c.Pickup)
		}
		bars = append(bars, b)
		previous = i
	}
	c.Bars = bars
	return c
}

// completes adds a pickup to an incomplete bar that it fills up.
func (b *Bar) completes(pickup *Bar, length Beats) bool {
	full := b.Meter.Beats()
	if b.Meter != pickup.Meter || b.end(full).Add(length) != full {
		return false
	}
	if len(pickup.Chords) == 0 || b.end(full).Less(pickup.Chords[0].At) {
		return false
	}
	b.Chords = append(b.Chords, pickup.Chords...)
	b.Double = pickup.Double
	return true
}

// close gives an incomplete bar that others follow a meter of its length, or
// makes it whole.
func (b *Bar) close(isPickup bool) {
	full := b.Meter.Beats()
	end := b.end(full)
	if isPickup || end == full {
		return
	}
	if !b.Remeter(end) {
		b.Chords = lengthened(b.Chords, full.Sub(end))
	}
}

// advance makes a pickup that stands within the tune a bar of its length, if a
// meter has it.
func (b *Bar) advance(length Beats) {
	front := b.Meter.Beats().Sub(length)
	b.Chords = moved(b.Chords, Beats{}.Sub(front))
	if !b.Remeter(length) {
		b.Chords = moved(b.Chords, front)
	}
}

func (s *Slot) symbol() string {
	if s.Symbol == "" {
		return s.Chord.String()
	}
	return s.Symbol
}

// held is how long the chord before sounds on in a bar that is played from now,
// its beats counted from first.
func (b *Bar) held(first, now, length Beats) Beats {
	if len(b.Chords) == 0 {
		return length
	}
	return first.Add(b.Chords[0].At).Sub(now)
}

// end is where the bar's chords end, or else where a bar so long does.
func (b *Bar) end(full Beats) Beats {
	if n := len(b.Chords); n > 0 {
		return b.Chords[n-1].End()
	}
	return full
}

// span is how long a bar is played: a pickup and an incomplete last bar are
// shorter than their meter.
func (c Chart) span(bars []Bar, i int) Beats {
	full := bars[i].Meter.Beats()
	switch {
	case i == 0 && !c.Pickup.IsZero():
		return c.Pickup
	case i == len(bars)-1:
		return bars[i].end(full)
	}
	return full
}
