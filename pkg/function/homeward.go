package function

import (
	"fifthwise/pkg/chart"
	"fifthwise/pkg/phrase"
)

// homes is what a glance at the chart says for each key as the tune's home,
// each figure from 0 to 1.
type homes [keyCount]struct {
	first float64 // the first chord is its tonic
	last  float64 // the last chord is its tonic
	opens float64 // share of sections and repeats that open on its tonic
	time  float64 // share of the time in which its tonic chord sounds
}

// uses appends the terms of a chord read in a key.
func (h *homes) uses(dst []usage, key int) []usage {
	k := &h[key]
	return append(dst, usage{HomeFirst, k.first}, usage{HomeLast, k.last}, usage{HomeOpens, k.opens}, usage{HomeTime, k.time})
}

func (l *lattice) homesOf(events []chart.Event, evidence phrase.Evidence) (h homes) {
	opened, all := 0.0, 0.0
	for i := range l.columns {
		c := &l.columns[i]
		all += c.length
		if c.traits.opens {
			opened++
		}
	}
	for i := range l.columns {
		c := &l.columns[i]
		for mode := range modeCount {
			if !tonicKinds[mode].has(c.kind) {
				continue
			}
			k := &h[keyIndex(int(events[c.first].Chord.Root().Class()), mode)]
			k.time += c.length / all
			if c.traits.opens {
				k.opens += 1 / opened
			}
			if c.traits.first {
				k.first = 1
			}
			if c.traits.last {
				k.last = 1
			}
		}
	}
	return h
}

// tonicKinds are the qualities of a tonic chord, by mode.
var tonicKinds = [modeCount]kinds{
	aMajor | aSeventh | aSus,
	aMinor | aMinor6 | kinds(1<<kPower),
}
