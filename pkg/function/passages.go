package function

import (
	"cmp"
	"slices"

	"fifthwise/pkg/chart"
)

// Passages are the regions as passages of the chart as written, for
// [chart.Chart.TransposeTo]. A chord that is played more than once stands in the
// key of the first time.
func (a *Analysis) Passages() []chart.Passage {
	list := make([]chart.Passage, 0, len(a.Chords))
	at := 0 // place of the chord in its bar
	for i := range a.Chords {
		r := &a.Chords[i]
		at++
		if i == 0 || r.Event.Measure != a.Chords[i-1].Event.Measure {
			at = 0
		}
		if r.Region >= 0 {
			list = append(list, chart.Passage{Bar: r.Event.BarIndex, Chord: at, Key: r.Key})
		}
	}
	slices.SortStableFunc(list, func(p, q chart.Passage) int {
		return cmp.Or(p.Bar-q.Bar, p.Chord-q.Chord)
	})
	list = slices.CompactFunc(list, func(p, q chart.Passage) bool { return p.Bar == q.Bar && p.Chord == q.Chord })
	return slices.CompactFunc(list, func(p, q chart.Passage) bool { return p.Key == q.Key })
}
