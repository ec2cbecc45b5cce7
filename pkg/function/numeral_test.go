package function

import (
	"encoding"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"fifthwise/pkg/chord"
	"fifthwise/pkg/key"
	"fifthwise/pkg/pitch"
)

var (
	_ encoding.TextMarshaler   = Numeral{}
	_ encoding.TextUnmarshaler = (*Numeral)(nil)
	_ encoding.TextMarshaler   = NumeralStyle(0)
	_ encoding.TextUnmarshaler = (*NumeralStyle)(nil)
)

// The three styles in a major key. Common practice, no source.
var numeralsInStyles = []struct{ upper, cased, arabic string }{
	{"I", "I", "1"},
	{"Imaj7", "Imaj7", "1maj7"},
	{"I6", "I6", "1 6"},
	{"I6/9", "I6/9", "1 6/9"},
	{"I7", "I7", "1 7"},
	{"I5", "I5", "1 5"},
	{"Iaug", "Iaug", "1aug"},
	{"Imaj7#11", "Imaj7#11", "1maj7#11"},
	{"I(b9)", "I(b9)", "1(b9)"},
	{"Im", "i", "1m"},
	{"Im6", "i6", "1m6"},
	{"Im6/9", "i6/9", "1m6/9"},
	{"Im(maj7)", "i(maj7)", "1m(maj7)"},
	{"Imadd9", "iadd9", "1madd9"},
	{"Im7#5", "i7#5", "1m7#5"},
	{"IIm", "ii", "2m"},
	{"IIm7", "ii7", "2m7"},
	{"IIm11", "ii11", "2m11"},
	{"IIm7b5", "ii7b5", "2m7b5"},
	{"IIdim", "iidim", "2dim"},
	{"II7", "II7", "2 7"},
	{"bIIImaj7", "bIIImaj7", "b3maj7"},
	{"bIIIdim7", "biiidim7", "b3dim7"},
	{"IVm7", "iv7", "4m7"},
	{"#IVdim7", "#ivdim7", "#4dim7"},
	{"#IVm7b5", "#iv7b5", "#4m7b5"},
	{"V", "V", "5"},
	{"V7", "V7", "5 7"},
	{"V7b9", "V7b9", "5 7b9"},
	{"V7alt", "V7alt", "5 7alt"},
	{"V13", "V13", "5 13"},
	{"Vsus", "Vsus", "5sus"},
	{"Vsus2", "Vsus2", "5sus2"},
	{"Vsus2sus4", "Vsus2sus4", "5sus2sus4"},
	{"V7sus", "V7sus", "5 7sus"},
	{"V9sus", "V9sus", "5 9sus"},
	{"V7susb9", "V7susb9", "5 7susb9"},
	{"Vm7", "v7", "5m7"},
	{"bVII7", "bVII7", "b7 7"},
	{"bbVIImaj7", "bbVIImaj7", "bb7maj7"},
	{"V:(1,5,b7)", "V:(1,5,b7)", "5:(1,5,b7)"},
	{"IV:(1,b3,6,7)", "iv:(1,b3,6,7)", "4:(1,b3,6,7)"},
	{"V7/II", "V7/ii", "5 7/2"},
	{"V7/III", "V7/iii", "5 7/3"},
	{"V7/IV", "V7/IV", "5 7/4"},
	{"V7/V", "V7/V", "5 7/5"},
	{"V7/VI", "V7/vi", "5 7/6"},
	{"V7/VII", "V7/vii", "5 7/7"},
	{"V7/bVI", "V7/bVI", "5 7/b6"},
	{"V7/#IV", "V7/#iv", "5 7/#4"},
	{"V9sus/V", "V9sus/V", "5 9sus/5"},
	{"V7b9/VI", "V7b9/vi", "5 7b9/6"},
	{"IIm7b5/VI", "ii7b5/vi", "2m7b5/6"},
	{"IIm7/bV", "ii7/bV", "2m7/b5"},
	{"II7/VI", "II7/vi", "2 7/6"},
	{"VIIdim7/V", "viidim7/V", "7dim7/5"},
	{"VIIdim7/bIII", "viidim7/bIII", "7dim7/b3"},
	{"I6/9/IV", "I6/9/IV", "1 6/9/4"},
	{"subV", "subV", "sub5"},
	{"subV7", "subV7", "sub5 7"},
	{"subV7/II", "subV7/ii", "sub5 7/2"},
	{"subV9#11/V", "subV9#11/V", "sub5 9#11/5"},
	{"N.C.", "N.C.", "N.C."},
}

