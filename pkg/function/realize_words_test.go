package function_test

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"fifthwise/pkg/chart"
	"fifthwise/pkg/chord"
	"fifthwise/pkg/evaluate"
	"fifthwise/pkg/function"
	"fifthwise/pkg/key"
)

func namesOf(chords []chord.Chord) string {
	names := make([]string, len(chords))
	for i, c := range chords {
		names[i] = c.String()
	}
	return strings.Join(names, " ")
}

// Numerals of the handbooks; more of their rows are in TestHandbook. Hutchinson
// is Music Theory for the 21st-Century Classroom.
func TestRealize(t *testing.T) {
	tests := []struct {
		source, key string
		words       []string
		want        string
	}{
		{"Hutchinson §9.3, Fig. 9.3.2", "D major", []string{"ii7", "V7", "Imaj7"}, "Em7 A7 Dmaj7"},
		{"Hutchinson §17.3, Fig. 17.3.2", "C major", []string{"V7/IV", "V7/V", "V7/vi", "V7/ii", "V7/iii"}, "C7 D7 E7 A7 B7"},
		{"Hutchinson §17.3, Fig. 17.3.2, in figures", "C major", []string{"5 7/4", "5 7/5", "57/6", "5 7/2", "5 7/3"}, "C7 D7 E7 A7 B7"},
		{"Hutchinson §18.2, Fig. 18.2.2", "C minor", []string{"VIIdim/IV", "viio/V"}, "Edim F#dim"},
		{"Hutchinson §20.2, Fig. 20.2.1", "C# minor", []string{"i", "N6", "V7"}, "C#m D G#7"},
		{"common practice, no source", "Eb major", []string{"IIm7", "V7", "G major:", "Imaj7"}, "Fm7 Bb7 Gmaj7"},
		{"common practice, no source", "Eb major", []string{"subV7", "IIm7/bV", "subV7/V"}, "E7 Bm7 B7"},
		{"common practice, no source", "Gb major", []string{"IVmaj7", "subV7", "bVImaj7", "N.C.", "#IVm7b5"}, "Cbmaj7 G7 Dmaj7 N.C. Cm7b5"},
		{"common practice, no source", "C major", []string{"F#m : ", "VIIdim7/IV", " V7 ", "Bb:", "bVII9sus"}, "A#dim7 C#7 Ab9sus4"},
		{"nothing in, nothing out", "C major", nil, ""},
		{"a key alone sounds nothing", "C major", []string{"D dorian:"}, ""},
	}
	for _, tt := range tests {
		t.Run(tt.key+" "+strings.Join(tt.words, " "), func(t *testing.T) {
			chords, err := function.Realize(key.MustParse(tt.key), tt.words)
			require.NoError(t, err)
			assert.Equal(t, tt.want, namesOf(chords), tt.source)
		})
	}
}

func TestRealizeErrors(t *testing.T) {
	tests := []struct {
		name    string
		words   []string
		wantErr string
	}{
		{"a chord symbol", []string{"V7", "Cm7"}, `word 2: expected a degree I to VII or 1 to 7 at offset 0 of "Cm7" (a chord symbol is no numeral)`},
		{"a key without its colon", []string{"G major"}, `word 1: expected a degree I to VII or 1 to 7 at offset 0 of "G major" (a key is followed by a colon, "G major:")`},
		{"a key in a mode without its colon", []string{" Bb dorian"}, `word 1: expected a degree I to VII or 1 to 7 at offset 1 of " Bb dorian" (a key is followed by a colon, "Bb dorian:")`},
		{"a key or a chord symbol", []string{"Gm"}, `word 1: expected a degree I to VII or 1 to 7 at offset 0 of "Gm" (a chord symbol is no numeral)`},
		{"no mode", []string{"V7", "I", " G majr:"}, `word 3: expected a mode: major, minor, dorian, phrygian, lydian or mixolydian at offset 3 of " G majr:" (write major)`},
		{"a lower-case tonic", []string{"g:"}, `word 1: expected a note name A to G at offset 0 of "g:" (write G major or G minor)`},
		{"an empty word", []string{""}, `word 1: expected a degree I to VII or 1 to 7 at offset 0 of ""`},
		{"a colon alone", []string{":"}, `word 1: expected a note name A to G at offset 0 of ":"`},
		{"a bass", []string{"I/E"}, `word 1: expected the tonicised degree, I to VII or 1 to 7 at offset 2 of "I/E" (a bass or an inversion is no part of a numeral)`},
		{"all at once", []string{"H", "V7", "VIII"}, "word 1: expected a degree I to VII or 1 to 7 at offset 0 of \"H\"\nword 3: expected a degree I to VII or 1 to 7 at offset 0 of \"VIII\" (VII is the highest)"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			chords, err := function.Realize(key.MustParse("C major"), tt.words)
			assert.Nil(t, chords)
			require.EqualError(t, err, tt.wantErr)
			var one *function.WordError
			require.True(t, errors.As(err, &one))
			assert.Less(t, one.Index, len(tt.words))
		})
	}
	_, err := function.Realize(key.Key{}, nil)
	assert.EqualError(t, err, "expected a key to count the numerals in")
}

