package sheet

import (
	"fifthwise/pkg/chart"
	"fifthwise/pkg/function"
	"fifthwise/pkg/key"
)

// Marks are the words of a reading for the chords of its chart, in the order of
// play: below each its numeral; above it the key, where that is not the key of
// the chord before, with the interval from there. On later passes a key is told
// only where it is not the key of the first. written names for each bar of the
// chart the bar on paper, so that bars that stand in the chart twice are known
// for one; nil where none do.
func Marks(a function.Analysis, s Style, written []int) []chart.Mark {
	type place struct{ bar, chord int }
	first := map[place]key.Key{}
	marks := make([]chart.Mark, 0, len(a.Chords))
	shown, slot := key.Key{}, 0
	for i, r := range a.Chords {
		e := r.Event
		if slot++; i == 0 || a.Chords[i-1].Event.Measure != e.Measure {
			slot = 0
		}
		if e.Chord.IsSilence() {
			continue
		}
		m := chart.Mark{Bar: e.BarIndex, Chord: slot, Below: r.Numeral.Text(s.Numerals, r.Key.Mode(), s.Accidentals)}
		at := place{e.BarIndex, slot}
		if written != nil {
			at.bar = written[e.BarIndex]
		}
		was, again := first[at]
		if !again {
			first[at] = r.Key
		}
		if r.Key != shown && r.Key != was {
			m.Above = string(r.Key.AppendTo(nil, s.Accidentals))
			if move := a.Move(r.Region); move != "" && a.Regions[r.Region].First == i && !again {
				m.Above += ", " + move
			}
		}
		shown = r.Key
		marks = append(marks, m)
	}
	return marks
}
