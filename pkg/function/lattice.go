package function

import (
	"math"
	"sync"
)

// The search.
//
// Input: the sounding chords of a chart as played. Equal neighbours within a
// section are one column. A state of a column is a key (12 tonics, major or
// minor), an entry of the vocabulary that fits the chord there, and whether
// the region is still opening (its tonic owed) or settled.
//
//  1. Forward and backward sums over all paths give every state's share of the
//     total probability; states of one key, degree and target make a label.
//  2. The path shown is, of all admissible paths, the one with the largest sum
//     of label probabilities: dynamic programming over the same lattice. Of
//     states with one label the likelier is taken. Labels below a thousandth
//     count for nothing, and keys without any above it are passed over.
//  3. Ties go to staying in the key over changing it, to the key first in
//     order C, C minor, Db …, then to the earlier row of the vocabulary.
//
// Within a key a step multiplies a pair's factor; between keys the change is
// factored through the 24 keys, so that the work is linear in chords. Sums
// are scaled column by column. See L. R. Rabiner, "A tutorial on hidden Markov
// models", Proc. IEEE 77/2 (1989), III and V.A; decoding by summed
// probabilities is the maximum expected accuracy decoding of R. Durbin et al.,
// Biological Sequence Analysis (1998), 4.4.

// The two phases of a region.
const (
	opening = iota // its tonic is owed
	settled
	phaseCount
)

// states holds a number for each slot, opening and settled.
type states [phaseCount][]float64

func (s *states) resize(n int) {
	for phase := range s {
		s[phase] = resized(s[phase], n)
	}
}

func resized[T any](s []T, n int) []T {
	if cap(s) < n {
		return make([]T, n, n+n/4)
	}
	return s[:n]
}

// A lattice holds the columns of one search and what has been found out about
// their states. A slot is a column's key and entry; a column's slots lie
// together, key by key, in the order of the vocabulary.
type lattice struct {
	*Model
	columns                   []column
	entries                   []uint16  // by slot
	heard                     []hearing // of all columns, one after the other
	door                      []door    // by slot: how a region begins on it
	entering                  []float64 // by slot: own, and what a region that starts here pays
	later                     []bool    // by slot: not the symbol's first hearing
	own                       []float64 // by slot: the factor of the chord itself
	forward, backward, chance states
	label                     []float64 // by slot: the probability of its label, and a trace of its own
	best                      states
	hint                      int // the key that the chart states; -1 for none
	style                     style
	room                      [16]usage
	open, thin                kernel                // of the model, for this chart's style
	pivot                     [doorCount][2]float64 // factor where a region's first chord is, 1, or is not, 0, diatonic in the old key
	left                      [2]float64            // … where the last chord is in the new key
	blue                      float64               // factor for entries that want a blues
	twoRich                   float64               // further factor of a region that starts on its two
	quitRich                  float64               // further factor of leaving a region whose tonic is owed
	home                      homes                 // what speaks for each key as the tune's home
	homeFactor                [keyCount]float64
	live                      [keyCount]bool      // some label of the key counts somewhere
	logSum                    float64             // logarithm of the sum over all paths
	back                      [phaseCount][]int32 // by slot: the state before, slot*phaseCount+phase; -1 at the start
}

var lattices = sync.Pool{New: func() any { return new(lattice) }}

func (l *lattice) resize(n int) {
	for _, s := range []*states{&l.forward, &l.backward, &l.chance, &l.best} {
		s.resize(n)
	}
	l.label = resized(l.label, n)
	for phase := range l.back {
		l.back[phase] = resized(l.back[phase], n)
	}
}

// sum runs both passes and fills chance and label.
func (l *lattice) sum() {
	l.resize(len(l.entries))
	l.start()
	for i := 1; i < len(l.columns); i++ {
		l.advance(i)
	}
	l.finish()
	for i := len(l.columns) - 2; i >= 0; i-- {
		l.retreat(i)
	}
	l.live = [keyCount]bool{}
	for i := range l.columns {
		l.weigh(&l.columns[i])
	}
}

