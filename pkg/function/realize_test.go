package function

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"fifthwise/pkg/chord"
	"fifthwise/pkg/key"
	"fifthwise/pkg/pitch"
)

// Published numerals and the chords they name, inversions and basses left out.
// Hutchinson is Music Theory for the 21st-Century Classroom; OMT 1 is Shaffer,
// Hughes and Moseley, Open Music Theory, OMT 2 its second version by Gotham and
// others; Wikipedia is the English one.
// Each word of printed stands for one of chords, and for one of numerals in our
// counting. Where the handbook counts III, VI and VII of a minor key without
// their flats, printed cannot be read in our counting: counted is set.
var handbookNumerals = []struct {
	source, key               string
	printed, numerals, chords string
	counted                   bool
}{
	{"Hutchinson §7.4, Fig. 7.4.1", "Bb major", "V I IV V7 vi iiø7", "V I IV V7 VIm IIm7b5", "F Bb Eb F7 Gm Cm7b5", false},
	{"Hutchinson §7.4, Fig. 7.4.2", "F# major", "IV V I vi", "IV V I VIm", "B C# F# D#m", false},
	{"Hutchinson §7.4, Fig. 7.4.4", "G major", "I IV vi", "I IV VIm", "G C Em", false},
	{"Hutchinson §8.4 ex. 3a", "Ab minor", "iv7 i V7", "IVm7 Im V7", "Dbm7 Abm Eb7", false},
	{"Hutchinson §9.1, Fig. 9.1.8", "A minor", "i7 iv7 iiø7 V7sus4 V7", "Im7 IVm7 IIm7b5 V7sus V7", "Am7 Dm7 Bm7b5 E7sus4 E7", false},
	{"Hutchinson §9.1, Fig. 9.1.8", "A minor", "VII7 IIIMA7 VIMA7", "bVII7 bIIImaj7 bVImaj7", "G7 Cmaj7 Fmaj7", true},
	{"Hutchinson §9.1, Fig. 9.1.9", "C# minor", "i iv iiø7 V7", "Im IVm IIm7b5 V7", "C#m F#m D#m7b5 G#7", false},
	{"Hutchinson §9.1, Fig. 9.1.9", "C# minor", "VII III VI", "bVII bIII bVI", "B E A", true},
	{"Hutchinson §9.3, Fig. 9.3.2", "D major", "ii7 V7 IMA7", "IIm7 V7 Imaj7", "Em7 A7 Dmaj7", false},
	{"Hutchinson §9.3, Fig. 9.3.3", "Db major", "ii V7 ii7 V13 V+9", "IIm V7 IIm7 V13 V9#5", "Ebm Ab7 Ebm7 Ab13 Ab9#5", false},
	{"Hutchinson §9.3, Fig. 9.3.6", "E major", "vi ii V I Vsus4", "VIm IIm V I Vsus", "C#m F#m B E Bsus4", false},
	{"Hutchinson §9.5, Fig. 9.5.3", "B minor", "i V7 IV9 iv7", "Im V7 IV9 IVm7", "Bm F#7 E9 Em7", false},
	{"Hutchinson §9.6, Fig. 9.6.2", "F major", "I bVII IV", "I bVII IV", "F Eb Bb", false},
	{"Hutchinson §9.8, Fig. 9.8.2", "C minor", "VII VI", "bVII bVI", "Bb Ab", true},
	{"Hutchinson §17.3, Fig. 17.3.1", "C major", "V/V V/vi V/ii V/iii", "V/V V/VI V/II V/III", "D E A B", false},
	{"Hutchinson §17.3, Fig. 17.3.2", "C major", "V7/IV V7/V V7/vi V7/ii V7/iii", "V7/IV V7/V V7/VI V7/II V7/III", "C7 D7 E7 A7 B7", false},
	{"Hutchinson §17.3, Fig. 17.3.4", "C minor", "V7/iv V7/V", "V7/IV V7/V", "C7 D7", false},
	{"Hutchinson §17.3, Fig. 17.3.4", "C minor", "V7/VI V7/VII V7/III", "V7/bVI V7/bVII V7/bIII", "Eb7 F7 Bb7", true},
	{"Hutchinson §17.6, Fig. 17.6.5", "G major", "I V/vi IV V/V", "I V/VI IV V/V", "G B C A", false},
	{"Hutchinson §17.7 ex. 4.2", "G minor", "V7/VI", "V7/bVI", "Bb7", true},
	{"Hutchinson §17.7 ex. 4.4", "A major", "V/ii", "V/II", "F#", false},
	{"Hutchinson §18.1, Fig. 18.1.1", "C major", "viiø7 viio7/ii viio7/iii viiø7/IV viiø7/V viio7/vi", "VIIm7b5 VIIdim7/II VIIdim7/III VIIm7b5/IV VIIm7b5/V VIIdim7/VI", "Bm7b5 C#dim7 D#dim7 Em7b5 F#m7b5 G#dim7", false},
	{"Hutchinson §18.2, Fig. 18.2.2", "C minor", "viio/iv viio/V", "VIIdim/IV VIIdim/V", "Edim F#dim", false},
	{"Hutchinson §18.2, Fig. 18.2.2", "C minor", "viio/VI viio/VII", "VIIdim/bVI VIIdim/bVII", "Gdim Adim", true},
	{"Hutchinson §18.5 ex. 1.1", "D major", "viio7/vi", "VIIdim7/VI", "A#dim7", false},
	{"Hutchinson §18.5 ex. 1.3", "Eb major", "viiø7/IV", "VIIm7b5/IV", "Gm7b5", false},
	{"Hutchinson §18.5 ex. 1.6", "Ab major", "viio7/ii", "VIIdim7/II", "Adim7", false},
	{"Hutchinson §18.5 ex. 2.3", "E minor", "viiø7/III", "VIIm7b5/bIII", "F#m7b5", true},
	{"Hutchinson §19.1, Fig. 19.1.7", "G major", "IV iv", "IV IVm", "C Cm", false},
	{"Hutchinson §19.1, Fig. 19.1.10", "Eb major", "bVII7", "bVII7", "Db7", false},
	{"Hutchinson §19.2, Fig. 19.2.1", "C major", "bVI iv iio iiø7 viio7 bVII7", "bVI IVm IIdim IIm7b5 VIIdim7 bVII7", "Ab Fm Ddim Dm7b5 Bdim7 Bb7", false},
	{"Hutchinson §19.2, Fig. 19.2.2", "C major", "bIII i bVI bVII v", "bIII Im bVI bVII Vm", "Eb Cm Ab Bb Gm", false},
	{"Hutchinson §19.4, Fig. 19.4.3", "F# major", "vi iiø7 V7 bVI bVII", "VIm IIm7b5 V7 bVI bVII", "D#m G#m7b5 C#7 D E", false},
	{"Hutchinson §19.6 ex. 1.1", "D major", "viio7", "VIIdim7", "C#dim7", false},
	{"Hutchinson §19.6 ex. 1.4", "B major", "iiø7", "IIm7b5", "C#m7b5", false},
	{"Hutchinson §19.6 ex. 2.2", "F minor", "V7/V", "V7/V", "G7", false},
	{"Hutchinson §19.6 ex. 2.5", "E minor", "viio7/iv", "VIIdim7/IV", "G#dim7", false},
	{"Hutchinson §19.6 ex. 2.6", "Bb major", "bIII", "bIII", "Db", false},
	{"Hutchinson §20.2, Fig. 20.2.1", "C# minor", "i N6 V7", "Im bII V7", "C#m D G#7", false},
	{"Hutchinson §20.2, Fig. 20.2.2", "C major", "N", "bII", "Db", false},
	{"Hutchinson §20.3 ex. 1.5", "D minor", "viio/VI", "VIIdim/bVI", "Adim", true},
	{"Hutchinson §20.3 ex. 1.6", "B minor", "N", "bII", "C", false},
	{"Hutchinson §20.3 ex. 2.6", "G major", "N6", "bII", "Ab", false},
	{"Hutchinson §21.4, Fig. 21.4.1", "C major", "Fr+6 Ger+6", "bVI7b5 bVI7", "Ab7b5 Ab7", false},
	{"Hutchinson §21.5, Fig. 21.5.6", "E minor", "Ger+6", "bVI7", "C7", false},
	{"Hutchinson §21.7, Fig. 21.7.8", "C minor", "i V IV", "Im V IV", "Cm G F", false},
	{"Hutchinson §23.4 ex. 2", "A minor", "Ger+6 viio7/iv iv V", "bVI7 VIIdim7/IV IVm V", "F7 C#dim7 Dm E", false},
	{"Hutchinson §31.8.2", "C major", "V7/vi V7/ii V7/V V7", "V7/VI V7/II V7/V V7", "E7 A7 D7 G7", false},
	{"Hutchinson §31.8.2, second labelling", "C major", "III7 VI7 II7 V7", "III7 VI7 II7 V7", "E7 A7 D7 G7", false},
	{"Hutchinson §31.8.3, figures A and B", "C major", "I6/9 ii7 bII7 bIII7", "I6/9 IIm7 bII7 bIII7", "C6/9 Dm7 Db7 Eb7", false},
	{"OMT 1, Applied chords", "C major", "viio/V V I", "VIIdim/V V I", "F#dim G C", false},
	{"OMT 1, Applied chords", "Eb major", "V7/V V", "V7/V V", "F7 Bb", false},
	{"OMT 1, Pop/rock harmony, plagal", "E major", "bVI bIII bVII IV I", "bVI bIII bVII IV I", "C G D A E", false},
	{"OMT 2, Jazz: ii–V–I, Example 1", "C major", "ii7 V7 Imaj7", "IIm7 V7 Imaj7", "Dm7 G7 Cmaj7", false},
	{"OMT 2, Popular music: modal schemas", "D dorian", "i IV", "Im IV", "Dm G", false},
	{"OMT 2, Popular music: modal schemas", "F lydian", "I II", "I II", "F G", false},
	{"Wikipedia, Backdoor progression", "C major", "iv7 bVII7 I", "IVm7 bVII7 I", "Fm7 Bb7 C", false},
	{"Wikipedia, Backdoor progression, alternative", "C major", "#ivø7 VII7 Imaj9", "#IVm7b5 VII7 Imaj9", "F#m7b5 B7 Cmaj9", false},
	{"Wikipedia, Bird changes", "C major", "IM7 viiø7 III7 vi7 v7 iv7 biii7 bVI7", "Imaj7 VIIm7b5 III7 VIm7 Vm7 IVm7 bIIIm7 bVI7", "Cmaj7 Bm7b5 E7 Am7 Gm7 Fm7 Ebm7 Ab7", false},
	{"Wikipedia, List of chord progressions", "C major", "V/bVI bVI V/III III", "V/bVI bVI V/III III", "Eb Ab B E", false},
	{"common practice, no source", "C major", "subV7 subV7/ii subV7/iii subV7/IV subV7/V subV7/vi", "subV7 subV7/II subV7/III subV7/IV subV7/V subV7/VI", "Db7 Eb7 F7 Gb7 Ab7 Bb7", false},
	{"common practice, no source", "Eb major", "subV7 subV7/V ii-7/bV V7/bIII", "subV7 subV7/V IIm7/bV V7/bIII", "Fb7 Cb7 Cbm7 Db7", false},
	{"common practice, no source", "Gb major", "subV7 subV7/ii V7/#IV viio7/bIII", "subV7 subV7/II V7/#IV VIIdim7/bIII", "Abb7 Bbb7 G7 Abdim7", false},
	{"common practice, no source", "B minor", "subV7 subV7/V #ivø7 #ivo7", "subV7 subV7/V #IVm7b5 #IVdim7", "C7 G7 E#m7b5 E#dim7", false},
}

