package roadmap

import "fifthwise/pkg/chart"

// fit makes the bars of a chart from bars that may be shorter or longer than
// their meters say. The last may be incomplete if a chord stands in it that can
// say how long it is.
func fit(head chart.Chart, list []placed, n *notes) Tune {
	c := head
	c.Bars, c.Pickup = make([]chart.Bar, len(list)), chart.Beats{}
	t := Tune{Written: make([]int, len(list))}
	for i := range list {
		b, last := &list[i], i == len(list)-1
		isIncomplete := isShort(b.Bar) && (i == 0 || last && len(b.Chords) > 0)
		if !isIncomplete {
			b.remeter(n)
		}
		b.coarsen(n)
		if i == 0 {
			b.startSounding()
		}
		if i == 0 && isIncomplete && !last {
			c.Pickup = b.Len
		}
		c.Bars[i], t.Written[i] = b.lasting(), b.written
		if i == 0 && !c.Pickup.IsZero() {
			late(c.Bars[0].Chords, b.Meter.Beats().Sub(b.Len))
		}
	}
	if len(list) > 0 {
		c.Meter = list[0].Meter
	}
	t.Chart = c
	return t
}

// startSounding lets a tune that starts without a chord start with silence.
func (b *Bar) startSounding() {
	if len(b.Chords) == 0 || (chart.Beats{}).Less(b.Chords[0].At) {
		b.Chords = append([]chart.Slot{{}}, b.Chords...)
	}
}

// lasting is the bar of the chart: each chord lasts until the next.
func (b *Bar) lasting() chart.Bar {
	for i := range b.Chords {
		end := b.Len
		if i+1 < len(b.Chords) {
			end = b.Chords[i+1].At
		}
		b.Chords[i].Len = end.Sub(b.Chords[i].At)
	}
	return b.Bar
}