func TestNumeralStyles(t *testing.T) {
	for _, tt := range numeralsInStyles {
		t.Run(tt.upper, func(t *testing.T) {
			n, err := ParseNumeral(tt.upper)
			require.NoError(t, err)
			assert.Equal(t, tt.upper, n.String())
			for s, want := range map[NumeralStyle]string{Upper: tt.upper, Cased: tt.cased, Arabic: tt.arabic} {
				assert.Equal(t, want, n.Text(s, key.Major, pitch.ASCII), s)
				again, err := ParseNumeral(want)
				require.NoError(t, err, s)
				assert.Equal(t, n, again, s)
			}
		})
	}
}

func TestNumeralUnicode(t *testing.T) {
	for _, tt := range []struct {
		in   string
		s    NumeralStyle
		want string
	}{
		{"bVIImaj7#11", Upper, "♭VIImaj7♯11"},
		{"#IVm7b5", Cased, "♯iv7♭5"},
		{"bbVII7/bV", Arabic, "♭♭7 7/♭5"},
		{"V7susb9", Upper, "V7sus♭9"},
	} {
		n := MustParseNumeral(tt.in)
		assert.Equal(t, tt.want, n.Text(tt.s, key.Major, pitch.Unicode))
		assert.Equal(t, n, MustParseNumeral(tt.want))
	}
}

func TestNumeralParts(t *testing.T) {
	for _, tt := range []struct {
		in             string
		degree, target Degree
		quality        string
		sub            bool
	}{
		{"IIm7", D(2, 0), Degree{}, "m7", false},
		{"bVImaj7", D(6, -1), Degree{}, "maj7", false},
		{"V7/VI", D(5, 0), D(6, 0), "7", false},
		{"VIIdim7/bIII", D(7, 0), D(3, -1), "dim7", false},
		{"V7/I", D(5, 0), Degree{}, "7", false},
		{"subV7", D(2, -1), Degree{}, "7", true},
		{"subV7/II", D(2, -1), D(2, 0), "7", true},
		{"bII7", D(2, -1), Degree{}, "7", false},
		{"N.C.", Degree{}, Degree{}, ":(1)", false},
	} {
		t.Run(tt.in, func(t *testing.T) {
			n := MustParseNumeral(tt.in)
			assert.Equal(t, tt.degree, n.Degree())
			assert.Equal(t, tt.target, n.Target())
			assert.Equal(t, tt.quality, n.Quality().String())
			assert.Equal(t, tt.sub, n.IsSubstitute())
			assert.Equal(t, !tt.degree.IsValid(), n.IsSilence())
			assert.Equal(t, n, NewNumeral(tt.degree, n.Quality(), tt.target, tt.sub))
		})
	}
}

func TestNewNumeral(t *testing.T) {
	seventh := mustQuality(t, "7")
	assert.Equal(t, Numeral{}, NewNumeral(Degree{}, seventh, D(5, 0), false), "no degree is silence")
	assert.Equal(t, MustParseNumeral("subV7"), NewNumeral(D(5, 0), seventh, Degree{}, true), "a substitute stands on bII")
	assert.Equal(t, MustParseNumeral("V7"), NewNumeral(D(5, 0), seventh, D(1, 0), false), "of I is of the key")
	assert.NotEqual(t, MustParseNumeral("subV7"), MustParseNumeral("bII7"))
	assert.True(t, Numeral{}.IsSilence())
	assert.Equal(t, "N.C.", Numeral{}.String())
}

