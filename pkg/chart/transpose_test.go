package chart_test

import (
	"encoding/json"
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"fifthwise/pkg/chart"
	"fifthwise/pkg/chord"
	"fifthwise/pkg/key"
	"fifthwise/pkg/pitch"
)

// inBars is a chart with a chord a bar.
func inBars(t require.TestingT, symbols ...string) chart.Chart {
	c, err := chart.Parse(strings.Join(symbols, " | "))
	require.NoError(t, err)
	return c
}

func symbolsOf(c chart.Chart) string {
	var list []string
	for _, b := range c.Bars {
		for _, s := range b.Chords {
			list = append(list, s.Symbol)
		}
	}
	return strings.Join(list, " ")
}

func moved(t require.TestingT, c chart.Chart, from, to string, passages ...chart.Passage) chart.Chart {
	c, err := c.TransposeTo(key.MustParse(from), key.MustParse(to), passages...)
	require.NoError(t, err)
	return c
}

func TestTranspose(t *testing.T) {
	c, err := chart.Parse("Title: Night Bus\nKey: F major\nPickup: 1\nC7 | [A] |: Fmaj7 | 1. (Gm7@3.5) :| 2. C7/E / N.C. / ||")
	require.NoError(t, err)
	up := c.Transpose(pitch.MinorThird)
	assert.Equal(t, "Title: Night Bus\nMeter: 4/4\nKey: Ab major\nPickup: 1\n\n| Eb7 |\n\n[A]\n|: Abmaj7 | 1. (Bbm7@3.5) :| 2. Eb7/G N.C. ||\n", up.String())
	assert.Equal(t, "Fmaj7", c.Bars[1].Chords[0].Symbol, "the chart itself stays")
	assert.Equal(t, "Abmaj7", up.Bars[1].Chords[0].Symbol)
	assert.True(t, up.Transpose(pitch.MajorSixth).Equal(c))

	b := inBars(t, "C#m7 F#7 | Bmaj7 D#7")
	assert.Equal(t, "E#m7 A#7 D#maj7 G7", symbolsOf(b.Transpose(pitch.MajorThird)), "no key is stated, and no root carries two accidentals")
	b.Key = key.MustParse("B major")
	assert.Equal(t, "Fm7 Bb7 Ebmaj7 G7", symbolsOf(b.Transpose(pitch.MajorThird)))
	assert.Equal(t, "Eb major", b.Transpose(pitch.MajorThird).Key.String())
}

