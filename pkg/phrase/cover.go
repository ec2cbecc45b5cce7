package phrase

import "slices"

// The longest phrase that is not marked, and the length that phrases have most, in
// bars. Two of that length under one mark may be two phrases, and in a tune without
// marks a second half that differs makes a variant.
const (
	longestPhrase = 16
	wholePhrase   = 8
)

// A span is a stretch of bars in the cover.
type span struct{ start, length int }

// sections are the bars from mark to mark, or from where a repeat returns to.
func (p *piece) sections() (spans []span) {
	for start := 0; start < len(p.bars); {
		end := start + 1
		for end < len(p.bars) && !p.bars[end].opens {
			end++
		}
		spans = append(spans, span{start, end - start})
		start = end
	}
	return spans
}

// asMarked divides a tune at its marks: marked sections are phrases as they stand.
func (p *piece) asMarked(sections []span) []span {
	return p.divided(sections, func(s span) bool { return s.length > longestPhrase && !p.bars[s.start].named })
}

// freely divides marked sections too, where they are longer than phrases or one and
// its return.
func (p *piece) freely(sections []span) []span {
	return p.divided(p.halved(sections), func(s span) bool { return s.length > longestPhrase })
}

func (p *piece) isMarked() bool {
	return slices.ContainsFunc(p.bars, func(b bar) bool { return b.named })
}

// halved divides the marked sections of 16 bars whose second half varies the first,
// as where one mark stands for a phrase and its return.
func (p *piece) halved(spans []span) (all []span) {
	for _, s := range spans {
		if p.bars[s.start].named && s.length == 2*wholePhrase && p.returns(s.start, s.start+wholePhrase, wholePhrase) {
			all = append(all, span{s.start, wholePhrase}, span{s.start + wholePhrase, wholePhrase})
		} else {
			all = append(all, s)
		}
	}
	return all
}

// returns: the passage at j is that at i again, or varies it.
func (p *piece) returns(i, j, length int) bool {
	d := p.differ(i, j, length)
	return d.varies(length) || d.near(max(p.chords(i, length), p.chords(j, length)), length, p.bars[i].named)
}

// divided divides those of the spans that are plain, so that least is to be
// remembered: for a given set of phrases that return, the cheapest cover by dynamic
// programming; the set grows greedily while that saves. The best of all is not
// claimed.
func (p *piece) divided(spans []span, isPlain func(span) bool) (all []span) {
	var plain []span
	for _, s := range spans {
		if isPlain(s) {
			plain = append(plain, s)
		}
	}
	if len(plain) == 0 {
		return spans
	}
	phrases := newDivision(p, plain).best()
	for _, s := range spans {
		if !isPlain(s) {
			all = append(all, s)
			continue
		}
		for _, d := range phrases {
			if d.start >= s.start && d.start < s.start+s.length {
				all = append(all, d)
			}
		}
	}
	return all
}
