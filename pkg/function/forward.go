package function

import "math"

// start gives the first column's states their factors.
func (l *lattice) start() {
	l.logSum = 0
	c := &l.columns[0]
	early := l.product([]usage{{StartUnsettled, l.style.rich}})
	c.total = 0
	for key := range keyCount {
		entries := vocabularies[key%modeCount].entries
		factor := l.hinted(key, HintStart)
		for s := c.slots[key]; s < c.slots[key+1]; s++ {
			at := &l.slots[s]
			phase, p := at.start(), at.own*factor
			if phase == opening && entries[at.entry].upbeat() {
				p *= early
			}
			l.forward[phase][s], l.forward[1-phase][s] = p, 0
			c.total += p
		}
		l.leaving[0][key] = l.leavingKey(c, key)
	}
}

// hinted is the factor for a chart to start or end in a key: 1 where the chart
// states none.
func (l *lattice) hinted(key int, miss Term) float64 {
	if l.hint < 0 || l.hint == key {
		return 1
	}
	return l.factor[miss]
}

// advance computes column i's forward sums from the column before.
func (l *lattice) advance(i int) {
	from, c := &l.columns[i-1], &l.columns[i]
	l.logSum += math.Log(from.total)
	var in arrivals
	in.set(l, &l.leaving[i-1], c)
	c.pairs, c.total = len(l.pairs), 0
	for key := range keyCount {
		c.total += l.advanceKey(from, c, key, &in)
		l.leaving[i][key] = l.leavingKey(c, key)
	}
}

func (l *lattice) advanceKey(from, c *column, key int, in *arrivals) (sum float64) {
	mode := key % modeCount
	n := len(l.fit[mode])
	lo, hi := from.slots[key], from.slots[key+1]
	before := l.slots[lo:hi]
	open, done := l.forward[opening][lo:hi][:len(before)], l.forward[settled][lo:hi][:len(before)]
	stay := inverse(from.total)
	move := c.move * l.left[from.natural>>key&1] * stay
	for s := c.slots[key]; s < c.slots[key+1]; s++ {
		to := &l.slots[s]
		row := l.pair[mode][int(to.entry)*n:][:n]
		come := in.by(l, to.door, key) * to.entering * move
		own := to.own * stay
		o, d := 0.0, 0.0
		if to.door == doorTonic {
			for j := range before {
				p := row[before[j].entry]
				l.pairs = append(l.pairs, p)
				d += c.settled(p, open[j], done[j])
			}
			d = d*own + come*c.thin
		} else {
			for j := range before {
				p := row[before[j].entry]
				l.pairs = append(l.pairs, p)
				o += float64(p) * open[j]
				d += float64(p) * done[j]
			}
			o, d = o*own+come, d*own
		}
		l.forward[opening][s], l.forward[settled][s] = o, d
		sum += o + d
	}
	return sum
}

// leavingKey sums what may leave a key behind column c.
func (l *lattice) leavingKey(c *column, key int) (sum float64) {
	exits := l.exit[key%modeCount]
	owing := 0.0
	for s := c.slots[key]; s < c.slots[key+1]; s++ {
		e := &exits[l.slots[s].entry]
		sum += l.forward[settled][s] * e.leave
		owing += l.forward[opening][s] * e.quit
	}
	return sum + owing*l.quitRich
}

// inverse of a sum; 0 where what is given leaves no path.
func inverse(sum float64) float64 {
	if sum == 0 {
		return 0
	}
	return 1 / sum
}