func TestHandbook(t *testing.T) {
	for _, tt := range handbookNumerals {
		k := key.MustParse(tt.key)
		printed, numerals, chords := strings.Fields(tt.printed), strings.Fields(tt.numerals), strings.Fields(tt.chords)
		require.Len(t, numerals, len(printed), tt.source)
		require.Len(t, chords, len(printed), tt.source)
		for i, want := range chords {
			t.Run(tt.key+" "+printed[i], func(t *testing.T) {
				n := MustParseNumeral(numerals[i])
				assert.Equal(t, want, n.In(k).String(), tt.source)
				if !tt.counted {
					assert.Equal(t, n, MustParseNumeral(printed[i]), tt.source)
				}
				assertNames(t, n, chord.MustParse(want), k)
			})
		}
	}
}

// assertNames: in the key it is counted in, the chord has the numeral without
// its target.
func assertNames(t *testing.T, n Numeral, c chord.Chord, k key.Key) {
	t.Helper()
	if n.Target().IsValid() {
		k = key.New(n.Target().Above(k.Tonic()), k.Mode())
	}
	assert.Equal(t, NewNumeral(n.Degree(), n.Quality(), Degree{}, bare), NumeralOf(c, k))
}

// Hutchinson prints both labels (§31.8.2).
func TestNumeralOfIsBare(t *testing.T) {
	k := key.MustParse("C major")
	for numeral, want := range map[string]string{"V7/VI": "III7", "V7/II": "VI7", "V7/V": "II7", "subV7": "bII7", "VIIdim7/V": "#IVdim7", "IIm7/bV": "bVIm7"} {
		assert.Equal(t, want, NumeralOf(MustParseNumeral(numeral).In(k), k).String(), numeral)
	}
	assert.Equal(t, "Imaj7", NumeralOf(chord.MustParse("Cmaj7/E"), k).String(), "a bass is left out")
}

