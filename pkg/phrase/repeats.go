package phrase

import (
	"math"

	"fifthwise/pkg/pitch"
)

// A piece is a tune in bars, ready to be compared with itself under
// transposition.
type piece struct {
	bars           []bar
	sorted, shared []int32 // suffixes of the text of bars and motions
}

// newPiece writes shapes and motions as one text: the shape of bar 0, the motion
// to bar 1, the shape of bar 1, and so on. A passage of n bars is then 2n-1
// numbers from an even place, the same numbers in any key.
func newPiece(bars []bar) *piece {
	p := &piece{bars: bars}
	text := make([]int32, 0, 2*len(bars))
	for i := range bars {
		if i > 0 {
			text = append(text, int32(bars[i].root.Plus(-int(bars[i-1].root))))
		}
		text = append(text, 12+bars[i].shape)
	}
	p.sorted, p.shared = suffixes(text)
	return p
}

// classes numbers the passages of some length in bars by where they start:
// equal numbers, equal passages, whatever the key. -1 where none fits in.
func (p *piece) classes(length int) []int32 {
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
	return class
}

// A difference between two passages of one length.
type difference struct {
	motion pitch.Motion // from the first to the second
	bars   []int        // that differ, from 0
	chords int          // in these, of the longer side
	exact  bool         // not even an ornament differs
}

// differ compares the passages of a length that start with bars i and j, the
// second moved so that the most bars are equal.
func (p *piece) differ(i, j, length int) difference {
	best := p.up(i, j, length)
	least := p.apart(i, j, length, best, math.MaxInt)
	tried := uint16(1) << best
	for k := 0; k < length && least > 0; k++ {
		up := p.bars[j+k].root.Plus(-int(p.bars[i+k].root))
		if tried>>up&1 != 0 {
			continue
		}
		tried |= 1 << up
		if chords := p.apart(i, j, length, up, least); chords < least {
			best, least = up, chords
		}
	}
	return p.differBy(i, j, length, best)
}

// apart counts the chords in bars that differ, as far as most.
func (p *piece) apart(i, j, length int, up pitch.Class, most int) (chords int) {
	for k := 0; k < length && chords < most; k++ {
		if same, _ := p.same(i+k, j+k, up); !same {
			chords += max(p.bars[i+k].chords, p.bars[j+k].chords)
		}
	}
	return chords
}

// same: bar j is bar i moved up, but for ornaments; exact: even in these.
func (p *piece) same(i, j int, up pitch.Class) (same, exact bool) {
	a, b := &p.bars[i], &p.bars[j]
	if b.shape == a.shape && (a.silent || b.root == a.root.Plus(int(up))) {
		return true, true
	}
	return b.plain == a.plain && p.plainRoot(j) == p.plainRoot(i).Plus(int(up)), false
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
	d := difference{motion: pitch.Motion(up), exact: true}
	if up > 6 {
		d.motion = pitch.Motion(int(up) - 12)
	}
	for k := range length {
		same, exact := p.same(i+k, j+k, up)
		d.exact = d.exact && exact
		if !same {
			d.bars = append(d.bars, k)
			d.chords += max(p.bars[i+k].chords, p.bars[j+k].chords)
		}
	}
	return d
}

// plainRoot is the root of a bar's first chord without twos.
func (p *piece) plainRoot(i int) pitch.Class { return p.bars[i].root.Plus(int(p.bars[i].lead)) }

// chords counts the chords of a passage.
func (p *piece) chords(start, length int) (n int) {
	for i := start; i < start+length; i++ {
		n += p.bars[i].chords
	}
	return n
}

// near: the two passages are one phrase, by the rule of players: at most one
// chord in eight differs, or only the last two bars do, as first and second
// endings.
func (d *difference) near(chords, length int) bool {
	if 8*d.chords <= chords {
		return true
	}
	return length >= 6 && d.bars[0] >= length-2
}

// varies: at least half of the bars are the same.
func (d *difference) varies(length int) bool { return 2*len(d.bars) <= length }
