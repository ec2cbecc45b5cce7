package key

import (
	"encoding/json"
	"os"
	"slices"
	"strings"
	"testing"

	"fifthwise/pkg/chord"
	"fifthwise/pkg/pitch"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Every row and every alias of the table is read, and nothing is named twice.
func TestScaleTable(t *testing.T) {
	seen := map[string]ScaleKind{}
	for kind := range ScaleKinds() {
		for i, name := range append([]string{kind.String()}, kind.Aliases()...) {
			require.NotContains(t, seen, fold(name))
			seen[fold(name)] = kind
			for _, in := range []string{name, strings.ToUpper(name), strings.ReplaceAll(name, " ", "-"), " " + strings.ReplaceAll(name, " ", "  ") + " "} {
				got, err := ParseScaleKind(in)
				require.NoError(t, err)
				assert.Equal(t, kind, got, in)
			}
			s, err := ParseScale("F# " + name)
			require.NoError(t, err)
			assert.Equal(t, kind.On(pitch.MustParse("F#")), s, name)
			assert.Equal(t, kind, s.Kind(), name)
			if i == 0 {
				assert.Equal(t, "F# "+name, s.String())
			}
		}
		assert.Equal(t, scales[kind].degrees, join(kind.Degrees()))
		assert.Equal(t, chord.D(1, 0), kind.Degrees()[0], kind)
		last := -1
		for _, d := range kind.Degrees() {
			up := d.Interval().Semitones()
			assert.Greater(t, up, last, "%s: degrees rise", kind)
			last = up
		}
	}
	assert.Len(t, seen, len(scaleByName))
}

// The modes of a family are its parent from another degree on.
func TestFamiliesRotate(t *testing.T) {
	for _, parent := range []ScaleKind{MajorScale, MelodicMinorScale, HarmonicMinorScale} {
		notes := parent.On(pitch.MustParse("C")).Notes()
		for i, tonic := range notes {
			mode := parent + ScaleKind(i)
			assert.Equal(t, slices.Concat(notes[i:], notes[:i]), mode.On(tonic).Notes(), mode)
		}
	}
}

// Scales that Hutchinson, Music Theory for the 21st-Century Classroom, gives
// for a chord, with the degrees printed there: §31.10.1 (Table 31.10.3),
// §31.9.2 for bebop, the answers of §31.12 ex. 6 for the last five rows.
func TestChordScales(t *testing.T) {
	tests := []struct{ where, chord, name, degrees string }{
		{"Table 31.10.3", "Cmaj7", "Ionian", "1 2 3 4 5 6 7"},
		{"Table 31.10.3", "Cmaj7", "Lydian", "1 2 3 #4 5 6 7"},
		{"Table 31.10.3", "Cmaj7#11", "Lydian", "1 2 3 #4 5 6 7"},
		{"Table 31.10.3", "Cmaj7#5", "Lydian augmented", "1 2 3 #4 #5 6 7"},
		{"Table 31.10.3", "Cm7", "Dorian", "1 2 b3 4 5 6 b7"},
		{"Table 31.10.3", "Cm7", "Aeolian", "1 2 b3 4 5 b6 b7"},
		{"Table 31.10.3", "Cm7b5", "Locrian", "1 b2 b3 4 b5 b6 b7"},
		{"Table 31.10.3", "Cm7b5", "Locrian #2", "1 2 b3 4 b5 b6 b7"},
		{"Table 31.10.3", "Cm9b5", "Locrian #2", "1 2 b3 4 b5 b6 b7"},
		{"Table 31.10.3", "Cdim7", "Diminished whole-half", "1 2 b3 4 #4 #5 6 7"},
		{"Table 31.10.3", "Cm(maj7)", "Melodic minor", "1 2 b3 4 5 6 7"},
		{"Table 31.10.3", "Cm6/9", "Dorian", "1 2 b3 4 5 6 b7"},
		{"Table 31.10.3", "Cm6/9", "Melodic minor", "1 2 b3 4 5 6 7"},
		{"Table 31.10.3", "C7", "Mixolydian", "1 2 3 4 5 6 b7"},
		{"Table 31.10.3", "C7#11", "Lydian dominant", "1 2 3 #4 5 6 b7"},
		{"Table 31.10.3", "C7#5", "Whole tone", "1 2 3 #4 #5 b7"},
		{"Table 31.10.3", "C7b5", "Whole tone", "1 2 3 #4 #5 b7"},
		{"Table 31.10.3", "C7b9", "Diminished half-whole", "1 b2 b3 3 #4 5 6 b7"},
		{"Table 31.10.3", "C7#9", "Diminished half-whole", "1 b2 b3 3 #4 5 6 b7"},
		{"Table 31.10.3", "C13#9#11", "Diminished half-whole", "1 b2 b3 3 #4 5 6 b7"},
		{"Table 31.10.3", "C7alt", "Altered", "1 b2 b3 b4 b5 b6 b7"},
		{"Table 31.10.3", "C7alt", "Diminished-whole tone", "1 b2 b3 b4 b5 b6 b7"},
		{"§31.9.2", "C7", "Bebop dominant", "1 2 3 4 5 6 b7 7"},
		{"§31.12 ex. 6", "Eb7#5", "Whole tone", "1 2 3 #4 #5 b7"},
		{"§31.12 ex. 6", "Bb7b5#9", "Altered", "1 b2 b3 b4 b5 b6 b7"},
		{"§31.12 ex. 6", "Fm7b5", "Locrian", "1 b2 b3 4 b5 b6 b7"},
		{"§31.12 ex. 6", "Fm7b5", "Locrian #2", "1 2 b3 4 b5 b6 b7"},
		{"§31.12 ex. 6", "Abmaj7#5", "Lydian augmented", "1 2 3 #4 #5 6 7"},
	}
	for _, tt := range tests {
		t.Run(tt.chord+" "+tt.name, func(t *testing.T) {
			c := chord.MustParse(tt.chord)
			kind, err := ParseScaleKind(tt.name)
			require.NoError(t, err)
			s := kind.On(c.Root())
			assert.Equal(t, tt.degrees, join(s.Degrees()), tt.where)
			assert.True(t, s.ContainsChord(c), "%s holds %s", s, c)
		})
	}
}

// Common practice, no source.
func TestScaleNotes(t *testing.T) {
	tests := []struct{ in, name, notes string }{
		{"D phrygian dominant", "D phrygian dominant", "D Eb F# G A Bb C"},
		{"B♭ lydian ♭7", "Bb lydian dominant", "Bb C D E F G Ab"},
		{"G super-locrian", "G altered", "G Ab Bb Cb Db Eb F"},
		{"C half-whole diminished", "C diminished half-whole", "C Db Eb E F# G A Bb"},
		{"A natural minor", "A natural minor", "A B C D E F G"},
		{"A minor", "A natural minor", "A B C D E F G"},
		{"F blues", "F blues", "F Ab Bb Cb C Eb"},
		{"Eb major pentatonic", "Eb major pentatonic", "Eb F G Bb C"},
		{" B  locrian ♮2 ", "B locrian #2", "B C# D E F G A"},
		{"G# harmonic minor", "G# harmonic minor", "G# A# B C# D# E F##"},
		{"G bebop dominant", "G bebop dominant", "G A B C D E F F#"},
	}
	for _, tt := range tests {
		s, err := ParseScale(tt.in)
		require.NoError(t, err)
		assert.Equal(t, tt.name, s.String())
		assert.Equal(t, tt.notes, join(s.Notes()))
		again, err := ParseScale(s.String())
		require.NoError(t, err)
		assert.Equal(t, s, again)
	}
}

func TestParseScaleErrors(t *testing.T) {
	tests := []struct{ name, in, wantErr string }{
		{"empty", "", `expected a note name A to G at offset 0 of ""`},
		{"no tonic", "phrygian dominant", `expected a note name A to G at offset 0 of "phrygian dominant" (write the tonic first)`},
		{"no tonic, starts as a note", "blues", `expected a note name A to G at offset 0 of "blues" (write the tonic first)`},
		{"lower case", "d dorian", `expected a note name A to G at offset 0 of "d dorian" (write D in upper case)`},
		{"flat as a word", "B flat blues", `expected an accidental as b or # at offset 2 of "B flat blues" (write Bb)`},
		{"tonic alone", "C", `expected the name of a scale at offset 1 of "C"`},
		{"no space, read as C flat", "Cblues", `expected a space and the name of a scale at offset 2 of "Cblues"`},
		{"misspelt", "D phrigian dominant", `expected the name of a scale at offset 2 of "D phrigian dominant" (write phrygian dominant)`},
		{"alias misspelt", "D super locrain", `expected the name of a scale at offset 2 of "D super locrain" (write altered)`},
		{"two scales", "C diminished", `expected the name of a scale at offset 2 of "C diminished" (write diminished whole-half or diminished half-whole)`},
		{"two scales", "C♯ pentatonic", `expected the name of a scale at offset 5 of "C♯ pentatonic" (write major pentatonic or minor pentatonic)`},
		{"one scale", "C bebop", `expected the name of a scale at offset 2 of "C bebop" (write bebop dominant)`},
		{"another degree is no slip", "C lydian #6", `expected the name of a scale at offset 2 of "C lydian #6"`},
		{"unknown", "C enigmatic", `expected the name of a scale at offset 2 of "C enigmatic"`},
		{"too long to guess at", "C " + strings.Repeat("major", 9), `expected the name of a scale at offset 2 of "C ` + strings.Repeat("major", 9) + `"`},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			s, err := ParseScale(tt.in)
			assert.EqualError(t, err, tt.wantErr)
			assert.Equal(t, Scale{}, s)
		})
	}
	assert.PanicsWithError(t, `expected a note name A to G at offset 0 of ""`, func() { MustParseScale("") })
}