func TestSilenceAndNoKey(t *testing.T) {
	k := key.MustParse("C major")
	assert.True(t, Numeral{}.In(k).IsSilence())
	assert.True(t, NumeralOf(chord.Chord{}, k).IsSilence())
	assert.True(t, MustParseNumeral("V7").In(key.Key{}).IsSilence())
	assert.True(t, NumeralOf(chord.MustParse("G7"), key.Key{}).IsSilence())
}

// thirtyKeys are the major and minor keys with at most seven flats or sharps.
func thirtyKeys() []key.Key {
	var keys []key.Key
	for fifths := -7; fifths <= 7; fifths++ {
		major := key.New(pitch.At(fifths), key.Major)
		keys = append(keys, major, major.Relative())
	}
	return keys
}

func TestInAndNumeralOfAreInverse(t *testing.T) {
	keys := thirtyKeys()
	require.Len(t, keys, 30)
	for _, k := range keys {
		for number := 1; number <= 7; number++ {
			for alter := -2; alter <= 2; alter++ {
				n := NewNumeral(D(number, alter), mustQuality(t, "m7b5"), Degree{}, bare)
				assert.Equal(t, n, NumeralOf(n.In(k), k), "%v in %v", n, k)
			}
		}
	}
}

// Every chord has a numeral in every key. It spells the chord as written, or
// its enharmonic neighbour where that lies beyond a double alteration.
func TestNumeralsOfChordsSpellThem(t *testing.T) {
	for _, k := range thirtyKeys() {
		for fifths := -12; fifths <= 14; fifths++ {
			c := chord.New(pitch.At(fifths), mustQuality(t, "7"))
			again := NumeralOf(c, k).In(k)
			assert.Equal(t, c.Quality(), again.Quality(), "%v in %v", c, k)
			assert.True(t, c.Root().Sounds(again.Root()), "%v in %v", c, k)
			if _, alter := k.DegreeOf(c.Root()); -2 <= alter && alter <= 2 {
				assert.Equal(t, c, again, k)
			}
		}
	}
}

// An applied numeral is the bare one in the key of its target.
func TestAppliedNumeralsCountInTheTarget(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k := rapid.SampledFrom(thirtyKeys()).Draw(t, "key")
		n := anyNumeral(t)
		within := key.New(n.Target().Above(k.Tonic()), key.Major)
		if !n.Target().IsValid() {
			within = k
		}
		require.Equal(t, NewNumeral(n.Degree(), n.Quality(), Degree{}, bare).In(within), n.In(k))
	})
}
