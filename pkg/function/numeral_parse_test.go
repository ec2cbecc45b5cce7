package function

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fifthwise/pkg/chord"
	"fifthwise/pkg/key"
	"fifthwise/pkg/pitch"
)

// Spellings of one numeral; the first is the printed one. Those with a small
// circle, a slashed circle, a figure 7 behind and a slash for applied chords are
// Hutchinson's (Music Theory for the 21st-Century Classroom, chs. 7 to 21), the
// others common practice, no source.
var numeralSpellings = [][]string{
	{"I", "1", "I/I", "I of I"},
	{"Imaj7", "IM7", "IMA7", "IΔ7", "IΔ", "I△7", "I:maj7", "1maj7", "1 maj7", "I maj7", "1Δ"},
	{"Im", "i", "Imin", "I-", "1m", "1-"},
	{"Im(maj7)", "i(maj7)", "imaj7", "iM7", "iΔ7", "ImM7", "Im(M7)", "1m(maj7)", "I-Δ7"},
	{"Im6", "i6", "I-6", "1m6"},
	{"IIm7", "ii7", "ii-7", "iim7", "iimin7", "II-7", "IImi7", "2m7", "2-7", "2 m7", "  ii7 ", "ii 7", "II m7"},
	{"IIm7b5", "ii7b5", "iiø7", "iiø", "iiØ7", "ii∅7", "iim7b5", "ii-7b5", "IIø7", "2ø7", "ii7(b5)", "II-7(♭5)", "2m7b5"},
	{"IIdim", "iidim", "ii°", "iio", "IIo", "II°", "2dim", "2°"},
	{"II7", "2 7", "27"},
	{"bIII", "♭III", "b3", "♭3"},
	{"bIII7", "b37", "b3 7", "♭III7"},
	{"III7#5", "III+7", "III7+", "III7(#5)", "3 7#5"},
	{"#IVdim7", "#iv°7", "#IV°7", "#IVo7", "#ivo7", "♯IV°7", "#4°7", "#4dim7"},
	{"IVm6", "iv6", "4m6"},
	{"IVm7", "iv7", "4m7"},
	{"V7", "57", "5 7", "V 7", "V7/I"},
	{"V", "5", "V/I", "V/i", "5/1"},
	{"V6", "56", "5 6"},
	{"V7b9", "V7(b9)", "V7(♭9)", "V7-9", "5 7b9", "57b9"},
	{"V7alt", "Valt", "5alt", "5 7alt", "57alt"},
	{"V9#5", "V+9", "V9(#5)"},
	{"Vsus", "Vsus4", "5sus", "5sus4"},
	{"V7sus", "V7sus4", "V7(sus4)", "5 7sus", "57sus4"},
	{"V9sus", "V9sus4", "5 9sus4"},
	{"V7sus", "v7sus"}, // a suspended fourth leaves no third to be minor
	{"VI5", "vi5"},
	{"I6/9", "16/9", "1 6/9", "I69"},
	{"VIIdim7", "vii°7", "viio7", "viidim7", "VIIo7", "7dim7", "7°7"},
	{"VIIm7b5", "viiø7", "viiø", "7ø7"},
	{"V/II", "V/ii", "V of II", "V of ii", "5/2", "5 of 2", "V / ii", "V /II"},
	{"V7/II", "V7/ii", "V7 of ii", "V7/ii ", "57/2", "5 7/2", "5 7 of 2"},
	{"VII/VI", "7/6"},
	{"V7/VI", "5 7/6", "57/6"},
	{"II7/VI", "2 7/6", "II7/vi"},
	{"IIm7/bV", "ii7/bV", "ii7/♭V", "ii-7/bV", "2m7/b5"},
	{"V7/#IV", "V7/#iv", "5 7/#4"},
	{"VIIdim7/V", "viio7/V", "vii°7/V", "7°7/5"},
	{"VIIdim/V", "viio/V", "vii°/V"},
	{"VIIm7b5/IV", "viiø7/IV"},
	{"I6/9/IV", "1 6/9/4"},
	{"V7b9b13", "V7(b9/b13)", "V7(b9,b13)", "57(b9/b13)"},
	{"V7b9b13/II", "V7(b9/b13)/ii"},
	{"subV7", "SubV7", "SUBV7", "sub V7", "sub5 7", "sub57", "sub 5 7"},
	{"subV", "SubV", "sub5"},
	{"subV7/V", "sub V7/V", "subV7 of V", "sub5 7/5"},
	{"bII", "N", "N6"},
	{"bVI7", "It", "Ger", "It+6", "It6", "Ger+6", "Ger6", "Ger65", "EnGer+6"},
	{"bVI7b5", "Fr", "Fr+6", "Fr6", "Fr43"},
	{"bVI7/V", "Ger+6/V"},
	{"N.C.", "N.C", "NC", " N.C. "},
}

