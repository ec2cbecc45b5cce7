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
	l.sum(0)
	all = l.expectation()
	l.clamp(given[:min(len(given), len(events))])
	l.sum(0)
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
	for s, hi := first.all(); s < hi; s++ {
		if first.slot(s).upbeat() {
			e.Counts[StartUnsettled] += l.chance[opening][s] * l.style.rich
		}
	}
	for s, hi := last.all(); s < hi; s++ {
		owed := l.chance[opening][s]
		switch {
		case !l.aims(last.slot(s)):
			e.Counts[EndUnsettledRich] += owed * l.style.rich
		case l.opensOn(last.keyOf(s)):
			owed *= 1 - circle
		}
		e.Counts[EndUnsettled] += owed
		if l.owed(last.slot(s), last.keyOf(s)) {
			e.Counts[EndInDebt] += l.chance[opening][s] + l.chance[settled][s]
		}
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
		lo, hi := c.in(k)
		if !g.allows(k) {
			clear(l.own[lo:hi])
			continue
		}
		fits := func(s int32) bool {
			e := c.slot(s)
			return e.degree == g.Degree && e.target == g.Target
		}
		known := false
		for s := lo; s < hi; s++ {
			known = known || fits(s)
		}
		for s := lo; s < hi && known; s++ {
			if !fits(s) {
				l.own[s] = 0
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
		for s, hi := c.in(k); s < hi; s++ {
			p := l.chance[opening][s] + l.chance[settled][s]
			e := c.slot(s)
			counts[e.fit] += p
			if e.later {
				counts[laterHearing(c.shape.hearings[0].kind)] += p
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
	settle := l.price(c).settle
	count := func(e edge, home bool) {
		s, r := c.base+int32(e.to), from.base+int32(e.from)
		p, by := float64(e.factor)*l.own[s], 0
		if p < 0 {
			p, by = -p, 1
		}
		stay := p * l.forward[settled][r] * l.backward[settled][s]
		if home {
			reach := p * l.forward[opening][r] * settle[by] * l.backward[settled][s]
			reached[by] += reach
			stay += reach
		} else {
			stay += p * l.forward[opening][r] * l.backward[opening][s]
		}
		t, _ := pairTerm(from.slot(r).entry, c.slot(s).entry)
		steps[t] += stay
		total += stay
	}
	between := l.between(from, c)
	for _, e := range between.on.list {
		count(e, false)
	}
	for _, e := range between.home.list {
		count(e, true)
	}
	for by := range reached {
		steps.add(l.settleUses(l.room[:0], &c.traits, by), reached[by])
	}
	return total
}

func (l *lattice) countChanges(i int, steps *Weights) (total float64) {
	from, c := &l.columns[i-1], &l.columns[i]
	var leave, enter [keyCount]Weights
	price := l.price(c)
	var out [keyCount]float64
	var in [doorCount][keyCount]float64
	for k := range keyCount {
		out[k] = l.countLeaving(from, k, &leave[k])
		for s, hi := c.in(k); s < hi; s++ {
			e := c.slot(s)
			p := l.own[s] * l.slots[c.shape.number][s-c.base].enter * price.move * l.backward[e.start()][s]
			switch e.door {
			case doorTonic:
				p *= price.thin
			case doorTwo:
				p *= l.twoRich
			}
			in[e.door][k] += p
			enter[k][enterTerm(e.entry)] += p
		}
	}
	for a := range keyCount {
		for b := range keyCount {
			if out[a] == 0 || a == b {
				continue
			}
			all := 0.0
			for d := range doorCount {
				used := l.betweenUses(l.room[:0], c, a, b, d)
				at := c.natural >> a & 1
				p := out[a] * in[d][b] * l.modes[a%modeCount][b%modeCount] * l.ring(d)[apart(a, b)] * l.pivot[d][at] * l.left[from.natural>>b&1]
				if p == 0 {
					continue
				}
				steps.add(used, p)
				for _, t := range d.terms() {
					steps[t] += p * enter[b][t] / in[d][b]
				}
				all += p
			}
			if from.natural>>b&1 != 0 {
				steps[PivotLeft] += all
			}
			for _, t := range leaveTerms {
				steps[t] += all * leave[a][t] / out[a]
			}
			total += all
		}
	}
	steps.add(l.moveUses(l.room[:0], &c.traits), total)
	return total
}

// countLeaving counts the terms of leaving a key after column c, and sums.
func (l *lattice) countLeaving(c *column, k int, leave *Weights) (sum float64) {
	for s, hi := c.in(k); s < hi; s++ {
		f := &l.slots[c.shape.number][s-c.base]
		done, open := l.forward[settled][s]*f.leave, l.forward[opening][s]*f.quit*l.quitRich
		leave[leaveTerm(c.slot(s).entry)] += done
		leave[LeaveUnsettled] += open
		leave[LeaveUnsettledRich] += open * l.style.rich
		sum += done + open
	}
	return sum
}

// betweenUses appends the terms of going from one key to another by a door.
func (l *lattice) betweenUses(dst []usage, c *column, a, b int, d door) []usage {
	steps := apart(a, b)
	first := ChangeSignature0
	if d == doorTonic {
		first = ChangeThin0
		dst = l.thinUses(dst, &c.traits)
	}
	dst = append(dst, usage{first + Term(steps), 1})
	if t, ok := modeTerm(a%modeCount, b%modeCount); ok {
		dst = append(dst, usage{t, 1})
	}
	if steps <= 1 {
		dst = append(dst, usage{ChangeNear, l.style.rich})
	}
	if c.natural>>a&1 != 0 {
		dst = append(dst, usage{PivotTonic + Term(d), 1})
		if d == doorOther {
			dst = append(dst, usage{PivotOtherRich, l.style.rich})
		}
	}
	if d == doorTwo {
		dst = append(dst, usage{EnterTwoRich, l.style.rich})
	}
	return dst
}

// apart counts the steps between two keys' signatures, 0 to 6.
func apart(a, b int) int {
	d := abs(int(circleOf[a]) - int(circleOf[b]))
	return min(d, 12-d)
}

// terms are those of entering a region by a door.
func (d door) terms() []Term {
	switch d {
	case doorTonic:
		return []Term{EnterTonic, EnterLean}
	case doorTwo:
		return []Term{EnterTwo}
	}
	return []Term{EnterDominant, EnterFour, EnterTurnaround, EnterOther}
}

var leaveTerms = []Term{LeaveTonic, LeaveDominant, LeaveOther, LeaveInDebt, LeaveForeign, LeaveUnsettled, LeaveUnsettledRich}

// add counts terms that apply with a probability.
func (w *Weights) add(used []usage, p float64) {
	for _, u := range used {
		w[u.term] += u.times * p
	}
}