// handbookKeys are the diatonic triads and sevenths of the major and the minor
// keys, the latter in natural, harmonic and melodic minor, by the rules of R.
// Hutchinson, Music Theory for the 21st-Century Classroom, §7.2, §7.3 and §8.3;
// signatures and scales after §2.3 and §3.1 to §3.3.
var handbookKeys = []struct{ key, triads, sevenths string }{
	{"Cb major", "Cb Dbm Ebm Fb Gb Abm Bbdim", "Cbmaj7 Dbm7 Ebm7 Fbmaj7 Gb7 Abm7 Bbm7b5"},
	{"Gb major", "Gb Abm Bbm Cb Db Ebm Fdim", "Gbmaj7 Abm7 Bbm7 Cbmaj7 Db7 Ebm7 Fm7b5"},
	{"Db major", "Db Ebm Fm Gb Ab Bbm Cdim", "Dbmaj7 Ebm7 Fm7 Gbmaj7 Ab7 Bbm7 Cm7b5"},
	{"Ab major", "Ab Bbm Cm Db Eb Fm Gdim", "Abmaj7 Bbm7 Cm7 Dbmaj7 Eb7 Fm7 Gm7b5"},
	{"Eb major", "Eb Fm Gm Ab Bb Cm Ddim", "Ebmaj7 Fm7 Gm7 Abmaj7 Bb7 Cm7 Dm7b5"},
	{"Bb major", "Bb Cm Dm Eb F Gm Adim", "Bbmaj7 Cm7 Dm7 Ebmaj7 F7 Gm7 Am7b5"},
	{"F major", "F Gm Am Bb C Dm Edim", "Fmaj7 Gm7 Am7 Bbmaj7 C7 Dm7 Em7b5"},
	{"C major", "C Dm Em F G Am Bdim", "Cmaj7 Dm7 Em7 Fmaj7 G7 Am7 Bm7b5"},
	{"G major", "G Am Bm C D Em F#dim", "Gmaj7 Am7 Bm7 Cmaj7 D7 Em7 F#m7b5"},
	{"D major", "D Em F#m G A Bm C#dim", "Dmaj7 Em7 F#m7 Gmaj7 A7 Bm7 C#m7b5"},
	{"A major", "A Bm C#m D E F#m G#dim", "Amaj7 Bm7 C#m7 Dmaj7 E7 F#m7 G#m7b5"},
	{"E major", "E F#m G#m A B C#m D#dim", "Emaj7 F#m7 G#m7 Amaj7 B7 C#m7 D#m7b5"},
	{"B major", "B C#m D#m E F# G#m A#dim", "Bmaj7 C#m7 D#m7 Emaj7 F#7 G#m7 A#m7b5"},
	{"F# major", "F# G#m A#m B C# D#m E#dim", "F#maj7 G#m7 A#m7 Bmaj7 C#7 D#m7 E#m7b5"},
	{"C# major", "C# D#m E#m F# G# A#m B#dim", "C#maj7 D#m7 E#m7 F#maj7 G#7 A#m7 B#m7b5"},
	{"Ab minor", "Abm Bbdim Cb Dbm Ebm Fb Gb", "Abm7 Bbm7b5 Cbmaj7 Dbm7 Ebm7 Fbmaj7 Gb7"},
	{"Eb minor", "Ebm Fdim Gb Abm Bbm Cb Db", "Ebm7 Fm7b5 Gbmaj7 Abm7 Bbm7 Cbmaj7 Db7"},
	{"Bb minor", "Bbm Cdim Db Ebm Fm Gb Ab", "Bbm7 Cm7b5 Dbmaj7 Ebm7 Fm7 Gbmaj7 Ab7"},
	{"F minor", "Fm Gdim Ab Bbm Cm Db Eb", "Fm7 Gm7b5 Abmaj7 Bbm7 Cm7 Dbmaj7 Eb7"},
	{"C minor", "Cm Ddim Eb Fm Gm Ab Bb", "Cm7 Dm7b5 Ebmaj7 Fm7 Gm7 Abmaj7 Bb7"},
	{"G minor", "Gm Adim Bb Cm Dm Eb F", "Gm7 Am7b5 Bbmaj7 Cm7 Dm7 Ebmaj7 F7"},
	{"D minor", "Dm Edim F Gm Am Bb C", "Dm7 Em7b5 Fmaj7 Gm7 Am7 Bbmaj7 C7"},
	{"A minor", "Am Bdim C Dm Em F G", "Am7 Bm7b5 Cmaj7 Dm7 Em7 Fmaj7 G7"},
	{"E minor", "Em F#dim G Am Bm C D", "Em7 F#m7b5 Gmaj7 Am7 Bm7 Cmaj7 D7"},
	{"B minor", "Bm C#dim D Em F#m G A", "Bm7 C#m7b5 Dmaj7 Em7 F#m7 Gmaj7 A7"},
	{"F# minor", "F#m G#dim A Bm C#m D E", "F#m7 G#m7b5 Amaj7 Bm7 C#m7 Dmaj7 E7"},
	{"C# minor", "C#m D#dim E F#m G#m A B", "C#m7 D#m7b5 Emaj7 F#m7 G#m7 Amaj7 B7"},
	{"G# minor", "G#m A#dim B C#m D#m E F#", "G#m7 A#m7b5 Bmaj7 C#m7 D#m7 Emaj7 F#7"},
	{"D# minor", "D#m E#dim F# G#m A#m B C#", "D#m7 E#m7b5 F#maj7 G#m7 A#m7 Bmaj7 C#7"},
	{"A# minor", "A#m B#dim C# D#m E#m F# G#", "A#m7 B#m7b5 C#maj7 D#m7 E#m7 F#maj7 G#7"},
	{"Ab minor", "Abm Bbdim Cbaug Dbm Eb Fb Gdim", "Abm(maj7) Bbm7b5 Cbmaj7#5 Dbm7 Eb7 Fbmaj7 Gdim7"},
	{"Eb minor", "Ebm Fdim Gbaug Abm Bb Cb Ddim", "Ebm(maj7) Fm7b5 Gbmaj7#5 Abm7 Bb7 Cbmaj7 Ddim7"},
	{"Bb minor", "Bbm Cdim Dbaug Ebm F Gb Adim", "Bbm(maj7) Cm7b5 Dbmaj7#5 Ebm7 F7 Gbmaj7 Adim7"},
	{"F minor", "Fm Gdim Abaug Bbm C Db Edim", "Fm(maj7) Gm7b5 Abmaj7#5 Bbm7 C7 Dbmaj7 Edim7"},
	{"C minor", "Cm Ddim Ebaug Fm G Ab Bdim", "Cm(maj7) Dm7b5 Ebmaj7#5 Fm7 G7 Abmaj7 Bdim7"},
	{"G minor", "Gm Adim Bbaug Cm D Eb F#dim", "Gm(maj7) Am7b5 Bbmaj7#5 Cm7 D7 Ebmaj7 F#dim7"},
	{"D minor", "Dm Edim Faug Gm A Bb C#dim", "Dm(maj7) Em7b5 Fmaj7#5 Gm7 A7 Bbmaj7 C#dim7"},
	{"A minor", "Am Bdim Caug Dm E F G#dim", "Am(maj7) Bm7b5 Cmaj7#5 Dm7 E7 Fmaj7 G#dim7"},
	{"E minor", "Em F#dim Gaug Am B C D#dim", "Em(maj7) F#m7b5 Gmaj7#5 Am7 B7 Cmaj7 D#dim7"},
	{"B minor", "Bm C#dim Daug Em F# G A#dim", "Bm(maj7) C#m7b5 Dmaj7#5 Em7 F#7 Gmaj7 A#dim7"},
	{"F# minor", "F#m G#dim Aaug Bm C# D E#dim", "F#m(maj7) G#m7b5 Amaj7#5 Bm7 C#7 Dmaj7 E#dim7"},
	{"C# minor", "C#m D#dim Eaug F#m G# A B#dim", "C#m(maj7) D#m7b5 Emaj7#5 F#m7 G#7 Amaj7 B#dim7"},
	{"G# minor", "G#m A#dim Baug C#m D# E F##dim", "G#m(maj7) A#m7b5 Bmaj7#5 C#m7 D#7 Emaj7 F##dim7"},
	{"D# minor", "D#m E#dim F#aug G#m A# B C##dim", "D#m(maj7) E#m7b5 F#maj7#5 G#m7 A#7 Bmaj7 C##dim7"},
	{"A# minor", "A#m B#dim C#aug D#m E# F# G##dim", "A#m(maj7) B#m7b5 C#maj7#5 D#m7 E#7 F#maj7 G##dim7"},
	{"Ab minor", "Abm Bbm Cbaug Db Eb Fdim Gdim", "Abm(maj7) Bbm7 Cbmaj7#5 Db7 Eb7 Fm7b5 Gm7b5"},
	{"Eb minor", "Ebm Fm Gbaug Ab Bb Cdim Ddim", "Ebm(maj7) Fm7 Gbmaj7#5 Ab7 Bb7 Cm7b5 Dm7b5"},
	{"Bb minor", "Bbm Cm Dbaug Eb F Gdim Adim", "Bbm(maj7) Cm7 Dbmaj7#5 Eb7 F7 Gm7b5 Am7b5"},
	{"F minor", "Fm Gm Abaug Bb C Ddim Edim", "Fm(maj7) Gm7 Abmaj7#5 Bb7 C7 Dm7b5 Em7b5"},
	{"C minor", "Cm Dm Ebaug F G Adim Bdim", "Cm(maj7) Dm7 Ebmaj7#5 F7 G7 Am7b5 Bm7b5"},
	{"G minor", "Gm Am Bbaug C D Edim F#dim", "Gm(maj7) Am7 Bbmaj7#5 C7 D7 Em7b5 F#m7b5"},
	{"D minor", "Dm Em Faug G A Bdim C#dim", "Dm(maj7) Em7 Fmaj7#5 G7 A7 Bm7b5 C#m7b5"},
	{"A minor", "Am Bm Caug D E F#dim G#dim", "Am(maj7) Bm7 Cmaj7#5 D7 E7 F#m7b5 G#m7b5"},
	{"E minor", "Em F#m Gaug A B C#dim D#dim", "Em(maj7) F#m7 Gmaj7#5 A7 B7 C#m7b5 D#m7b5"},
	{"B minor", "Bm C#m Daug E F# G#dim A#dim", "Bm(maj7) C#m7 Dmaj7#5 E7 F#7 G#m7b5 A#m7b5"},
	{"F# minor", "F#m G#m Aaug B C# D#dim E#dim", "F#m(maj7) G#m7 Amaj7#5 B7 C#7 D#m7b5 E#m7b5"},
	{"C# minor", "C#m D#m Eaug F# G# A#dim B#dim", "C#m(maj7) D#m7 Emaj7#5 F#7 G#7 A#m7b5 B#m7b5"},
	{"G# minor", "G#m A#m Baug C# D# E#dim F##dim", "G#m(maj7) A#m7 Bmaj7#5 C#7 D#7 E#m7b5 F##m7b5"},
	{"D# minor", "D#m E#m F#aug G# A# B#dim C##dim", "D#m(maj7) E#m7 F#maj7#5 G#7 A#7 B#m7b5 C##m7b5"},
	{"A# minor", "A#m B#m C#aug D# E# F##dim G##dim", "A#m(maj7) B#m7 C#maj7#5 D#7 E#7 F##m7b5 G##m7b5"},
}

