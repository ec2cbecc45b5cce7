package abc

import (
	"fmt"
	"slices"

	"fifthwise/pkg/chart"
	"fifthwise/pkg/chart/roadmap"
)

// maxVoices and maxBars bound a tune: the latter that of all voices.
const (
	maxVoices = 64
	maxBars   = 4 * chart.MaxPlayedBars
)

// voice is the bars of a voice as they are read.
type voice struct {
	settings
	r    *reader
	id   string
	bars []bar
	now  bar // not closed yet

	time    chart.Beats // since the bar's start, in whole notes
	most    chart.Beats // of what an overlay left
	pending []stand     // chords before the next note
	from    place       // of the first of them
	signs   []sign      // before the next note
	tuplets []tuplet
	next    chart.Beats // what the next note's length is multiplied with; zero: 1
	last    note
	times   int    // of the repeat that is open, as its |:: says
	skipped bool   // an overlay of several bars is passed over
	inMulti bool   // such an overlay may come
	grouped bool   // optional chords come
	opened  place  // the bracket that said so
	aligned []spot // the notes of the last line, for s:
	barOf   int    // the bar in which an s: line is
	nextS   int    // the place in aligned that it has come to
	codas   []codaMark
	chords  int
}

// bar is a bar of a voice. Places of its chords are in whole notes.
type bar struct {
	roadmap.Bar
	meter meter
	len   chart.Beats // in whole notes
	stand []stand
	final bool // the sign of the tune's end stands behind it
	from  place
}

// stand is a chord where it stands.
type stand struct {
	chart.Slot // without place and length
	at         chart.Beats
}

// note is the last note, rest or group of notes.
type note struct {
	at, len       chart.Beats
	first, chords int // places of its chords in the open bar
	ok            bool
}

// spot is a note that an s: line may put a symbol to.
type spot struct {
	bar int
	at  chart.Beats
}

// codaMark is a coda sign: it may say where the coda begins or where to leave
// for it.
type codaMark struct{ before, behind int }

// tuplet multiplies the lengths of so many notes.
type tuplet struct {
	num, den, left int
}

// here is the place of the open bar.
func (v *voice) here() int { return len(v.bars) }

// firstNumber is the number of the first bar: 0 for an upbeat.
func (v *voice) firstNumber() int {
	if len(v.bars) > 0 && !v.bars[0].meter.isFree() && v.bars[0].len.Less(v.bars[0].meter.whole()) {
		return 0
	}
	return 1
}

// isOpen reports whether notes stand in the open bar.
func (v *voice) isOpen() bool { return !v.time.IsZero() || !v.most.IsZero() }

// play goes on by a note, rest or group of notes so long, in whole notes. The
// chords before it start with it.
func (v *voice) play(length chart.Beats) {
	for i := range v.tuplets {
		t := &v.tuplets[i]
		length = scaled(length, t.num, t.den)
		t.left--
	}
	v.tuplets = slices.DeleteFunc(v.tuplets, func(t tuplet) bool { return t.left <= 0 })
	if !v.next.IsZero() {
		num, den := v.next.Fraction()
		length, v.next = scaled(length, num, den), chart.Beats{}
	}
	v.begin()
	v.putSigns()
	v.last = note{v.time, length, len(v.now.stand), len(v.pending), true}
	v.bind()
	v.spread()
	v.time = v.time.Add(length)
}

// begin takes note of what holds where the open bar begins.
func (v *voice) begin() {
	if !v.isOpen() {
		v.now.meter = v.meter
	}
}

// bind lets the chords that wait start here.
func (v *voice) bind() {
	if len(v.pending) > 1 {
		v.r.warn(v.here(), "%d chords stand before one note and share its time", len(v.pending))
	}
	for _, s := range v.pending {
		s.at = v.time
		v.now.stand = append(v.now.stand, s)
	}
	v.chords += len(v.pending)
	v.pending = v.pending[:0]
}

// spread divides the time of the last note among its chords.
func (v *voice) spread() {
	for i := 1; i < v.last.chords; i++ {
		v.now.stand[v.last.first+i].at = v.last.at.Add(scaled(v.last.len, i, v.last.chords))
	}
}

// lengthen multiplies the last note's length: broken rhythm.
func (v *voice) lengthen(num, den int) {
	if !v.last.ok {
		return
	}
	longer := scaled(v.last.len, num, den)
	v.time = v.time.Add(longer.Sub(v.last.len))
	v.last.len = longer
	v.spread()
}

// overlay goes back to the start of the bar (The abc music standard 2.1,
// section 7.4).
func (v *voice) overlay() {
	v.most = longer(v.most, v.time)
	v.time, v.last = chart.Beats{}, note{}
	v.tuplets, v.next = nil, chart.Beats{}
}

func longer(a, b chart.Beats) chart.Beats {
	if a.Less(b) {
		return b
	}
	return a
}

