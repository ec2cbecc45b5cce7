package chart

import (
	"fmt"
	"strings"
)

// Validate tells all faults of a chart made in Go as an [ErrorList]; nil if
// there are none. What [Parse] and [FromEntries] return without an error is valid.
func (c Chart) Validate() error {
	v := validation{chart: c, bars: c.resolved()}
	v.header()
	v.slots(nil)
	v.form()
	v.faults.sort()
	return v.faults.orNil()
}

// mark is what in a bar a fault concerns, beside its chords.
type mark uint8

const (
	barMark mark = iota
	sectionMark
	meterMark
	endingMark
	startMark // |:
	endMark   // :|
	marks
)

// validation collects the faults of a chart whose bars are resolved.
type validation struct {
	chart  Chart
	bars   []Bar
	faults ErrorList
	place  func(*Error, mark) // says where in the text the fault stands; may be nil
}

func (v *validation) fault(bar, chord int, m mark, msg, hint string) *Error {
	e := &Error{BarIndex: bar, Chord: chord, Msg: msg, Hint: hint}
	if bar >= 0 {
		e.Bar = v.bars[bar].Number
	}
	if chord >= 0 {
		e.Symbol = v.bars[bar].Chords[chord].symbol()
	}
	if v.place != nil {
		v.place(e, m)
	}
	if len(v.faults) < MaxErrors {
		v.faults = append(v.faults, e)
	}
	return e
}

func (v *validation) header() {
	if msg := nameFault(v.chart.Title, "title"); msg != "" {
		v.fault(-1, -1, barMark, msg, "")
	}
	if m := v.chart.Meter; m != (Meter{}) && !m.IsValid() {
		v.fault(-1, -1, barMark, fmt.Sprintf("%v is no meter", m), "")
	}
	if v.chart.Pickup.Less(Beats{}) {
		v.fault(-1, -1, barMark, fmt.Sprintf("a pickup of %s", beats(v.chart.Pickup)), "")
	}
}

// slots checks the chords of every bar but those already known to be bad.
func (v *validation) slots(bad []bool) {
	sounding := false
	for i := range v.bars {
		b := &v.bars[i]
		v.names(i, b)
		switch {
		case !b.Meter.IsValid():
			v.fault(i, -1, meterMark, fmt.Sprintf("%v is no meter", b.Meter), "")
		case bad != nil && bad[i]:
		case len(b.Chords) == 0 && !sounding:
			v.fault(i, -1, barMark, "no chord stands before the bar that could be held through it", "write N.C. for silence")
		case len(b.Chords) > MaxChords:
			v.fault(i, MaxChords, barMark, fmt.Sprintf("a bar holds at most %d chords", MaxChords), "")
		case len(b.Chords) > 0:
			v.bar(i, b)
		}
		sounding = sounding || len(b.Chords) > 0
	}
}

func (v *validation) names(i int, b *Bar) {
	if b.Section == "" {
		return
	}
	if msg := sectionFault(strings.TrimSpace(b.Section)); msg != "" {
		v.fault(i, -1, sectionMark, msg, "").Symbol = clip(b.Section)
	}
}

// bar checks that the chords of a bar stand one after the other and fill it.
func (v *validation) bar(i int, b *Bar) {
	full := b.Meter.Beats()
	at := b.Chords[0].At
	start := at
	for k, s := range b.Chords {
		switch {
		case s.At.Less(Beats{}):
			v.fault(i, k, barMark, fmt.Sprintf("the chord starts on beat %v, before the bar", s.At.Add(B(1, 1))), "")
		case !(Beats{}).Less(s.Len):
			v.fault(i, k, barMark, fmt.Sprintf("the chord lasts %s", beats(s.Len)), "a chord lasts more than 0 beats")
		case s.At.den() > maxDen || s.Len.den() > maxDen:
			v.fault(i, k, barMark, tooFine, "")
		case at.Less(s.At):
			v.fault(i, k, barMark, fmt.Sprintf("no chord for %s before beat %v", beats(s.At.Sub(at)), s.At.Add(B(1, 1))), "let the chord before last until then, or write N.C.")
		case s.At.Less(at):
			v.fault(i, k, barMark, fmt.Sprintf("the chord starts on beat %v, within the one before", s.At.Add(B(1, 1))), "")
		case full.Less(s.End()):
			v.fault(i, k, barMark, fmt.Sprintf("the chord lasts %s beyond the end of the bar", beats(s.End().Sub(full))), fmt.Sprintf("the bar has %s", beats(full)))
		default:
			at = s.End()
			continue
		}
		return
	}
	pickup := v.chart.Pickup
	switch isPickup := i == 0 && (Beats{}).Less(pickup); {
	case isPickup && !pickup.Less(full):
		v.fault(i, -1, barMark, shortPickup, fmt.Sprintf("the bar has %s", beats(full)))
	case isPickup && pickup.Less(at.Sub(start)):
		v.fault(i, -1, barMark, fmt.Sprintf("the chords of the pickup last %s, the pickup %s", beats(at.Sub(start)), beats(pickup)), "")
	case isPickup && at.Less(pickup):
		v.fault(i, -1, barMark, fmt.Sprintf("the pickup ends on its beat %v, before it may have begun", at), "")
	case !isPickup && i < len(v.bars)-1 && at.Less(full):
		v.fault(i, -1, barMark, fmt.Sprintf("the bar has %v of %s", at, beats(full)), incompleteHint)
	}
}

const shortPickup = "a pickup is shorter than a bar"

const incompleteHint = "only the first and the last bar may be incomplete, the first as a pickup"

var tooLong = fmt.Sprintf("played with its repeats the chart has more than %d bars or %d chords", MaxPlayedBars, MaxPlayedChords)

const (
	noBars     = "the chart has no bars"
	noBarsHint = "write chords between bar lines: | C | F G |"
)

// form checks what holds between bars: repeats, endings and length.
func (v *validation) form() {
	if len(v.bars) == 0 {
		v.fault(-1, -1, barMark, noBars, noBarsHint)
		return
	}
	v.repeats()
	bars, chords := v.chart.playedLen(v.bars)
	if bars > MaxPlayedBars || chords > MaxPlayedChords {
		e := v.fault(-1, -1, barMark, tooLong, "")
		e.cause = ErrTooLong
	}
}