// The case of a target is that of the triad on the degree. The V of minor is
// the dominant wherever it is tonicised, with a major third.
func TestTargetCaseFollowsTheMode(t *testing.T) {
	for m := key.Major; m.IsValid(); m++ {
		k := key.New(pitch.MustParse("C"), m)
		require.Len(t, k.Triads(), 7, m)
		for i, c := range k.Triads() {
			if i == 0 {
				continue // V7 of I is V7
			}
			d := DegreeOf(k.Tonic(), c.Root())
			minor := c.Family() == chord.Minor || c.Family() == chord.Diminished
			if m == key.Minor && d == D(5, 0) {
				minor = false
			}
			want := "V7/" + string(appendDegree(nil, d, Cased, minor, pitch.ASCII))
			assert.Equal(t, want, NewNumeral(D(5, 0), mustQuality(t, "7"), d, false).Text(Cased, m, pitch.ASCII), "%v %v", m, d)
		}
	}
}

// Common practice, no source.
func TestTargetCase(t *testing.T) {
	for _, tt := range []struct {
		mode     key.Mode
		in, want string
	}{
		{key.Major, "V7/VI", "V7/vi"}, {key.Major, "V7/IV", "V7/IV"}, {key.Major, "V7/bVI", "V7/bVI"}, {key.Major, "V7/bII", "V7/bII"},
		{key.Major, "V7/#IV", "V7/#iv"}, {key.Minor, "V7/IV", "V7/iv"}, {key.Minor, "V7/V", "V7/V"}, {key.Minor, "V7/bIII", "V7/bIII"},
		{key.Minor, "V7/bVII", "V7/bVII"}, {key.Minor, "V7/II", "V7/ii"}, {key.Minor, "V7/VII", "V7/vii"},
		{key.Dorian, "V7/IV", "V7/IV"}, {key.Phrygian, "V7/bVII", "V7/bvii"}, {key.Lydian, "V7/II", "V7/II"}, {key.Mixolydian, "V7/V", "V7/v"},
		{0, "V7/VI", "V7/vi"}, {99, "V7/IV", "V7/IV"},
	} {
		assert.Equal(t, tt.want, MustParseNumeral(tt.in).Text(Cased, tt.mode, pitch.ASCII), "%v in %v", tt.in, tt.mode)
	}
}

func TestNumeralMarshals(t *testing.T) {
	for _, tt := range numeralsInStyles {
		n := MustParseNumeral(tt.cased)
		text, err := n.MarshalText()
		require.NoError(t, err)
		assert.Equal(t, tt.upper, string(text))
		var again Numeral
		require.NoError(t, again.UnmarshalText(text))
		assert.Equal(t, n, again)
	}
	var n Numeral
	assert.EqualError(t, n.UnmarshalText([]byte("H7")), `expected a degree I to VII or 1 to 7 at offset 0 of "H7"`)
}

func TestNumeralStyle(t *testing.T) {
	for s, name := range map[NumeralStyle]string{Upper: "upper", Cased: "cased", Arabic: "arabic"} {
		assert.Equal(t, name, s.String())
		text, err := s.MarshalText()
		require.NoError(t, err)
		var again NumeralStyle
		require.NoError(t, again.UnmarshalText(text))
		assert.Equal(t, s, again)
	}
	s, err := ParseNumeralStyle("Cased")
	require.NoError(t, err)
	assert.Equal(t, Cased, s)
	_, err = ParseNumeralStyle("roman")
	assert.EqualError(t, err, `expected a style of numerals: upper, cased or arabic at offset 0 of "roman"`)
	assert.Equal(t, "style(9)", NumeralStyle(9).String())
	_, err = NumeralStyle(9).MarshalText()
	assert.EqualError(t, err, "style 9 of numerals does not exist")
	assert.Equal(t, "IIm7", MustParseNumeral("ii7").Text(9, key.Major, pitch.ASCII), "no style prints as upper")
}

// Every numeral comes back from each style, the strangest quality included.
func TestNumeralsRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := anyNumeral(t)
		for _, s := range []NumeralStyle{Upper, Cased, Arabic} {
			m := key.Mode(rapid.IntRange(0, int(key.Mixolydian)).Draw(t, "mode"))
			text := n.Text(s, m, pitch.ASCII)
			again, err := ParseNumeral(text)
			require.NoError(t, err, "%v", s)
			require.Equal(t, n, again, "%v: %s", s, text)
		}
		require.Equal(t, n.String(), string(n.AppendText(nil, Upper, key.Minor, pitch.ASCII)))
	})
}