// Every row comes from every row of the same form.
func TestTransposeToHandbook(t *testing.T) {
	const keys = 15
	for i, from := range handbookKeys {
		form := i / keys * keys
		for _, to := range handbookKeys[form : form+keys] {
			for _, pair := range [][2]string{{from.triads, to.triads}, {from.sevenths, to.sevenths}} {
				c := inBars(t, strings.Fields(pair[0])...)
				assert.Equal(t, pair[1], symbolsOf(moved(t, c, from.key, to.key)), "%s to %s", from.key, to.key)
			}
		}
	}
}

// recordedKeys is what a library makes of keys and chords (testdata/record).
type recordedKeys struct {
	Version string
	Major   []struct{ Tonic, Chords, Dominants, Supertonics words }
	Minor   []struct{ Tonic, Natural, Harmonic, Melodic words }
	Notes   []struct {
		Tonic, Quality string
		Notes          []pitch.Note
	}
}

// words is one word or a list of them.
type words []string

func (w *words) UnmarshalJSON(text []byte) error {
	if text[0] == '"' {
		*w = words{""}
		return json.Unmarshal(text, &(*w)[0])
	}
	return json.Unmarshal(text, (*[]string)(w))
}

func readRecordedKeys(t *testing.T) (r recordedKeys) {
	data, err := os.ReadFile("testdata/keys.json")
	require.NoError(t, err)
	require.NoError(t, json.Unmarshal(data, &r))
	assert.Equal(t, "6.4.3", r.Version)
	return r
}