func TestParseNumeral(t *testing.T) {
	for _, row := range numeralSpellings {
		for _, in := range row {
			t.Run(in, func(t *testing.T) {
				n, err := ParseNumeral(in)
				require.NoError(t, err)
				assert.Equal(t, row[0], n.String())
			})
		}
	}
}

func TestParseNumeralErrors(t *testing.T) {
	const (
		quality = "expected an altered degree, maj7, add, no, sus, alt or a bracket at offset "
		degree  = "expected a degree I to VII or 1 to 7 at offset "
		target  = "expected the tonicised degree, I to VII or 1 to 7 at offset "
		bass    = " (a bass or an inversion is no part of a numeral)"
	)
	tests := []struct{ name, in, wantErr string }{
		{"empty", "", degree + `0 of ""`},
		{"blank", "  ", degree + `0 of "  "`},
		{"no degree", "Hm7", degree + `0 of "Hm7"`},
		{"behind a space", " H", degree + `1 of " H"`},
		{"a chord symbol", "Dm7", degree + `0 of "Dm7" (a chord symbol is no numeral)`},
		{"accidental alone", "b", degree + `1 of "b"`},
		{"chord symbol with a flat", "bB7", degree + `1 of "bB7" (a chord symbol is no numeral)`},
		{"eighth degree", "VIII", degree + `0 of "VIII" (VII is the highest)`},
		{"four strokes", "#IIII7", degree + `1 of "#IIII7" (VII is the highest)`},
		{"figure eight", "8", degree + `0 of "8"`},
		{"figure nought", "0m7", degree + `0 of "0m7"`},
		{"mixed case", "Vi", `upper and lower case are mixed in one degree at offset 0 of "Vi" (write VI or vi)`},
		{"mixed case in a target", "V7/Ii", `upper and lower case are mixed in one degree at offset 3 of "V7/Ii" (write II or ii)`},
		{"three flats", "bbbIII", `a degree has at most two flats or sharps at offset 0 of "bbbIII"`},
		{"three sharps in a target", "V7/###I", `a degree has at most two flats or sharps at offset 3 of "V7/###I"`},
		{"mixed accidentals", "b#III", `flats and sharps mixed on one note at offset 1 of "b#III"`},
		{"nothing before the slash", "/II", degree + `0 of "/II"`},
		{"no target", "V7/", target + `3 of "V7/"`},
		{"no target behind of", "V7 of", target + `5 of "V7 of"`},
		{"target without a number", "V7/b", target + `4 of "V7/b"`},
		{"a bass note", "V7/G", target + `3 of "V7/G"` + bass},
		{"eighth degree as a target", "V7/VIII", target + `3 of "V7/VIII" (VII is the highest)`},
		{"figures behind Roman", "V6/5", `expected the tonicised degree in Roman numerals, as the degree before it at offset 3 of "V6/5"` + bass},
		{"a member of the chord as the bass", "I/3rd", `expected the tonicised degree in Roman numerals, as the degree before it at offset 2 of "I/3rd"` + bass},
		{"Roman behind figures", "5 7/V", `expected the tonicised degree in figures, as the degree before it at offset 4 of "5 7/V"`},
		{"target with a quality", "V7/ii7", `expected the end of the numeral behind the tonicised degree at offset 5 of "V7/ii7" (a target has no quality)`},
		{"two targets", "V7/V/V", `an applied chord has one target at offset 2 of "V7/V/V" (name it by the chord it goes to)`},
		{"a slash too many", "V7/II/", `an applied chord has one target at offset 2 of "V7/II/" (name it by the chord it goes to)`},
		{"figured bass", "V65", `inversion figures are not read at offset 1 of "V65"` + bass},
		{"figured bass of a target", "V43/V", `inversion figures are not read at offset 1 of "V43/V"` + bass},
		{"figured bass behind a circle", "viio6", `inversion figures are not read at offset 3 of "viio6"` + bass},
		{"figured bass of a half-diminished seventh", "iiø42", `inversion figures are not read at offset 2 of "iiø42"` + bass},
		{"figures of a root position", "bVI53", `figures of a root position are not read at offset 3 of "bVI53" (write bVI)`},
		{"another sign of a major seventh", "I^7", quality + `1 of "I^7" (write maj7, or a quality such as m7, maj7 or 7b9)`},
		{"another sign of a half-diminished seventh", "iih7/V", quality + `2 of "iih7/V" (write m7b5, or a quality such as m7, maj7 or 7b9)`},
		{"a sign without a meaning", "Vz7", quality + `1 of "Vz7" (write a quality such as m7, maj7 or 7b9)`},
		{"two numerals", "II V", quality + `3 of "II V" (write a quality such as m7, maj7 or 7b9)`},
		{"lower case with a major third", "v7alt", `a lower-case degree has a minor third at offset 1 of "v7alt" (write the degree in capitals)`},
		{"lower case, augmented", "iaug", `a lower-case degree has a minor third at offset 1 of "iaug" (write the degree in capitals)`},
		{"lower-case substitute", "subv7", `expected V or 5 behind sub at offset 3 of "subv7" (a substitute bears the name of its dominant, subV7)`},
		{"substitute by its own degree", "sub bII7", `expected V or 5 behind sub at offset 4 of "sub bII7" (a substitute bears the name of its dominant, subV7)`},
		{"substitute of nothing", "sub", degree + `3 of "sub"`},
		{"too long", "V7" + strings.Repeat(" ", 299), `a numeral has at most 300 bytes at offset 300 of "V7` + strings.Repeat(" ", 299) + `"`},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			n, err := ParseNumeral(tt.in)
			assert.EqualError(t, err, tt.wantErr)
			assert.Equal(t, Numeral{}, n)
			var e *pitch.SyntaxError
			assert.ErrorAs(t, err, &e)
		})
	}
}

