package sheet

import (
	"fifthwise/pkg/chord"
	"fifthwise/pkg/function"
)

// link ties two chords of the sheet: the bracket of a two-five or the arrow of a
// dominant that resolves. Solid means that the roots fall a fifth, dashed that
// they fall a half step, as a substitute's do (B. Nettles, R. Graf, The Chord
// Scale Theory and Jazz Harmony, from memory).
type link struct {
	from, to place
	kind     linkKind
	dashed   bool
}

type linkKind uint8

const (
	arrow linkKind = iota
	bracket
)

// place is a mark of a bar.
type place struct{ bar, mark int }

func (a place) less(b place) bool { return a.bar < b.bar || a.bar == b.bar && a.mark < b.mark }

// link finds the brackets and arrows between chords as first played.
func (p *page) link() {
	at := map[int]place{}
	for i := range p.bars {
		for k := range p.bars[i].marks {
			if c := p.bars[i].marks[k].chord; c >= 0 && !p.bars[i].simile {
				at[c] = place{i, k}
			}
		}
	}
	for i := range p.analysis.Chords {
		from, ok := at[i]
		if !ok {
			continue
		}
		if next, ok := at[i+1]; ok {
			if dashed, ok := p.isTwoFive(i); ok {
				p.links = append(p.links, link{from, next, bracket, dashed})
			}
		}
		if to, ok := at[p.analysis.Chords[i].ResolvesTo]; ok && from.less(to) {
			if dashed, ok := p.resolves(i); ok && !p.repeats(i, at) {
				p.links = append(p.links, link{from, to, arrow, dashed})
			}
		}
	}
}

// isTwoFive reports whether chord i and the next are a two-five, and whether the
// dominant is a substitute. The two need not bear that numeral: a IIIm7 is one
// before V7/II.
func (p *page) isTwoFive(i int) (dashed, ok bool) {
	two, five := &p.analysis.Chords[i], &p.analysis.Chords[i+1]
	if f := two.Event.Chord.Family(); f != chord.Minor && f != chord.HalfDiminished || !isDominant(five) {
		return false, false
	}
	if _, ok := two.Event.Chord.Quality().Seventh(); !ok && two.Event.Chord.Family() == chord.Minor {
		return false, false
	}
	return falls(two, five)
}

// resolves reports whether chord i is a dominant that falls to the chord that
// pays its debt, and whether by a half step.
func (p *page) resolves(i int) (dashed, ok bool) {
	r := &p.analysis.Chords[i]
	if !isDominant(r) {
		return false, false
	}
	return falls(r, &p.analysis.Chords[r.ResolvesTo])
}

// repeats reports whether a later dominant of those on the sheet, on the root of
// chord i, has the same resolution, as a seventh has that follows its suspension.
func (p *page) repeats(i int, at map[int]place) bool {
	r := &p.analysis.Chords[i]
	for k := i + 1; k < r.ResolvesTo; k++ {
		next := &p.analysis.Chords[k]
		if _, drawn := at[k]; drawn && isDominant(next) && next.ResolvesTo == r.ResolvesTo && next.Event.Chord.Root() == r.Event.Chord.Root() {
			return true
		}
	}
	return false
}

// falls reports whether the root falls a fifth or, dashed, a half step.
func falls(from, to *function.Reading) (dashed, ok bool) {
	if from.Event.Chord.IsSilence() || to.Event.Chord.IsSilence() {
		return false, false
	}
	switch (int(to.Event.Chord.Root().Class()) - int(from.Event.Chord.Root().Class()) + 12) % 12 {
	case 5:
		return false, true
	case 11:
		return true, true
	}
	return false, false
}

func isDominant(r *function.Reading) bool {
	f := r.Event.Chord.Family()
	return r.Function == function.Dominant && (f == chord.Dominant || f == chord.Major || f == chord.Suspended || f == chord.Augmented)
}
