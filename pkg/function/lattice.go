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
//     total probability; states of one key, degree and target make a label.
//  2. The path shown is, of all admissible paths, the one with the largest sum
//     of label probabilities, less a price on changes of key that hardly any
//     path has where this one has them: labels alone may add up to a region
//     that is left before its tonic for another that begins behind it. Dynamic
//     programming over the same lattice. Of states with one label the likelier
//     is taken. Labels below a thousandth count for nothing, and keys without
//     any above it are passed over.
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

// of is a column's part.
func (s *states) of(c *column) (open, done []float64) {
	lo, hi := c.all()
	return s[opening][lo:hi], s[settled][lo:hi]
}

func resized[T any](s []T, n int) []T {
	if cap(s) < n {
		return make([]T, n, n+n/4)
	}
	return s[:n]
}

// A lattice holds the columns of one search and what has been found out about
// their states: those of a column lie together, in the order of its shape's slots.
type lattice struct {
	*Model
	columns                   []column
	prices                    []price
	own                       []float64           // by slot: the factor of the chord itself
	leaving                   [][keyCount]float64 // by column: the sums of what may leave each key behind it
	shares, kept              [][keyCount]float64 // by column: the probability of each key, and that it goes on behind it
	forward, backward, chance states
	label                     []float64 // by slot: the probability of its label, and a trace of its own
	best                      states
	back                      [phaseCount][]int32 // by slot: the state before, slot*phaseCount+phase; -1 at the start
	ways                      [][phaseCount]way   // into the slots of the column at hand
	hint                      int                 // the key that the chart states; -1 for none
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
	end                       float64           // the sum over all paths, as scaled, but for what was passed over
	share                     [keyCount]float64 // of the column last weighed
	live                      [keyCount]bool    // some label of the key counts somewhere
	logSum                    float64           // logarithm of the sum over all paths
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
	l.shares = resized(l.shares, len(l.columns))
	l.kept = resized(l.kept, len(l.columns))
}

// sum runs both passes and fills chance and label. A key of which less than a faint
// share of all paths can come is passed over in a column; with 0 all are heard.
func (l *lattice) sum(faint float64) {
	l.resize(len(l.own))
	l.start()
	for i := range l.columns[1:] {
		l.advance(i + 1)
	}
	l.finish()
	for i := len(l.columns) - 2; i >= 0; i-- {
		l.retreat(i, faint)
	}
}