// What the quality does not read is told by the chord parser, at its place in
// the numeral.
func TestParseNumeralPlacesFaultsOfTheQuality(t *testing.T) {
	for _, tt := range []struct {
		in      string
		offset  int
		quality string
		within  int
	}{
		{"V7x", 2, "7x", 1}, {"♭VII7(b9", 7, "7(b9", 1}, {"subV7?/II", 5, "7?", 1}, {"I^7", 1, "^7", 0}, {"6/9", 1, "/9", 0},
	} {
		t.Run(tt.in, func(t *testing.T) {
			_, err := ParseNumeral(tt.in)
			var e, own *pitch.SyntaxError
			require.ErrorAs(t, err, &e)
			_, err = chord.ParseQuality(tt.quality)
			require.ErrorAs(t, err, &own)
			assert.Equal(t, tt.within, own.Offset)
			assert.Equal(t, pitch.SyntaxError{Input: tt.in, Offset: tt.offset, Msg: own.Msg, Hint: own.Hint}, *e)
		})
	}
}

func TestMustParseNumeralPanics(t *testing.T) {
	assert.Panics(t, func() { MustParseNumeral("H") })
}

func FuzzParseNumeral(f *testing.F) {
	for _, row := range numeralSpellings {
		for _, in := range row {
			f.Add(in)
		}
	}
	for _, tt := range numeralsInStyles {
		f.Add(tt.upper)
		f.Add(tt.cased)
		f.Add(tt.arabic)
	}
	for _, tt := range handbookNumerals {
		f.Add(tt.printed)
	}
	for _, in := range []string{"", "V7/", "Vi", "VIII", "V/V/V", "b#1", "\xff", "sub\xff", "V6/5", "6/9", "iv:(b3,*1)"} {
		f.Add(in)
	}
	f.Fuzz(func(t *testing.T, in string) {
		n, err := ParseNumeral(in)
		if err != nil {
			var e *pitch.SyntaxError
			require.ErrorAs(t, err, &e)
			require.Equal(t, in, e.Input)
			require.True(t, 0 <= e.Offset && e.Offset <= len(in), e.Offset)
			require.NotEmpty(t, e.Msg)
			require.Equal(t, Numeral{}, n)
			return
		}
		for s := Upper; s <= Arabic; s++ {
			text := n.Text(s, key.Minor, pitch.ASCII)
			again, err := ParseNumeral(text)
			require.NoError(t, err, "%v of %q", s, in)
			require.Equal(t, n, again, "%v of %q: %s", s, in, text)
		}
	})
}
