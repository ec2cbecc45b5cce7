package phrase_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"fifthwise/pkg/chart"
	"fifthwise/pkg/chord"
	"fifthwise/pkg/phrase"
)

func played(t require.TestingT, text string) []chart.Event {
	c, err := chart.Parse(text)
	require.NoError(t, err, text)
	return c.Played()
}

// marked are the flags as a row of x and dots.
func marked(flags []bool) string {
	var s strings.Builder
	for _, f := range flags {
		if f {
			s.WriteByte('x')
		} else {
			s.WriteByte('.')
		}
	}
	return s.String()
}

// Common practice, no source.
func TestOpenings(t *testing.T) {
	tests := []struct{ name, chart, want string }{
		{"the first chord", "C | F | G", "x.."},
		{"sections", "[A] C | F | [B] G | C", "x.x."},
		{"a double bar", "C | F || G | C", "x.x."},
		{"a repeat, both times round", "C |: F | G :| C", "xx.x.x"},
		{"over a mark a chord is held: the next opens", "C | F || / / / / | G", "x.x"},
		{"in the middle of a bar nothing opens", "C F | G C || F G", "x...x."},
		{"silence may open", "C || N.C. | C", "xx."},
		{"nothing", "", ""},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			var events []chart.Event
			if tt.chart != "" {
				events = played(t, tt.chart)
			}
			assert.Equal(t, tt.want, marked(phrase.Find(events).Opens))
		})
	}
}

// A loop is a group of chords that stands at least twice in a row; common
// practice, no source.
func TestLoops(t *testing.T) {
	sixteen := "C | Dm | Em | F | G | Am | Bdim | C7 | D7 | E7 | F7 | G7 | A7 | Cm | Gm | F#dim"
	tests := []struct{ name, chart, starts, in string }{
		{"two chords in turn", "C | F | C | F", "x.x.", "xxxx"},
		{"three chords, three times", "C | F | G | C | F | G | C | F | G", "x..x..x..", "xxxxxxxxx"},
		{"once is no loop", "C | F | G | Am", "....", "...."},
		{"one chord repeated is no loop", "C | C | C | C | C | C", "......", "......"},
		{"the shorter group is the loop", "C | F | C | F | C | F | C | F", "x.x.x.x.", "xxxxxxxx"},
		{"a group with a repeat inside", "C | C | F | C | C | F", "x..x..", "xxxxxx"},
		{"an unfinished last time", "C | F | C | F | C", "x.x..", "xxxx."},
		{"after other chords", "Am | C | F | C | F | G", ".x.x..", ".xxxx."},
		{"two loops", "C | F | C | F | G | Am | G | Am", "x.x.x.x.", "xxxxxxxx"},
		{"another length is another chord", "C | F | C / F /", "....", "...."},
		{"another family is another chord", "C | F | C7 | F", "....", "...."},
		{"a seventh more is the same chord", "C | Dm | Cmaj7 | Dm7", "x.x.", "xxxx"},
		{"another bass is the same chord", "C | F | C/E | F/A", "x.x.", "xxxx"},
		{"another spelling is the same chord", "C# | F# | Db | Gb", "x.x.", "xxxx"},
		{"sixteen chords", sixteen + " | " + sixteen, "x" + strings.Repeat(".", 15) + "x" + strings.Repeat(".", 15), strings.Repeat("x", 32)},
		{"seventeen are too many", sixteen + " | Ab | " + sixteen + " | Ab", strings.Repeat(".", 34), strings.Repeat(".", 34)},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			e := phrase.Find(played(t, tt.chart))
			assert.Equal(t, tt.starts, marked(e.Loop), "starts")
			assert.Equal(t, tt.in, marked(e.InLoop), "in a loop")
		})
	}
}

// A sequence is a group of chords that comes again at once on other roots;
// Hutchinson, Music Theory for the 21st-Century Classroom, ch. 9 §9.1 shows
// sequences, what counts as one is common practice, no source.
func TestSequences(t *testing.T) {
	eight := []string{"C | Dm | Em | F | G7 | Am | Bdim | C", "D | Em | F#m | G | A7 | Bm | C#dim | D"}
	tests := []struct{ name, chart, want string }{
		{"a two-five a whole step down", "Dm7 | G7 | Cm7 | F7", "xxxx"},
		{"a half step up", "Dm7 | G7 | Ebm7 | Ab7", "xxxx"},
		{"three times", "Am7 D7 | Gm7 C7 | Fm7 Bb7", "xxxxxx"},
		{"with chords around", "C | Dm7 | G7 | Cm7 | F7 | C", ".xxxx."},
		{"on the same roots it is a loop", "Dm7 | G7 | Dm7 | G7", "...."},
		{"other families are none", "Dm7 | G7 | Cmaj7 | F7", "...."},
		{"other lengths are none", "Dm7 | G7 | Cm7 F7", "...."},
		{"other steps inside are none", "Dm7 | G7 | Cm7 | F#7", "...."},
		{"the lengths of the groups' chords must match, not be equal", "Dm7 / / G7 | Cm7 / / F7", "xxxx"},
		{"one chord after another is no group", "C | D | E", "..."},
		{"three chords", "Em7b5 | A7 | Dm | Dm7b5 | G7 | Cm", "xxxxxx"},
		{"up a step, then up a third", "Dm7 | G7 | Em7 | A7 | Gm7 | C7", "xxxxxx"},
		{"spelling does not matter", "F#m7 | B7 | Fm7 | Bb7", "xxxx"},
		{"an unfinished third time", "Dm7 | G7 | Cm7 | F7 | Bbm7", "xxxxx"},
		{"eight chords", eight[0] + " | " + eight[1], strings.Repeat("x", 16)},
		{"nine are too many", eight[0] + " | E | " + eight[1] + " | F#", strings.Repeat(".", 18)},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			assert.Equal(t, tt.want, marked(phrase.Find(played(t, tt.chart)).Sequence))
		})
	}
}

