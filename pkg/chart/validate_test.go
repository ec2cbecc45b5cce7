package chart

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fifthwise/pkg/chord"
)

func TestValidate(t *testing.T) {
	slot := func(at, length Beats) Slot { return Slot{Chord: chord.MustParse("C"), At: at, Len: length} }
	bar := func(slots ...Slot) Bar { return Bar{Chords: slots} }
	c := whole("C")
	one := B(1, 1)
	tests := []struct {
		name    string
		chart   Chart
		wantErr string
	}{
		{"the zero chart", Chart{}, "the chart has no bars (write chords between bar lines: | C | F G |)"},
		{"a meter that is none", Chart{Meter: Meter{4, 3}, Bars: []Bar{{Meter: Meter{4, 4}, Chords: c.Chords}}}, "4/3 is no meter"},
		{"a bar's meter that is none", Chart{Bars: []Bar{{Meter: Meter{0, 4}, Chords: c.Chords}}}, "bar 1: 0/4 is no meter"},
		{"a negative pickup", Chart{Pickup: B(-1, 1), Bars: []Bar{c}}, "a pickup of -1 beats"},
		{"a pickup as long as its bar", Chart{Pickup: B(4, 1), Bars: []Bar{c}}, "bar 0: a pickup is shorter than a bar (the bar has 4 beats)"},
		{"chords longer than the pickup", Chart{Pickup: one, Bars: []Bar{bar(slot(B(2, 1), B(2, 1))), c}}, "bar 0: the chords of the pickup last 2 beats, the pickup 1 beat"},
		{"a pickup that ends too early", Chart{Pickup: B(2, 1), Bars: []Bar{bar(slot(Beats{}, one)), c}}, "bar 0: the pickup ends on its beat 1, before it may have begun"},
		{"nothing to hold", Chart{Bars: []Bar{{}, c}}, "bar 1: no chord stands before the bar that could be held through it (write N.C. for silence)"},
		{"a chord before the bar", Chart{Bars: []Bar{bar(slot(B(-1, 1), B(5, 1)))}}, `bar 1, "C": the chord starts on beat 0, before the bar`},
		{"a chord of no length", Chart{Bars: []Bar{bar(slot(Beats{}, Beats{}))}}, `bar 1, "C": the chord lasts 0 beats (a chord lasts more than 0 beats)`},
		{"a gap", Chart{Bars: []Bar{bar(slot(Beats{}, one), slot(B(2, 1), B(2, 1)))}}, `bar 1, "C": no chord for 1 beat before beat 3 (let the chord before last until then, or write N.C.)`},
		{"an overlap", Chart{Bars: []Bar{bar(slot(Beats{}, B(3, 1)), slot(B(2, 1), B(2, 1)))}}, `bar 1, "C": the chord starts on beat 3, within the one before`},
		{"an overfull bar", Chart{Bars: []Bar{bar(slot(Beats{}, B(5, 1)))}}, `bar 1, "C": the chord lasts 1 beat beyond the end of the bar (the bar has 4 beats)`},
		{"an underfull bar", Chart{Bars: []Bar{c, bar(slot(Beats{}, one)), c}}, "bar 2: the bar has 1 of 4 beats (only the first and the last bar may be incomplete, the first as a pickup)"},
		{"an underfull first bar", Chart{Bars: []Bar{bar(slot(Beats{}, one)), c}}, "bar 1: the bar has 1 of 4 beats (only the first and the last bar may be incomplete, the first as a pickup)"},
		{"too fine", Chart{Bars: []Bar{bar(slot(B(1, 20011), one))}}, `bar 1, "C": the beat is divided into more than 10000 parts`},
		{"too many chords", Chart{Bars: []Bar{bar(make([]Slot, 65)...)}}, `bar 1, "N.C.": a bar holds at most 64 chords`},
		{"a title of two lines", Chart{Title: "A\nB", Bars: []Bar{c}}, "the title holds a line break or another control character"},
		{"a title that is no text", Chart{Title: "\xff", Bars: []Bar{c}}, "the title is not valid UTF-8"},
		{"a section without a name", Chart{Bars: []Bar{{Section: " ", Chords: c.Chords}}}, `bar 1, " ": the section has no name`},
		{"a section with a bracket", Chart{Bars: []Bar{{Section: "A]", Chords: c.Chords}}}, `bar 1, "A]": the name of the section holds ]`},
		{"a section of a long name", Chart{Bars: []Bar{{Section: strings.Repeat("A", 201), Chords: c.Chords}}}, `bar 1, "` + strings.Repeat("A", 201) + `": the name of the section has more than 200 bytes`},
		{"a repeat not closed", Chart{Bars: []Bar{{RepeatStart: true, Chords: c.Chords}}}, "bar 1: the repeat is not closed (write :| at its end)"},
		{"an ending alone", Chart{Bars: []Bar{{Ending: []int{2}, Chords: c.Chords}}}, `bar 1, "2.": ending 2. follows no other ending (ending 1. comes first, and each follows the :| of the one before)`},
		{"an ending without bound", Chart{Bars: []Bar{{Ending: []int{1, 100}, Chords: c.Chords, RepeatEnd: true}}}, `bar 1, "1,100.": endings are numbered from 1 to 99`},
		{"a number of its own", Chart{Bars: []Bar{{Number: 17, Chords: c.Chords}, {Chords: []Slot{slot(Beats{}, B(9, 2))}}}}, `bar 18, "C": the chord lasts 1/2 beats beyond the end of the bar (the bar has 4 beats)`},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			err := tt.chart.Validate()
			require.Error(t, err)
			assert.EqualError(t, err, tt.wantErr)
			var list ErrorList
			require.ErrorAs(t, err, &list)
			assert.Zero(t, list[0].Line)
		})
	}
	good := Chart{Pickup: one, Bars: []Bar{bar(slot(B(3, 1), one)), c, {}, {Meter: Meter{3, 4}, Chords: []Slot{slot(one, one)}}}}
	assert.NoError(t, good.Validate(), "a pickup, a held bar, a hold into an incomplete last bar")
	assert.Equal(t, "0.4 C 1; 1.1 C 9; 3.2 C 1", told(good))
}

// The zero error list and a nil one must not be taken for a fault.
func TestNoFaultIsNil(t *testing.T) {
	_, err := Parse("C")
	assert.True(t, err == nil)
	assert.True(t, Chart{Bars: []Bar{whole("C")}}.Validate() == nil)
	assert.Equal(t, "", ErrorList(nil).Error())
}