// The chords of keys as tonal (npm) spells them: diatonic ones, and in major the
// secondary dominants with their twos, of which a library names the root by rule
// where a player does not: what is no note of the key is named plainly.
func TestTransposeToRecorded(t *testing.T) {
	r := readRecordedKeys(t)
	require.Len(t, r.Major, 15)
	require.Len(t, r.Minor, 15)
	hold := func(mode, fromTonic, toTonic string, from, to []string) {
		target := key.MustParse(toTonic + " " + mode)
		var want []string
		for _, symbol := range to {
			want = append(want, target.Spell(chord.MustParse(symbol)).String())
		}
		c := inBars(t, from...)
		assert.Equal(t, strings.Join(want, " "), symbolsOf(moved(t, c, fromTonic+" "+mode, target.String())), "from %s", fromTonic)
	}
	c, a := r.Major[7], r.Minor[7]
	require.Equal(t, words{"C"}, c.Tonic)
	require.Equal(t, words{"A"}, a.Tonic)
	for _, k := range r.Major {
		hold("major", "C", k.Tonic[0], c.Chords, k.Chords)
		hold("major", "C", k.Tonic[0], c.Dominants, k.Dominants)
		hold("major", "C", k.Tonic[0], c.Supertonics, k.Supertonics)
	}
	for _, k := range r.Minor {
		hold("minor", "A", k.Tonic[0], a.Natural, k.Natural)
		hold("minor", "A", k.Tonic[0], a.Harmonic, k.Harmonic)
		hold("minor", "A", k.Tonic[0], a.Melodic, k.Melodic)
	}
}

// recordedOtherwise are qualities that the library takes for other chords, with our
// reason.
var recordedOtherwise = map[string]string{
	"11":   "no third there; MusicXML 4.0 has one",
	"7alt": "#5 and #9 there; any of b5, #5, b9, #9 (Hutchinson ch. 31)",
}