// start gives the first column's states their factors.
func (l *lattice) start() {
	l.logSum = 0
	c := &l.columns[0]
	early := l.product([]usage{{StartUnsettled, l.style.rich}})
	for key := range keyCount {
		factor := l.hinted(key, HintStart)
		for s := c.slots[key]; s < c.slots[key+1]; s++ {
			phase := l.phaseOf(s)
			l.forward[phase][s], l.forward[1-phase][s] = l.own[s]*factor, 0
			if phase == opening && vocabularies[key%modeCount].entries[l.entries[s]].upbeat() {
				l.forward[phase][s] *= early
			}
		}
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

// tiny is the size below which a column's sums are scaled back to 1: far above
// the least number there is, and few columns reach it.
const tiny = 1e-90

// keepInRange scales a column's sums back to 1 where they have become tiny and
// returns the logarithm of what they were.
func (c *column) keepInRange(s *states, sum float64) (log float64) {
	if sum > tiny || sum == 0 {
		return 0
	}
	c.scale(s, 1/sum)
	return math.Log(sum)
}

// phaseOf is the phase in which a region that starts on slot s begins.
func (l *lattice) phaseOf(s int32) int {
	if l.door[s] == doorTonic {
		return settled
	}
	return opening
}

// advance computes column i's forward sums from the column before.
func (l *lattice) advance(i int) {
	from, c := &l.columns[i-1], &l.columns[i]
	var out, to doors
	for key := range keyCount {
		leaving := l.leaving(from, key)
		for d := range out {
			out[d][key] = leaving * l.pivot[d][c.natural>>key&1]
		}
	}
	l.spread(&to, &out)
	sum := 0.0
	for key := range keyCount {
		sum += l.advanceKey(from, c, key, &to)
	}
	l.logSum += c.keepInRange(&l.forward, sum)
}

func (l *lattice) advanceKey(from, c *column, key int, to *doors) (sum float64) {
	mode := key % modeCount
	n := len(l.fit[mode])
	lo, hi := from.slots[key], from.slots[key+1]
	before := l.entries[lo:hi]
	open, done := l.forward[opening][lo:hi][:len(before)], l.forward[settled][lo:hi][:len(before)]
	move := c.move * l.left[from.natural>>key&1]
	come := [doorCount]float64{to[doorTonic][key] * move * c.thin, to[doorTwo][key] * move, to[doorOther][key] * move}
	for s := c.slots[key]; s < c.slots[key+1]; s++ {
		b := int(l.entries[s])
		pair := l.pair[mode][b*n : b*n+n]
		if l.door[s] != doorTonic {
			o, d := 0.0, 0.0
			for j, a := range before {
				p := float64(pair[a])
				o += p * open[j]
				d += p * done[j]
			}
			o, d = o*l.own[s]+come[l.door[s]]*l.entering[s], d*l.own[s]
			l.forward[opening][s], l.forward[settled][s] = o, d
			sum += o + d
			continue
		}
		cadence := l.cadence[mode][b*n : b*n+n]
		d := 0.0
		for j, a := range before {
			d += float64(pair[a]) * (done[j] + c.settle[cadence[a]&1]*open[j])
		}
		d = d*l.own[s] + come[doorTonic]*l.entering[s]
		l.forward[opening][s], l.forward[settled][s] = 0, d
		sum += d
	}
	return sum
}

// leaving sums what may leave a key after column c.
func (l *lattice) leaving(c *column, key int) (sum float64) {
	mode := key % modeCount
	exits := l.exit[mode]
	lo, hi := c.slots[key], c.slots[key+1]
	entries := l.entries[lo:hi]
	open, done := l.forward[opening][lo:hi][:len(entries)], l.forward[settled][lo:hi][:len(entries)]
	owing := 0.0
	for j, a := range entries {
		e := &exits[a]
		sum += done[j] * e.leave
		owing += open[j] * e.quit
	}
	return sum + owing*l.quitRich
}

// finish weighs the ends of the chart: the last region must have met its
// tonic or pays for it, and the chart goes round to its first chord.
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
			round := l.round[mode][l.entries[s]]
			for t := first.slots[key]; t < first.slots[key+1]; t++ {
				p := l.circle[mode][int(l.entries[t])*n+int(l.entries[s])]
				round = max(round, p)
			}
			round *= l.hinted(key, HintEnd)
			l.backward[settled][s] = round
			l.backward[opening][s] = round * owing
		}
	}
	end := 0.0
	for phase := range phaseCount {
		for s := last.slots[0]; s < last.slots[keyCount]; s++ {
			end += l.forward[phase][s] * l.backward[phase][s]
		}
	}
	l.logSum += math.Log(end)
}

