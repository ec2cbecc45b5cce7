package roadmap

import (
	"fmt"
	"slices"

	"fifthwise/pkg/chart"
)

// tidy puts the chords of a bar in the order of their places and leaves out
// those for which it has none.
func (b *Bar) tidy(n *notes) {
	slices.SortStableFunc(b.Chords, func(s, t chart.Slot) int { return s.At.Cmp(t.At) })
	kept := b.Chords[:0]
	for _, s := range b.Chords {
		switch k := len(kept); {
		case !s.At.Less(b.Len):
			n.warn(b.Number, "%s stands behind the bar's end and is left out", name(s))
		case k > 0 && kept[k-1].At == s.At:
			n.warn(b.Number, "%s stands where %s does and is left out", name(s), name(kept[k-1]))
		default:
			kept = append(kept, s)
		}
	}
	b.Chords = kept
}

func name(s chart.Slot) string {
	if s.Symbol != "" {
		return s.Symbol
	}
	return fmt.Sprint(s.Chord)
}

// What divides a beat more finely than a chart can is rounded to a grid.
const (
	finest = 10_000
	grid   = 480
)

// coarsen rounds the places of a bar if one of them, or what a chord lasts, is
// too fine.
func (b *Bar) coarsen(n *notes) {
	if !b.isTooFine() {
		return
	}
	b.Len = rounded(b.Len)
	for i := range b.Chords {
		b.Chords[i].At = rounded(b.Chords[i].At)
	}
	b.tidy(n)
}

func (b *Bar) isTooFine() bool {
	end := b.Len
	for _, s := range slices.Backward(b.Chords) {
		if isFine(s.At) || isFine(end.Sub(s.At)) {
			return true
		}
		end = s.At
	}
	return isFine(b.Len)
}

func isFine(b chart.Beats) bool {
	_, den := b.Fraction()
	return den > finest
}

func rounded(b chart.Beats) chart.Beats {
	num, den := b.Fraction()
	return chart.B(chart.B(2*num*grid+den, 2*den).Int(), grid)
}