// A tonic of every quality, note by note as tonal (npm) spells it, or if it is
// taken for another chord, note by note among ours.
func TestTransposeToRecordedNotes(t *testing.T) {
	r := readRecordedKeys(t)
	assert.Greater(t, len(r.Notes), 500)
	for _, row := range r.Notes {
		for _, mode := range []string{" major", " minor"} {
			k := key.MustParse(row.Tonic + mode)
			if k != k.Simplify() {
				continue
			}
			up := moved(t, inBars(t, "D"+row.Quality), "D"+mode, k.String())
			notes := up.Bars[0].Chords[0].Chord.Notes()
			if recordedOtherwise[row.Quality] != "" {
				assert.Subset(t, notes, row.Notes, "%s%s", row.Tonic, row.Quality)
				assert.Less(t, len(row.Notes), len(notes), "%s is the same chord after all", row.Quality)
				continue
			}
			assert.Equal(t, sorted(row.Notes), sorted(notes), "%s%s", row.Tonic, row.Quality)
		}
	}
}

func sorted(notes []pitch.Note) []pitch.Note {
	return slices.SortedFunc(slices.Values(notes), func(a, b pitch.Note) int { return a.Fifths() - b.Fifths() })
}

// Common practice, no source, as are all of these spellings.
func TestTransposeToSpells(t *testing.T) {
	tests := []struct {
		name, from, to string
		in, want       string
	}{
		{"two-five-one", "C major", "Gb major", "Dm7 G7 Cmaj7", "Abm7 Db7 Gbmaj7"},
		{"the sharp side", "C major", "F# major", "Dm7 G7 Cmaj7 Bm7b5", "G#m7 C#7 F#maj7 E#m7b5"},
		{"subdominant of a flat key", "C major", "Gb major", "Fmaj7 Fm6 C/E", "Cbmaj7 Cbm6 Gb/Bb"},
		{"mixture in a flat key", "C major", "Gb major", "Cmaj7 Ebmaj7 Abmaj7 Dbmaj7 C6", "Gbmaj7 Amaj7 Dmaj7 Gmaj7 Gb6"},
		{"mixture in a sharp key", "C major", "E major", "C Eb Ab Bb C", "E G C D E"},
		{"substitutes", "C major", "Db major", "Dm7 Db7 Cmaj7 Ab7 G7 C", "Ebm7 D7 Dbmaj7 A7 Ab7 Db"},
		{"backdoor", "C major", "Db major", "Fm7 Bb7 C", "Gbm7 B7 Db"},
		{"a tritone is what it is called", "E major", "C major", "E A#7 E", "C F#7 C"},
		{"leading tones", "C major", "E major", "C C#dim7 Dm7 D#dim7 Em7 F#dim7 G G#dim7 Am7", "E Fdim7 F#m7 Gdim7 G#m7 A#dim7 B Cdim7 C#m7"},
		{"tritones before the tonic", "Gb major", "C major", "Gb C7 Gb Cm7b5 Gb/Db", "C Gb7 C F#m7b5 C/G"},
		{"and back", "E major", "C major", "E Fdim7 F#m7 Gdim7 G#m7 A#dim7 B Cdim7 C#m7", "C C#dim7 Dm7 D#dim7 Em7 F#dim7 G G#dim7 Am7"},
		{"passing down", "E major", "C major", "G#m7 Gdim7 F#m7 Fdim7 E", "Em7 Ebdim7 Dm7 Dbdim7 C"},
		{"back from flats", "Gb major", "C major", "Gb D7 Db7 Gb C7 Cb7 A7 D7 G7 Gb", "C Ab7 G7 C Gb7 F7 Eb7 Ab7 Db7 C"},
		{"a chain of two-fives", "C major", "A major", "F#m7 B7 Em7 A7 Dm7 G7 C", "D#m7 G#7 C#m7 F#7 Bm7 E7 A"},
		{"Neapolitans", "E major", "C major", "E F B7 F D#dim7 F G#7 E C A#m7b5 C G#m", "C Db G7 Db Bdim7 Db E7 C Ab F#m7b5 Ab Em"},
		{"chains of dominants", "Gb major", "C major", "Dm7 G7 Cm7 F7 Bbm7 Eb7 Gb", "G#m7 C#7 F#m7 B7 Em7 A7 C"},
		{"#IVdim7 going down", "Gb major", "C major", "Cdim7 Cb Cm7b5 Cbm6 Cdim7 Bdim7", "F#dim7 F F#m7b5 Fm6 F#dim7 Fdim7"},
		{"sharps for flats", "C major", "Eb major", "C A# D# G# C", "Eb Db Gb B Eb"},
		{"a foreign name of a key's own root", "Gb major", "Eb major", "F#maj7 B Db7 Gb", "Ebmaj7 Ab Bb7 Eb"},
		{"leading tone of a minor key", "A minor", "G# minor", "Am G#dim7 Bm7b5 E7 Am", "G#m F##dim7 A#m7b5 D#7 G#m"},
		{"the same in flats", "A minor", "Ab minor", "Am G#dim7 Bm7b5 E7 Am", "Abm Gdim7 Bbm7b5 Eb7 Abm"},
		{"sixths of minor", "A minor", "Eb minor", "Am Fmaj7 Dm7 Bb E7", "Ebm Cbmaj7 Abm7 E Bb7"},
		{"a mode", "D dorian", "F dorian", "Dm7 G7 Em7 Cmaj7", "Fm7 Bb7 Gm7 Ebmaj7"},
		{"basses", "C major", "Gb major", "C/E F/A Fm/Ab G7/F C/D Ab/C", "Gb/Bb Cb/Eb Cbm/D Db7/Cb Gb/Ab D/F#"},
		{"basses and back", "Gb major", "C major", "Gb/Bb Cb/Eb Cbm/D Db7/Cb Gb/Ab D/F#", "C/E F/A Fm/Ab G7/F C/D Ab/C"},
		{"a theoretical key", "C major", "G# major", "C F G7 Am", "Ab Db Eb7 Fm"},
		{"from a theoretical key", "G# major", "C major", "G# C# D#7 E#m", "C F G7 Am"},
		{"one's own key", "Eb major", "Eb major", "Eb Cm7 F-7 Bb7", "Eb Cm7 Fm7 Bb7"},
		{"silence", "C major", "D major", "C N.C. G7", "D N.C. A7"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			c := inBars(t, strings.Fields(tt.in)...)
			assert.Equal(t, tt.want, symbolsOf(moved(t, c, tt.from, tt.to)))
		})
	}
}

