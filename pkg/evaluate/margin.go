package evaluate

import "fifthwise/pkg/function"

// Margin is how far a search that may read freely lies ahead of one that is held
// to the analyst's keys: minus the logarithm of the probability of all these
// keys together. Unlike the share of right keys it also tells by how much wrong
// ones were missed. The zero value is of no chord.
type Margin struct {
	Chords int     // whose keys were held to
	Left   int     // whose keys no reading can follow, given those before, or of a chart too unlikely to sum
	Nats   float64 // the sum
}

// MarginOf measures one piece.
func MarginOf(p *Piece, m *function.Model) (out Margin) {
	given := p.keys()
	out.Left = p.loosen(given, m)
	for i := range given {
		if given[i].Key.IsValid() {
			out.Chords++
		}
	}
	free, told := function.Expect(p.Chart, m, given)
	if !finite(free.LogSum - told.LogSum) {
		return Margin{Left: out.Left + out.Chords}
	}
	out.Nats = free.LogSum - told.LogSum
	return out
}

// Add adds up two margins.
func (m Margin) Add(n Margin) Margin {
	return Margin{m.Chords + n.Chords, m.Left + n.Left, m.Nats + n.Nats}
}

// Mean is the margin by chord in nats, 0 if no other keys are possible; NaN of
// no chord.
func (m Margin) Mean() float64 { return m.Nats / float64(m.Chords) }
