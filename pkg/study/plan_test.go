package study_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"fifthwise/pkg/chart"
	"fifthwise/pkg/function"
	"fifthwise/pkg/study"
)

// Invented tunes.
const (
	ferry = `[A] Ebmaj7 | Gm7 C7b9 | Fm7 | Bb7sus4 Bb7 | Gm7 C7 | Fm7 Bb7 | Ebmaj7 | Fm7 Bb7 |
[A] Ebmaj7 | Gm7 C7b9 | Fm7 | Bb7sus4 Bb7 | Gm7 C7 | Fm7 Bb7 | Eb6 | Fm7 Bb7 |
[B] Bbm7 | Eb7 | Abmaj7 | Ab6 | Am7b5 | D7b9 | Gm7 C7 | Fm7 Bb7 |
[A] Ebmaj7 | Gm7 C7b9 | Fm7 | Bb7sus4 Bb7 | Gm7 C7 | Fm7 Bb7 | Eb6 Cm7 | Fm7 Bb7`
	lift  = `C | Am | Dm7 G7 | C | C | Am | Dm7 G7 | C | D | Bm | Em7 A7 | D | D | Bm | Em7 A7 | D`
	waltz = "Meter: 3/4\nPickup: 1\nD7 | [A] Gm | Gm/F | Eb7 | D7 | Gm | Cm7 / F7 | Bb | D7 | [A] Gm | Gm/F | Eb7 | D7 | Gm | Cm7 D7 / | Gm | N.C."
	held  = `|: Fmaj7 | / / / / | Gm7 | C7 :| Am7 F@3.5 | D7 | (Gm7 C7)`
)

func planOf(t require.TestingT, text string) (chart.Chart, study.Plan) {
	c, err := chart.Parse(text)
	require.NoError(t, err, text)
	a := function.Analyze(c)
	return c, study.Of(&a)
}

// requireRebuilt: the plan alone gives every chord in its place.
func requireRebuilt(t require.TestingT, text string) {
	c, p := planOf(t, text)
	events, played := c.Played(), p.Played()
	require.Len(t, played, len(events), text)
	for i, e := range events {
		require.Equal(t, study.Chord{At: e.Start, Len: e.Len, Chord: e.Chord}, played[i], "%s: chord %d", text, i)
	}
}

func TestPlanRebuildsTheTune(t *testing.T) {
	for _, text := range []string{ferry, lift, waltz, held, "C", "N.C.", "N.C. | N.C. | C"} {
		requireRebuilt(t, text)
	}
}

// Tunes drawn from a few bars, so that much returns, near and far.
func TestPlanRebuildsAnyTune(t *testing.T) {
	cells := []string{"C", "Dm7 G7", "Am7", "F#m7 B7", "Emaj7", "/ / / /", "%", "N.C.", "Bb7sus4 / Bb7 /", "Ab/C@2.5", "[A] C6", "[B] Fm7 | Bb7", "|: Ebmaj7 | Cm7 :|", "|| D7"}
	rapid.Check(t, func(t *rapid.T) {
		drawn := rapid.SliceOfN(rapid.SampledFrom(cells), 1, 40).Draw(t, "cells")
		if drawn[0] == "/ / / /" || drawn[0] == "%" {
			drawn[0] = "C"
		}
		text := strings.NewReplacer("| || ", "|| ", "| |: ", "|: ", ":| |", ":|").Replace(strings.Join(drawn, " | "))
		if _, err := chart.Parse(text); err != nil {
			t.Skip(err)
		}
		requireRebuilt(t, text)
	})
}

func TestRemember(t *testing.T) {
	_, p := planOf(t, ferry)
	assert.Equal(t, "AABA", p.Form.Letters)
	assert.Less(t, float64(p.ToRemember), .45*float64(p.Chords), "%d of %d", p.ToRemember, p.Chords)

	section := "[A] Cmaj7 | A7 | Dm7 | G7 | Em7b5 | A7b9 | Dm7 G7 | C6"
	_, once := planOf(t, section)
	_, twice := planOf(t, section+" | "+section)
	assert.Equal(t, 2*once.Chords, twice.Chords)
	assert.Equal(t, once.ToRemember+1, twice.ToRemember, "a return is one")

	_, empty := planOf(t, "N.C.")
	assert.Zero(t, empty.ToRemember)
}

