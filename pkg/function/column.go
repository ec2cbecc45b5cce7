package function

import (
	"math"

	"fifthwise/pkg/chart"
	"fifthwise/pkg/phrase"
)

// A column is one chord, or several equal ones in a row, to be read.
type column struct {
	first, last int // events, both included
	root        int // pitch class
	shape       *shape
	base        int32   // its first slot
	pedal       bool    // its bass is held through several chords
	length      float64 // in bars
	kind        kind    // of the symbol itself
	traits      traits
	place       [placeCount]float64 // factor by place
	move        float64             // factor of a change of key before it
	thin        float64             // further factor where it is the new key's tonic
	natural     uint32              // the keys in which its chord is diatonic, as a set
	settle      [2]float64          // factor where it is the tonic that a region owes: reached otherwise, by a cadence
	total       float64             // of its forward sums
}

// traits is what the terms of place ask of a column.
type traits struct {
	first, last, opens, closes, loop, downbeat, wide, sequence, frames bool
	long                                                               float64 // doublings of its length beyond a bar
	moves                                                              Term    // where a change of key before it would fall
}

// A usage is a term and how often it applies.
type usage struct {
	term  Term
	times float64
}

// uses appends the terms that apply to an entry of a place.
func (t *traits) uses(dst []usage, p place, rich float64) []usage {
	flag := func(on bool, tonic, dominant, other Term) {
		if u := [placeCount]Term{tonic, dominant, other, other, other}[p]; on && u != none {
			dst = append(dst, usage{u, 1})
		}
	}
	flag(t.first, TonicFirst, DominantFirst, OtherFirst)
	flag(t.last, TonicLast, DominantLast, OtherLast)
	flag(t.opens, TonicOpens, DominantOpens, none)
	flag(t.closes, TonicCloses, DominantCloses, none)
	flag(t.frames, TonicFrames, none, none)
	flag(t.loop, TonicLoop, DominantLoop, none)
	flag(t.downbeat, TonicDownbeat, DominantDownbeat, none)
	flag(t.wide, TonicWide, none, none)
	dst = append(dst, usage{[placeCount]Term{TonicLong, DominantLong, OtherLong, OtherLong, OtherLong}[p], t.long})
	switch p {
	case placeBorrowed:
		dst = append(dst, usage{BorrowedLong, rich * max(0, min(2, t.long-1))})
	case placeForeign:
		dst = append(dst, usage{ForeignLong, max(0, min(2, t.long-1))})
	}
	return dst
}

// none stands where no term applies.
const none = termCount

// addColumns groups the sounding events: equal neighbours make one column unless
// a section opens between them.
func (l *lattice) addColumns(events []chart.Event, evidence phrase.Evidence) {
	l.columns = make([]column, 0, len(events))
	for i := range events {
		e := &events[i]
		if e.Chord.IsSilence() {
			continue
		}
		if n := len(l.columns); n > 0 && !evidence.Opens[i] && soundsSame(&events[l.columns[n-1].last], e) {
			l.columns[n-1].last = i
			continue
		}
		l.columns = append(l.columns, column{first: i, last: i})
	}
	for i := range l.columns {
		l.columns[i].kind = kindOf(events[l.columns[i].first].Chord.Quality())
		l.columns[i].traits = l.traitsOf(i, events, evidence)
	}
	for i := range l.columns {
		l.columns[i].traits.frames = l.framesSection(i, events)
	}
}

// soundsSame: the vocabulary cannot tell the two chords apart.
func soundsSame(a, b *chart.Event) bool {
	if a.Chord == b.Chord {
		return true
	}
	return a.Chord.Root() == b.Chord.Root() && kindOf(a.Chord.Quality()) == kindOf(b.Chord.Quality()) &&
		!a.Chord.HasBass() && !b.Chord.HasBass()
}

// framesSection: the section that column i opens lasts eight bars or more and
// ends on the same chord.
func (l *lattice) framesSection(i int, events []chart.Event) bool {
	if !events[l.columns[i].first].SectionStart {
		return false
	}
	bars, last := l.columns[i].length, i
	for j := i + 1; j < len(l.columns) && !events[l.columns[j].first].SectionStart; j++ {
		bars += l.columns[j].length
		last = j
	}
	a, b := &events[l.columns[i].first].Chord, &events[l.columns[last].first].Chord
	return bars >= 8 && a.Root() == b.Root() && a.Family() == b.Family()
}

