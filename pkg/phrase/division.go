package phrase

import (
	"cmp"
	"slices"
)

// What it costs to remember a passage, in chords. A player keeps the chords of a
// phrase once, with its name, and then only where it comes back.
// Common practice, no source; set by hand.
const (
	costName     = 1.0 // a phrase beyond its chords
	costReturn   = 1.0 // a phrase comes back
	costMoved    = 1.0 // … in another key
	costOdd      = 2.0 // a length other than 4, 8, 12 or 16 bars
	costFour     = .25 // a length of 4 bars rather than 8
	costTwelve   = 1.0 // … of 12
	costSixteen  = 1.5 // … of 16: two phrases and their names cost less, if nothing returns
	costOffGrid  = 1.0 // a start off the four-bar groups from the last mark
	costDoubleUp = -.5 // a start at a double bar or repeat sign
)

// A division is the search for a cover of stretches without marks.
type division struct {
	*piece
	stretches []span
	returns   [longestPhrase + 1][]float64 // by length and start
	learnt    [longestPhrase + 1][]float64 // what each passage costs to learn, with its name
	cost      []float64                    // of the bars up to here
	place     []float64                    // what it costs to begin a phrase with a bar
	from      []int32                      // length of the last phrase on the cheapest way
}

func newDivision(p *piece, stretches []span) *division {
	d := &division{piece: p, stretches: stretches, cost: make([]float64, len(p.bars)+1), from: make([]int32, len(p.bars)+1)}
	n := len(p.bars)
	room := make([]float64, n*(2*longestPhrase+1))
	d.place = room[:n]
	for length := 1; length <= longestPhrase; length++ {
		at := room[n*(2*length-1):]
		d.returns[length], d.learnt[length] = at[:n:n], at[n:2*n:2*n]
		for i := range d.returns[length] {
			d.returns[length][i] = -1
		}
	}
	for _, s := range stretches {
		for i := s.start; i < s.start+s.length; i++ {
			d.place[i] = d.placeCost(i, s)
		}
	}
	for i := range p.bars {
		l := p.learning(span{i, min(longestPhrase, len(p.bars)-i)})
		for length := 1; length <= min(longestPhrase, len(p.bars)-i); length++ {
			d.learnt[length][i] = costName + float64(l.cost[length])
		}
	}
	return d
}

// A candidate is a phrase that might be worth keeping.
type candidate struct {
	span
	defines float64 // what it costs to learn
	saves   float64 // at most, by its returns
	at      []match
}

// A match is where a candidate stands, and what that costs to remember.
type match struct {
	start int
	cost  float64
}

// mostCandidates bounds the phrases that are tried, and mostAlike those of them
// that begin alike, the first in the tune.
const (
	mostCandidates = 40
	mostAlike      = 8
)

// best grows the set of phrases that return and gives the cheapest cover.
func (d *division) best() []span {
	total, defined := d.solve(), 0.0
	for _, c := range d.candidates() {
		before := d.keep(&c)
		if with := d.solve() + defined + c.defines; with < total-1e-9 {
			total, defined = with, defined+c.defines
			continue
		}
		for k, m := range c.at {
			d.returns[c.length][m.start] = before[k]
		}
	}
	d.solve()
	return d.spans()
}

// keep lets a candidate return where it matches; it gives what stood there.
func (d *division) keep(c *candidate) (before []float64) {
	for _, m := range c.at {
		r := &d.returns[c.length][m.start]
		before = append(before, *r)
		if *r < 0 || m.cost < *r {
			*r = m.cost
		}
	}
	return before
}

// candidates lists what may be worth keeping, what saves most first.
func (d *division) candidates() (list []candidate) {
	begun := make([]beginning, 2*len(d.bars)+1) // by the class of the first half
	seen := make([]int, len(begun))             // the last length of which there was a passage, by its class
	next := make([]int32, len(d.bars))
	for _, length := range d.lengths() {
		class, half := d.classes(length), d.classes(max(1, length/2))
		clear(begun)
		for i := len(d.bars) - 1; i >= 0; i-- {
			if class[i] >= 0 && d.inStretch(i, length) {
				b := &begun[half[i]]
				next[i], b.first = b.first, int32(i+1)
				b.bars++
			}
		}
		for i := range d.bars {
			if class[i] < 0 || seen[class[i]] == length || !d.inStretch(i, length) {
				continue
			}
			b := &begun[half[i]]
			if b.bars < 2 {
				continue
			}
			seen[class[i]] = length
			if b.tried++; b.tried > mostAlike {
				continue
			}
			if c := d.candidate(span{i, length}, b, next); c.saves > 0 {
				list = append(list, c)
			}
		}
	}
	slices.SortStableFunc(list, func(a, b candidate) int {
		return cmp.Or(cmp.Compare(b.saves, a.saves), cmp.Compare(a.start, b.start), cmp.Compare(a.length, b.length))
	})
	return list[:min(len(list), mostCandidates)]
}

