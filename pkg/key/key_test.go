package key

import (
	"encoding/json"
	"testing"

	"fifthwise/pkg/pitch"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// One key a row, in every spelling that is read; the first is printed.
var keySpellings = [][]string{
	{"C major", "C", "CM", "Cmaj", "C maj", "C Major", "C MAJOR", "Cmajor", "C ionian", "Cion", " C  major ", "C\tmajor"},
	{"C minor", "Cm", "C m", "Cmin", "C min", "C Minor", "Cminor", "C aeolian", "C Aeolian", "Caeo", "\u00a0C\u00a0minor"},
	{"Eb major", "Eb", "E♭", "E♭ major", "EbM", "Eb maj", "Eb "},
	{"Eb minor", "Ebm", "E♭m", "E♭ minor", "Eb min"},
	{"F# minor", "F#m", "F♯m", "F#min", "F♯ minor", "F# aeolian"},
	{"D dorian", "Ddor", "D Dorian", "Ddorian", "D dor"},
	{"E phrygian", "Ephr", "E Phrygian"},
	{"F lydian", "Flyd", "F LYDIAN"},
	{"G mixolydian", "Gmix", "G Mixolydian"},
	{"Bbb major", "Bbb", "B𝄫", "B♭♭ maj"},
	{"Bb minor", "Bbm", "B♭m", "B♭min"},
}

func TestParse(t *testing.T) {
	for _, row := range keySpellings {
		for _, in := range row {
			t.Run(in, func(t *testing.T) {
				k, err := Parse(in)
				require.NoError(t, err)
				assert.Equal(t, row[0], k.String())
				assert.True(t, k.IsValid())
				assert.Equal(t, k, New(k.Tonic(), k.Mode()))
			})
		}
	}
}

func TestParseErrors(t *testing.T) {
	const expected = "expected a mode: major, minor, dorian, phrygian, lydian or mixolydian"
	tests := []struct{ name, in, wantErr string }{
		{"empty", "", `expected a note name A to G at offset 0 of ""`},
		{"only spaces", "  ", `expected a note name A to G at offset 2 of "  "`},
		{"no letter of the scale", "H major", `expected a note name A to G at offset 0 of "H major" (the German H is B)`},
		{"lower case alone is two keys", "c", `expected a note name A to G at offset 0 of "c" (write C major or C minor)`},
		{"lower case with a flat", " eb ", `expected a note name A to G at offset 1 of " eb " (write Eb major or Eb minor)`},
		{"lower case with a mode", "c minor", `expected a note name A to G at offset 0 of "c minor" (write C in upper case)`},
		{"mode without a tonic", "minor", `expected a note name A to G at offset 0 of "minor" (write the tonic first)`},
		{"mode that starts as a note", "dorian", `expected a note name A to G at offset 0 of "dorian" (write the tonic first)`},
		{"mixed accidentals", "F#b minor", `flats and sharps mixed on one note at offset 2 of "F#b minor"`},
		{"too many accidentals", "  Cbbbbbbbb", `more than 7 accidentals on one note at offset 10 of "  Cbbbbbbbb"`},
		{"flat as a word", "E flat major", `expected an accidental as b or # at offset 2 of "E flat major" (write Eb)`},
		{"sharp as a word", "F-sharp minor", `expected an accidental as b or # at offset 1 of "F-sharp minor" (write F#)`},
		{"letters swapped", "D dorain", expected + ` at offset 2 of "D dorain" (write dorian)`},
		{"letter left out", "E♭ mjor", expected + ` at offset 5 of "E♭ mjor" (write major)`},
		{"letter too many", "C minnor", expected + ` at offset 2 of "C minnor" (write minor)`},
		{"start of a name", "G mixo", expected + ` at offset 2 of "G mixo" (write mixolydian)`},
		{"part of two names", "F lydi", expected + ` at offset 2 of "F lydi" (write lydian or mixolydian)`},
		{"a scale", "B locrian", expected + ` at offset 2 of "B locrian" (locrian is a scale, not the mode of a key)`},
		{"a scale by another name", "C Jazz-Minor", expected + ` at offset 2 of "C Jazz-Minor" (melodic minor is a scale, not the mode of a key)`},
		{"a chord", "C7", expected + ` at offset 1 of "C7"`},
		{"German", "C moll", expected + ` at offset 2 of "C moll" (write minor)`},
		{"Italian", "E♭ maggiore", expected + ` at offset 5 of "E♭ maggiore" (write major)`},
		{"another word", "C plain", expected + ` at offset 2 of "C plain"`},
		{"text behind", "C major in two", expected + ` at offset 2 of "C major in two"`},
		{"two keys", "C major, A minor", expected + ` at offset 2 of "C major, A minor"`},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			k, err := Parse(tt.in)
			assert.EqualError(t, err, tt.wantErr)
			assert.Equal(t, Key{}, k)
			var syntax *pitch.SyntaxError
			require.ErrorAs(t, err, &syntax)
			assert.Equal(t, tt.in, syntax.Input)
		})
	}
	assert.PanicsWithError(t, `expected a note name A to G at offset 0 of ""`, func() { MustParse("") })
}

