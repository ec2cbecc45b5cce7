package key

import (
	"strings"
	"testing"

	"fifthwise/pkg/chord"
	"fifthwise/pkg/pitch"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// diatonic holds the chords of the fifteen major and fifteen minor keys, the
// minor ones in their three forms. The scales after Hutchinson, Music Theory
// for the 21st-Century Classroom, §2.3 and §3.1-3.3. The kind of chord on each
// degree as its numerals are printed there: triads in §7.2 and §7.3, sevenths
// in §8.3. The names on each tonic are spelled out from those; the sevenths
// on degrees for which §8.3 prints no numeral in the harmonic and melodic form
// follow from the scale.
var diatonic = []struct {
	kind                    ScaleKind
	scale, triads, sevenths string
}{
	{MajorScale, "Cb Db Eb Fb Gb Ab Bb", "Cb Dbm Ebm Fb Gb Abm Bbdim", "Cbmaj7 Dbm7 Ebm7 Fbmaj7 Gb7 Abm7 Bbm7b5"},
	{MajorScale, "Gb Ab Bb Cb Db Eb F", "Gb Abm Bbm Cb Db Ebm Fdim", "Gbmaj7 Abm7 Bbm7 Cbmaj7 Db7 Ebm7 Fm7b5"},
	{MajorScale, "Db Eb F Gb Ab Bb C", "Db Ebm Fm Gb Ab Bbm Cdim", "Dbmaj7 Ebm7 Fm7 Gbmaj7 Ab7 Bbm7 Cm7b5"},
	{MajorScale, "Ab Bb C Db Eb F G", "Ab Bbm Cm Db Eb Fm Gdim", "Abmaj7 Bbm7 Cm7 Dbmaj7 Eb7 Fm7 Gm7b5"},
	{MajorScale, "Eb F G Ab Bb C D", "Eb Fm Gm Ab Bb Cm Ddim", "Ebmaj7 Fm7 Gm7 Abmaj7 Bb7 Cm7 Dm7b5"},
	{MajorScale, "Bb C D Eb F G A", "Bb Cm Dm Eb F Gm Adim", "Bbmaj7 Cm7 Dm7 Ebmaj7 F7 Gm7 Am7b5"},
	{MajorScale, "F G A Bb C D E", "F Gm Am Bb C Dm Edim", "Fmaj7 Gm7 Am7 Bbmaj7 C7 Dm7 Em7b5"},
	{MajorScale, "C D E F G A B", "C Dm Em F G Am Bdim", "Cmaj7 Dm7 Em7 Fmaj7 G7 Am7 Bm7b5"},
	{MajorScale, "G A B C D E F#", "G Am Bm C D Em F#dim", "Gmaj7 Am7 Bm7 Cmaj7 D7 Em7 F#m7b5"},
	{MajorScale, "D E F# G A B C#", "D Em F#m G A Bm C#dim", "Dmaj7 Em7 F#m7 Gmaj7 A7 Bm7 C#m7b5"},
	{MajorScale, "A B C# D E F# G#", "A Bm C#m D E F#m G#dim", "Amaj7 Bm7 C#m7 Dmaj7 E7 F#m7 G#m7b5"},
	{MajorScale, "E F# G# A B C# D#", "E F#m G#m A B C#m D#dim", "Emaj7 F#m7 G#m7 Amaj7 B7 C#m7 D#m7b5"},
	{MajorScale, "B C# D# E F# G# A#", "B C#m D#m E F# G#m A#dim", "Bmaj7 C#m7 D#m7 Emaj7 F#7 G#m7 A#m7b5"},
	{MajorScale, "F# G# A# B C# D# E#", "F# G#m A#m B C# D#m E#dim", "F#maj7 G#m7 A#m7 Bmaj7 C#7 D#m7 E#m7b5"},
	{MajorScale, "C# D# E# F# G# A# B#", "C# D#m E#m F# G# A#m B#dim", "C#maj7 D#m7 E#m7 F#maj7 G#7 A#m7 B#m7b5"},

	{NaturalMinorScale, "Ab Bb Cb Db Eb Fb Gb", "Abm Bbdim Cb Dbm Ebm Fb Gb", "Abm7 Bbm7b5 Cbmaj7 Dbm7 Ebm7 Fbmaj7 Gb7"},
	{NaturalMinorScale, "Eb F Gb Ab Bb Cb Db", "Ebm Fdim Gb Abm Bbm Cb Db", "Ebm7 Fm7b5 Gbmaj7 Abm7 Bbm7 Cbmaj7 Db7"},
	{NaturalMinorScale, "Bb C Db Eb F Gb Ab", "Bbm Cdim Db Ebm Fm Gb Ab", "Bbm7 Cm7b5 Dbmaj7 Ebm7 Fm7 Gbmaj7 Ab7"},
	{NaturalMinorScale, "F G Ab Bb C Db Eb", "Fm Gdim Ab Bbm Cm Db Eb", "Fm7 Gm7b5 Abmaj7 Bbm7 Cm7 Dbmaj7 Eb7"},
	{NaturalMinorScale, "C D Eb F G Ab Bb", "Cm Ddim Eb Fm Gm Ab Bb", "Cm7 Dm7b5 Ebmaj7 Fm7 Gm7 Abmaj7 Bb7"},
	{NaturalMinorScale, "G A Bb C D Eb F", "Gm Adim Bb Cm Dm Eb F", "Gm7 Am7b5 Bbmaj7 Cm7 Dm7 Ebmaj7 F7"},
	{NaturalMinorScale, "D E F G A Bb C", "Dm Edim F Gm Am Bb C", "Dm7 Em7b5 Fmaj7 Gm7 Am7 Bbmaj7 C7"},
	{NaturalMinorScale, "A B C D E F G", "Am Bdim C Dm Em F G", "Am7 Bm7b5 Cmaj7 Dm7 Em7 Fmaj7 G7"},
	{NaturalMinorScale, "E F# G A B C D", "Em F#dim G Am Bm C D", "Em7 F#m7b5 Gmaj7 Am7 Bm7 Cmaj7 D7"},
	{NaturalMinorScale, "B C# D E F# G A", "Bm C#dim D Em F#m G A", "Bm7 C#m7b5 Dmaj7 Em7 F#m7 Gmaj7 A7"},
	{NaturalMinorScale, "F# G# A B C# D E", "F#m G#dim A Bm C#m D E", "F#m7 G#m7b5 Amaj7 Bm7 C#m7 Dmaj7 E7"},
	{NaturalMinorScale, "C# D# E F# G# A B", "C#m D#dim E F#m G#m A B", "C#m7 D#m7b5 Emaj7 F#m7 G#m7 Amaj7 B7"},
	{NaturalMinorScale, "G# A# B C# D# E F#", "G#m A#dim B C#m D#m E F#", "G#m7 A#m7b5 Bmaj7 C#m7 D#m7 Emaj7 F#7"},
	{NaturalMinorScale, "D# E# F# G# A# B C#", "D#m E#dim F# G#m A#m B C#", "D#m7 E#m7b5 F#maj7 G#m7 A#m7 Bmaj7 C#7"},
	{NaturalMinorScale, "A# B# C# D# E# F# G#", "A#m B#dim C# D#m E#m F# G#", "A#m7 B#m7b5 C#maj7 D#m7 E#m7 F#maj7 G#7"},

	{HarmonicMinorScale, "Ab Bb Cb Db Eb Fb G", "Abm Bbdim Cbaug Dbm Eb Fb Gdim", "Abm(maj7) Bbm7b5 Cbmaj7#5 Dbm7 Eb7 Fbmaj7 Gdim7"},
	{HarmonicMinorScale, "Eb F Gb Ab Bb Cb D", "Ebm Fdim Gbaug Abm Bb Cb Ddim", "Ebm(maj7) Fm7b5 Gbmaj7#5 Abm7 Bb7 Cbmaj7 Ddim7"},
	{HarmonicMinorScale, "Bb C Db Eb F Gb A", "Bbm Cdim Dbaug Ebm F Gb Adim", "Bbm(maj7) Cm7b5 Dbmaj7#5 Ebm7 F7 Gbmaj7 Adim7"},
	{HarmonicMinorScale, "F G Ab Bb C Db E", "Fm Gdim Abaug Bbm C Db Edim", "Fm(maj7) Gm7b5 Abmaj7#5 Bbm7 C7 Dbmaj7 Edim7"},
	{HarmonicMinorScale, "C D Eb F G Ab B", "Cm Ddim Ebaug Fm G Ab Bdim", "Cm(maj7) Dm7b5 Ebmaj7#5 Fm7 G7 Abmaj7 Bdim7"},
	{HarmonicMinorScale, "G A Bb C D Eb F#", "Gm Adim Bbaug Cm D Eb F#dim", "Gm(maj7) Am7b5 Bbmaj7#5 Cm7 D7 Ebmaj7 F#dim7"},
	{HarmonicMinorScale, "D E F G A Bb C#", "Dm Edim Faug Gm A Bb C#dim", "Dm(maj7) Em7b5 Fmaj7#5 Gm7 A7 Bbmaj7 C#dim7"},
	{HarmonicMinorScale, "A B C D E F G#", "Am Bdim Caug Dm E F G#dim", "Am(maj7) Bm7b5 Cmaj7#5 Dm7 E7 Fmaj7 G#dim7"},
	{HarmonicMinorScale, "E F# G A B C D#", "Em F#dim Gaug Am B C D#dim", "Em(maj7) F#m7b5 Gmaj7#5 Am7 B7 Cmaj7 D#dim7"},
	{HarmonicMinorScale, "B C# D E F# G A#", "Bm C#dim Daug Em F# G A#dim", "Bm(maj7) C#m7b5 Dmaj7#5 Em7 F#7 Gmaj7 A#dim7"},
	{HarmonicMinorScale, "F# G# A B C# D E#", "F#m G#dim Aaug Bm C# D E#dim", "F#m(maj7) G#m7b5 Amaj7#5 Bm7 C#7 Dmaj7 E#dim7"},
	{HarmonicMinorScale, "C# D# E F# G# A B#", "C#m D#dim Eaug F#m G# A B#dim", "C#m(maj7) D#m7b5 Emaj7#5 F#m7 G#7 Amaj7 B#dim7"},
	{HarmonicMinorScale, "G# A# B C# D# E F##", "G#m A#dim Baug C#m D# E F##dim", "G#m(maj7) A#m7b5 Bmaj7#5 C#m7 D#7 Emaj7 F##dim7"},
	{HarmonicMinorScale, "D# E# F# G# A# B C##", "D#m E#dim F#aug G#m A# B C##dim", "D#m(maj7) E#m7b5 F#maj7#5 G#m7 A#7 Bmaj7 C##dim7"},
	{HarmonicMinorScale, "A# B# C# D# E# F# G##", "A#m B#dim C#aug D#m E# F# G##dim", "A#m(maj7) B#m7b5 C#maj7#5 D#m7 E#7 F#maj7 G##dim7"},

	{MelodicMinorScale, "Ab Bb Cb Db Eb F G", "Abm Bbm Cbaug Db Eb Fdim Gdim", "Abm(maj7) Bbm7 Cbmaj7#5 Db7 Eb7 Fm7b5 Gm7b5"},
	{MelodicMinorScale, "Eb F Gb Ab Bb C D", "Ebm Fm Gbaug Ab Bb Cdim Ddim", "Ebm(maj7) Fm7 Gbmaj7#5 Ab7 Bb7 Cm7b5 Dm7b5"},
	{MelodicMinorScale, "Bb C Db Eb F G A", "Bbm Cm Dbaug Eb F Gdim Adim", "Bbm(maj7) Cm7 Dbmaj7#5 Eb7 F7 Gm7b5 Am7b5"},
	{MelodicMinorScale, "F G Ab Bb C D E", "Fm Gm Abaug Bb C Ddim Edim", "Fm(maj7) Gm7 Abmaj7#5 Bb7 C7 Dm7b5 Em7b5"},
	{MelodicMinorScale, "C D Eb F G A B", "Cm Dm Ebaug F G Adim Bdim", "Cm(maj7) Dm7 Ebmaj7#5 F7 G7 Am7b5 Bm7b5"},
	{MelodicMinorScale, "G A Bb C D E F#", "Gm Am Bbaug C D Edim F#dim", "Gm(maj7) Am7 Bbmaj7#5 C7 D7 Em7b5 F#m7b5"},
	{MelodicMinorScale, "D E F G A B C#", "Dm Em Faug G A Bdim C#dim", "Dm(maj7) Em7 Fmaj7#5 G7 A7 Bm7b5 C#m7b5"},
	{MelodicMinorScale, "A B C D E F# G#", "Am Bm Caug D E F#dim G#dim", "Am(maj7) Bm7 Cmaj7#5 D7 E7 F#m7b5 G#m7b5"},
	{MelodicMinorScale, "E F# G A B C# D#", "Em F#m Gaug A B C#dim D#dim", "Em(maj7) F#m7 Gmaj7#5 A7 B7 C#m7b5 D#m7b5"},
	{MelodicMinorScale, "B C# D E F# G# A#", "Bm C#m Daug E F# G#dim A#dim", "Bm(maj7) C#m7 Dmaj7#5 E7 F#7 G#m7b5 A#m7b5"},
	{MelodicMinorScale, "F# G# A B C# D# E#", "F#m G#m Aaug B C# D#dim E#dim", "F#m(maj7) G#m7 Amaj7#5 B7 C#7 D#m7b5 E#m7b5"},
	{MelodicMinorScale, "C# D# E F# G# A# B#", "C#m D#m Eaug F# G# A#dim B#dim", "C#m(maj7) D#m7 Emaj7#5 F#7 G#7 A#m7b5 B#m7b5"},
	{MelodicMinorScale, "G# A# B C# D# E# F##", "G#m A#m Baug C# D# E#dim F##dim", "G#m(maj7) A#m7 Bmaj7#5 C#7 D#7 E#m7b5 F##m7b5"},
	{MelodicMinorScale, "D# E# F# G# A# B# C##", "D#m E#m F#aug G# A# B#dim C##dim", "D#m(maj7) E#m7 F#maj7#5 G#7 A#7 B#m7b5 C##m7b5"},
	{MelodicMinorScale, "A# B# C# D# E# F## G##", "A#m B#m C#aug D# E# F##dim G##dim", "A#m(maj7) B#m7 C#maj7#5 D#7 E#7 F##m7b5 G##m7b5"},
}

func TestDiatonicChords(t *testing.T) {
	for _, tt := range diatonic {
		s := tt.kind.On(pitch.MustParse(strings.Fields(tt.scale)[0]))
		t.Run(s.String(), func(t *testing.T) {
			assert.Equal(t, tt.scale, join(s.Notes()))
			assert.Equal(t, tt.triads, join(s.Triads()))
			assert.Equal(t, tt.sevenths, join(s.Sevenths()))
			for _, c := range append(s.Triads(), s.Sevenths()...) {
				assert.True(t, s.ContainsChord(c), c)
			}
		})
	}
}

func TestKeyChords(t *testing.T) {
	for _, tt := range diatonic {
		mode, ok := map[ScaleKind]Mode{MajorScale: Major, NaturalMinorScale: Minor}[tt.kind]
		if !ok {
			continue
		}
		k := New(pitch.MustParse(strings.Fields(tt.scale)[0]), mode)
		assert.Equal(t, tt.scale, join(k.Scale().Notes()), k)
		assert.Equal(t, tt.triads, join(k.Triads()), k)
		assert.Equal(t, tt.sevenths, join(k.Sevenths()), k)
	}
	assert.Empty(t, Key{}.Triads())
	assert.Empty(t, Key{}.Sevenths())
}

// Common practice, no source: a mode has the chords of the major key with its
// signature, from another degree on.
func TestModeChords(t *testing.T) {
	tests := []struct{ key, triads, sevenths string }{
		{"D dorian", "Dm Em F G Am Bdim C", "Dm7 Em7 Fmaj7 G7 Am7 Bm7b5 Cmaj7"},
		{"E phrygian", "Em F G Am Bdim C Dm", "Em7 Fmaj7 G7 Am7 Bm7b5 Cmaj7 Dm7"},
		{"F lydian", "F G Am Bdim C Dm Em", "Fmaj7 G7 Am7 Bm7b5 Cmaj7 Dm7 Em7"},
		{"G mixolydian", "G Am Bdim C Dm Em F", "G7 Am7 Bm7b5 Cmaj7 Dm7 Em7 Fmaj7"},
		{"Eb dorian", "Ebm Fm Gb Ab Bbm Cdim Db", "Ebm7 Fm7 Gbmaj7 Ab7 Bbm7 Cm7b5 Dbmaj7"},
		{"F# mixolydian", "F# G#m A#dim B C#m D#m E", "F#7 G#m7 A#m7b5 Bmaj7 C#m7 D#m7 Emaj7"},
	}
	for _, tt := range tests {
		k := MustParse(tt.key)
		assert.Equal(t, tt.triads, join(k.Triads()), tt.key)
		assert.Equal(t, tt.sevenths, join(k.Sevenths()), tt.key)
	}
}

// Every scale of seven notes stacks into chords with a name of their own.
func TestStackedThirdsAreNamed(t *testing.T) {
	for kind := range ScaleKinds() {
		s := kind.On(pitch.MustParse("C"))
		if len(s.Notes()) != 7 {
			assert.Nil(t, s.Triads(), s)
			assert.Nil(t, s.Sevenths(), s)
			continue
		}
		for i, c := range append(s.Triads(), s.Sevenths()...) {
			assert.NotContains(t, c.String(), ":", "%s, chord %d is printed as a list", s, i)
			again, err := chord.Parse(c.String())
			require.NoError(t, err)
			assert.Equal(t, c, again)
		}
	}
}

// join prints a list as its items with a space between.
func join[T interface{ String() string }](items []T) string {
	texts := make([]string, len(items))
	for i, item := range items {
		texts[i] = item.String()
	}
	return strings.Join(texts, " ")
}