// same: two chords are one for a loop.
func same(a, b chart.Event) bool {
	return a.Chord.Root().Class() == b.Chord.Root().Class() && a.Chord.Family() == b.Chord.Family() && a.Len == b.Len
}

// slowLoops finds loops by their definition: from where a stretch begins that
// repeats with a period, to where it ends, group by group.
func slowLoops(events []chart.Event) (starts, in []bool) {
	starts, in = make([]bool, len(events)), make([]bool, len(events))
	repeats := func(i, period int) bool {
		return i >= 0 && i+period < len(events) && same(events[i], events[i+period])
	}
	for period := 2; period <= 16; period++ {
		for first := range events {
			if repeats(first-1, period) {
				continue // it began before
			}
			end := first
			for repeats(end, period) {
				end++
			}
			end += period // the stretch is events[first:end]
			if end-first < 2*period || !primitive(events[first:first+period]) {
				continue
			}
			for group := first; group+period <= end; group += period {
				starts[group] = true
				for i := range period {
					in[group+i] = true
				}
			}
		}
	}
	return starts, in
}

// primitive: the group is no shorter group several times over.
func primitive(group []chart.Event) bool {
	for n := 1; n < len(group); n++ {
		if len(group)%n != 0 {
			continue
		}
		times := true
		for i := range group {
			times = times && same(group[i], group[i%n])
		}
		if times {
			return false
		}
	}
	return true
}

// slowSequence marks every two neighbouring groups of which one is the other on
// other roots.
func slowSequence(events []chart.Event) []bool {
	in := make([]bool, len(events))
	for period := 2; period <= 8; period++ {
		distance := func(i int) int { // from a chord to the one a period later; 0 if they are not alike
			if i+period >= len(events) {
				return 0
			}
			a, b := events[i], events[i+period]
			if a.Chord.Family() != b.Chord.Family() || a.Len != b.Len {
				return 0
			}
			return (int(b.Chord.Root().Class()) - int(a.Chord.Root().Class()) + 12) % 12
		}
		for first := range events {
			d := distance(first)
			moves := d != 0
			for i := range period {
				moves = moves && distance(first+i) == d
			}
			if !moves {
				continue
			}
			for i := range 2 * period {
				in[first+i] = true
			}
		}
	}
	return in
}

// drawEvents draws groups of few chords, each several times, on the same or on
// other roots.
func drawEvents(t *rapid.T) (events []chart.Event) {
	symbols := []string{"C", "C7", "Dm7", "G7", "Cm", "N.C."}
	for range rapid.IntRange(0, 4).Draw(t, "groups") {
		var group []chart.Event
		for range rapid.IntRange(1, 5).Draw(t, "chords") {
			group = append(group, chart.Event{
				Chord: chord.MustParse(rapid.SampledFrom(symbols).Draw(t, "chord")),
				Len:   chart.B(rapid.SampledFrom([]int{4, 4, 4, 2}).Draw(t, "beats"), 1),
			})
		}
		up := rapid.SampledFrom([]string{"", "", "D", "Bb"}).Draw(t, "up")
		for range rapid.IntRange(1, 3).Draw(t, "times") {
			events = append(events, group...)
			if up == "" {
				continue
			}
			step := chord.MustParse("C").Root().To(chord.MustParse(up).Root())
			moved := make([]chart.Event, len(group))
			for i, e := range group {
				if !e.Chord.IsSilence() {
					e.Chord = e.Chord.Transpose(step)
				}
				moved[i] = e
			}
			group = moved
		}
	}
	return events
}

func TestAgainstDefinitions(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		events := drawEvents(t)
		e := phrase.Find(events)
		starts, in := slowLoops(events)
		require.Equal(t, marked(starts), marked(e.Loop), "starts of loops")
		require.Equal(t, marked(in), marked(e.InLoop), "in a loop")
		require.Equal(t, marked(slowSequence(events)), marked(e.Sequence), "sequences")
	})
}

func ExampleFind() {
	c, err := chart.Parse("[A] C | Am | C | Am | [B] Dm7 | G7 | Cm7 | F7")
	if err != nil {
		panic(err)
	}
	events := c.Played()
	e := phrase.Find(events)
	for i, ev := range events {
		fmt.Println(ev.Symbol, "opens:", e.Opens[i], "loop:", e.Loop[i], "sequence:", e.Sequence[i])
	}
	// Output:
	// C opens: true loop: true sequence: false
	// Am opens: false loop: false sequence: false
	// C opens: false loop: true sequence: false
	// Am opens: false loop: false sequence: false
	// Dm7 opens: true loop: false sequence: true
	// G7 opens: false loop: false sequence: true
	// Cm7 opens: false loop: false sequence: true
	// F7 opens: false loop: false sequence: true
}
