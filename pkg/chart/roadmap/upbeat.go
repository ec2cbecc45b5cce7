package roadmap

import (
	"cmp"
	"slices"
)

// withoutUpbeats makes upbeats without chords part of the bars before them, in
// which the chord goes on sounding, and whole bars of those. It does so where
// every time that one of both is played the other is too; only the first bar of
// the tune may be an upbeat to nothing, and the last lack one.
func withoutUpbeats(list []placed, order []int) ([]placed, []int) {
	u := upbeats{list: list, order: order, noUpbeat: make([]bool, len(list)), noFront: make([]bool, len(list))}
	for u.rule() {
	}
	return u.take()
}

type upbeats struct {
	list              []placed
	order             []int
	noUpbeat, noFront []bool // bars that are not the second or the first part of one
}

// rule finds bars that are no parts of others, and reports whether there were
// any not yet known.
func (u *upbeats) rule() (found bool) {
	for k := range len(u.order) - 1 {
		i, j := u.order[k], u.order[k+1]
		if u.pairs(k) || u.noFront[i] && u.noUpbeat[j] {
			continue
		}
		u.noFront[i], u.noUpbeat[j], found = true, true, true
	}
	return found
}

// pairs reports whether the bar played at k and the next may be one.
func (u *upbeats) pairs(k int) bool {
	i, j := u.order[k], u.order[k+1]
	if u.noFront[i] || u.noUpbeat[j] || isUpbeat(u.list, i) {
		return false
	}
	if !completes(u.list[i].Bar, u.list[j].Bar) || len(u.list[j].Chords) > 0 {
		return false
	}
	return k == 0 || len(u.list[i].Chords) > 0 || u.noUpbeat[i]
}

// take is the bars and the order of play without those that became part of
// others. The tune's own upbeat stays where it starts the tune.
func (u *upbeats) take() ([]placed, []int) {
	list := slices.Clone(u.list)
	gone := make([]bool, len(list))
	var order []int
	for k, i := range u.order {
		if k > 0 && u.pairs(k-1) {
			front := &list[u.order[k-1]]
			front.Len = front.Meter.Beats()
			gone[i] = true
			continue
		}
		order = append(order, i)
	}
	for i := range list {
		if gone[i] {
			handOn(list, i)
		}
	}
	var rest []placed
	now := make([]int, len(list))
	for i := range list {
		now[i] = len(rest)
		if i == 0 || !gone[i] {
			rest = append(rest, list[i])
		}
	}
	for k, i := range order {
		order[k] = now[i]
	}
	return rest, order
}

// handOn gives the signs of an upbeat to the bars beside it.
func handOn(list []placed, i int) {
	b := &list[i]
	if i+1 < len(list) {
		after := &list[i+1]
		if b.RepeatStart && (!after.RepeatStart || !b.Implied) {
			after.RepeatStart, after.Implied = true, b.Implied
		}
		b.RepeatStart = false
		if i > 0 {
			after.Section = cmp.Or(after.Section, b.Section)
		}
		if len(after.Ending) == 0 {
			after.Ending = b.Ending
		}
	}
	if i > 0 {
		before := &list[i-1]
		before.Double = before.Double || b.Double
		before.RepeatEnd = before.RepeatEnd || b.RepeatEnd
	}
}

const filledUpWarning = "the bar lacks an upbeat and is read as whole"

// filledUp makes whole the bars before repeats and sections that lack just the
// upbeat which follows them, without chords, or which the tune starts with: some
// times through it comes and others not, and players count such a bar as whole.
func filledUp(list []placed, order []int, n *notes) (filled []placed, any bool) {
	list = slices.Clone(list)
	supplied := map[int]bool{} // bars from which one goes back to an upbeat that sounds
	for k := range len(order) - 1 {
		if order[k+1] == 0 && len(list[0].Chords) > 0 {
			supplied[order[k]] = true
		}
	}
	for i := 0; i < len(list); i++ {
		b := &list[i]
		if isUpbeat(list, i) || i+1 == len(list) || !isShort(b.Bar) {
			filled = append(filled, *b)
			continue
		}
		follows := len(list[i+1].Chords) == 0 && completes(b.Bar, list[i+1].Bar)
		if follows || b.RepeatEnd && !supplied[i] && !isShort(list[i+1].Bar) && isUpbeat(list, 0) && completes(b.Bar, list[0].Bar) {
			n.warn(b.Number, filledUpWarning)
			b.Len, any = b.Meter.Beats(), true
		}
		if follows {
			handOn(list, i+1)
			b = &list[i]
		}
		filled = append(filled, *b)
		if follows {
			i++
		}
	}
	return filled, any
}
