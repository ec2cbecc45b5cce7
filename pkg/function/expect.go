package function

import (
	"fifthwise/pkg/chart"
	"fifthwise/pkg/key"
)

// Given is what is known of a chord before it is read, for fitting weights to
// annotated charts. The zero value is nothing.
type Given struct {
	Key            key.Key // its mode counts as major or minor by its third
	AnyMode        bool    // only the tonic is known
	Degree, Target Degree  // invalid: not known
}

// Expectation is a sum over readings of a chart.
type Expectation struct {
	LogSum float64 // its logarithm; -Inf where no reading agrees with what is given
	Counts Weights // how often each term is used on average: minus the sum's derivative
}

// Expect sums over all readings of a chart, and over those that agree with
// what is given of its chords as played. What closes the circle at the chart's
// end is left out of the counts, and so is what a stated key costs: charts are
// fitted without one.
func Expect(c chart.Chart, m *Model, given []Given) (all, told Expectation) {
	events := c.Played()
	l := lattices.Get().(*lattice)
	defer lattices.Put(l)
	l.Model = m
	l.build(key.Key{}, events)
	if len(l.columns) == 0 {
		return all, told
	}
	l.sum()
	all = l.expectation()
	l.clamp(given[:min(len(given), len(events))])
	l.sum()
	return all, l.expectation()
}

func (l *lattice) expectation() (e Expectation) {
	e.LogSum = l.logSum
	for i := range l.columns {
		l.countChords(i, &e.Counts)
		if i > 0 {
			l.countSteps(i, &e.Counts)
		}
	}
	first, last := &l.columns[0], &l.columns[len(l.columns)-1]
	for k := range keyCount {
		for s := first.slots[k]; s < first.slots[k+1]; s++ {
			if vocabularies[k%modeCount].entries[l.entries[s]].upbeat() {
				e.Counts[StartUnsettled] += l.chance[opening][s] * l.style.rich
			}
		}
	}
	for s := last.slots[0]; s < last.slots[keyCount]; s++ {
		e.Counts[EndUnsettled] += l.chance[opening][s]
		e.Counts[EndUnsettledRich] += l.chance[opening][s] * l.style.rich
	}
	return e
}

// clamp takes away the states that disagree with what is given. A label that
// the vocabulary does not know for the chord is passed over.
func (l *lattice) clamp(given []Given) {
	for i := range l.columns {
		c := &l.columns[i]
		for event := c.first; event <= c.last; event++ {
			if event < len(given) {
				l.clampColumn(c, &given[event])
			}
		}
	}
}

func (l *lattice) clampColumn(c *column, g *Given) {
	if !g.Key.IsValid() {
		return
	}
	for k := range keyCount {
		lo, hi := c.slots[k], c.slots[k+1]
		if !g.allows(k) {
			clear(l.own[lo:hi])
			clear(l.entering[lo:hi])
			continue
		}
		entries := vocabularies[k%modeCount].entries
		fits := func(s int32) bool {
			e := &entries[l.entries[s]]
			return e.degree == g.Degree && e.target == g.Target
		}
		known := false
		for s := lo; s < hi; s++ {
			known = known || fits(s)
		}
		for s := lo; s < hi && known; s++ {
			if !fits(s) {
				l.own[s], l.entering[s] = 0, 0
			}
		}
	}
}

func (g *Given) allows(k int) bool {
	want := indexOf(g.Key)
	return k == want || g.AnyMode && k/modeCount == want/modeCount
}

// countChords counts the terms of column i's own states.
func (l *lattice) countChords(i int, counts *Weights) {
	c := &l.columns[i]
	var places [placeCount]float64
	for k := range keyCount {
		entries := vocabularies[k%modeCount].entries
		for s := c.slots[k]; s < c.slots[k+1]; s++ {
			p := l.chance[opening][s] + l.chance[settled][s]
			e := &entries[l.entries[s]]
			counts[e.fit] += p
			if l.later[s] {
				counts[laterHearing(c.kind)] += p
			}
			places[e.place] += p
			counts.add(l.home.uses(l.room[:0], k), p)
			if e.is(blue) {
				counts[BlueChart] += p * l.style.blue
			}
		}
	}
	for p := range placeCount {
		counts.add(c.traits.uses(l.room[:0], p, l.style.rich), places[p])
	}
}

// countSteps counts the terms of the steps from column i-1 to column i.
func (l *lattice) countSteps(i int, counts *Weights) {
	var steps Weights
	total := l.countPairs(i, &steps) + l.countChanges(i, &steps)
	if total == 0 {
		return
	}
	for t := range steps {
		counts[t] += steps[t] / total
	}
}

