package function

import "math"

// finish weighs the ends of the chart: the last region must have met its tonic or
// pays for it, and the chart goes round to its first chord.
func (l *lattice) finish() {
	last := &l.columns[len(l.columns)-1]
	goal := l.goals()
	owing := l.factor[EndUnsettled]
	vague := owing * l.product([]usage{{EndUnsettledRich, l.style.rich}})
	turned := l.product([]usage{{EndUnsettled, 1 - circle}}) // round to the tonic
	l.clear(last)
	l.end = 0
	for key := range keyCount {
		owing := owing
		if l.opensOn(key) {
			owing = turned
		}
		for s, hi := last.in(key); s < hi; s++ {
			round := l.roundFrom(last.slot(s), key, goal) * l.hinted(key, HintEnd)
			if l.owed(last.slot(s), key) {
				round *= l.factor[EndInDebt]
			}
			l.backward[settled][s] = round
			switch {
			case key == l.hint: // the chart vouches for it
			case l.aims(last.slot(s)):
				round *= owing
			default:
				round *= vague
			}
			l.backward[opening][s] = round
			l.end += l.forward[settled][s]*l.backward[settled][s] + l.forward[opening][s]*round
		}
	}
	l.logSum += math.Log(l.end)
	for key := range keyCount {
		lo, hi := last.in(key)
		l.share[key] = l.weigh(lo, hi)
	}
	l.shares[len(l.shares)-1] = l.share
	l.live = [keyCount]bool{}
	l.weighLabels(last)
}

// owed: a last chord is applied, and the first one does not pay it.
func (l *lattice) owed(last *slot, key int) bool {
	return last.applied() && last.pays != 0 && !last.payRoot(uint8((l.columns[0].root+12-key/modeCount)%12))
}

// aims: a last chord that names its key by aiming at the tonic; a chart of one
// chord aims at nothing.
func (l *lattice) aims(last *slot) bool { return last.homeDominant() && len(l.columns) > 1 }

// opensOn: the chart begins with the tonic of a key.
func (l *lattice) opensOn(key int) bool {
	first := &l.columns[0]
	for s, hi := first.in(key); s < hi; s++ {
		if first.slot(s).is(arrives) {
			return true
		}
	}
	return false
}

// goals tells which slots of the first column the chart may go round to: not those
// whose strict debt the second cannot pay.
func (l *lattice) goals() []bool {
	first := &l.columns[0]
	goal := make([]bool, len(first.shape.slots))
	for s := range goal {
		goal[s] = !first.shape.slots[s].strict
	}
	steps := l.between(first, &l.columns[1%len(l.columns)])
	for _, list := range [...][]edge{steps.on.list, steps.home.list} {
		for _, e := range list {
			goal[e.from] = true
		}
	}
	return goal
}

// roundFrom is the factor of the best way from a slot of a key round to the first
// column.
func (l *lattice) roundFrom(a *slot, key int, goal []bool) (round float64) {
	if !a.strict {
		round = l.round[roundTerm(a.entry)]
	}
	first := &l.columns[0]
	for s, hi := first.in(key); s < hi; s++ {
		t, ok := pairTerm(a.entry, first.slot(s).entry)
		if ok && goal[s-first.base] && (t != PairHold || !a.strict) { // a two that only comes again is not answered
			round = max(round, l.round[t])
		}
	}
	return round
}

// faint is a share of all paths that is far below what is ever told.
const faint = 1e-8

// retreat computes column i's backward sums from the column after, and the
// probabilities.
func (l *lattice) retreat(i int, faint float64) {
	c, next := &l.columns[i], &l.columns[i+1]
	away := l.hopes(c, next)
	l.clear(c)
	steps := l.between(c, next)
	inEnd := inverse(l.end)
	move := l.price(next).move * inverse(c.total)
	for mode := range keyAt {
		for place, key := range keyAt[mode] {
			part, natural := 0.0, next.natural>>key&1
			for d := range away {
				part += away[d][mode][place] * l.pivot[d][natural]
			}
			part *= move
			staying, left := l.share[key], part*l.leaving[i][key]*inEnd
			if staying+left <= faint {
				l.share[key], l.kept[i][key] = 0, 0
				continue
			}
			lo, hi := c.in(int(key))
			l.depart(c, lo, hi, part)
			if staying > 0 {
				l.goOn(c, next, int(key), steps)
			}
			l.share[key] = l.weigh(lo, hi)
			l.kept[i][key] = max(0, l.share[key]-left)
		}
	}
	l.shares[i] = l.share
	l.end *= l.total()
	l.weighLabels(c)
}

