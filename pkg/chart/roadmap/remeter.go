package roadmap

import "fifthwise/pkg/chart"

// remeter gives a bar that is not as long as its meter says a meter of its
// length, where there is one.
func (b *Bar) remeter(n *notes) {
	full := b.Meter.Beats()
	if b.Len == full || !b.Meter.IsValid() {
		return
	}
	m, ok := meterOf(b.Len, b.Meter)
	if !ok {
		n.warn(b.Number, "the bar has %s of %s beats and is read as whole", b.Len, full)
		b.Len = full
		b.tidy(n)
		return
	}
	if full.Less(b.Len) {
		n.warn(b.Number, "the bar is longer than its meter, %s, and is read in %s", b.Meter, m)
	}
	num, den := m.Beats().Fraction()
	over, under := b.Len.Fraction()
	for i := range b.Chords {
		above, below := b.Chords[i].At.Fraction()
		b.Chords[i].At = chart.B(above*num*under, below*den*over)
	}
	b.Meter, b.Len = m, m.Beats()
}

// meterOf is a meter as long as some beats of another, in its unit or the next
// smaller one that will do.
func meterOf(length chart.Beats, of chart.Meter) (chart.Meter, bool) {
	num, den := length.Fraction()
	if of.IsCompound() {
		num *= 3
	}
	for split := 1; int(of.Den)*split <= 32; split *= 2 {
		if n := num * split; n%den == 0 && n/den >= 1 && n/den <= 64 {
			return chart.Meter{Num: uint8(n / den), Den: of.Den * uint8(split)}, true
		}
	}
	return chart.Meter{}, false
}