func TestNumeralsRoundTripInUnicode(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := NewNumeral(anyDegree(t), namedQuality(t), anyDegree(t), rapid.Bool().Draw(t, "sub"))
		for _, s := range []NumeralStyle{Upper, Cased, Arabic} {
			text := n.Text(s, key.Minor, pitch.Unicode)
			again, err := ParseNumeral(text)
			require.NoError(t, err, "%v", s)
			require.Equal(t, n, again, "%v: %s", s, text)
		}
	})
}

func anyDegree(t *rapid.T) Degree {
	return D(rapid.IntRange(0, 7).Draw(t, "number"), rapid.IntRange(-2, 2).Draw(t, "alter"))
}

// usualQualities are in daily use; Hutchinson, Music Theory for the 21st-Century
// Classroom, ch. 31, tables them.
var usualQualities = []string{
	"", "m", "dim", "aug", "sus4", "sus2", "5", "6", "m6", "6/9", "m6/9", "maj7", "7", "m7", "m7b5", "dim7", "m(maj7)", "7#5", "7b5", "maj7#5",
	"maj7#11", "7sus4", "9", "maj9", "m9", "9sus4", "11", "m11", "13", "add9", "madd9", "7alt", "7b9", "7#9", "7b9b13", "9#11", "13b9", "7sus4b9",
	"m7b5add11", "dim(maj7)", "m(b13)", "(b9)", "sus4(b9)", "sus2sus4", "13sus4",
}

func namedQuality(t *rapid.T) chord.Quality {
	return mustQuality(t, rapid.SampledFrom(usualQualities).Draw(t, "quality"))
}

func anyNumeral(t *rapid.T) Numeral {
	q := namedQuality(t)
	if rapid.Bool().Draw(t, "strange") {
		q = chord.Quality{}
		for range rapid.IntRange(0, 7).Draw(t, "size") {
			q = q.With(chord.D(rapid.IntRange(2, 13).Draw(t, "degree"), rapid.IntRange(-2, 2).Draw(t, "sign")))
		}
	}
	return NewNumeral(anyDegree(t), q, anyDegree(t), rapid.Bool().Draw(t, "sub"))
}

func mustQuality(t require.TestingT, s string) chord.Quality {
	q, err := chord.ParseQuality(s)
	require.NoError(t, err)
	return q
}

func TestNumeralsDoNotAllocate(t *testing.T) {
	buffer := make([]byte, 0, 64)
	k := key.MustParse("Eb major")
	numerals := []Numeral{{}}
	for _, tt := range numeralsInStyles {
		numerals = append(numerals, MustParseNumeral(tt.upper))
	}
	chords := make([]chord.Chord, len(numerals))
	for i, n := range numerals {
		allocs := testing.AllocsPerRun(10, func() {
			for s := Upper; s <= Arabic; s++ {
				buffer = n.AppendText(buffer[:0], s, key.Minor, pitch.ASCII)
			}
			chords[i] = n.In(k)
			n = NumeralOf(chords[i], k)
		})
		assert.Zero(t, allocs, n)
	}
	assert.False(t, slices.Contains(chords[1:len(chords)-1], chord.Chord{}))
}

func BenchmarkNumeralAppendText(b *testing.B) {
	for _, in := range []string{"V7", "IIm7b5/VI", "subV7/II", "V7sus"} {
		b.Run(in, func(b *testing.B) {
			n, buffer := MustParseNumeral(in), make([]byte, 0, 64)
			b.ReportAllocs()
			for b.Loop() {
				buffer = n.AppendText(buffer[:0], Cased, key.Major, pitch.ASCII)
			}
		})
	}
}

func BenchmarkNumeralIn(b *testing.B) {
	n, k := MustParseNumeral("V7/II"), key.MustParse("Eb major")
	b.ReportAllocs()
	for b.Loop() {
		_ = n.In(k)
	}
}
