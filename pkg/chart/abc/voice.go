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
			v.r.fault(place{bar: -1}, "", fmt.Sprintf("the tune has more than %d bars", maxBars), "").cause = chart.ErrTooLong
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