func TestEveryKeyRoundTrips(t *testing.T) {
	for m := Major; m.IsValid(); m++ {
		for fifths := -50; fifths <= 54; fifths++ {
			k := New(pitch.At(fifths), m)
			again, err := Parse(k.String())
			require.NoError(t, err)
			assert.Equal(t, k, again)
			again, err = Parse(string(k.AppendTo(nil, pitch.Unicode)))
			require.NoError(t, err)
			assert.Equal(t, k, again)
		}
	}
}

func TestModes(t *testing.T) {
	for m, want := range map[Mode]struct {
		name  string
		minor bool
	}{
		Major: {"major", false}, Minor: {"minor", true}, Dorian: {"dorian", true},
		Phrygian: {"phrygian", true}, Lydian: {"lydian", false}, Mixolydian: {"mixolydian", false},
	} {
		assert.Equal(t, want.name, m.String())
		assert.Equal(t, want.minor, m.IsMinor(), m)
		assert.Equal(t, want.minor, New(pitch.Note{}, m).IsMinor(), m)
		for _, name := range modes[m].names {
			read, err := ParseMode(name)
			require.NoError(t, err)
			assert.Equal(t, m, read, name)
		}
		// The two tables of this package, signatures and scales, agree.
		k := New(pitch.Note{}, m)
		sum := 0
		for _, n := range k.Scale().Notes() {
			sum += n.Accidental()
		}
		assert.Equal(t, sum, k.Signature(), m)
	}
	for _, m := range []Mode{0, Mixolydian + 1, 255} {
		assert.False(t, m.IsValid())
		assert.False(t, m.IsMinor())
		assert.Equal(t, "invalid mode", m.String())
		assert.Equal(t, ScaleKind(0), m.Scale())
		assert.Equal(t, Key{}, New(pitch.MustParse("D"), m))
	}
}

func TestInvalidKey(t *testing.T) {
	var k Key
	assert.False(t, k.IsValid())
	assert.Equal(t, "invalid key", k.String())
	assert.Empty(t, k.AppendTo(nil, pitch.ASCII))
	assert.Equal(t, k, k.Relative())
	assert.Equal(t, k, k.Parallel())
	assert.Equal(t, k, k.Transpose(pitch.MajorThird))
	assert.Nil(t, k.Related())
	assert.Equal(t, Scale{}, k.Scale())
	assert.True(t, k.Sounds(Key{}))
	assert.False(t, k.Sounds(MustParse("C")))
}

func TestText(t *testing.T) {
	type request struct {
		Key   Key
		Mode  Mode
		Scale Scale
		Kind  ScaleKind
	}
	in := request{MustParse("Eb minor"), Dorian, MustParseScale("D phrygian dominant"), AlteredScale}
	text, err := json.Marshal(in)
	require.NoError(t, err)
	assert.Equal(t, `{"Key":"Eb minor","Mode":"dorian","Scale":"D phrygian dominant","Kind":"altered"}`, string(text))
	var out request
	require.NoError(t, json.Unmarshal(text, &out))
	assert.Equal(t, in, out)

	text, err = json.Marshal(request{})
	require.NoError(t, err)
	assert.Equal(t, `{"Key":"","Mode":"","Scale":"","Kind":""}`, string(text))
	require.NoError(t, json.Unmarshal(text, &out))
	assert.Equal(t, request{}, out)

	_, err = Mode(9).MarshalText()
	assert.EqualError(t, err, "mode 9 does not exist")
	_, err = ScaleKind(99).MarshalText()
	assert.EqualError(t, err, "scale kind 99 does not exist")
	assert.Equal(t, "F♯ minor", string(MustParse("F# minor").AppendTo(nil, pitch.Unicode)))
}

// Common practice, no source; parallel minor after Hutchinson §3.2.
func TestRelativeAndParallel(t *testing.T) {
	tests := []struct{ key, relative, parallel string }{
		{"C major", "A minor", "C minor"},
		{"A minor", "C major", "A major"},
		{"Eb major", "C minor", "Eb minor"},
		{"F# minor", "A major", "F# major"},
		{"Gb major", "Eb minor", "Gb minor"},
		{"D dorian", "C major", "D major"},
		{"E phrygian", "C major", "E major"},
		{"F lydian", "C major", "F minor"},
		{"G mixolydian", "C major", "G minor"},
		{"Bb mixolydian", "Eb major", "Bb minor"},
	}
	for _, tt := range tests {
		k := MustParse(tt.key)
		assert.Equal(t, tt.relative, k.Relative().String(), tt.key)
		assert.Equal(t, k.Signature(), k.Relative().Signature(), tt.key)
		assert.Equal(t, tt.parallel, k.Parallel().String(), tt.key)
	}
	for fifths := -7; fifths <= 7; fifths++ {
		major := New(pitch.At(fifths), Major)
		assert.Equal(t, major.Signature()-3, major.Parallel().Signature(), "parallel minor is three steps flatter")
		assert.Equal(t, major, major.Parallel().Parallel())
	}
}

