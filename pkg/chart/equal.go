package chart

import (
	"slices"
	"strings"
)

// Equal reports whether both charts write the same music in the same bars:
// title, key, pickup, meters, sections, repeats, and chords with their places.
// Numbers of bars, symbols as written and warnings do not enter.
func (c Chart) Equal(d Chart) bool {
	if strings.TrimSpace(c.Title) != strings.TrimSpace(d.Title) || c.Key != d.Key || c.Pickup != d.Pickup || len(c.Bars) != len(d.Bars) {
		return false
	}
	left, right := c.resolved(), d.resolved()
	for i := range left {
		if !left[i].equal(&right[i], i == 0 && !c.Pickup.IsZero()) {
			return false
		}
	}
	return true
}

func (b *Bar) equal(o *Bar, pickup bool) bool {
	if b.Meter != o.Meter || strings.TrimSpace(b.Section) != strings.TrimSpace(o.Section) || b.Double != o.Double ||
		b.RepeatStart != o.RepeatStart || b.RepeatEnd != o.RepeatEnd || !slices.Equal(b.Ending, o.Ending) {
		return false
	}
	left, right := b.Chords, o.Chords
	if full := b.Meter.Beats(); pickup {
		left, right = moved(left, full.Sub(b.end(full))), moved(right, full.Sub(o.end(full)))
	}
	return slices.EqualFunc(left, right, func(s, t Slot) bool {
		return s.Chord == t.Chord && s.At == t.At && s.Len == t.Len && s.Optional == t.Optional
	})
}
