package phrase

import "fifthwise/pkg/pitch"

// groupsIn bounds the groups of bars that are looked for within a phrase of some
// length: longer ones are phrases themselves, but for those of long sections.
func groupsIn(length int) int {
	if length <= longestPhrase {
		return 2
	}
	return min(8, length/4)
}

// learn counts the chords that are left to remember of a phrase on its own: a
// group of bars that has just come in it, on whatever roots, costs what a
// return costs, and a two comes with the dominant that it prepares in its bar.
// The cheapest way through the phrase counts.
func (p *piece) learn(s span) int { return p.learnUpTo(s, make([]int, s.length+1))[s.length] }

// learnUpTo is the same for each length from the phrase's start.
func (p *piece) learnUpTo(s span, cost []int) []int {
	for end := 1; end <= s.length; end++ {
		cost[end] = cost[end-1] + p.bars[s.start+end-1].needed
		if end > 1 && p.holds(s.start+end-1) {
			cost[end] = cost[end-1] // the chord before goes on
		}
		for length := 1; length <= min(groupsIn(s.length), end/2); length++ {
			at := s.start + end - length
			if up, again := p.again(at-length, at, length); again {
				back := int(costReturn)
				if up != 0 {
					back += int(costMoved)
				}
				cost[end] = min(cost[end], cost[end-length]+back)
			}
		}
	}
	return cost
}

// holds: nothing but the chord that the bar before ended on sounds in bar i.
func (p *piece) holds(i int) bool {
	b := &p.bars[i]
	return b.chords == 1 && p.bars[i-1].chords == 1 && b.shape == p.bars[i-1].shape && b.root == p.bars[i-1].root
}

// again: two groups of bars are the same but for how far they are moved.
func (p *piece) again(i, j, length int) (up pitch.Class, again bool) {
	up = p.up(i, j, length)
	for k := range length {
		if _, exact := p.same(i+k, j+k, up); !exact {
			return up, false
		}
	}
	return up, true
}
