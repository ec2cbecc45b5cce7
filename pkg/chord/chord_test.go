package chord

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"fifthwise/pkg/pitch"
)

// Spelled by stacking the degrees of the handbooks' tables; that Cdim7 has Bbb
// and F#7 an A# is Hutchinson ch. 8. Bass and order are our convention.
func TestNotes(t *testing.T) {
	tests := []struct{ in, notes string }{
		{"C", "C E G"},
		{"Ebm", "Eb Gb Bb"},
		{"F#7", "F# A# C# E"},
		{"Cdim7", "C Eb Gb Bbb"},
		{"G#dim7", "G# B D F"},
		{"Db7#9", "Db F Ab Cb E"},
		{"Abm7b5", "Ab Cb Ebb Gb"},
		{"B+", "B D# F##"},
		{"D7b9/F#", "D F# A C Eb"},
		{"C/D", "C E G"},
		{"C6/9", "C E G A D"},
		{"C13", "C E G Bb D A"},
		{"C7alt", "C E Gb G# Bb Db D#"},
		{"C:(1,2,9,8)", "C D"},
		{"C:7(*1)", "E G Bb"},
		{"N.C.", ""},
	}
	for _, tt := range tests {
		t.Run(tt.in, func(t *testing.T) {
			c := MustParse(tt.in)
			assert.Equal(t, tt.notes, strings.Trim(fmt.Sprint(c.Notes()), "[]"))
			var set uint16
			for _, n := range c.Notes() {
				set |= 1 << n.Class()
			}
			assert.Equal(t, set, c.Classes())
			first := []pitch.Note{pitch.MustParse("F##")}
			assert.Equal(t, append(first, c.Notes()...), c.AppendNotes(first))
		})
	}
}

func TestTranspose(t *testing.T) {
	tests := []struct {
		in   string
		by   pitch.Interval
		want string
	}{
		{"C7/E", pitch.MinorThird, "Eb7/G"},
		{"Dm7b5", pitch.MajorSecond, "Em7b5"},
		{"Db7alt", pitch.AugmentedFourth, "G7alt"},
		{"C#7", pitch.MajorThird, "E#7"},
		{"C:(1,5,b7)/b7", pitch.PerfectFifth, "G:(1,5,b7)/b7"},
		{"N.C.", pitch.PerfectFifth, "N.C."},
	}
	for _, tt := range tests {
		assert.Equal(t, tt.want, MustParse(tt.in).Transpose(tt.by).String(), tt.in)
	}
}

func TestSimplify(t *testing.T) {
	for in, want := range map[string]string{
		"Fbm7/Ab":   "Em7/G#",
		"E#7":       "F7",
		"B##7/D###": "C#7/E#",
		"Bbbmaj7":   "Amaj7",
		"F#m7":      "F#m7",
		"C/E":       "C/E",
		"C/Fb":      "C/Fb",
		"C/Ebb":     "C/D",
		"N.C.":      "N.C.",
	} {
		c := MustParse(in)
		assert.Equal(t, want, c.Simplify().String(), in)
		assert.Equal(t, c.Classes(), c.Simplify().Classes(), in)
		assert.True(t, c.Bass().Sounds(c.Simplify().Bass()), in)
	}
}

func TestSilence(t *testing.T) {
	assert.Equal(t, Chord{}, Chord{}.WithBass(pitch.MustParse("E")))
	assert.Empty(t, Chord{}.Notes())
	assert.Zero(t, Chord{}.Classes())
	assert.False(t, Chord{}.HasBass())
	assert.NotEqual(t, Chord{}, New(pitch.Note{}, Quality{}))
}

func TestUnicode(t *testing.T) {
	for in, want := range map[string]string{
		"Ebm7b5/Gb": "E♭m7♭5/G♭", "F#7#9": "F♯7♯9", "Bb(b9)": "B♭(♭9)", "Ab:(1,bb3)/#4": "A♭:(1,♭♭3)/♯4", "N.C.": "N.C.",
	} {
		got := string(MustParse(in).AppendTo([]byte("| "), pitch.Unicode))
		assert.Equal(t, "| "+want, got)
		assert.Equal(t, MustParse(in), MustParse(want))
	}
}