func TestScaleContains(t *testing.T) {
	tests := []struct {
		scale, note, degree string // no degree: not in the scale
	}{
		{"C altered", "E", "b4"}, {"C altered", "Fb", "b4"}, {"C altered", "D#", "b3"}, {"C altered", "F", ""}, {"C altered", "G", ""},
		{"Eb major", "Ab", "4"}, {"Eb major", "G#", "4"}, {"Eb major", "A", ""},
		{"B lydian", "F", "#4"}, {"B lydian", "B", "1"}, {"F# blues", "C", "b5"}, {"F# blues", "D", ""},
	}
	for _, tt := range tests {
		s, n := MustParseScale(tt.scale), pitch.MustParse(tt.note)
		d, ok := s.DegreeOf(n)
		assert.Equal(t, tt.degree != "", ok, "%s in %s", tt.note, tt.scale)
		assert.Equal(t, ok, s.Contains(n), "%s in %s", tt.note, tt.scale)
		if ok {
			assert.Equal(t, tt.degree, d.String(), "%s in %s", tt.note, tt.scale)
		}
	}
	for kind := range ScaleKinds() {
		s := kind.On(pitch.MustParse("Ab"))
		var classes uint16
		for i, n := range s.Notes() {
			classes |= 1 << n.Class()
			d, ok := s.DegreeOf(n)
			assert.True(t, ok)
			assert.Equal(t, s.Degrees()[i], d)
		}
		assert.Equal(t, classes, s.Classes(), kind)
	}
}

