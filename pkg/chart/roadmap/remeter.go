package roadmap

// remeter gives a bar that is not as long as its meter says a meter of its
// length, where there is one.
func (b *Bar) remeter(n *notes) {
	full := b.Meter.Beats()
	if b.Len == full || !b.Meter.IsValid() {
		return
	}
	was := b.Meter
	if !b.Remeter(b.Len) {
		n.warn(b.Number, "the bar has %s of %s beats and is read as whole", b.Len, full)
		b.Len = full
		b.tidy(n)
		return
	}
	if full.Less(b.Len) {
		n.warn(b.Number, "the bar is longer than its meter, %s, and is read in %s", was, b.Meter)
	}
	b.Len = b.Meter.Beats()
}
