package function

// A step of the path: a slot, its key and whether its region is settled.
type step struct {
	slot  int32
	key   int8
	phase int8
}

// A change of key that hardly any reading has costs the path, in label
// probabilities, up to strayed for leaving the one key there and as much for
// entering the other: the less likely than rare, the more. Set by hand.
const (
	rare    = .05
	strayed = .5
)

// straying is what it costs to leave or to enter a key where that has a
// probability.
func straying(p float64) float64 { return strayed * max(0, 1-p/rare) }

// path finds the admissible path with the largest sum of label probabilities, less
// what straying costs.
func (l *lattice) path() []step {
	for i := range l.columns {
		l.extend(i)
	}
	last := &l.columns[len(l.columns)-1]
	var top way
	for key, live := range l.live {
		for s, hi := last.in(key); live && s < hi; s++ {
			top.consider(l.best[settled][s], s*phaseCount+settled)
			top.consider(l.best[opening][s], s*phaseCount+opening)
		}
	}
	end := top.state
	steps := make([]step, len(l.columns))
	for i := len(steps) - 1; i >= 0; i-- {
		s, phase := end/phaseCount, end%phaseCount
		steps[i] = step{slot: s, key: int8(l.columns[i].keyOf(s)), phase: int8(phase)}
		end = l.back[phase][s]
	}
	return steps
}

// extend finds the best way into each state of column i; best is 0 for states
// that no admissible path reaches, else above it.
func (l *lattice) extend(i int) {
	c := &l.columns[i]
	if i == 0 {
		room := 1 + 2*strayed*float64(len(l.columns)) // for what the path may stray
		for s, hi := c.all(); s < hi; s++ {
			phase := c.slot(s).start()
			l.best[phase][s], l.back[phase][s] = room+l.label[s], -1
			l.best[1-phase][s] = 0
		}
		return
	}
	from := &l.columns[i-1]
	out := l.bestOut(i - 1)
	steps := l.between(from, c)
	for key, live := range l.live {
		if live {
			change := out.otherThan(key)
			change.add(-straying(l.shares[i][key] - l.kept[i-1][key]))
			l.extendKey(from, c, key, steps, change)
		}
	}
}

// extendKey finds the best way into each of a key's states. From an entry
// without a strict debt every entry may follow, so that the best of those is
// found once for all.
func (l *lattice) extendKey(from, c *column, key int, steps *steps, change way) {
	var free [phaseCount]way
	for t, hi := from.in(key); t < hi; t++ {
		if !from.slot(t).strict {
			free[opening].consider(l.best[opening][t], t*phaseCount+opening)
			free[settled].consider(l.best[settled][t], t*phaseCount+settled)
		}
	}
	lo, hi := c.in(key)
	l.ways = resized(l.ways, int(hi-lo))
	for s := range l.ways {
		l.ways[s] = free
	}
	above := c.above(key)
	for _, list := range [...][]edge{steps.on.in(above), steps.home.in(above)} {
		for _, e := range list {
			if !from.shape.slots[e.from].strict {
				continue
			}
			t, ways := from.base+int32(e.from), &l.ways[int32(e.to)+c.base-lo]
			ways[opening].consider(l.best[opening][t], t*phaseCount+opening)
			ways[settled].consider(l.best[settled][t], t*phaseCount+settled)
		}
	}
	for s := lo; s < hi; s++ {
		ways := &l.ways[s-lo]
		start := opening
		if c.slot(s).door == doorTonic {
			start = settled
			ways[settled].consider(ways[opening].value, ways[opening].state)
			ways[opening] = way{}
		}
		ways[start].consider(change.value, change.state)
		for phase := range ways {
			w := &ways[phase]
			if l.best[phase][s], l.back[phase][s] = 0, -1; w.value > 0 {
				l.best[phase][s], l.back[phase][s] = w.value+l.label[s], w.state
			}
		}
	}
}

// A way into a state: the best sum so far and the state it comes from.
type way struct {
	value float64
	state int32
	key   int
}

func (w *way) consider(value float64, state int32) {
	if value > w.value {
		w.value, w.state = value, state
	}
}

// add adds to the way, if there is one.
func (w *way) add(value float64) {
	if w.value > 0 {
		w.value += value
	}
}

// exits are the best way out of a column and the best out of another key.
type exits [2]way

func (e *exits) otherThan(key int) way {
	if e[0].key != key {
		return e[0]
	}
	return e[1]
}

// bestOut finds the best ways out of column i, less what leaving there costs.
func (l *lattice) bestOut(i int) (e exits) {
	c := &l.columns[i]
	factors := l.slots[c.shape.number]
	for key, live := range l.live {
		if !live {
			continue
		}
		w := way{key: key}
		for s, hi := c.in(key); s < hi; s++ {
			f := &factors[s-c.base]
			if f.leave == 0 {
				continue
			}
			w.consider(l.best[settled][s], s*phaseCount+settled)
			if f.quit > 0 {
				w.consider(l.best[opening][s], s*phaseCount+opening)
			}
		}
		w.add(-straying(l.shares[i][key] - l.kept[i][key]))
		switch {
		case w.value > e[0].value:
			e[0], e[1] = w, e[0]
		case w.value > e[1].value:
			e[1] = w
		}
	}
	return e
}
