package chart

import (
	"fifthwise/pkg/chord"
	"fifthwise/pkg/key"
)

// Chart is a tune as it is written: bars with their chords, repeats not
// unfolded. The zero value has no bars and does not validate.
type Chart struct {
	Title string
	Meter Meter   // at the start; zero: 4/4
	Key   key.Key // as the chart states it, a hint; may be invalid: unstated
	// Pickup is the length of Bars[0] where that is an upbeat; zero: none. A
	// pickup is the end of a bar: one beat in 4/4 is beat 4.
	Pickup   Beats
	Bars     []Bar
	Warnings []Warning // what was read but may not have been meant
}

// Bar is a written bar. Its chords stand one after the other to the bar's end;
// where the first starts later than the bar, or where there is none, the chord
// before goes on sounding.
type Bar struct {
	// Number as printed; zero counts on from the bar before, from 1, or from 0
	// where the first bar is a pickup or the second has number 1.
	Number      int
	Meter       Meter  // zero: as the bar before
	Section     string // the name, where a section starts here
	Chords      []Slot
	RepeatStart bool  // |: before the bar
	RepeatEnd   bool  // :| behind it
	Ending      []int // the passes of the ending that opens here
	Double      bool  // || behind it
}

// Slot is a chord in its bar.
type Slot struct {
	Chord    chord.Chord
	Symbol   string // as written; empty: the chord's own name
	At       Beats  // from the start of the bar, 0 being its first beat; a pickup is counted as the end of a bar
	Len      Beats
	Optional bool // in brackets, as turnarounds are
}

// End is where the slot ends, in beats from the start of the bar.
func (s Slot) End() Beats { return s.At.Add(s.Len) }

// Warning is something read as it stands that may not have been meant.
type Warning struct {
	Bar     int // number of the bar
	Message string
}

// resolved is the bars with every number and meter stated: c.Bars itself where
// they are.
func (c Chart) resolved() []Bar {
	if c.stated() {
		return c.Bars
	}
	bars := make([]Bar, len(c.Bars))
	copy(bars, c.Bars)
	meter, number := c.meter(), c.firstNumber()
	for i := range bars {
		b := &bars[i]
		if b.Meter == (Meter{}) {
			b.Meter = meter
		}
		if i == 0 || b.Number == 0 {
			b.Number = number
		}
		meter, number = b.Meter, b.Number+1
	}
	return bars
}

func (c Chart) stated() bool {
	for i, b := range c.Bars {
		if b.Meter == (Meter{}) || b.Number == 0 && (i > 0 || c.firstNumber() != 0) {
			return false
		}
	}
	return true
}

func (c Chart) meter() Meter {
	if c.Meter == (Meter{}) {
		return commonTime
	}
	return c.Meter
}

func (c Chart) firstNumber() int {
	switch {
	case len(c.Bars) > 0 && c.Bars[0].Number != 0:
		return c.Bars[0].Number
	case !c.Pickup.IsZero(), len(c.Bars) > 1 && c.Bars[1].Number == 1:
		return 0
	}
	return 1
}