func (l *lattice) countPairs(i int, steps *Weights) (total float64) {
	from, c := &l.columns[i-1], &l.columns[i]
	var reached [2]float64 // the tonic owed: otherwise, by a cadence
	for k := range keyCount {
		mode := k % modeCount
		entries := vocabularies[mode].entries
		n := len(entries)
		for s := c.slots[k]; s < c.slots[k+1]; s++ {
			b := int(l.entries[s])
			for r := from.slots[k]; r < from.slots[k+1]; r++ {
				a := int(l.entries[r])
				p := float64(l.pair[mode][b*n+a]) * l.own[s]
				if p == 0 {
					continue
				}
				t, _ := pairTerm(&entries[a], &entries[b])
				stay := p * l.forward[settled][r] * l.backward[settled][s]
				if entries[b].is(arrives) {
					by := l.cadence[mode][b*n+a]
					reach := p * l.forward[opening][r] * c.settle[by] * l.backward[settled][s]
					reached[by] += reach
					stay += reach
				} else {
					stay += p * l.forward[opening][r] * l.backward[opening][s]
				}
				steps[t] += stay
				total += stay
			}
		}
	}
	for by := range reached {
		steps.add(l.settleUses(l.room[:0], c, by), reached[by])
	}
	return total
}

func (l *lattice) countChanges(i int, steps *Weights) (total float64) {
	from, c := &l.columns[i-1], &l.columns[i]
	var out, inOpen, inThin [keyCount]float64
	var leave, enter [keyCount]Weights
	for k := range keyCount {
		mode := k % modeCount
		entries := vocabularies[mode].entries
		for s := from.slots[k]; s < from.slots[k+1]; s++ {
			a := l.entries[s]
			done, open := l.forward[settled][s]*l.exit[mode][a].leave, l.forward[opening][s]*l.exit[mode][a].quit*l.quitRich
			leave[k][leaveTerm(&entries[a])] += done
			leave[k][LeaveUnsettled] += open
			leave[k][LeaveUnsettledRich] += open * l.style.rich
			out[k] += done + open
		}
		for s := c.slots[k]; s < c.slots[k+1]; s++ {
			b := l.entries[s]
			p := l.entering[s] * c.move
			if entries[b].is(arrives) {
				p *= l.backward[settled][s] * c.thin
				inThin[k] += p
			} else {
				p *= l.backward[opening][s]
				inOpen[k] += p
			}
			enter[k][enterTerm(&entries[b])] += p
			if enterTerm(&entries[b]) == EnterTwo {
				enter[k][EnterTwoRich] += p * l.style.rich
			}
		}
	}
	for a := range keyCount {
		if out[a] == 0 {
			continue
		}
		for b := range keyCount {
			if a == b {
				continue
			}
			d := int(circleOf[a]) - int(circleOf[b])
			d = min(abs(d), 12-abs(d))
			modes := l.modes[a%modeCount][b%modeCount]
			open := out[a] * modes * l.open[d] * inOpen[b]
			thin := out[a] * modes * l.thin[d] * inThin[b]
			steps[ChangeSignature0+Term(d)] += open
			steps[ChangeThin0+Term(d)] += thin
			if t, ok := modeTerm(a%modeCount, b%modeCount); ok {
				steps[t] += open + thin
			}
			total += open + thin
			steps.add(l.thinUses(l.room[:0], c), thin)
			if d <= 1 {
				steps[ChangeNear] += (open + thin) * l.style.rich
			}
			for _, t := range doors {
				steps[t] += (open + thin) * leave[a][t] / out[a]
				if e := enter[b][t]; e > 0 {
					if t == EnterTonic || t == EnterLean {
						steps[t] += thin * e / inThin[b]
					} else {
						steps[t] += open * e / inOpen[b]
					}
				}
			}
		}
	}
	steps.add(l.moveUses(l.room[:0], c), total)
	return total
}

// add counts terms that apply with a probability.
func (w *Weights) add(used []usage, p float64) {
	for _, u := range used {
		w[u.term] += u.times * p
	}
}

// doors are the terms of leaving one region and entering another.
var doors = []Term{EnterTonic, EnterDominant, EnterTwo, EnterTwoRich, EnterFour, EnterOther, EnterLean, LeaveTonic, LeaveDominant, LeaveOther, LeaveInDebt, LeaveUnsettled, LeaveUnsettledRich}
