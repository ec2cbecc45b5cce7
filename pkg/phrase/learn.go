package phrase

import (
	"slices"

	"fifthwise/pkg/pitch"
)

// longestGroup bounds the groups of bars that are looked for within a phrase:
// longer ones are phrases themselves.
const longestGroup = 2

// A Group is a few bars of a phrase that have just come in it, on the same roots or
// moved: the second half of a sequence.
type Group struct {
	Bar    int          // its first, from 1 in the phrase
	Bars   int          // its length; the bars before it, as many, are what it repeats
	Motion pitch.Motion // from these
}

// learning is the cheapest way to remember a phrase on its own, bar by bar: what
// each stretch from its start costs, and the groups that end with each bar.
type learning struct {
	cost  [longestPhrase + 1]int
	group [longestPhrase + 1]int // length of the group; 0 for a bar that is learnt
}

// learn counts the chords that are left to remember of a phrase on its own: a
// group of bars that has just come in it, on whatever roots, costs what a
// return costs, and a two comes with the dominant that it prepares in its bar.
// The cheapest way through the phrase counts. Sections longer than phrases are
// learnt in stretches.
func (p *piece) learn(s span) (chords int, groups []Group) {
	for start := 0; start < s.length; start += longestPhrase {
		part := span{s.start + start, min(longestPhrase, s.length-start)}
		l := p.learning(part)
		chords += l.cost[part.length]
		var back []Group
		for end := part.length; end > 0; end -= max(1, l.group[end]) {
			if n := l.group[end]; n > 0 {
				at := part.start + end - n
				back = append(back, Group{start + end - n + 1, n, pitch.Class(0).MotionTo(p.up(at-n, at, n))})
			}
		}
		slices.Reverse(back)
		groups = append(groups, back...)
	}
	return chords, groups
}

func (p *piece) learning(s span) (l learning) {
	for end := 1; end <= s.length; end++ {
		l.cost[end] = l.cost[end-1] + p.bars[s.start+end-1].needed
		if end > 1 && p.holds(s.start+end-1) {
			l.cost[end] = l.cost[end-1] // the chord before goes on
		}
		for length := 1; length <= min(longestGroup, end/2); length++ {
			at := s.start + end - length
			up, again := p.again(at-length, at, length)
			if !again {
				continue
			}
			back := l.cost[end-length] + int(costReturn)
			if up != 0 {
				back += int(costMoved)
			}
			if back < l.cost[end] || back == l.cost[end] && length > 1 {
				l.cost[end], l.group[end] = back, length
			}
		}
	}
	return l
}

// holds: nothing but the chord that the bar before ended on sounds in bar i.
func (p *piece) holds(i int) bool {
	before, b := &p.bars[i-1], &p.bars[i]
	return len(b.sounds) == 1 && b.shape == before.shape && b.root == before.root
}

// again: two groups of bars are the same but for how far they are moved.
func (p *piece) again(i, j, length int) (up pitch.Class, again bool) {
	if p.bars[i].shape != p.bars[j].shape {
		return 0, false // as most are
	}
	up = p.up(i, j, length)
	for k := range length {
		if _, exact := p.same(i+k, j+k, up); !exact {
			return up, false
		}
	}
	return up, true
}
