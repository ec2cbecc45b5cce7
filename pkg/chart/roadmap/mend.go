package roadmap

import (
	"slices"
	"strconv"
	"strings"
)

// mend leaves out the signs of repeats that go nowhere and adds the :| that an
// ending before another must have meant.
func mend(list []placed, n *notes) {
	m := mending{list: list, notes: n, open: -1}
	for i := range list {
		m.start(i)
		m.ending(i)
		if list[i].RepeatEnd {
			m.open = -1
		}
		if t := list[i].Times; t < 0 || t > maxTimes {
			n.warn(list[i].Number, "a passage is played 1 to %d times, not %d; the number is left out", maxTimes, t)
			list[i].Times = 0
		}
	}
	if m.open >= 0 {
		m.notClosed()
	}
}

type mending struct {
	*notes
	list   []placed
	open   int   // the bar of a |: not yet closed; -1: none
	passes []int // of the last endings met
}

func (m *mending) start(i int) {
	if !m.list[i].RepeatStart {
		return
	}
	if m.open >= 0 {
		m.notClosed()
	}
	m.open = i
	if !isLaterEnding(m.list[i].Ending) {
		m.passes = nil
	}
}

func (m *mending) notClosed() {
	b := &m.list[m.open]
	b.RepeatStart = false
	m.warn(b.Number, "the repeat that starts here is not closed; it is left out")
}

func (m *mending) ending(i int) {
	b := &m.list[i]
	m.bound(b)
	switch {
	case len(b.Ending) == 0:
		return
	case slices.Contains(b.Ending, 1):
		m.passes = nil
	case len(m.passes) == 0:
		m.warn(b.Number, "ending %s follows no ending 1; it is left out", names(b.Ending))
		b.Ending = nil
		return
	default:
		m.closeBefore(i)
	}
	m.passes = append(m.passes, b.Ending...)
}

// bound leaves out passes that there are none of.
func (m *mending) bound(b *placed) {
	var passes []int
	for _, n := range b.Ending {
		switch {
		case n < 1 || n > maxTimes:
			m.warn(b.Number, "endings are numbered from 1 to %d; %d is left out", maxTimes, n)
		case !slices.Contains(passes, n):
			passes = append(passes, n)
		}
	}
	b.Ending = passes
}

// closeBefore sees to it that the ending before a later one goes back.
func (m *mending) closeBefore(i int) {
	for k := i - 1; k >= 0; k-- {
		b := &m.list[k]
		if b.RepeatEnd || b.DaCapo || b.DalSegno != "" {
			return
		}
		if len(b.Ending) > 0 {
			m.warn(b.Number, "ending %s is not closed; it is read as if :| stood before ending %s", names(b.Ending), names(m.list[i].Ending))
			m.list[i-1].RepeatEnd = true
			m.open = -1
			return
		}
	}
}

// isLaterEnding reports whether an ending follows another of its repeat.
func isLaterEnding(passes []int) bool { return len(passes) > 0 && !slices.Contains(passes, 1) }

func names(passes []int) string {
	s := make([]string, len(passes))
	for i, n := range passes {
		s[i] = strconv.Itoa(n)
	}
	return strings.Join(s, ", ")
}