func TestTransposeToPassages(t *testing.T) {
	c := inBars(t, strings.Fields("Dm7 G7 Cmaj7 F#m7 B7 Emaj7 Dm7 G7 C6")...)
	third := []chart.Passage{{Bar: 0, Key: key.MustParse("C major")}, {Bar: 3, Key: key.MustParse("E major")}, {Bar: 6, Key: key.MustParse("C major")}}
	for to, want := range map[string]string{
		"B major":  "C#m7 F#7 Bmaj7 Fm7 Bb7 Ebmaj7 C#m7 F#7 B6",
		"Ab major": "Bbm7 Eb7 Abmaj7 Dm7 G7 Cmaj7 Bbm7 Eb7 Ab6",
		"F# major": "G#m7 C#7 F#maj7 Cm7 F7 Bbmaj7 G#m7 C#7 F#6",
	} {
		up := moved(t, c, "C major", to, third...)
		assert.Equal(t, want, symbolsOf(up))
		there := slices.Clone(third)
		for i := range there {
			if i == 1 {
				there[i].Key = key.MustParse("E major").Transpose(key.MustParse("C major").Tonic().To(up.Key.Tonic())).Simplify()
				continue
			}
			there[i].Key = up.Key
		}
		back := moved(t, up, to, "C major", there...)
		assert.Equal(t, symbolsOf(c), symbolsOf(back), "back from %s", to)
	}
}

// Of two names the passage's key takes the one beside the tune's.
func TestTransposeToNamesPassages(t *testing.T) {
	tests := []struct{ in, passage, from, to, want string }{
		{"Gm7 C7 Fmaj7", "F major", "C major", "Gb major", "Dbm7 Gb7 Cbmaj7"},
		{"Gm7 C7 Fmaj7", "F major", "C major", "B major", "F#m7 B7 Emaj7"},
		{"C#m7 F#7 Bmaj7", "B major", "Gb major", "F major", "Cm7 F7 Bbmaj7"},
		{"C#m7 F#7 C#m7", "C# minor", "Ab major", "F major", "Bbm7 Eb7 Bbm7"},
		{"F#m7 B7 Emaj7", "E major", "C major", "A major", "D#m7 G#7 C#maj7"},
		{"Bm7 E7 Amaj7", "A major", "F major", "A major", "D#m7 G#7 C#maj7"},
		{"Bm7 E7 Amaj7", "A major", "F major", "Ab major", "Dm7 G7 Cmaj7"},
		{"Abm7 Db7 Gbmaj7", "Gb major", "C major", "G major", "Ebm7 Ab7 Dbmaj7"},
		{"F#m7 B7 Em", "E minor", "C minor", "Eb minor", "Am7 D7 Gm"},
	}
	for _, tt := range tests {
		c := inBars(t, strings.Fields(tt.in)...)
		assert.Equal(t, tt.want, symbolsOf(moved(t, c, tt.from, tt.to, chart.Passage{Key: key.MustParse(tt.passage)})), "%s to %s", tt.from, tt.to)
	}
}