// rest is a rest of some whole bars.
func (v *voice) rest(bars int) {
	for i := range bars {
		if v.r.tooMany {
			return
		}
		if i > 0 {
			v.finish()
		}
		v.play(v.meter.whole())
	}
}

// finish closes the open bar.
func (v *voice) finish() {
	v.begin()
	v.now.len = longer(v.time, v.most)
	if v.r.bars++; v.r.bars > maxBars {
		if !v.r.tooMany {
			v.r.tooMany = true
			v.r.fault(place{bar: -1}, "", fmt.Sprintf("the tune has more than %d bars", maxBars), "")
		}
	} else {
		v.bars = append(v.bars, v.now)
	}
	v.now = bar{}
	v.time, v.most, v.last = chart.Beats{}, chart.Beats{}, note{}
	v.tuplets, v.next = nil, chart.Beats{}
}

// fill makes a bar of chords that have no notes.
func (v *voice) fill() {
	v.begin()
	v.r.warn(v.here(), "the bar has no notes; its chords share it evenly")
	chords := v.pending
	v.pending = nil
	for i, s := range chords {
		s.at = scaled(v.meter.whole(), i, len(chords))
		v.now.stand = append(v.now.stand, s)
	}
	v.chords += len(chords)
	v.time = v.meter.whole()
}

// barLine is what a bar line says.
type barLine struct {
	back, forward int // colons before and behind
	double, final bool
	inBar         bool // dotted or dashed: it may divide a bar
}

func (v *voice) barLine(l barLine) {
	if l.inBar && longer(v.time, v.most).Less(v.meter.whole()) {
		return
	}
	if !v.isOpen() && len(v.pending) > 0 && v.from.bar == v.here() && l.forward == 0 {
		v.fill()
	}
	isOpen := v.isOpen()
	v.leaveSigns(isOpen)
	if isOpen {
		v.finish()
	}
	if n := len(v.bars); n > 0 {
		b := &v.bars[n-1]
		b.Double = b.Double || l.double && !l.final
		b.final = b.final || l.final
		if l.back > 0 {
			b.RepeatEnd = true
			b.Times = v.timesOf(l.back)
		}
	}
	if l.forward > 0 {
		v.now.RepeatStart = true
		v.times = l.forward
	}
}

// timesOf is how often a repeat is played whose sign has so many colons, 0 for
// twice (The abc music standard 2.1, section 4.8).
func (v *voice) timesOf(colons int) int {
	colons, v.times = max(colons, v.times), 0
	if colons < 2 {
		return 0
	}
	return colons + 1
}

// ending opens an ending. Without passes it follows the one before.
func (v *voice) ending(passes []int) {
	if v.isOpen() {
		v.finish()
	}
	if passes == nil {
		passes = []int{v.passes() + 1}
	}
	v.now.Ending = passes
}

// passes is the highest pass of the endings of the last repeat.
func (v *voice) passes() int {
	for i := len(v.bars) - 1; i >= 0; i-- {
		if e := v.bars[i].Ending; len(e) > 0 {
			return slices.Max(e)
		}
		if v.bars[i].RepeatStart {
			break
		}
	}
	return 0
}

// part starts a part: with a new bar.
func (v *voice) part(name string) {
	if v.isOpen() {
		v.finish()
	}
	v.now.Section = name
}

// addSign notes a sign that stands before the next note or bar line.
func (v *voice) addSign(s sign) {
	const most = 16
	if s != noSign && len(v.signs) < most {
		v.signs = append(v.signs, s)
	}
}

// putSigns gives the signs before a note to its bar.
func (v *voice) putSigns() {
	for _, s := range v.signs {
		switch {
		case s == codaSign && !v.isOpen():
			v.codas = append(v.codas, codaMark{v.here(), v.here() - 1})
		case s == codaSign:
			v.codas = append(v.codas, codaMark{v.here(), v.here()})
		default:
			v.now.sign(s)
		}
	}
	v.signs = v.signs[:0]
}

// leaveSigns gives the signs before a bar line to the bar before it, and keeps
// those for the next that start something.
func (v *voice) leaveSigns(isOpen bool) {
	kept := v.signs[:0]
	for _, s := range v.signs {
		switch {
		case s == codaSign && isOpen:
			v.codas = append(v.codas, codaMark{v.here() + 1, v.here()})
		case !s.isBehind():
			kept = append(kept, s)
		case isOpen:
			v.now.sign(s)
		case len(v.bars) > 0:
			v.bars[len(v.bars)-1].sign(s)
		}
	}
	v.signs = kept
}

// The names of signs, of which a tune has one each.
const (
	segnoName = "segno"
	codaName  = "coda"
)

func (b *bar) sign(s sign) {
	switch s {
	case segnoSign:
		b.Segno = segnoName
	case toCodaSign:
		b.ToCoda = codaName
	case daCapoSign:
		b.DaCapo = true
	case dalSegnoSign:
		b.DalSegno = segnoName
	case fineSign:
		b.Fine = true
	}
}
