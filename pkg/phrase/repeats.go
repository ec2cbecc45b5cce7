package phrase

import (
	"fifthwise/pkg/chord"
	"fifthwise/pkg/pitch"
)

// A piece is a tune in bars, ready to be compared with itself under
// transposition.
type piece struct {
	bars           []bar
	sorted, shared []int32         // suffixes of the text of bars and motions
	class          map[int][]int32 // by length; see classes
}

// newPiece writes shapes and motions as one text: the shape of bar 0, the motion
// to bar 1, the shape of bar 1, and so on. A passage of n bars is then 2n-1
// numbers from an even place, the same numbers in any key.
func newPiece(bars []bar) *piece {
	p := &piece{bars: bars, class: map[int][]int32{}}
	p.sorted, p.shared = suffixes(textOf(bars))
	return p
}

func textOf(bars []bar) []int32 {
	text := make([]int32, 0, 2*len(bars))
	for i := range bars {
		if i > 0 {
			text = append(text, int32(bars[i].root.Plus(-int(bars[i-1].root))))
		}
		text = append(text, 12+bars[i].shape)
	}
	return text
}

// classes numbers the passages of some length in bars by where they start:
// equal numbers, equal passages, whatever the key. -1 where none fits in.
func (p *piece) classes(length int) []int32 {
	if known, ok := p.class[length]; ok {
		return known
	}
	class := make([]int32, len(p.bars))
	for i := range class {
		class[i] = -1
	}
	need := int32(2*length - 1)
	number := int32(0)
	for k, s := range p.sorted {
		if p.shared[k] < need {
			number++
		}
		if start := int(s) / 2; s%2 == 0 && start+length <= len(p.bars) {
			class[start] = number
		}
	}
	p.class[length] = class
	return class
}

// A difference between two passages of one length.
type difference struct {
	motion pitch.Motion // from the first to the second
	bars   []int        // that differ, from 0
	chords int          // that differ in these
	exact  bool         // not even an ornament differs
}

// differ compares the passages of a length that start with bars i and j, the
// second moved as most of its bars are.
func (p *piece) differ(i, j, length int) difference {
	var votes [12]int
	best := p.up(i, j, length)
	for k := range length {
		if a, b := &p.bars[i+k], &p.bars[j+k]; !a.silent && !b.silent && a.shape == b.shape {
			votes[b.root.Plus(-int(a.root))]++
		}
	}
	for up, n := range votes {
		if n > votes[best] {
			best = pitch.Class(up)
		}
	}
	return p.differBy(i, j, length, best)
}

// isNear compares two passages that begin alike, as near does, and counts the
// chords that differ; it stops where they are not near.
func (p *piece) isNear(i, j, length, chords int) (odd int, near bool) {
	up := p.up(i, j, length)
	ending := true // only the last two bars differ
	for k := range length {
		if same, _ := p.same(i+k, j+k, up); same {
			continue
		}
		odd += p.odd(i+k, j+k, up)
		ending = ending && length >= longEnough && k >= length-2
		if 8*odd > chords && !ending {
			return 0, false
		}
	}
	return odd, true
}

// oddBehind counts the chords that differ between two passages of one pitch, from a
// bar of theirs on.
func (p *piece) oddBehind(i, j, from, length int) (odd int) {
	for k := from; k < length; k++ {
		if same, _ := p.same(i+k, j+k, 0); !same {
			odd += p.odd(i+k, j+k, 0)
		}
	}
	return odd
}

// odd counts the chords of bar i, moved up, that are not those of bar j, or the
// other way round, whichever are more.
func (p *piece) odd(i, j int, up pitch.Class) int {
	a, b := p.bars[i].sounds, p.bars[j].sounds
	common := 0
	for _, x := range a {
		for _, y := range b {
			if x.at == y.at && x.family == y.family && (x.family == chord.None || y.root == x.root.Plus(int(up))) {
				common++
				break
			}
		}
	}
	return max(len(a), len(b)) - common
}

// same: bar j is bar i moved up, but for ornaments; exact: even in these.
func (p *piece) same(i, j int, up pitch.Class) (same, exact bool) {
	a, b := &p.bars[i], &p.bars[j]
	if b.shape == a.shape && (a.silent || b.root == a.root.Plus(int(up))) {
		return true, true
	}
	return b.plain == a.plain && b.lead == a.lead.Plus(int(up)), false
}

// up is the way from the first root of one passage to that of the other where
// chords sound in both; 0 if none do.
func (p *piece) up(i, j, length int) pitch.Class {
	for k := range length {
		if a, b := &p.bars[i+k], &p.bars[j+k]; !a.silent && !b.silent {
			return b.root.Plus(-int(a.root))
		}
	}
	return 0
}

func (p *piece) differBy(i, j, length int, up pitch.Class) difference {
	d := difference{motion: pitch.Class(0).MotionTo(up), exact: true}
	for k := range length {
		same, exact := p.same(i+k, j+k, up)
		d.exact = d.exact && exact
		if !same {
			d.bars = append(d.bars, k)
			d.chords += p.odd(i+k, j+k, up)
		}
	}
	return d
}

// chords counts the chords of a passage.
func (p *piece) chords(start, length int) (n int) {
	for i := start; i < start+length; i++ {
		n += len(p.bars[i].sounds)
	}
	return n
}

// longEnough is the least length, in bars, of a phrase that may have two endings,
// longEnoughMarked that of a marked section: without marks half a phrase of four
// bars is too little to know it by.
const (
	longEnough       = 6
	longEnoughMarked = 4
)

// near: the two passages are one phrase, by the rule of players: at most one
// chord in eight differs, or only the last two bars do, as first and second
// endings.
func (d *difference) near(chords, length int, marked bool) bool {
	if 8*d.chords <= chords {
		return true
	}
	return (length >= longEnough || marked && length >= longEnoughMarked) && d.bars[0] >= length-2
}

// varies: at least half of the bars are the same, in short phrases and in another
// key three in four.
func (d *difference) varies(length int) bool {
	return 2*len(d.bars) <= length && (d.motion == 0 && length >= 8 || 4*len(d.bars) <= length)
}