func TestTransposeToKeepsTheChart(t *testing.T) {
	c, err := chart.Parse("Title: Night Bus\nKey: F major\nPickup: 1\nC7 | [A] |: Fmaj7 | % | 1,2. (Gm7@3.5) :| 3. C7/E / N.C. / || 3/4 F-7 B♭7 Eb |")
	require.NoError(t, err)
	before := c.String()
	up := moved(t, c, "F major", "B major")
	assert.Equal(t, "Title: Night Bus\nMeter: 4/4\nKey: B major\nPickup: 1\n\n| F#7 |\n\n[A]\n|: Bmaj7 | Bmaj7 | 1,2. (C#m7@3.5) :| 3. F#7/A# N.C. ||\n| 3/4 Bm7 E7 A |\n", up.String())
	assert.Equal(t, before, c.String(), "the chart itself stays")
	assert.Equal(t, "B♭7", c.Bars[5].Chords[1].Symbol, "the chart itself stays")
	assert.True(t, moved(t, up, "B major", "F major").Equal(c))
}

func TestTransposeToErrors(t *testing.T) {
	c := inBars(t, "C")
	tests := []struct {
		name, wantErr string
		from, to      key.Key
	}{
		{"other modes", "the chart is in C major: expected a key in major, not A minor", key.MustParse("C major"), key.MustParse("A minor")},
		{"modes of one signature", "the chart is in D dorian: expected a key in dorian, not D minor", key.MustParse("D dorian"), key.MustParse("D minor")},
		{"from no key", "expected a key to transpose from and one to transpose to", key.Key{}, key.MustParse("C major")},
		{"to no key", "expected a key to transpose from and one to transpose to", key.MustParse("C major"), key.Key{}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			_, err := c.TransposeTo(tt.from, tt.to)
			assert.EqualError(t, err, tt.wantErr)
		})
	}
	none, err := chart.Chart{}.TransposeTo(key.MustParse("C major"), key.MustParse("D major"), chart.Passage{Bar: 3, Chord: 2, Key: key.MustParse("E major")})
	require.NoError(t, err)
	assert.Empty(t, none.Bars)
}

// drawnKeys are two keys of one mode.
func drawnKeys(t *rapid.T) (from, to key.Key) {
	mode := rapid.SampledFrom([]key.Mode{key.Major, key.Minor, key.Dorian, key.Mixolydian}).Draw(t, "mode")
	draw := func(name string) key.Key {
		return key.New(pitch.At(rapid.IntRange(-7, 10).Draw(t, name)), mode).Simplify()
	}
	return draw("from"), draw("to")
}

var qualities = strings.Fields("maj m dim aug sus4 sus2 5 6 m6 6/9 m6/9 maj7 7 m7 m7b5 dim7 m(maj7) 7#5 7b5 maj7#5 maj7#11 7sus4 9 maj9 m9 9sus4 11 m11 13 add9 7alt 7b9#11 (b9)")

