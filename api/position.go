package api

import (
	"slices"
	"sort"

	"fifthwise/api/wire"
	"fifthwise/pkg/chart"
)

// clock tells beats of a tune as played by bar, beat and pass.
type clock struct {
	chart    chart.Chart
	measures []chart.Event // of each played bar, a chord that fills it; nil: not yet asked for
}

// start is where a chord starts.
func (c *clock) start(e *chart.Event) wire.Position {
	return wire.Position{Bar: e.Bar, Beat: e.Beat.Float64(), Pass: e.Pass}
}

// end is the beat in which a chord ends.
func (c *clock) end(e *chart.Event) wire.Position {
	at := e.Beat.Sub(chart.B(1, 1)).Add(e.Len)
	if !e.BarLen.Less(at) {
		return wire.Position{Bar: e.Bar, Beat: up(at), Pass: e.Pass}
	}
	if c.measures == nil {
		c.measures = measuresOf(c.chart)
	}
	end := e.Start.Add(e.Len)
	after := sort.Search(len(c.measures), func(i int) bool { return !c.measures[i].Start.Less(end) })
	m := c.measures[max(0, after-1)]
	return wire.Position{Bar: m.Bar, Beat: up(end.Sub(m.Start)), Pass: m.Pass}
}

// front is the first beat of a bar as played, counted from 0.
func (c *clock) front(measure int) wire.Position {
	m := c.measure(measure)
	return wire.Position{Bar: m.Bar, Beat: 1, Pass: m.Pass}
}

// back is its last beat.
func (c *clock) back(measure int) wire.Position {
	m := c.measure(measure)
	return wire.Position{Bar: m.Bar, Beat: up(m.Beat.Sub(chart.B(1, 1)).Add(m.Len)), Pass: m.Pass}
}

func (c *clock) measure(number int) *chart.Event {
	if c.measures == nil {
		c.measures = measuresOf(c.chart)
	}
	i := sort.Search(len(c.measures), func(i int) bool { return c.measures[i].Measure >= number })
	return &c.measures[min(i, len(c.measures)-1)]
}

// up rounds up to whole beats.
func up(b chart.Beats) float64 { return float64(-chart.Beats{}.Sub(b).Int()) }

// measuresOf plays the chart with one chord in every bar.
func measuresOf(c chart.Chart) []chart.Event {
	c.Bars = slices.Clone(c.Bars)
	slots := make([]chart.Slot, len(c.Bars))
	for i := range c.Bars {
		slots[i].Len = c.Bars[i].Meter.Beats()
		c.Bars[i].Chords = slots[i : i+1]
	}
	return c.Played()
}
