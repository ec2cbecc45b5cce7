package phrase

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
func (p *piece) learn(s span) int {
	cost := make([]int, s.length+1)
	for end := 1; end <= s.length; end++ {
		cost[end] = cost[end-1] + p.bars[s.start+end-1].needed
		if end > 1 && p.holds(s.start+end-1) {
			cost[end] = cost[end-1] // the chord before goes on
		}
		for length := 1; length <= min(groupsIn(s.length), end/2); length++ {
			at := s.start + end - length
			d := p.differBy(at-length, at, length, p.bars[at].root.Plus(-int(p.bars[at-length].root)))
			if d.exact {
				back := int(costReturn)
				if d.motion != 0 {
					back += int(costMoved)
				}
				cost[end] = min(cost[end], cost[end-length]+back)
			}
		}
	}
	return cost[s.length]
}

// holds: nothing but the chord that the bar before ended on sounds in bar i.
func (p *piece) holds(i int) bool {
	b := &p.bars[i]
	return b.chords == 1 && p.bars[i-1].chords == 1 && b.shape == p.bars[i-1].shape && b.root == p.bars[i-1].root
}