// Charts of any roots come out well spelled, each chord sounding as far from
// where it was, all else in its place.
func TestTransposeToAnyChart(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		from, to := drawnKeys(t)
		c := chart.Chart{Title: "Night Bus"}
		for range rapid.IntRange(1, 12).Draw(t, "bars") {
			root := pitch.At(rapid.IntRange(-15, 19).Draw(t, "root"))
			symbol := root.String() + rapid.SampledFrom(qualities).Draw(t, "quality")
			x := chord.MustParse(symbol)
			if rapid.Bool().Draw(t, "bass") {
				x = x.WithBass(pitch.At(rapid.IntRange(-10, 12).Draw(t, "bass note")))
			}
			c.Bars = append(c.Bars, chart.Bar{Chords: []chart.Slot{{Chord: x, Len: chart.B(4, 1)}}})
		}
		up, err := c.TransposeTo(from, to)
		require.NoError(t, err)
		require.Equal(t, to, up.Key)
		require.Len(t, up.Bars, len(c.Bars))
		by := from.Tonic().To(to.Tonic()).Semitones()
		for i := range c.Bars {
			x, y := c.Bars[i].Chords[0], up.Bars[i].Chords[0]
			require.Equal(t, x.Chord.Quality(), y.Chord.Quality())
			require.Equal(t, x.Chord.Root().Class().Plus(by), y.Chord.Root().Class())
			require.Equal(t, x.Chord.Bass().Class().Plus(by), y.Chord.Bass().Class())
			require.True(t, to.Has(y.Chord.Root()) || y.Chord.Root() == y.Chord.Root().Simplify(), "%v in %v", y.Chord, to)
			if y.Chord.HasBass() {
				require.LessOrEqual(t, max(y.Chord.Bass().Accidental(), -y.Chord.Bass().Accidental()), 1, "%v in %v", y.Chord, to)
			}
			require.Equal(t, y.Chord.String(), y.Symbol)
			y.Chord, y.Symbol = x.Chord, x.Symbol
			require.Equal(t, x, y)
		}
	})
}

// Down again where it came from, a chart is the same. Its roots are degrees from
// bV to #VI, each by the name that fits the next.
func TestTransposeToAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		from, to := drawnKeys(t)
		next := 0 // the first, which comes after the last
		c := chart.Chart{Key: from}
		add := func(f int) {
			x := chord.MustParse("C" + rapid.SampledFrom(qualities).Draw(t, "quality"))
			f = nameBefore(f, next, from, x.Family() == chord.Diminished || x.Family() == chord.HalfDiminished)
			x = x.Transpose(pitch.IntervalAt(from.Tonic().Fifths() + f))
			if bass := rapid.SampledFrom(x.Notes()).Draw(t, "bass"); bass != x.Root() {
				x = x.WithBass(bass)
			}
			c.Bars = append(c.Bars, chart.Bar{Chords: []chart.Slot{{Chord: from.Spell(x), Len: chart.B(4, 1)}}})
			next = f
		}
		for range rapid.IntRange(0, 20).Draw(t, "chords") {
			add(rapid.IntRange(-6, 10).Draw(t, "degree"))
		}
		add(0)
		slices.Reverse(c.Bars)
		up, err := c.TransposeTo(from, to)
		require.NoError(t, err)
		back, err := up.TransposeTo(to, from)
		require.NoError(t, err)
		require.True(t, back.Equal(c), "%s\n%s\n%s", symbolsOf(up), symbolsOf(back), c)
	})
}

// nameBefore is f by the name that fits the next.
func nameBefore(f, next int, k key.Key, isLeading bool) int {
	flat, sharp := f, f+12
	if f >= 6 {
		flat, sharp = f-12, f
	}
	switch {
	case flat < -6 || sharp > 10:
		return f
	case isLeading && (sharp == 6 || abs(sharp-next) <= abs(flat-next)):
		return sharp
	case !isLeading && !k.Has(k.Tonic().Add(pitch.IntervalAt(flat))) && (next == sharp || next == sharp-1):
		return sharp
	}
	return flat
}

func abs(n int) int { return max(n, -n) }

func ExampleChart_TransposeTo() {
	c, _ := chart.Parse("Title: Night Bus\n|: Dm7 | G7 | 1. Cmaj7 Abmaj7 :| 2. C6 / / N.C. |")
	c, err := c.TransposeTo(key.MustParse("C major"), key.MustParse("Gb major"))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Print(c)
	// Output:
	// Title: Night Bus
	// Meter: 4/4
	// Key: Gb major
	//
	// |: Abm7 | Db7 | 1. Gbmaj7 Dmaj7 :| 2. Gb6 / / N.C. |
}

func BenchmarkTransposeTo(b *testing.B) {
	c := inBars(b, strings.Fields(strings.Repeat("Cmaj7 A7b9 Dm7 G7 Em7 Eb7 Abmaj7 Db7 ", 4))...)
	from, to := key.MustParse("C major"), key.MustParse("Gb major")
	b.ReportAllocs()
	for b.Loop() {
		_, _ = c.TransposeTo(from, to)
	}
}