// Common practice, no source.
func TestScaleContainsChord(t *testing.T) {
	tests := []struct {
		scale, chord string
		want         bool
	}{
		{"C major", "Dm7", true}, {"C major", "D7", false}, {"C major", "Fm6", false}, {"C major", "N.C.", true},
		{"C harmonic minor", "G7b9", true}, {"C natural minor", "G7b9", false}, {"C harmonic minor", "Bdim7", true},
		{"C major", "F/G", true}, {"C major", "F/Eb", false}, {"G altered", "Db7", true}, {"C# major", "Ab7", true},
	}
	for _, tt := range tests {
		assert.Equal(t, tt.want, MustParseScale(tt.scale).ContainsChord(chord.MustParse(tt.chord)), "%s in %s", tt.chord, tt.scale)
	}
}

func TestScaleOfKey(t *testing.T) {
	for key, want := range map[string]string{
		"Eb major": "Eb major", "C minor": "C natural minor", "D dorian": "D dorian", "E phrygian": "E phrygian",
		"F lydian": "F lydian", "G mixolydian": "G mixolydian",
	} {
		assert.Equal(t, want, MustParse(key).Scale().String())
	}
	assert.Equal(t, "F blues", MustParseScale("D blues").Transpose(pitch.MinorThird).String())
	assert.Equal(t, "B♭ dorian ♭2", string(MustParseScale("Bb dorian b2").AppendTo(nil, pitch.Unicode)))
	assert.Equal(t, "F♯ locrian ♯2", string(MustParseScale("F# locrian #2").AppendTo(nil, pitch.Unicode)))
	assert.Equal(t, "B♭ blues", string(MustParseScale("Bb blues").AppendTo(nil, pitch.Unicode)))
}

func TestNoAllocs(t *testing.T) {
	s, ab, c := MustParseScale("C altered"), pitch.MustParse("Ab"), chord.MustParse("C7alt/E")
	for name, run := range map[string]func(){
		"Parse":         func() { MustParse("F# minor") },
		"Signature":     func() { MustParse("Eb").Signature() },
		"Contains":      func() { s.Contains(ab) },
		"ContainsChord": func() { s.ContainsChord(c) },
		"DegreeOf":      func() { s.DegreeOf(ab) },
	} {
		assert.Zero(t, testing.AllocsPerRun(100, run), name)
	}
}

