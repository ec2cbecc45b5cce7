package function

import "math"

// finish weighs the ends of the chart: the last region must have met its tonic or
// pays for it, and the chart goes round to its first chord.
func (l *lattice) finish() {
	first, last := &l.columns[0], &l.columns[len(l.columns)-1]
	for key := range keyCount {
		mode := key % modeCount
		n := len(l.fit[mode])
		owing := l.factor[EndUnsettled] * l.product([]usage{{EndUnsettledRich, l.style.rich}})
		if key == l.hint {
			owing = 1 // the chart vouches for the key
		}
		for s := last.slots[key]; s < last.slots[key+1]; s++ {
			a := int(l.slots[s].entry)
			round := l.round[mode][a]
			for t := first.slots[key]; t < first.slots[key+1]; t++ {
				round = max(round, l.circle[mode][int(l.slots[t].entry)*n+a])
			}
			round *= l.hinted(key, HintEnd)
			l.backward[settled][s] = round
			l.backward[opening][s] = round * owing
		}
	}
	l.end = 0
	for key := range keyCount {
		l.share[key] = l.through(last, key)
		l.end += l.share[key]
	}
	l.logSum += math.Log(l.end)
	l.live = [keyCount]bool{}
	l.weigh(last)
}

// through sums what goes through a column in a key, as scaled.
func (l *lattice) through(c *column, key int) (sum float64) {
	lo, hi := c.slots[key], c.slots[key+1]
	for phase := range phaseCount {
		forward, backward := l.forward[phase][lo:hi], l.backward[phase][lo:hi]
		for s, p := range forward {
			sum += p * backward[s]
		}
	}
	return sum
}

// faint is the share of all paths below which a key's part in a column is passed
// over: far below what is ever told.
const faint = 1e-10

// retreat computes column i's backward sums from the column after, and the
// probabilities. A key of which less than a faint share can come is passed over.
func (l *lattice) retreat(i int) {
	c, next := &l.columns[i], &l.columns[i+1]
	var in circles
	var away [doorCount]circles
	for key := range keyCount {
		if l.share[key] > 0 {
			*in.of(key) = l.hope(c, next, key, &away)
		}
	}
	l.open.carry(&away[doorOther], &in, &l.modes)
	least := faint * l.end
	move := next.move * inverse(c.total)
	pairs := l.pairs[next.pairs:]
	lo, hi := c.slots[0], c.slots[keyCount]
	for phase := range phaseCount {
		clear(l.backward[phase][lo:hi])
	}
	for key := range keyCount {
		part := 0.0
		natural := next.natural >> key & 1
		for d := range away {
			part += *away[d].of(key) * l.pivot[d][natural]
		}
		part *= move
		size := int(c.slots[key+1]-c.slots[key]) * int(next.slots[key+1]-next.slots[key])
		if l.share[key]+part*l.leaving[i][key] <= least {
			l.share[key] = 0
		} else {
			l.retreatKey(c, next, key, part, pairs[:size])
			l.share[key] = l.through(c, key)
		}
		pairs = pairs[size:]
	}
	l.weigh(c)
}

// hope is what a change to a key may hope for by a door that is not named, dealing
// out what it may by the others.
func (l *lattice) hope(c, next *column, key int, away *[doorCount]circles) float64 {
	var in [doorCount]float64
	for s := next.slots[key]; s < next.slots[key+1]; s++ {
		at := &l.slots[s]
		in[at.door] += at.entering * l.backward[at.start()][s]
	}
	in[doorTonic] *= next.thin
	left := l.left[c.natural>>key&1]
	for _, d := range []door{doorTonic, doorTwo} {
		if in[d] > 0 {
			l.deal(&away[d], d, key, in[d]*left)
		}
	}
	return in[doorOther] * left
}

func (l *lattice) retreatKey(c, next *column, key int, away float64, pairs []float32) {
	exits := l.exit[key%modeCount]
	lo, hi := c.slots[key], c.slots[key+1]
	here := l.slots[lo:hi]
	open, done := l.backward[opening][lo:hi][:len(here)], l.backward[settled][lo:hi][:len(here)]
	owed := away * l.quitRich
	for j := range here {
		e := &exits[here[j].entry]
		open[j], done[j] = e.quit*owed, e.leave*away
	}
	if l.share[key] == 0 {
		return
	}
	stay := inverse(c.total)
	for t := next.slots[key]; t < next.slots[key+1]; t++ {
		to := &l.slots[t]
		own := to.own * stay
		x, y := own*l.backward[settled][t], own*l.backward[opening][t]
		row := pairs[:len(here)]
		pairs = pairs[len(here):]
		if to.door == doorTonic {
			for j, p := range row {
				by := 0
				if p < 0 {
					p, by = -p, 1
				}
				open[j] += float64(p) * x * next.settle[by]
				done[j] += float64(p) * x
			}
			continue
		}
		for j, p := range row {
			open[j] += float64(p) * y
			done[j] += float64(p) * x
		}
	}
}

// negligible is the probability below which a label counts for nothing in the
// path.
const negligible = 1e-3

// weigh multiplies both sums into probabilities and adds them up by label.
func (l *lattice) weigh(c *column) {
	lo, hi := c.slots[0], c.slots[keyCount]
	clear(l.chance[opening][lo:hi])
	clear(l.chance[settled][lo:hi])
	clear(l.label[lo:hi])
	all := 0.0
	for _, share := range l.share {
		all += share
	}
	for key, share := range l.share {
		if share > 0 {
			l.weighKey(c, key, 1/all)
			if share/all >= negligible {
				l.live[key] = true
				l.weighLabels(c, key)
			}
		}
	}
}

func (l *lattice) weighKey(c *column, key int, factor float64) {
	lo, hi := c.slots[key], c.slots[key+1]
	for phase := range phaseCount {
		forward, backward, chance := l.forward[phase][lo:hi], l.backward[phase][lo:hi], l.chance[phase][lo:hi]
		for s := range chance {
			chance[s] = forward[s] * backward[s] * factor
		}
	}
}

func (l *lattice) weighLabels(c *column, key int) {
	lo, hi := c.slots[key], c.slots[key+1]
	slots := l.slots[lo:hi]
	open, done, label := l.chance[opening][lo:hi], l.chance[settled][lo:hi], l.label[lo:hi]
	entries := vocabularies[key%modeCount].entries
	for s := range label {
		sum, name := 0.0, entries[slots[s].entry].label
		for t := range slots {
			if entries[slots[t].entry].label == name {
				sum += open[t] + done[t]
			}
		}
		label[s] = (open[s] + done[s]) * likelier
		if sum >= negligible {
			label[s] += sum
		}
	}
}

// likelier is the share of a state's own probability in what the path adds up:
// enough to choose between states of one label, too little to outweigh a label.
const likelier = 1e-6
