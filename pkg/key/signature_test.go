package key

import (
	"testing"

	"fifthwise/pkg/pitch"

	"github.com/stretchr/testify/assert"
)

// Hutchinson, Music Theory for the 21st-Century Classroom, §2.3 (major keys,
// order of sharps and flats) and §3.1 (minor keys).
func TestSignatures(t *testing.T) {
	tests := []struct {
		major, minor string
		want         int
		notes        string
	}{
		{"Cb", "Ab", -7, "Bb Eb Ab Db Gb Cb Fb"},
		{"Gb", "Eb", -6, "Bb Eb Ab Db Gb Cb"},
		{"Db", "Bb", -5, "Bb Eb Ab Db Gb"},
		{"Ab", "F", -4, "Bb Eb Ab Db"},
		{"Eb", "C", -3, "Bb Eb Ab"},
		{"Bb", "G", -2, "Bb Eb"},
		{"F", "D", -1, "Bb"},
		{"C", "A", 0, ""},
		{"G", "E", 1, "F#"},
		{"D", "B", 2, "F# C#"},
		{"A", "F#", 3, "F# C# G#"},
		{"E", "C#", 4, "F# C# G# D#"},
		{"B", "G#", 5, "F# C# G# D# A#"},
		{"F#", "D#", 6, "F# C# G# D# A# E#"},
		{"C#", "A#", 7, "F# C# G# D# A# E# B#"},
	}
	for _, tt := range tests {
		major, minor := New(pitch.MustParse(tt.major), Major), New(pitch.MustParse(tt.minor), Minor)
		for _, k := range []Key{major, minor} {
			assert.Equal(t, tt.want, k.Signature(), k)
			assert.Equal(t, tt.notes, join(k.SignatureNotes()), k)
			assert.Equal(t, k, k.Simplify(), k)
		}
		assert.Equal(t, minor, major.Relative())
		assert.Equal(t, major, minor.Relative())
	}
}

// Common practice, no source.
func TestModeSignatures(t *testing.T) {
	tests := []struct {
		key  string
		want int
	}{
		{"D dorian", 0}, {"E phrygian", 0}, {"F lydian", 0}, {"G mixolydian", 0},
		{"C dorian", -2}, {"C phrygian", -4}, {"C lydian", 1}, {"C mixolydian", -1},
		{"Eb dorian", -5}, {"F# mixolydian", 5}, {"Bb lydian", -1}, {"C# phrygian", 3},
	}
	for _, tt := range tests {
		assert.Equal(t, tt.want, MustParse(tt.key).Signature(), tt.key)
	}
	assert.Equal(t, 0, Key{}.Signature())
	assert.Empty(t, Key{}.SignatureNotes())
}

// Common practice, no source: a double accidental stands last.
func TestTheoreticalKeys(t *testing.T) {
	tests := []struct {
		key   string
		want  int
		notes string
		twin  string
	}{
		{"G# major", 8, "C# G# D# A# E# B# F##", "Ab major"},
		{"D# major", 9, "G# D# A# E# B# F## C##", "Eb major"},
		{"Fb major", -8, "Eb Ab Db Gb Cb Fb Bbb", "E major"},
		{"Db minor", -8, "Eb Ab Db Gb Cb Fb Bbb", "C# minor"},
		{"E# minor", 8, "C# G# D# A# E# B# F##", "F minor"},
		{"Gb phrygian", -10, "Db Gb Cb Fb Bbb Ebb Abb", "F# phrygian"},
		{"F### major", 20, "B## F### C### G### D### A### E###", "Ab major"},
	}
	for _, tt := range tests {
		k := MustParse(tt.key)
		assert.Equal(t, tt.want, k.Signature(), tt.key)
		assert.Equal(t, tt.notes, join(k.SignatureNotes()), tt.key)
		assert.Equal(t, tt.twin, k.Simplify().String(), tt.key)
	}
}

// Six sharps and six flats tie: the key keeps its kind of accidental.
func TestSimplifyTies(t *testing.T) {
	for in, want := range map[string]string{
		"E## major": "F# major", "Abbb major": "Gb major",
		"F# major": "F# major", "Gb major": "Gb major", "C# major": "C# major", "Cb major": "Cb major",
	} {
		assert.Equal(t, want, MustParse(in).Simplify().String(), in)
	}
	assert.Equal(t, Key{}, Key{}.Simplify())
}

func TestEveryKeySimplifies(t *testing.T) {
	for m := Major; m.IsValid(); m++ {
		for fifths := -50; fifths <= 54; fifths++ {
			k := New(pitch.At(fifths), m)
			twin := k.Simplify()
			assert.True(t, k.Sounds(twin), "%s, %s", k, twin)
			assert.LessOrEqual(t, max(twin.Signature(), -twin.Signature()), 7, k)
			assert.Len(t, k.SignatureNotes(), min(max(k.Signature(), -k.Signature()), 7), k)
		}
	}
}

// The fewest sharps or flats; of six and six the commoner (common practice, no
// source).
func TestOf(t *testing.T) {
	tests := []struct {
		mode Mode
		want string
	}{
		{Major, "C Db D Eb E F F# G Ab A Bb B"},
		{Minor, "C C# D Eb E F F# G G# A Bb B"},
		{Dorian, "C C# D Eb E F F# G Ab A Bb B"},
		{Phrygian, "C C# D D# E F F# G G# A Bb B"},
		{Lydian, "C Db D Eb E F Gb G Ab A Bb B"},
		{Mixolydian, "C Db D Eb E F F# G Ab A Bb B"},
	}
	for _, tt := range tests {
		var tonics []pitch.Note
		for c := range pitch.Class(12) {
			k := Of(c, tt.mode)
			assert.Equal(t, c, k.Tonic().Class())
			assert.LessOrEqual(t, max(k.Signature(), -k.Signature()), 6, k)
			tonics = append(tonics, k.Tonic())
		}
		assert.Equal(t, tt.want, join(tonics), tt.mode)
	}
	assert.Equal(t, Key{}, Of(3, 0))
}
