package function

import (
	"fifthwise/pkg/chart"
)

// outcome is what is kept of a search: the probability of every state, so that
// readings other than the one shown can be told.
type outcome struct {
	columns []column
	chance  []float32 // by slot
	chosen  []step    // by column
	events  []int32   // column by event; -1 for silence
	holds   []int     // by column: the first column after its run of one label
	strikes []int32   // events on which the chord changes
	strike  []int32   // by event: the last of strikes up to it
}

// entry is what column i is read as.
func (o *outcome) entry(i int) *entry {
	return o.columns[i].slot(o.chosen[i].slot).entry
}

func (l *lattice) outcome(steps []step, events []chart.Event) *outcome {
	// The outcome keeps the lattice's columns; the next search makes its own.
	o := &outcome{
		columns: l.columns, chosen: steps,
		chance: make([]float32, len(l.own)), events: make([]int32, len(events)),
	}
	l.columns = nil
	for i := range o.columns {
		for key := range o.columns[i].keysHeard() {
			for s, hi := o.columns[i].in(key); s < hi; s++ {
				o.chance[s] = float32(l.chance[opening][s] + l.chance[settled][s])
			}
		}
	}
	for i := range o.events {
		o.events[i] = -1
	}
	for i := range o.columns {
		for e := o.columns[i].first; e <= o.columns[i].last; e++ {
			if !events[e].Chord.IsSilence() {
				o.events[e] = int32(i)
			}
		}
	}
	return o
}
