// Package phrase tells of which phrases a tune is made and where they return, in
// whatever key, and what a chart's layout and its repeats say of where phrases
// begin: openings that the chart marks, loops, and sequences.
//
//	f := phrase.FormOf(c.Played())
//	f.Letters                            // "AABA"
//	f.Phrases[0].Occurrences[1].Motion   // how far A has moved when it returns
//
//	e := phrase.Find(c.Played())
//	e.Opens[8]    // a section, double bar or repeat sign stands before chord 8
//	e.Loop[4]     // a loop begins there
//	e.Sequence[2] // chord 2 belongs to a group that comes again on other roots
//
// Two chords are the same where root, family and length are; in a sequence the
// roots lie equally far apart instead. Loops of up to sixteen chords and groups
// of up to eight are found, in time that grows with the number of chords.
package phrase

import (
	"fifthwise/pkg/chart"
	"fifthwise/pkg/chord"
	"fifthwise/pkg/pitch"
)

// Evidence is what a chart's layout and its repeats say of each chord as
// played, by the index of the event.
type Evidence struct {
	// Opens: the chord opens a section, or follows a double bar or a repeat
	// sign.
	Opens []bool
	// Loop: a group of chords begins here that has just been played or is
	// played again at once.
	Loop []bool
	// InLoop: the chord belongs to such a group.
	InLoop []bool
	// Sequence: the chord belongs to a group that comes again at once, or has
	// just come, on other roots.
	Sequence []bool
}

// The longest loop, and the longest group of a sequence, in chords.
const (
	longestLoop = 16
	longestStep = 8
)

// Find reads the evidence off the events of [chart.Chart.Played]. Time and
// memory grow with the number of events.
func Find(events []chart.Event) Evidence {
	flags := make([]bool, 4*len(events))
	n := len(events)
	e := Evidence{Opens: flags[:n], Loop: flags[n : 2*n], InLoop: flags[2*n : 3*n], Sequence: flags[3*n:]}
	shapes := make([]shape, len(events))
	for i, ev := range events {
		e.Opens[i] = ev.Boundary || ev.SectionStart
		shapes[i] = shapeOf(ev)
	}
	for period := 2; period <= longestLoop; period++ {
		e.markLoops(shapes, period)
	}
	for period := 2; period <= longestStep; period++ {
		e.markSequences(shapes, period)
	}
	return e
}

// A shape is what must be equal for two chords to be the same in a loop.
type shape struct {
	root   pitch.Class
	family chord.Family
	length chart.Beats
}

func shapeOf(e chart.Event) shape {
	return shape{e.Chord.Root().Class(), e.Chord.Family(), e.Len}
}

// markLoops marks the starts of groups of period chords that stand at least
// twice in a row. A period whose chords are all marked by a shorter one, or are
// all alike, is no loop of its own.
func (e *Evidence) markLoops(shapes []shape, period int) {
	for i := 0; i+2*period <= len(shapes); {
		run := 0
		for i+run+period < len(shapes) && shapes[i+run] == shapes[i+run+period] {
			run++
		}
		if run < period || repeatsWithin(shapes[i:i+period]) {
			i += max(1, run-period)
			continue
		}
		for start := i; start+period <= i+run+period; start += period {
			e.Loop[start] = true
			for j := start; j < start+period; j++ {
				e.InLoop[j] = true
			}
		}
		i += run + 1
	}
}

// repeatsWithin reports whether a group is itself a repeat of a shorter one.
func repeatsWithin(group []shape) bool {
	for p := 1; p <= len(group)/2; p++ {
		if len(group)%p != 0 {
			continue
		}
		same := true
		for i := p; i < len(group) && same; i++ {
			same = group[i] == group[i-p]
		}
		if same {
			return true
		}
	}
	return false
}

// markSequences marks groups of period chords that stand at least twice in a
// row, each time the same distance from the group before.
func (e *Evidence) markSequences(shapes []shape, period int) {
	step := func(i int) pitch.Class { return shapes[i+period].root.Plus(-int(shapes[i].root)) }
	alike := func(i int) bool {
		a, b := &shapes[i], &shapes[i+period]
		return a.family == b.family && a.length == b.length
	}
	for i := 0; i+2*period <= len(shapes); {
		run := 0
		for i+run+period < len(shapes) && alike(i+run) && step(i+run) == step(i) {
			run++
		}
		if run < period || step(i) == 0 {
			i += max(1, run-period+1)
			continue
		}
		for j := i; j < i+run+period; j++ {
			e.Sequence[j] = true
		}
		i += run // the chord where the step changes may begin the next
	}
}
