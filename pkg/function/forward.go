package function

import "math"

// start gives the first column's states their factors.
func (l *lattice) start() {
	l.logSum = 0
	c := &l.columns[0]
	early := l.product([]usage{{StartUnsettled, l.style.rich}})
	lo, hi := c.all()
	for s := lo; s < hi; s++ {
		at := c.slot(s)
		phase, p := at.start(), l.own[s]*l.hinted(c.keyOf(s), HintStart)
		if phase == opening && at.upbeat() {
			p *= early
		}
		l.forward[phase][s], l.forward[1-phase][s] = p, 0
	}
	l.leave(0)
}

// hinted is the factor for a chart to start or end in a key: 1 where the chart
// states none. The other mode of the tonic that is stated misses by half.
func (l *lattice) hinted(key int, miss Term) float64 {
	switch {
	case l.hint < 0 || l.hint == key:
		return 1
	case l.hint/modeCount == key/modeCount:
		return l.product([]usage{{miss, .5}})
	}
	return l.factor[miss]
}

// advance computes column i's forward sums from the column before.
func (l *lattice) advance(i int) {
	from, c := &l.columns[i-1], &l.columns[i]
	l.logSum += math.Log(from.total)
	open, done := l.forward.of(from)
	o, d := l.forward.of(c)
	clear(o)
	clear(d)
	price, steps := l.price(c), l.between(from, c)
	for _, e := range steps.on.list {
		p := float64(e.factor)
		o[e.to] += p * open[e.from]
		d[e.to] += p * done[e.from]
	}
	for _, e := range steps.home.list {
		if e.factor < 0 {
			d[e.to] -= float64(e.factor) * (done[e.from] + price.settle[1]*open[e.from])
		} else {
			d[e.to] += float64(e.factor) * (done[e.from] + price.settle[0]*open[e.from])
		}
	}
	come := l.arrive(i, price, o, d)
	slots, factors := c.shape.slots, l.slots[c.shape.number]
	stay := inverse(from.total)
	for s, own := range l.own[c.base:][:len(slots)] {
		p := own * stay
		o[s] = p * (o[s] + factors[s].enter*come[slots[s].comes])
		d[s] *= p
	}
	l.leave(i)
}

// arrive adds what comes from other keys to column i by the doors that are named,
// and gives what comes by doorOther, by key from the column's root up and with
// nothing behind them.
func (l *lattice) arrive(i int, price *price, open, done []float64) (come [keyCount + 1]float64) {
	from, c := &l.columns[i-1], &l.columns[i]
	var in arrivals
	in.set(l, &l.leaving[i-1], c)
	for mode := range keyAt {
		for place, key := range keyAt[mode] {
			come[c.above(int(key))] = in.other[mode][place] * price.move * l.left[from.natural>>key&1]
		}
	}
	factors := l.slots[c.shape.number]
	for _, s := range c.shape.doors {
		at := &c.shape.slots[s]
		key := c.keyAbove(int(at.key))
		p := in.by(l, at.door, key) * price.move * l.left[from.natural>>key&1] * factors[s].enter
		if at.door == doorTonic {
			done[s] += p * price.thin
		} else {
			open[s] += p * l.twoRich
		}
	}
	return come
}

// leave sums what may leave each key behind column i, and all that reaches it.
func (l *lattice) leave(i int) {
	c := &l.columns[i]
	open, done := l.forward.of(c)
	slots, factors := c.shape.slots, l.slots[c.shape.number]
	var sums [keyCount]float64
	total := 0.0
	for s := range slots {
		o, d, f := open[s], done[s], &factors[s]
		sums[slots[s].key] += d*f.leave + o*f.quit*l.quitRich
		total += o + d
	}
	c.total = total
	for key := range keyCount {
		l.leaving[i][key] = sums[c.above(key)]
	}
}

// inverse of a sum; 0 where what is given leaves no path.
func inverse(sum float64) float64 {
	if sum == 0 {
		return 0
	}
	return 1 / sum
}