// requireInverse: the numerals of a reading, in any style, give its chords again.
// A numeral names the chord that is heard: under another bass it is the same; a
// diminished seventh may bear the name of any of its notes; and what the bass
// makes a suspended dominant or a seventh is told as that chord.
func requireInverse(t require.TestingT, a *function.Analysis) {
	var first []chord.Chord
	for _, style := range []function.NumeralStyle{function.Upper, function.Cased, function.Arabic} {
		chords, err := function.Realize(key.MustParse("C major"), a.Words(style))
		require.NoError(t, err)
		require.Len(t, chords, len(a.Chords))
		if first == nil {
			first = chords
		}
		require.Equal(t, first, chords, "%v", style)
	}
	for i := range a.Chords {
		x, again := a.Chords[i].Event.Chord, first[i]
		require.False(t, again.HasBass())
		if isHeardOnBass(x, again) {
			continue
		}
		require.Equal(t, x.Classes(), again.Classes(), "%v comes back as %v, %v", x, again, a.Chords[i].Numeral)
		if x.Family() != chord.Diminished {
			require.Equal(t, x.Root().Class(), again.Root().Class(), "%v comes back as %v", x, again)
			require.Equal(t, x.Quality(), again.Quality(), "%v comes back as %v", x, again)
		}
	}
}

// isHeardOnBass: the bass makes another chord of x, with all of its notes: a
// suspended dominant on the bass, or of a triad over its seventh the dominant.
func isHeardOnBass(x, again chord.Chord) bool {
	seventh := x.Quality().With(chord.D(7, -1))
	sounding := x.Classes() | 1<<x.Bass().Class()
	switch {
	case again.Quality() == seventh && again.Root().Sounds(x.Root()):
		return sounding&^again.Classes() == 0
	}
	return x.HasBass() && again.Family() == chord.Suspended && again.Root().Sounds(x.Bass()) && sounding&^again.Classes() == 0
}

func TestRealizeInvertsAnyReading(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := function.Analyze(chartOf(rapid.SliceOfN(rapid.ByteRange(0, 255), 40, 200).Draw(t, "chart")))
		requireInverse(t, &a)
	})
}

func TestRealizeInvertsCorpora(t *testing.T) {
	eachCorpus(t, func(name string, pieces []evaluate.Piece) {
		chords := 0
		for _, p := range pieces {
			a := function.Analyze(p.Chart)
			requireInverse(t, &a)
			chords += len(a.Chords)
		}
		t.Logf("%s: %d chords of %d pieces come back", name, chords, len(pieces))
	})
}

// Any words give chords, one for each that is no key, or all their faults.
func FuzzRealize(f *testing.F) {
	for _, words := range []string{"IIm7\nV7\nG major:\nImaj7", "5 7/6\nsub5 7", "viio7/ii\nN.C.\n♭VII7", "Cm7\n:\nVIII\nI/E", "F# dorian:\ni"} {
		f.Add(words)
	}
	f.Fuzz(func(t *testing.T, text string) {
		words := strings.Split(text, "\n")
		chords, err := function.Realize(key.MustParse("C major"), words)
		var list function.WordErrors
		if errors.As(err, &list) {
			assert.Nil(t, chords)
			for _, e := range list {
				assert.Equal(t, words[e.Index], e.Err.Input)
				assert.LessOrEqual(t, e.Err.Offset, len(e.Err.Input))
			}
			return
		}
		require.NoError(t, err)
		keys := 0
		for _, w := range words {
			if strings.HasSuffix(strings.TrimRight(w, " \t"), ":") {
				keys++
			}
		}
		assert.Len(t, chords, len(words)-keys)
	})
}

func ExampleRealize() {
	chords, _ := function.Realize(key.MustParse("Eb major"), []string{"IIm7", "V7", "G major:", "Imaj7"})
	fmt.Println(chords)
	// Output: [Fm7 Bb7 Gmaj7]
}

func ExampleAnalysis_Words() {
	c, _ := chart.Parse("Dm7 | G7 | Cmaj7 | % | Cm7 | F7 | Bbmaj7 | %")
	a := function.Analyze(c)
	words := a.Words(function.Cased)
	chords, _ := function.Realize(a.Home, words)
	fmt.Println(words)
	fmt.Println(chords)
	// Output:
	// [C major: ii7 V7 Imaj7 Imaj7 Bb major: ii7 V7 Imaj7 Imaj7]
	// [Dm7 G7 Cmaj7 Cmaj7 Cm7 F7 Bbmaj7 Bbmaj7]
}

func BenchmarkRealize(b *testing.B) {
	words := strings.Fields("IIm7 V7 Imaj7 V7/II IIm7/V subV7/V #IVdim7 bVII7")
	k := key.MustParse("Eb major")
	for b.Loop() {
		_, _ = function.Realize(k, words)
	}
}
