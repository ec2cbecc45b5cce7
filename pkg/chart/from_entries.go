package chart

import (
	"fmt"
	"strings"
)

// BarEntries is a bar as a list of chords.
type BarEntries struct {
	Number  *int   // as printed; nil: counted on
	Meter   Meter  // zero: as the bar before
	Section string // the name, where a section starts here
	Chords  []Entry
}

// FromEntries makes a chart of bars given as lists. A bar without chords holds
// the chord before. A first bar that starts late or ends early is a pickup with
// number 0, unless it is the only bar or has another number and ends in time;
// where no beat is given in it, its chords are the last of a whole bar. The last
// bar may end early. The error is an [ErrorList]; the chart is then what could
// be made.
func FromEntries(h Header, bars []BarEntries) (Chart, error) {
	c := Chart{Title: strings.TrimSpace(h.Title), Meter: h.Meter, Key: h.Key, Bars: make([]Bar, len(bars))}
	if c.Meter == (Meter{}) && len(bars) > 0 {
		c.Meter = bars[0].Meter
	}
	c.Meter = c.meter()
	var faults ErrorList
	bad := make([]bool, len(bars))
	meter := c.Meter
	if !meter.IsValid() {
		meter = commonTime // and go on to the faults of the bars
	}
	for i, b := range bars {
		c.Bars[i] = Bar{Meter: meter, Section: strings.TrimSpace(b.Section)}
		switch {
		case b.Meter == (Meter{}):
		case b.Meter.IsValid():
			meter = b.Meter
			c.Bars[i].Meter = meter
		default:
			c.Bars[i].Meter, bad[i] = b.Meter, true
			continue
		}
		c.Bars[i].Chords = fillBar(meter, b.Chords, func(e Error) {
			bad[i] = true
			e.BarIndex = i
			faults = append(faults, &e)
		}, func(msg string) {
			c.Warnings = append(c.Warnings, Warning{Bar: i, Message: msg})
		})
	}
	if len(bars) > 1 && !bad[0] {
		c.upbeat(bars[0])
	}
	if len(bars) > 0 && !bad[0] && c.Pickup.IsZero() && len(c.Bars[0].Chords) > 0 {
		if at := c.Bars[0].Chords[0].At; !at.IsZero() {
			c.Warnings = append(c.Warnings, Warning{Message: silentStart(at)})
		}
	}
	c.count(bars)
	for i := range c.Warnings {
		c.Warnings[i].Bar = c.Bars[c.Warnings[i].Bar].Number
	}
	for _, e := range faults {
		e.Bar = c.Bars[e.BarIndex].Number
	}
	v := validation{chart: c, bars: c.Bars, faults: faults}
	v.header()
	v.slots(bad)
	v.form()
	v.faults.sort()
	return c, v.faults.orNil()
}

// silentStart is the warning of a chart whose first chord starts late.
func silentStart(at Beats) string {
	return fmt.Sprintf("nothing sounds before beat %v; N.C. or a pickup would say so", at.Add(B(1, 1)))
}

// upbeat makes an incomplete first bar a pickup.
func (c *Chart) upbeat(given BarEntries) {
	b := &c.Bars[0]
	if len(b.Chords) == 0 {
		return
	}
	from, to, full := b.Chords[0].At, b.end(Beats{}), b.Meter.Beats()
	if from.IsZero() && to == full || to == full && given.Number != nil && *given.Number != 0 {
		return
	}
	c.Pickup = to.Sub(from)
	for _, e := range given.Chords {
		if !e.Beat.IsZero() {
			return
		}
	}
	for i := range b.Chords {
		b.Chords[i].At = b.Chords[i].At.Add(full.Sub(to))
	}
}

// count numbers the bars.
func (c *Chart) count(bars []BarEntries) {
	number := c.firstNumber()
	for i, b := range bars {
		if b.Number != nil {
			number = *b.Number
		}
		c.Bars[i].Number = number
		number++
	}
}
