package function

import (
	"iter"
	"math"
	"math/bits"

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
	price       int32   // where the price of its traits stands
	natural     uint32  // the keys in which its chord is diatonic, as a set
	total       float64 // of its forward sums
	heard       uint32  // the keys in which it may be heard, those not passed over, as a set
}

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
		l.columns[i].traits.leadsOn = l.leadsOn(i, events)
		l.columns[i].traits.back = l.goesBack(i, events)
	}
	l.markAgain(events)
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

// leadsOn: column i is a minor or dominant seventh that the dominant a fourth above
// follows, or that one's substitute, a half step below; of a dominant at once or
// behind the minor seventh on its root.
func (l *lattice) leadsOn(i int, events []chart.Event) bool {
	after := func(n int) (c *column, up int) {
		c = &l.columns[(i+n)%len(l.columns)]
		return c, (c.rootIn(events) - l.columns[i].rootIn(events) + 12) % 12
	}
	next, up := after(1)
	switch l.columns[i].kind {
	case kMinor7:
	case kDominant:
		if next.kind == kMinor7 && up == 0 {
			next, up = after(2)
		}
	default:
		return false
	}
	return (next.kind == kDominant || next.kind == kSus7) && (up == 5 || up == 11)
}

// goesBack: column i is a dominant seventh between two of the minor seventh chord a
// fifth above.
func (l *lattice) goesBack(i int, events []chart.Event) bool {
	n := len(l.columns)
	before, next := &l.columns[(i+n-1)%n], &l.columns[(i+1)%n]
	return n > 2 && l.columns[i].kind == kDominant && before.kind == kMinor7 && next.kind == kMinor7 &&
		before.rootIn(events) == next.rootIn(events) && (before.rootIn(events)-l.columns[i].rootIn(events)+12)%12 == 7
}

// soonAgain is within how many bars a second cadence confirms a first.
const soonAgain = 8

// markAgain marks the major and minor chords that a cadence, their dominant with what
// prepares it, reaches for the second time in eight bars of one section, unless they
// lead on from there.
func (l *lattice) markAgain(events []chart.Event) {
	var reached [modeCount][12]int // by mode and root: the last bar, from 1; 0 for none
	for i := 1; i < len(l.columns); i++ {
		from, c := &l.columns[i-1], &l.columns[i]
		here := &events[c.first]
		if here.SectionStart {
			reached = [modeCount][12]int{}
		}
		root, mode := c.rootIn(events), major
		switch {
		case from.kind != kDominant && from.kind != kSus7, (root-from.rootIn(events)+12)%12 != 5, !l.prepared(i-1, events),
			c.traits.leadsOn, c.traits.leans:
			continue
		case aMinor.has(c.kind):
			mode = minor
		case !aMajor.has(c.kind):
			continue
		}
		bar := here.Measure + 2 // a pickup is bar 1
		c.traits.again = reached[mode][root] > 0 && bar-reached[mode][root] <= soonAgain
		reached[mode][root] = bar
	}
}

// prepared: before the dominant in column i, which may be suspended first, stands its
// two, or the chord a step below it, the IV of what it leads to.
func (l *lattice) prepared(i int, events []chart.Event) bool {
	root := l.columns[i].rootIn(events)
	for i--; i >= 0 && l.columns[i].kind == kSus7 && l.columns[i].rootIn(events) == root; i-- {
	}
	if i < 0 {
		return false
	}
	k := kinds(1 << l.columns[i].kind)
	switch (l.columns[i].rootIn(events) - root + 12) % 12 {
	case 7:
		return k&(aMinor|aHalfDim) != 0
	case 10:
		return k&(aMajor|aMinor|aMinor6) != 0
	}
	return false
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
		leans:    c.kind == kMinor6 || c.kind == kDominant,
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

// rootIn is the pitch class of the column's root.
func (c *column) rootIn(events []chart.Event) int {
	return int(events[c.first].Chord.Root().Class())
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

// keysHeard goes through the keys in which it may be heard.
func (c *column) keysHeard() iter.Seq[int] {
	return func(yield func(int) bool) {
		for set := c.heard; set != 0; set &= set - 1 {
			if !yield(bits.TrailingZeros32(set)) {
				return
			}
		}
	}
}

// keyAbove is the key that is counted so from the column's root up.
func (c *column) keyAbove(at int) int { return (at + c.root*modeCount) % keyCount }

// keyOf is the key of a slot.
func (c *column) keyOf(s int32) int { return c.keyAbove(int(c.slot(s).key)) }
