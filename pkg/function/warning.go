package function

import (
	"fmt"
	"strings"

	"fifthwise/pkg/chart"
	"fifthwise/pkg/pitch"
)

// warnRespelled names the chords of a region that are spelled for another.
func (a *Analysis) warnRespelled(region int) {
	o := a.outcome
	r := &a.Regions[region]
	var odd []string
	bar := 0
	for i := int(o.events[r.First]); i <= int(o.events[r.Last]); i++ {
		e := o.entry(i)
		played := &a.Chords[o.columns[i].first].Event
		if e.applied() || e.role == Chromatic || kindOf(played.Chord.Quality()) == kDiminished7 {
			continue
		}
		root, _ := e.heard(played.Chord, r.Key.Tonic())
		if want := e.rootIn(r.Key.Tonic()); root != want && root.Sounds(want) {
			right := played.Chord.Transpose(root.To(want)).AppendTo(nil, a.written.accidentals)
			odd = append(odd, fmt.Sprintf("%s (for %s)", played.Symbol, right))
			if bar == 0 {
				bar = played.Bar
			}
		}
	}
	if len(odd) > 0 {
		a.Warnings = append(a.Warnings, chart.Warning{Bar: bar, Message: fmt.Sprintf("read in %s, where these chords are respelled: %s", a.written.key(r.Key), strings.Join(odd, ", "))})
	}
}

// doubtful is the probability below which a chord's reading is warned of.
const doubtful = .4

// addWarnings passes on the chart's own warnings and adds the reading's: a
// stated key that the music denies, and bars read with little confidence.
func (a *Analysis) addWarnings(c chart.Chart) {
	a.Warnings = append(append([]chart.Warning{}, c.Warnings...), a.Warnings...)
	if hint := c.Key; hint.IsValid() && !a.visits(hint.Tonic(), hint.IsMinor()) {
		a.Warnings = append(a.Warnings, chart.Warning{Bar: a.Chords[a.Regions[0].First].Event.Bar,
			Message: fmt.Sprintf("the chart states %s, but the chords are read in %s", a.written.key(hint), a.written.key(a.Home))})
	}
	bar := -1
	for i := range a.Chords {
		r := &a.Chords[i]
		if r.Region < 0 || r.Confidence >= doubtful || r.Event.Bar == bar {
			continue
		}
		bar = r.Event.Bar
		message := fmt.Sprintf("%s in %s is one of several readings of %s", a.written.numeral(r.Numeral, r.Key), a.written.key(r.Key), r.Event.Symbol)
		if alternatives := a.Alternatives(i, 1); len(alternatives) > 0 {
			message += fmt.Sprintf("; %s in %s is nearly as likely", a.written.numeral(alternatives[0].Numeral, alternatives[0].Key), a.written.key(alternatives[0].Key))
		}
		a.Warnings = append(a.Warnings, chart.Warning{Bar: bar, Message: message})
	}
}

// visits: some region has this tonic and third.
func (a *Analysis) visits(tonic pitch.Note, isMinor bool) bool {
	for _, r := range a.Regions {
		if r.Key.Tonic().Sounds(tonic) && r.Key.IsMinor() == isMinor {
			return true
		}
	}
	return false
}
