package function_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fifthwise/pkg/chart"
	"fifthwise/pkg/function"
	"fifthwise/pkg/key"
	"fifthwise/pkg/pitch"
)

func analyze(t *testing.T, text string) function.Analysis {
	t.Helper()
	c, err := chart.Parse(text)
	require.NoError(t, err)
	return function.Analyze(c)
}

// numerals are those of all chords, each with its key where that is another
// than before.
func numerals(a *function.Analysis) string {
	var words []string
	var last key.Key
	for _, r := range a.Chords {
		if r.Key != last {
			words = append(words, r.Key.String()+":")
			last = r.Key
		}
		words = append(words, r.Numeral.String())
	}
	return strings.Join(words, " ")
}

// In major I and IV are major sevenths, II, III and VI minor sevenths, V is a
// dominant and VII half-diminished (Hutchinson, Music Theory for the
// 21st-Century Classroom, ch. 8 §8.3; all handbooks).
func TestDiatonicSevenths(t *testing.T) {
	home := analyze(t, "Cmaj7 | Fmaj7 | Bm7b5 | Em7 | Am7 | Dm7 | G7 | Cmaj7")
	for fifths := -6; fifths <= 6; fifths++ {
		k := key.New(pitch.At(fifths), key.Major)
		c, err := chart.Parse("Cmaj7 | Fmaj7 | Bm7b5 | Em7 | Am7 | Dm7 | G7 | Cmaj7")
		require.NoError(t, err)
		a := function.Analyze(c.Transpose(pitch.IntervalAt(fifths)))
		assert.Equal(t, k.String()+": Imaj7 IVmaj7 VIIm7b5 IIIm7 VIm7 IIm7 V7 Imaj7", numerals(&a))
		for i, r := range a.Chords {
			assert.Equal(t, function.Diatonic, r.Role, "%v: %v", k, r.Numeral)
			assert.Equal(t, home.Chords[i].Function, r.Function, "%v: %v", k, r.Numeral)
		}
	}
}