// anyChord draws from all chords that New and WithBass can make: few degrees
// or many, with and without a root, and alt.
func anyChord() *rapid.Generator[Chord] {
	note := rapid.Map(rapid.IntRange(-50, 54), pitch.At)
	degree := rapid.Custom(func(t *rapid.T) Degree {
		if rapid.IntRange(0, 20).Draw(t, "root") == 0 {
			return Degree{}
		}
		return D(rapid.IntRange(2, maxDegree).Draw(t, "number"), rapid.IntRange(-maxAlter, maxAlter).Draw(t, "alter"))
	})
	usual := rapid.Map(rapid.SampledFrom(heads), func(h head) Quality { return qualityOf(rooted(h.degrees)) })
	return rapid.Custom(func(t *rapid.T) Chord {
		q := rapid.OneOf(rapid.Just(Quality{}), rapid.Just(altered), usual).Draw(t, "quality")
		q = q.With(rapid.SliceOfN(degree, 0, 8).Draw(t, "with")...).Without(rapid.SliceOfN(degree, 0, 2).Draw(t, "without")...)
		return New(note.Draw(t, "root"), q).WithBass(note.Draw(t, "bass"))
	})
}

func TestRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := anyChord().Draw(t, "chord")
		interval := rapid.Map(rapid.IntRange(-104, 104), pitch.IntervalAt).Draw(t, "interval")
		for _, c := range []Chord{c, c.Transpose(interval), c.Simplify()} {
			roundTrips(t, c)
		}
	})
}

// roundTrips checks that a chord is read back from each of its forms.
func roundTrips(t require.TestingT, c Chord) {
	again, err := Parse(c.String())
	require.NoError(t, err)
	require.Equal(t, c, again, "%v", c)

	again, err = Parse(string(c.AppendTo(nil, pitch.Unicode)))
	require.NoError(t, err)
	require.Equal(t, c, again, "%v", c)

	text, err := c.MarshalText()
	require.NoError(t, err)
	require.NoError(t, again.UnmarshalText(text))
	require.Equal(t, c, again, "%v", c)

	if !c.IsSilence() {
		q, err := ParseQuality(c.Quality().String())
		require.NoError(t, err)
		require.Equal(t, c.Quality(), q, "%v", c)
	}

	// Harte's syntax cannot say alt.
	again, err = Parse(c.Harte())
	require.NoError(t, err)
	require.Equal(t, withoutAlt(c), again, "%v", c)
}

func withoutAlt(c Chord) Chord {
	c.quality.bits &^= altFlag
	return c
}

func FuzzParse(f *testing.F) {
	for _, k := range kinds {
		for _, word := range spoken(k.words) {
			f.Add("C" + word)
			f.Add("F#" + word + "9/A")
		}
	}
	for _, m := range modifiers {
		for _, word := range spoken(m.words) {
			f.Add("B♭7(" + word + "5)")
		}
	}
	for _, h := range heads {
		f.Add("Eb" + h.name + "b9#11")
		f.Add("D:(" + strings.ReplaceAll(h.degrees, " ", ",") + ")/b7")
	}
	for _, s := range shorthands {
		f.Add("C:" + s.word + "(*5,b13)")
	}
	for _, s := range append(silences, "", "c7", "C7(b9", "C/E/G", "C|D", "\xff", "Cadd#", "Comit", "C:(1,bbb3)", "C(6/9)", "C7(add9, no3)") {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		c, err := Parse(s)
		if err == nil {
			roundTrips(t, c)
			return
		}
		var fault *pitch.SyntaxError
		require.ErrorAs(t, err, &fault)
		require.Equal(t, s, fault.Input)
		require.GreaterOrEqual(t, fault.Offset, 0)
		require.LessOrEqual(t, fault.Offset, len(s))
		require.NotEmpty(t, fault.Msg)
	})
}
