package roadmap

import "fifthwise/pkg/chart"

// unsplit makes one bar of two short ones that are the parts of it, divided for
// a line's or a double bar's sake. A double bar between them moves behind.
func unsplit(list []placed) []placed {
	var whole []placed
	for i := 0; i < len(list); i++ {
		b := list[i]
		if i+1 < len(list) && !isUpbeat(list, i) && completes(b.Bar, list[i+1].Bar) && !isSignBetween(b.Bar, list[i+1].Bar) {
			b = united(b, list[i+1])
			i++
		}
		whole = append(whole, b)
	}
	return whole
}

func isSignBetween(a, b Bar) bool {
	behind := a.RepeatEnd || a.EndingStop || a.ToCoda != "" || a.DalSegno != "" || a.DaCapo || a.Fine
	return behind || b.RepeatStart || len(b.Ending) > 0 || b.Section != "" || b.Segno != "" || b.Coda != ""
}

// united has the signs before the first part and behind the second.
func united(a, b placed) placed {
	whole := b
	whole.written, whole.Number = a.written, a.Number
	whole.Section, whole.Ending, whole.Segno, whole.Coda = a.Section, a.Ending, a.Segno, a.Coda
	whole.RepeatStart, whole.Implied = a.RepeatStart, a.Implied
	late(b.Chords, a.Len)
	whole.Chords = append(a.Chords[:len(a.Chords):len(a.Chords)], b.Chords...)
	whole.Len = a.Meter.Beats()
	whole.Double = a.Double || b.Double
	return whole
}

func late(slots []chart.Slot, by chart.Beats) {
	for i := range slots {
		slots[i].At = slots[i].At.Add(by)
	}
}