// Common practice, no source.
func TestFacts(t *testing.T) {
	t.Run("F#7 before Bm7 is V7/VI in D major", func(t *testing.T) {
		a := analyze(t, "Dmaj7 | F#7 | Bm7 | Em7 A7 | Dmaj7")
		assert.Equal(t, "D major: Imaj7 V7/VI VIm7 IIm7 V7 Imaj7", numerals(&a))
		assert.Equal(t, function.SecondaryDominant, a.Chords[1].Role)
		assert.Equal(t, 2, a.Chords[1].ResolvesTo)
	})
	t.Run("C#7 before that F#7 may be II7/VI", func(t *testing.T) {
		a := analyze(t, "Dmaj7 | C#7 F#7 | Bm7 | Em7 A7 | Dmaj7")
		assert.Contains(t, readings(&a, 1), "D major: II7/VI")
		assert.Equal(t, "V7/VI", a.Chords[2].Numeral.String())
	})
	t.Run("a minor IV in major is borrowed", func(t *testing.T) {
		a := analyze(t, "C | F | Fm | C")
		assert.Equal(t, "C major: I IV IVm I", numerals(&a))
		assert.Equal(t, function.Borrowed, a.Chords[2].Role)
		assert.Equal(t, function.Predominant, a.Chords[2].Function)
	})
	t.Run("a diminished chord falling from III to II is bIII", func(t *testing.T) {
		a := analyze(t, "Cmaj7 | Em7 Ebdim7 | Dm7 G7 | Cmaj7")
		assert.Equal(t, "C major: Imaj7 IIIm7 bIIIdim7 IIm7 V7 Imaj7", numerals(&a))
		assert.Equal(t, function.PassingDiminished, a.Chords[2].Role)
		assert.Equal(t, 3, a.Chords[2].ResolvesTo)
	})
	t.Run("the same diminished chord by another of its names", func(t *testing.T) {
		a := analyze(t, "Cmaj7 | Em7 D#dim7 | Dm7 G7 | Cmaj7")
		assert.Equal(t, "bIIIdim7", a.Chords[2].Numeral.String())
	})
	t.Run("V7 to a foreign major seventh of two bars opens a key at the dominant", func(t *testing.T) {
		a := analyze(t, "Cmaj7 | Dm7 G7 | Cmaj7 | F#7 | Bmaj7 | / / / /")
		assert.Equal(t, "C major: Imaj7 IIm7 V7 Imaj7 B major: V7 Imaj7", numerals(&a))
		require.Len(t, a.Regions, 2)
		assert.Equal(t, 4, a.Regions[1].First)
	})
	t.Run("a bracketed turnaround leads to bar 1", func(t *testing.T) {
		a := analyze(t, "Cmaj7 | Am7 | Dm7 | G7 | Cmaj7 | Dm7 G7 | Cmaj7 | (Dm7 G7)")
		last := len(a.Chords) - 1
		assert.Equal(t, 0, a.Chords[last].ResolvesTo)
		assert.Equal(t, "V7", a.Chords[last].Numeral.String())
		assert.Equal(t, "C major", a.Home.String())
	})
	t.Run("a bracketed dominant of another bar 1", func(t *testing.T) {
		a := analyze(t, "Dm7 | G7 | Cmaj7 | / / / / | Dm7 | G7 | Cmaj7 | (A7)")
		last := len(a.Chords) - 1
		assert.Equal(t, "V7/II", a.Chords[last].Numeral.String())
		assert.Equal(t, 0, a.Chords[last].ResolvesTo)
	})
	t.Run("an inverted triad keeps its numeral", func(t *testing.T) {
		a := analyze(t, "C | F | G7 | C | Bb/D | F | G7 | C")
		assert.Equal(t, "bVII", a.Chords[4].Numeral.String())
	})
	t.Run("a silence between two equal chords is none of them", func(t *testing.T) {
		a := analyze(t, "C | F | G7 | C | N.C. | C")
		assert.Equal(t, function.Silence, a.Chords[4].Role)
		assert.Equal(t, "N.C.", a.Chords[4].Numeral.String())
		assert.Empty(t, a.Alternatives(4, 2))
		assert.Len(t, a.Regions, 1, "a region may span it")
	})
	t.Run("a two-five-one is in the key of its one, however short", func(t *testing.T) {
		for _, tt := range [][2]string{
			{"Dm7 | G7 | Cmaj7", "C major: IIm7 V7 Imaj7"},
			{"Dm7 | G7 | Cmaj7 | / / / /", "C major: IIm7 V7 Imaj7"},
			{"Dm7b5 | G7b9 | Cm6", "C minor: IIm7b5 V7b9 Im6"},
		} {
			a := analyze(t, tt[0])
			assert.Equal(t, tt[1], numerals(&a))
		}
	})
}

// readings are all that are told of chord i.
func readings(a *function.Analysis, i int) []string {
	r := &a.Chords[i]
	list := []string{r.Key.String() + ": " + r.Numeral.String()}
	for _, alt := range a.Alternatives(i, function.MaxAlternatives) {
		list = append(list, alt.Key.String()+": "+alt.Numeral.String())
	}
	return list
}

// How the key moves is told from region to region, as players remember it.
func TestMove(t *testing.T) {
	a := analyze(t, "[A] Fm | Db | Gm7b5 | C7 | Fm | Db | Gm7b5 C7 | Fm | [B] F | Dm | Gm7 | C7 | F | Dm | Gm7 C7 | F | [C] A | F#m | Bm7 | E7 | A | F#m | Bm7 E7 | A")
	require.Len(t, a.Regions, 3, numerals(&a))
	for r, want := range []string{"", "on the same tonic", "up a major third", ""} {
		assert.Equal(t, want, a.Move(r))
	}
	assert.Empty(t, a.Move(-1))
}