// retreat computes column i's backward sums from the column after.
func (l *lattice) retreat(i int) {
	c, next := &l.columns[i], &l.columns[i+1]
	var in, back doors
	for key := range keyCount {
		for s := next.slots[key]; s < next.slots[key+1]; s++ {
			in[l.door[s]][key] += l.entering[s] * l.backward[l.phaseOf(s)][s]
		}
		left := l.left[c.natural>>key&1]
		for d := range in {
			in[d][key] *= left
		}
		in[doorTonic][key] *= next.thin
	}
	l.spreadBack(&back, &in)
	sum := 0.0
	for key := range keyCount {
		away := 0.0
		for d := range back {
			away += back[d][key] * l.pivot[d][next.natural>>key&1]
		}
		sum += l.retreatKey(c, next, key, away*next.move)
	}
	c.keepInRange(&l.backward, sum)
}

func (l *lattice) retreatKey(c, next *column, key int, away float64) (sum float64) {
	mode := key % modeCount
	n := len(l.fit[mode])
	lo, hi := c.slots[key], c.slots[key+1]
	before := l.entries[lo:hi]
	open, done := l.backward[opening][lo:hi][:len(before)], l.backward[settled][lo:hi][:len(before)]
	for j, a := range before {
		e := &l.exit[mode][a]
		open[j], done[j] = e.quit*away*l.quitRich, e.leave*away
	}
	for t := next.slots[key]; t < next.slots[key+1]; t++ {
		b := int(l.entries[t])
		pair := l.pair[mode][b*n : b*n+n]
		x := l.own[t] * l.backward[settled][t]
		if l.door[t] != doorTonic {
			y := l.own[t] * l.backward[opening][t]
			for j, a := range before {
				p := float64(pair[a])
				open[j] += p * y
				done[j] += p * x
			}
			continue
		}
		cadence := l.cadence[mode][b*n : b*n+n]
		for j, a := range before {
			p := float64(pair[a]) * x
			open[j] += p * next.settle[cadence[a]&1]
			done[j] += p
		}
	}
	for j := range before {
		sum += open[j] + done[j]
	}
	return sum
}

// negligible is the probability below which a label counts for nothing in the
// path.
const negligible = 1e-3

// weigh multiplies both sums into probabilities and adds them up by label.
func (l *lattice) weigh(c *column) {
	lo, hi := c.slots[0], c.slots[keyCount]
	sum := 0.0
	for phase := range phaseCount {
		chance, forward, backward := l.chance[phase][lo:hi], l.forward[phase][lo:hi], l.backward[phase][lo:hi]
		for s := range chance {
			p := forward[s] * backward[s]
			chance[s] = p
			sum += p
		}
	}
	if sum == 0 { // what is given leaves no path
		clear(l.label[lo:hi])
		return
	}
	c.scale(&l.chance, 1/sum)
	for key := range keyCount {
		l.weighLabels(c, key)
	}
}

func (l *lattice) weighLabels(c *column, key int) {
	lo, hi := c.slots[key], c.slots[key+1]
	open, done, label := l.chance[opening][lo:hi], l.chance[settled][lo:hi], l.label[lo:hi]
	all := 0.0
	for s := range label {
		label[s] = open[s] + done[s]
		all += label[s]
	}
	if all < negligible {
		clear(label)
		return
	}
	l.live[key] = true
	entries := vocabularies[key%modeCount].entries
	for s := range label {
		sum, name := 0.0, entries[l.entries[lo+int32(s)]].label
		for t := range label {
			if entries[l.entries[lo+int32(t)]].label == name {
				sum += open[t] + done[t]
			}
		}
		if label[s] *= likelier; sum >= negligible {
			label[s] += sum
		}
	}
}

// likelier is the share of a state's own probability in what the path adds up:
// enough to choose between states of one label, too little to outweigh a label.
const likelier = 1e-6