// hopes are what a change of key behind column c may hope for, by the door it goes
// through.
func (l *lattice) hopes(c, next *column) (away [doorCount]circles) {
	slots, factors, own := next.shape.slots, l.slots[next.shape.number], l.own[next.base:]
	open, done := l.backward.of(next)
	var other [keyCount + 1]float64 // by key from the root up, what goes by other doors behind them
	for s := range slots {
		other[slots[s].comes] += own[s] * factors[s].enter * open[s]
	}
	for _, s := range next.shape.doors {
		key := next.keyAbove(int(slots[s].key))
		if l.share[key] == 0 {
			continue
		}
		hope := own[s] * factors[s].enter * l.left[c.natural>>key&1]
		if d := slots[s].door; d == doorTonic {
			l.deal(&away[d], d, key, hope*done[s]*l.price(next).thin)
		} else {
			l.deal(&away[d], d, key, hope*open[s]*l.twoRich)
		}
	}
	var in circles
	for mode := range keyAt {
		for place, key := range keyAt[mode] {
			in[mode][place] = other[next.above(int(key))] * l.left[c.natural>>key&1]
		}
	}
	l.open.carry(&away[doorOther], &in, &l.modes)
	return away
}

// depart sets the backward sums of a key to those of leaving it behind column c.
func (l *lattice) depart(c *column, lo, hi int32, away float64) {
	factors := l.slots[c.shape.number][lo-c.base : hi-c.base]
	open, done := l.backward[opening][lo:hi], l.backward[settled][lo:hi]
	owed := away * l.quitRich
	for s := range factors {
		open[s], done[s] = factors[s].quit*owed, factors[s].leave*away
	}
}

// goOn adds those of staying in the key.
func (l *lattice) goOn(c, next *column, key int, steps *steps) {
	open, done := l.backward.of(c)
	nextOpen, nextDone := l.backward.of(next)
	own := l.own[next.base:]
	stay := inverse(c.total)
	settle := l.price(next).settle
	above := next.above(key)
	for _, e := range steps.on.in(above) {
		p := float64(e.factor) * own[e.to] * stay
		open[e.from] += p * nextOpen[e.to]
		done[e.from] += p * nextDone[e.to]
	}
	for _, e := range steps.home.in(above) {
		p, by := float64(e.factor)*own[e.to]*stay*nextDone[e.to], 0
		if p < 0 {
			p, by = -p, 1
		}
		open[e.from] += p * settle[by]
		done[e.from] += p
	}
}

// negligible is the probability below which a label counts for nothing in the
// path.
const negligible = 1e-3

// clear takes away what was known of a column's states, but for its forward sums.
func (l *lattice) clear(c *column) {
	lo, hi := c.all()
	for phase := range phaseCount {
		clear(l.backward[phase][lo:hi])
		clear(l.chance[phase][lo:hi])
	}
	clear(l.label[lo:hi])
	c.heard = 0
}

// weigh multiplies both sums of a key's slots into probabilities and adds them up.
func (l *lattice) weigh(lo, hi int32) (share float64) {
	inEnd := inverse(l.end)
	for phase := range phaseCount {
		forward, backward, chance := l.forward[phase][lo:hi], l.backward[phase][lo:hi], l.chance[phase][lo:hi]
		for s := range chance {
			p := forward[s] * backward[s] * inEnd
			chance[s] = p
			share += p
		}
	}
	return share
}

// total is the share of all keys.
func (l *lattice) total() (sum float64) {
	for _, share := range l.share {
		sum += share
	}
	return sum
}

// weighLabels adds up the probabilities of a column by label, in the keys that are
// heard.
func (l *lattice) weighLabels(c *column) {
	for key, share := range l.share {
		if share > 0 {
			c.heard |= 1 << key
		}
		if share < negligible {
			continue
		}
		l.live[key] = true
		lo, hi := c.in(key)
		slots, label := c.shape.slots[lo-c.base:hi-c.base], l.label[lo:hi]
		open, done := l.chance[opening][lo:hi], l.chance[settled][lo:hi]
		for s := range label {
			sum, name := 0.0, slots[s].label
			for t := range slots {
				if slots[t].label == name {
					sum += open[t] + done[t]
				}
			}
			label[s] = (open[s] + done[s]) * likelier
			if sum >= negligible {
				label[s] += sum
			}
		}
	}
}

// likelier is the share of a state's own probability in what the path adds up:
// enough to choose between states of one label, too little to outweigh a label.
const likelier = 1e-6