// Hutchinson, Music Theory for the 21st-Century Classroom, §22.3, gives those
// of A major; the others follow from the rule stated there.
func TestRelated(t *testing.T) {
	for key, want := range map[string][]string{
		"A major":  {"F# minor", "E major", "C# minor", "D major", "B minor"},
		"C major":  {"A minor", "G major", "E minor", "F major", "D minor"},
		"C minor":  {"Eb major", "Bb major", "G minor", "Ab major", "F minor"},
		"D dorian": {"C major", "A minor", "G major", "E minor", "F major", "D minor"},
	} {
		var got []string
		for _, k := range MustParse(key).Related() {
			got = append(got, k.String())
		}
		assert.Equal(t, want, got, key)
	}
}

// Common practice, no source.
func TestTranspose(t *testing.T) {
	tests := []struct {
		key  string
		by   pitch.Interval
		want string
	}{
		{"C major", pitch.MajorSecond, "D major"},
		{"C minor", pitch.MinorThird, "Eb minor"},
		{"Eb dorian", pitch.AugmentedFourth, "A dorian"},
		{"Db major", pitch.MinorThird, "Fb major"},
		{"B lydian", pitch.MajorThird, "D# lydian"},
	}
	for _, tt := range tests {
		assert.Equal(t, tt.want, MustParse(tt.key).Transpose(tt.by).String(), tt.key)
	}
}

func TestSounds(t *testing.T) {
	assert.True(t, MustParse("F#").Sounds(MustParse("Gb")))
	assert.True(t, MustParse("D#m").Sounds(MustParse("Ebm")))
	assert.False(t, MustParse("D#m").Sounds(MustParse("Eb")))
	assert.NotEqual(t, MustParse("F#"), MustParse("Gb"))
}

// Degrees are counted from the major scale in both modes.
func TestDegree(t *testing.T) {
	tests := []struct {
		key           string
		number, alter int
		want          string
	}{
		{"C minor", 3, -1, "Eb"}, {"C minor", 6, -1, "Ab"}, {"C minor", 7, -1, "Bb"}, {"C minor", 7, 0, "B"},
		{"C major", 2, -1, "Db"}, {"C major", 4, 1, "F#"}, {"C major", 2, 1, "D#"}, {"F# minor", 3, 0, "A#"},
		{"Eb major", 6, -1, "Cb"}, {"Db major", 7, -2, "Cbb"}, {"D dorian", 6, 0, "B"}, {"B major", 5, 1, "F##"},
		{"A minor", 1, 0, "A"},
	}
	for _, tt := range tests {
		k := MustParse(tt.key)
		n := k.Degree(tt.number, tt.alter)
		assert.Equal(t, tt.want, n.String(), "%s %d %d", tt.key, tt.number, tt.alter)
		number, alter := k.DegreeOf(n)
		assert.Equal(t, [2]int{tt.number, tt.alter}, [2]int{number, alter}, "%s in %s", n, tt.key)
	}
	assert.Equal(t, "D", MustParse("C").Degree(9, 0).String())
}

// Hutchinson, Music Theory for the 21st-Century Classroom, §3.3.
func TestDegreeName(t *testing.T) {
	tests := []struct {
		number, alter int
		want          string
	}{
		{1, 0, "tonic"}, {2, 0, "supertonic"}, {3, 0, "mediant"}, {3, -1, "mediant"}, {4, 0, "subdominant"}, {5, 0, "dominant"},
		{6, 0, "submediant"}, {6, -1, "submediant"}, {7, 0, "leading tone"}, {7, -1, "subtonic"},
		{2, -1, ""}, {4, 1, ""}, {7, -2, ""}, {7, 1, ""}, {0, 0, ""}, {8, 0, ""}, {-1, 0, ""},
	}
	for _, tt := range tests {
		assert.Equal(t, tt.want, DegreeName(tt.number, tt.alter), "%d %d", tt.number, tt.alter)
	}
}

func FuzzParse(f *testing.F) {
	for _, row := range keySpellings {
		for _, in := range row {
			f.Add(in)
		}
	}
	for _, in := range []string{"", "c", "D dorain", "E flat major", "B locrian", "F#b", "Cbbbbbbbb minor"} {
		f.Add(in)
	}
	f.Fuzz(func(t *testing.T, s string) {
		k, err := Parse(s)
		if err != nil {
			requireSyntaxError(t, s, err)
			return
		}
		if again, err := Parse(k.String()); err != nil || again != k {
			t.Fatalf("%q: %v does not round trip: %v", s, k, err)
		}
	})
}

// requireSyntaxError fails unless err points into s.
func requireSyntaxError(t *testing.T, s string, err error) {
	t.Helper()
	var syntax *pitch.SyntaxError
	require.ErrorAs(t, err, &syntax)
	require.Equal(t, s, syntax.Input)
	require.True(t, syntax.Offset >= 0 && syntax.Offset <= len(s), "offset %d of %q", syntax.Offset, s)
	require.NotEmpty(t, syntax.Msg)
}

func BenchmarkParse(b *testing.B) {
	for _, in := range []string{"Eb", "F# minor", "D dorian"} {
		b.Run(in, func(b *testing.B) {
			for b.Loop() {
				if _, err := Parse(in); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
