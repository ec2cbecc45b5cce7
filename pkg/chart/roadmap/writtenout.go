package roadmap

import (
	"slices"

	"fifthwise/pkg/chart"
)

// writtenOut is the bars in the order of play, without signs: double bars stand
// where the way leads elsewhere or a repeat begins or ends; an ending goes on with
// its phrase. Where the way leads into the midst of a section, that is named again.
func writtenOut(list []placed, order []int) []placed {
	out := make([]placed, 0, len(order))
	in := sections(list)
	now := ""
	for k, i := range order {
		b := list[i]
		breaks := false
		if k+1 < len(order) {
			to := order[k+1]
			n := list[to]
			starts := n.RepeatStart && !(n.Implied && isLaterEnding(n.Ending))
			breaks = to <= i || starts || to > i+1 && len(n.Ending) == 0
		}
		section := b.Section
		if in[i] != now {
			section = in[i]
		}
		now = in[i]
		out = append(out, placed{written: b.written, Bar: Bar{Len: b.Len, Bar: chart.Bar{
			Number: b.Number, Meter: b.Meter, Section: section,
			Chords: slices.Clone(b.Chords), Double: b.Double || b.RepeatEnd || breaks,
		}}})
	}
	return out
}

// codaName is the section that starts at a coda sign and has no name of its own.
const codaName = "Coda"

// sections is the name of the section that each bar lies in.
func sections(list []placed) []string {
	in := make([]string, len(list))
	now := ""
	for i, b := range list {
		switch {
		case b.Section != "":
			now = b.Section
		case b.Coda != "":
			now = codaName
		}
		in[i] = now
	}
	return in
}
