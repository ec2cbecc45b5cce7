package chart

import (
	"fmt"
	"slices"
	"strings"
)

// usualBars is how many bars, at most, room is made for at once.
const usualBars = 64

// finish makes the draft the next bar of the chart.
func (p *parser) finish() {
	d := &p.draft
	b := d.bar
	b.Number = p.number()
	if b.Meter == (Meter{}) {
		b.Meter = p.meter
	}
	if b.Meter == (Meter{}) {
		b.Meter = p.chart.meter()
	}
	d.places[barMark] = d.words[0].offset
	if i := slices.IndexFunc(d.words, func(w barWord) bool { return w.kind == againWord }); i >= 0 {
		b.Chords = p.again(i, b.Meter)
	} else {
		b.Chords = p.chords(b.Meter)
	}
	p.before = p.sound
	if n := len(b.Chords); n > 0 {
		p.sound = b.Chords[n-1]
	}
	p.meter, p.bad = b.Meter, d.bad
	if p.chart.Bars == nil {
		n := min(usualBars, strings.Count(p.text, "|")+1)
		p.chart.Bars, p.places = make([]Bar, 0, n), make([][marks]int, 0, n)
	}
	p.chart.Bars = append(p.chart.Bars, b)
	p.places = append(p.places, d.places)
	p.draft = draft{words: d.words[:0]}
}

// again is the chords of the bar before as new ones, what was held into that
// bar among them. The % is word i.
func (p *parser) again(i int, m Meter) []Slot {
	w, last := p.draft.words[i], len(p.chart.Bars)-1
	switch {
	case len(p.draft.words) > 1:
		p.fault(w.offset, "%", "% stands alone in its bar", "it writes the whole bar before again")
		return nil
	case last < 0:
		p.fault(w.offset, "%", "no bar stands before % to be written again", "")
		return nil
	case p.bad:
		return nil
	}
	old, full, length := p.chart.Bars[last], m.Beats(), p.chart.span(p.chart.Bars, last)
	if length != full {
		p.fault(w.offset, "%", fmt.Sprintf("the bar before has %s, this one %v", beats(length), full), "write its chords")
		return nil
	}
	slots := p.room(len(old.Chords) + 1)
	held := p.before
	held.At, held.Len = Beats{}, full
	if len(old.Chords) > 0 {
		held.Len = old.Chords[0].At
	}
	if !held.Len.IsZero() {
		slots = append(slots, held)
	}
	slots = append(slots, old.Chords...)
	for k := range slots {
		slots[k].Optional = slots[k].Optional || w.slot.Optional
	}
	return slots
}

// chords gives the chords of the draft their places.
func (p *parser) chords(m Meter) []Slot {
	slots := p.room(len(p.draft.words))
	slashes := false
	for _, w := range p.draft.words {
		if w.kind == chordWord {
			slots = append(slots, w.slot)
		}
		slashes = slashes || w.kind == slashWord
	}
	f := filling{meter: m, to: m.Beats(), slots: slots, warn: p.warn, fault: p.misplaced}
	if pickup := p.chart.Pickup; len(p.chart.Bars) == 0 && !pickup.IsZero() {
		f.from = f.to.Sub(pickup)
		if !(Beats{}).Less(f.from) {
			p.headerFault(p.headers["Pickup"], pickup.String(), shortPickup, fmt.Sprintf("the bar has %s", beats(f.to)))
			return slots
		}
	}
	p.entries = p.entries[:0]
	if !slashes {
		for _, w := range p.draft.words {
			p.entries = append(p.entries, Entry{Beat: w.beat})
		}
	} else if !p.count(f.from, f.to) {
		return slots
	}
	f.entries = p.entries
	f.fill()
	if len(p.chart.Bars) == 0 && len(slots) > 0 && f.from.Less(slots[0].At) {
		p.warn(silentStart(slots[0].At))
	}
	return slots
}

// count makes entries of the draft's chords by the rule of bars with slashes:
// every word is a beat. It reports whether these fill the bar.
func (p *parser) count(from, to Beats) bool {
	words, ok := p.draft.words, true
	at := from
	for _, w := range words {
		n := len(p.entries)
		switch {
		case !w.beat.IsZero():
			p.fault(w.offset, w.slot.Symbol, "@ and / stand in one bar", "give the place of every chord with @, or count all beats with /")
			ok = false
		case w.kind == chordWord:
			p.entries = append(p.entries, Entry{Beat: at.Add(B(1, 1)), Beats: B(1, 1)})
		case n > 0:
			p.entries[n-1].Beats = p.entries[n-1].Beats.Add(B(1, 1))
		}
		at = at.Add(B(1, 1))
	}
	const rule = "in a bar with / each chord and each / is one beat"
	switch length := to.Sub(from); {
	case at.Less(to):
		p.fault(words[0].offset, "", fmt.Sprintf("the bar has %d of %s", len(words), beats(length)), rule)
	case to.Less(at):
		p.fault(words[length.Int()].offset, "", fmt.Sprintf("the bar has %d beats instead of %v", len(words), length), rule)
	default:
		return ok
	}
	return false
}

// misplaced is the fault of a chord of the draft that does not fit.
func (p *parser) misplaced(chord int, msg, hint string) {
	k := -1
	for _, w := range p.draft.words {
		if w.kind == chordWord {
			k++
		}
		if k == chord {
			p.fault(w.offset, w.slot.Symbol, msg, hint).Chord = chord
			return
		}
	}
}

func (p *parser) warn(msg string) {
	p.chart.Warnings = append(p.chart.Warnings, Warning{Bar: p.number(), Message: msg})
}

// room is an empty list with room for n chords, cut from a larger piece.
func (p *parser) room(n int) []Slot {
	if cap(p.slots)-len(p.slots) < n {
		p.slots = make([]Slot, 0, max(32, n))
	}
	start := len(p.slots)
	p.slots = p.slots[:start+n]
	return p.slots[start : start : start+n]
}
