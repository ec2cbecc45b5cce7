package function

import "sync"

// The search.
//
// Input: the sounding chords of a chart as played. Equal neighbours within a
// section are one column. A state of a column is a key (12 tonics, major or
// minor), an entry of the vocabulary that fits the chord there, and whether
// the region is still opening (its tonic owed) or settled.
//
//  1. Forward and backward sums over all paths give every state's share of the
//     total probability; states of one key, degree and target make a label. Keys
//     whose share of a column is surely less than [faint] have none there.
//  2. The path shown is, of all admissible paths, the one with the largest sum
//     of label probabilities: dynamic programming over the same lattice. Of
//     states with one label the likelier is taken. Labels below a thousandth
//     count for nothing, and keys without any above it are passed over.
//  3. Ties go to staying in the key over changing it, to the key first in
//     order C, C minor, Db …, then to the earlier row of the vocabulary.
//
// Within a key a step multiplies a pair's factor; between keys the change is
// factored through the 24 keys, so that the work is linear in chords. A column's
// forward sums are divided by their total on the way to the next, and backward
// sums by the same number, so that what they make together stays in range. See L. R. Rabiner, "A tutorial on hidden Markov
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

// A slot is an entry that fits a column's chord in a key. A column's slots lie
// together, key by key, in the order of the vocabulary.
type slot struct {
	own      float64 // the factor of the chord itself
	entering float64 // own, and what a region that starts here pays
	entry    uint16
	door     door // how a region begins here
	later    bool // not the symbol's first hearing
}

// start is the phase in which a region that begins on the slot is.
func (s *slot) start() int {
	if s.door == doorTonic {
		return settled
	}
	return opening
}

// A lattice holds the columns of one search and what has been found out about
// their states.
type lattice struct {
	*Model
	columns                   []column
	slots                     []slot
	heard                     []hearing           // of all columns, one after the other
	pairs                     []float32           // of neighbouring slots of a key: column by column, key by key, by slot, then by slot before
	leaving                   [][keyCount]float64 // by column: the sums of what may leave each key behind it
	forward, backward, chance states
	label                     []float64 // by slot: the probability of its label, and a trace of its own
	best                      states
	hint                      int // the key that the chart states; -1 for none
	style                     style
	room                      [16]usage
	open, thin                ring                  // of the model, for this chart's style
	pivot                     [doorCount][2]float64 // factor where a region's first chord is, 1, or is not, 0, diatonic in the old key
	left                      [2]float64            // … where the last chord is in the new key
	blue                      float64               // factor for entries that want a blues
	twoRich                   float64               // further factor of a region that starts on its two
	quitRich                  float64               // further factor of leaving a region whose tonic is owed
	home                      homes                 // what speaks for each key as the tune's home
	homeFactor                [keyCount]float64
	end                       float64             // the sum over all paths, as scaled
	share                     [keyCount]float64   // of the column last weighed
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
	l.leaving = resized(l.leaving, len(l.columns))
}

// sum runs both passes and fills chance and label.
func (l *lattice) sum() {
	l.resize(len(l.slots))
	l.start()
	l.pairs = l.pairs[:0]
	for i := 1; i < len(l.columns); i++ {
		l.advance(i)
	}
	l.finish()
	for i := len(l.columns) - 2; i >= 0; i-- {
		l.retreat(i)
	}
}