func TestInvalidScale(t *testing.T) {
	var s Scale
	assert.False(t, s.IsValid())
	assert.Equal(t, "invalid scale", s.String())
	assert.Empty(t, s.AppendTo(nil, pitch.ASCII))
	assert.Empty(t, s.Notes())
	assert.Empty(t, s.Degrees())
	assert.Zero(t, s.Classes())
	assert.False(t, s.Contains(pitch.Note{}))
	assert.Nil(t, s.Triads())
	assert.Equal(t, s, s.Transpose(pitch.MajorThird))
	for _, k := range []ScaleKind{0, BebopDominantScale + 1, 255} {
		assert.False(t, k.IsValid())
		assert.Equal(t, "invalid scale", k.String())
		assert.Empty(t, k.Degrees())
		assert.Empty(t, k.Aliases())
		assert.Equal(t, Scale{}, k.On(pitch.MustParse("D")))
	}
}

// tonalNames maps our kinds to tonal's where the canonical names differ.
var tonalNames = map[ScaleKind]string{
	NaturalMinorScale:        "minor",
	LocrianSharp6Scale:       "locrian 6",
	IonianSharp5Scale:        "major augmented",
	LydianSharp2Scale:        "lydian #9",
	DiminishedWholeHalfScale: "diminished",
	DiminishedHalfWholeScale: "half-whole diminished",
	BluesScale:               "blues",
	BebopDominantScale:       "bebop",
}

// tonalDiffers has the scales that tonal spells otherwise; they sound the same.
var tonalDiffers = map[ScaleKind]string{
	// tonal spells b2 #2 3 #4 b6; ours is the mode of melodic minor, one letter a
	// degree, as Hutchinson's Table 31.10.3 has it.
	AlteredScale: "1 b2 #2 3 #4 b6 b7",
	// tonal has b5 b6, Hutchinson's Table 31.10.3 #4 #5.
	DiminishedWholeHalfScale: "1 2 b3 4 b5 b6 6 7",
	// tonal has an augmented sixth, Hutchinson's Table 31.10.3 b7.
	WholeToneScale: "1 2 3 #4 #5 #6",
}

// testdata/tonal.json records what a general music library answers; testdata/
// record has the program that wrote it.
func TestAgainstTonal(t *testing.T) {
	text, err := os.ReadFile("testdata/tonal.json")
	require.NoError(t, err)
	var recorded struct {
		Version    string
		Scales     map[string]map[string]string
		Signatures map[string]map[string]int
	}
	require.NoError(t, json.Unmarshal(text, &recorded))
	require.Equal(t, "6.4.3", recorded.Version)

	for kind := range ScaleKinds() {
		name, ok := tonalNames[kind]
		if !ok {
			name = kind.String()
		}
		require.Len(t, recorded.Scales[name], 17, name)
		for tonic, notes := range recorded.Scales[name] {
			s := kind.On(pitch.MustParse(tonic))
			if theirs, ok := tonalDiffers[kind]; ok {
				assert.Equal(t, notes, spell(s.Tonic(), theirs), s)
				assert.NotEqual(t, notes, join(s.Notes()), s)
				for i, n := range strings.Fields(notes) {
					assert.True(t, s.Notes()[i].Sounds(pitch.MustParse(n)), "%s: %s", s, n)
				}
				continue
			}
			assert.Equal(t, notes, join(s.Notes()), s)
		}
	}
	assert.Len(t, recorded.Scales, len(scales)-1, "every kind is recorded and every record compared")

	require.Len(t, recorded.Signatures, 2)
	for mode, signatures := range recorded.Signatures {
		require.Len(t, signatures, 15, mode)
		for tonic, want := range signatures {
			k := MustParse(tonic + " " + mode)
			assert.Equal(t, want, k.Signature(), k)
		}
	}
}

// spell names the notes on a list of degrees.
func spell(tonic pitch.Note, degrees string) string {
	var notes []pitch.Note
	for text := range strings.FieldsSeq(degrees) {
		var d chord.Degree
		if err := d.UnmarshalText([]byte(text)); err != nil {
			panic(err)
		}
		notes = append(notes, tonic.Add(d.Interval()))
	}
	return join(notes)
}

func FuzzParseScale(f *testing.F) {
	for kind := range ScaleKinds() {
		for _, name := range scales[kind].names {
			f.Add("Eb " + name)
		}
	}
	for _, in := range []string{"", "C", "Cblues", "c blues", "C diminished", "B♭ lydian ♭7", "C ♮", "E flat minor"} {
		f.Add(in)
	}
	f.Fuzz(func(t *testing.T, in string) {
		s, err := ParseScale(in)
		if err != nil {
			requireSyntaxError(t, in, err)
			return
		}
		if again, err := ParseScale(s.String()); err != nil || again != s {
			t.Fatalf("%q: %v does not round trip: %v", in, s, err)
		}
		s.Sevenths()
	})
}

func BenchmarkParseScale(b *testing.B) {
	for b.Loop() {
		if _, err := ParseScale("D phrygian dominant"); err != nil {
			b.Fatal(err)
		}
	}
}