func TestSteps(t *testing.T) {
	_, p := planOf(t, lift)
	assert.Equal(t, []string{
		"The form is AAAA: 9 chords to remember of 20.",
		"Bars 1–4: A, in C major: I | VIm | IIm7 V7 | I",
		"Bars 5–8: A again.",
		"Bars 9–12: A again, up a major second.",
		"Bars 13–16: A again, up a major second.",
		"Bar 9: the key moves up a major second, to D major.",
	}, p.Steps())
}

// A step has as many bars as it tells of, those too through which a chord is held.
func TestHeldBarsAreTold(t *testing.T) {
	_, p := planOf(t, "[A] Cmaj7 | / / / / | Dm7 | / / G7 / | Cmaj7 | Am7 | Dm7 G7 | / / / / | [B] Fmaj7 | / / G7 / | Cmaj7 | / / / /")
	assert.Equal(t, "Bars 1–8: A, in C major: Imaj7 | / | IIm7 | V7 | Imaj7 | VIm7 | IIm7 V7 | /", p.Steps()[1])
	assert.Equal(t, "Bars 9–12: B, in C major: IVmaj7 | V7 | Imaj7 | /", p.Steps()[2])
}

func TestSequencesAreTold(t *testing.T) {
	_, p := planOf(t, "[A] Em7 | A7 | Dm7 | G7 | Cmaj7 | F6 | Dm7 G7 | C6")
	assert.Contains(t, p.Steps()[1], "; bars 3–4: a sequence, down a major second")
}

// The forms as R. Hutchinson, Music Theory for the 21st-Century Classroom, 12.4,
// gives the blues, and Open Music Theory, jazz chapters, the rhythm form's
// bridge; its A section is common practice, no source.
func TestFormsHaveNames(t *testing.T) {
	blues := "C | C | C | C | F | F | C | C | G | F | C | C"
	a := "[A] Bb6 G7 | Cm7 F7 | Dm7 G7 | Cm7 F7 | Bb7 | Eb7 | Bb6 G7 | Cm7 F7"
	bridge := "[B] D7 | D7 | G7 | G7 | C7 | C7 | F7 | F7"
	tests := []struct{ chart, want string }{
		{blues, "The form is A, a twelve-bar blues: "},
		{blues + " | " + blues, "The form is AA, a twelve-bar blues: "},
		{strings.Join([]string{a, a, bridge, a}, " | "), "The form is AABA, a rhythm form: "},
		{ferry, "The form is AABA: "},
	}
	for _, tt := range tests {
		_, p := planOf(t, tt.chart)
		assert.Contains(t, p.Steps()[0], tt.want)
	}
}

func TestCards(t *testing.T) {
	for _, text := range []string{ferry, lift, waltz, held} {
		_, p := planOf(t, text)
		asked := map[string]bool{}
		for _, c := range p.Cards() {
			assert.False(t, asked[c.Ask], c.Ask)
			asked[c.Ask] = true
			assert.NotEmpty(t, c.Answer, c.Ask)
		}
	}
	_, p := planOf(t, ferry)
	cards := p.Cards()
	assert.Equal(t, study.Card{Ask: "What is the form, a letter for each phrase?", Answer: "AABA"}, cards[0])
	assert.Contains(t, cards, study.Card{Ask: "Where does A come back?", Answer: "bars 9–16; bars 25–32"})
	assert.Contains(t, cards, study.Card{Ask: "Which chords lead back to the top?", Answer: "Eb major: VIm7 | IIm7 V7"})
	_, p = planOf(t, "N.C.")
	assert.Equal(t, []study.Card{{Ask: "What is the form, a letter for each phrase?", Answer: "A"}, {Ask: "How does A begin, in bar 1?", Answer: "no key: N.C."}}, p.Cards())
}

func ExamplePlan_Steps() {
	c, _ := chart.Parse("Dm7 | G7 | Cmaj7 | % | Cm7 | F7 | Bbmaj7 | %")
	a := function.Analyze(c)
	p := study.Of(&a)
	fmt.Println(strings.Join(p.Steps(), "\n"))
	// Output:
	// The form is AA: 5 chords to remember of 8.
	// Bars 1–4: A, in C major: IIm7 | V7 | Imaj7 | Imaj7
	// Bars 5–8: A again, down a major second.
	// Bar 5: the key moves down a major second, to Bb major.
}