func (l *lattice) traitsOf(i int, events []chart.Event, evidence phrase.Evidence) traits {
	c := &l.columns[i]
	e := &events[c.first]
	c.length = 0
	for j := c.first; j <= c.last; j++ {
		if !events[j].Chord.IsSilence() {
			c.length += events[j].Len.Float64() / events[j].BarLen.Float64()
		}
	}
	t := traits{
		first:    i == 0,
		last:     i == len(l.columns)-1,
		opens:    evidence.Opens[c.first],
		loop:     evidence.Loop[c.first],
		downbeat: e.Beat == chart.B(1, 1),
		long:     max(-2, min(3, math.Log2(c.length))),
		sequence: evidence.Sequence[c.first],
		moves:    ChangeWithin,
	}
	t.closes = !t.last && evidence.Opens[l.columns[i+1].first]
	t.wide = t.downbeat && e.Measure%4 == 0
	switch {
	case t.opens:
		t.moves = ChangeAtSection
	case t.downbeat:
		t.moves = ChangeAtBar
	}
	return t
}

// price turns a column's traits into factors.
func (l *lattice) price(c *column) {
	for p := range placeCount {
		c.place[p] = l.product(c.traits.uses(l.room[:0], p, l.style.rich))
	}
	for by := range c.settle {
		c.settle[by] = l.product(l.settleUses(l.room[:0], c, by))
	}
	c.move = l.product(l.moveUses(l.room[:0], c))
	c.thin = l.product(l.thinUses(l.room[:0], c))
}

// moveUses appends the terms of any change of key before column c.
func (l *lattice) moveUses(dst []usage, c *column) []usage {
	dst = append(l.style.uses(dst), usage{ChangeKey, 1}, usage{c.traits.moves, 1})
	if c.traits.sequence {
		dst = append(dst, usage{ChangeAtSequence, 1})
	}
	if c.traits.opens {
		dst = append(dst, usage{ChangeAtSectionRich, l.style.rich})
	}
	return dst
}

// thinUses appends those of a region that starts on its tonic with column c.
func (l *lattice) thinUses(dst []usage, c *column) []usage {
	if c.traits.last && !c.traits.opens && c.traits.long < 2 {
		dst = append(dst, usage{EnterLast, 1})
	}
	if c.traits.opens || c.traits.long >= 1 {
		return dst
	}
	return append(dst, usage{EnterTonicRich, l.style.rich})
}

// product is the factor of several terms.
func (l *lattice) product(used []usage) float64 {
	factor, cost := 1.0, 0.0
	for _, u := range used {
		switch u.times {
		case 0:
		case 1:
			factor *= l.factor[u.term]
		case -1:
			factor /= l.factor[u.term]
		default:
			cost += l.weights[u.term] * u.times
		}
	}
	if cost == 0 {
		return factor
	}
	return factor * math.Exp(-cost/temperature)
}

// settleUses appends the terms of a region's tonic reached in column c, by a
// cadence (1) or otherwise (0).
func (l *lattice) settleUses(dst []usage, c *column, by int) []usage {
	dst = append(dst, usage{SettleLong, c.traits.long})
	if c.kind == kMinor6 || c.kind == kDominant {
		dst = append(dst, usage{SettleLean, 1})
	}
	if by == 0 {
		return append(dst, usage{SettleOther, 1})
	}
	dst = append(dst, usage{SettleCadence, 1}, usage{SettleRich, l.style.rich * max(0, min(1, c.traits.long))})
	if c.traits.closes || c.traits.last {
		dst = append(dst, usage{SettleCloses, l.style.rich})
	}
	if c.traits.sequence {
		dst = append(dst, usage{SettleSequence, l.style.rich})
	}
	if c.traits.opens {
		dst = append(dst, usage{SettleAtSection, l.style.rich})
	}
	if c.traits.long < 1 && !c.traits.closes && !c.traits.last && !c.traits.sequence {
		dst = append(dst, usage{SettleBare, l.style.rich})
	}
	return dst
}

// above is a key as counted from the column's root up.
func (c *column) above(key int) int {
	if key -= c.root * modeCount; key < 0 {
		key += keyCount
	}
	return key
}

// in is the range of the column's slots in a key.
func (c *column) in(key int) (lo, hi int32) {
	at := c.shape.keys[c.above(key):]
	return c.base + int32(at[0]), c.base + int32(at[1])
}

// all is the range of its slots.
func (c *column) all() (lo, hi int32) { return c.base, c.base + int32(len(c.shape.slots)) }

// slot is what stands at a slot of the column.
func (c *column) slot(s int32) *slot { return &c.shape.slots[s-c.base] }

// keyOf is the key of a slot.
func (c *column) keyOf(s int32) int8 { return int8((int(c.slot(s).key) + c.root*modeCount) % keyCount) }
