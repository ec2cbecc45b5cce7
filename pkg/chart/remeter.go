package chart

// Remeter gives a bar a meter that lasts so many of its beats, in the unit of its
// own meter or the next smaller one that will do, and places its chords in the
// beats of that. It is false, and the bar stays as it is, if no meter lasts so
// long, or the bar states no valid one.
func (b *Bar) Remeter(length Beats) bool {
	m, ok := b.Meter.lasting(length)
	if !ok {
		return false
	}
	num, den := m.Beats().Fraction()
	over, under := length.Fraction()
	scaled := func(at Beats) Beats {
		n, d := at.Fraction()
		return B(n*num*under, d*den*over)
	}
	slots := make([]Slot, len(b.Chords))
	for i, s := range b.Chords {
		s.At, s.Len = scaled(s.At), scaled(s.Len)
		slots[i] = s
	}
	b.Meter, b.Chords = m, slots
	return true
}

// lasting is a meter of so many of m's beats.
func (m Meter) lasting(length Beats) (Meter, bool) {
	if !m.IsValid() {
		return Meter{}, false
	}
	num, den := length.Fraction()
	if m.IsCompound() {
		num *= 3
	}
	for split := 1; int(m.Den)*split <= 32; split *= 2 {
		if n := num * split; n%den == 0 && n/den >= 1 && n/den <= 64 {
			return Meter{Num: uint8(n / den), Den: m.Den * uint8(split)}, true
		}
	}
	return Meter{}, false
}