// lengths of phrases that may return: those of four-bar groups, and of whole
// stretches, as repeats of odd length are.
func (d *division) lengths() []int {
	lengths := []int{16, 12, 8, 4}
	for _, s := range d.stretches {
		if s.length <= longestPhrase && !slices.Contains(lengths, s.length) {
			lengths = append(lengths, s.length)
		}
	}
	return lengths
}

// A beginning is the bars with which passages begin whose first halves are the
// same. They are listed one behind the other, from 1; 0 ends the list.
type beginning struct{ first, bars, tried int32 }

// candidate finds where a passage returns among others that begin like it.
func (d *division) candidate(s span, b *beginning, next []int32) (c candidate) {
	chords := d.chords(s.start, s.length)
	c = candidate{span: s, defines: d.learnt[s.length][s.start] - costReturn, at: make([]match, 0, b.bars)}
	free := 0
	for k := b.first; k > 0; k = next[k-1] {
		j := int(k - 1)
		m := match{start: j, cost: costReturn}
		if j != s.start {
			odd, near := d.isNear(s.start, j, s.length, chords)
			if !near {
				if s.length != wholePhrase || d.up(s.start, j, s.length) != 0 {
					continue
				}
				odd = d.oddBehind(s.start, j, s.length/2, s.length) // it varies the first: half is the same
			}
			m.cost += float64(odd)
			if d.up(s.start, j, s.length) != 0 {
				m.cost += costMoved
			}
		}
		c.at = append(c.at, m)
		if j >= free {
			free = j + s.length
			c.saves += float64(chords) - m.cost
		}
	}
	c.saves -= c.defines
	return c
}

func (d *division) inStretch(start, length int) bool {
	for _, s := range d.stretches {
		if start >= s.start && start+length <= s.start+s.length {
			return true
		}
	}
	return false
}

// solve finds the cheapest cover with the phrases kept so far, and its cost
// without what these cost to learn.
func (d *division) solve() (total float64) {
	for _, s := range d.stretches {
		d.cost[s.start] = 0
		for end := s.start + 1; end <= s.start+s.length; end++ {
			d.cost[end] = 1e18
			for length := 1; length <= min(longestPhrase, end-s.start); length++ {
				start := end - length
				learn := d.learnt[length][start]
				cost := d.cost[start] + d.place[start] + lengthCost[length]
				if back := d.returns[length][start]; back >= 0 && back < learn {
					cost += back
				} else {
					cost += learn
				}
				if cost < d.cost[end]-1e-9 {
					d.cost[end], d.from[end] = cost, int32(length)
				}
			}
		}
		total += d.cost[s.start+s.length]
	}
	return total
}

// lengthCost is what a phrase's length costs.
var lengthCost = func() (cost [longestPhrase + 1]float64) {
	for length := range cost {
		cost[length] = costOdd
	}
	cost[4], cost[8], cost[12], cost[16] = costFour, 0, costTwelve, costSixteen
	return cost
}()

// placeCost is what it costs to begin a phrase with a bar of a stretch.
func (d *division) placeCost(start int, s span) (cost float64) {
	if (start-s.start)%4 != 0 {
		cost += costOffGrid
	}
	if d.bars[start].soft && start > s.start {
		cost += costDoubleUp
	}
	return cost
}

// spans reads the cheapest cover back.
func (d *division) spans() (list []span) {
	for _, s := range d.stretches {
		var back []span
		for end := s.start + s.length; end > s.start; end -= int(d.from[end]) {
			back = append(back, span{end - int(d.from[end]), int(d.from[end])})
		}
		slices.Reverse(back)
		list = append(list, back...)
	}
	return list
}
