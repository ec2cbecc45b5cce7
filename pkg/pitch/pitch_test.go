package pitch

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Common practice, no source.
func TestParse(t *testing.T) {
	tests := []struct {
		in, want string
		class    Class
	}{
		{"C", "C", 0}, {"C#", "C#", 1}, {"Db", "Db", 1}, {"B#", "B#", 0}, {"Cb", "Cb", 11},
		{"F♯", "F#", 6}, {"G♭", "Gb", 6}, {"B𝄫", "Bbb", 9}, {"F𝄪", "F##", 7}, {"Abb", "Abb", 7},
		{"E#", "E#", 5}, {"Fb", "Fb", 4}, {"Bb", "Bb", 10},
		{"F#######", "F#######", 0}, {"Bbbbbbbb", "Bbbbbbbb", 4},
	}
	for _, tt := range tests {
		t.Run(tt.in, func(t *testing.T) {
			n, err := Parse(tt.in)
			require.NoError(t, err)
			assert.Equal(t, tt.want, n.String())
			assert.Equal(t, tt.class, n.Class())
			again, err := Parse(n.String())
			require.NoError(t, err)
			assert.Equal(t, n, again)
		})
	}
}

func TestParseErrors(t *testing.T) {
	tests := []struct{ name, in, wantErr string }{
		{"empty", "", `expected a note name A to G at offset 0 of ""`},
		{"lower case", "f#", `expected a note name A to G at offset 0 of "f#" (write F in upper case)`},
		{"no letter of the scale", "H", `expected a note name A to G at offset 0 of "H" (the German H is B)`},
		{"mixed accidentals", "C#b", `flats and sharps mixed on one note at offset 2 of "C#b"`},
		{"too many accidentals", "C########", `more than 7 accidentals on one note at offset 8 of "C########"`},
		{"trailing text", "C4", `expected the end of the note name at offset 1 of "C4"`},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			_, err := Parse(tt.in)
			assert.EqualError(t, err, tt.wantErr)
		})
	}
}

func TestEveryNoteRoundTrips(t *testing.T) {
	for f := minFifths; f <= maxFifths; f++ {
		n := At(f)
		again, err := Parse(n.String())
		require.NoError(t, err, n)
		assert.Equal(t, n, again)
		assert.True(t, n.Sounds(n.Simplify()), n)
		assert.LessOrEqual(t, len(n.Simplify().String()), 2, n)
	}
	assert.Equal(t, At(maxFifths-11), At(maxFifths+1), "beyond the bound the enharmonic note stands in")
}

// Spelled intervals as any harmony handbook tables them; e.g. Hutchinson,
// Music Theory for the 21st-Century Classroom, ch. 5.
func TestAdd(t *testing.T) {
	tests := []struct {
		from string
		by   Interval
		want string
	}{
		{"C", MajorThird, "E"}, {"C", MinorThird, "Eb"}, {"C", AugmentedFourth, "F#"}, {"C", DiminishedFifth, "Gb"},
		{"Eb", MinorThird, "Gb"}, {"Ab", PerfectFourth, "Db"}, {"B", MajorThird, "D#"}, {"F#", MajorSeventh, "E#"},
		{"Db", DiminishedSeventh, "Cbb"}, {"G#", AugmentedFifth, "D##"}, {"E", MinorSecond, "F"},
	}
	for _, tt := range tests {
		n := MustParse(tt.from)
		assert.Equal(t, tt.want, n.Add(tt.by).String())
		assert.Equal(t, n, n.Add(tt.by).Sub(tt.by))
		assert.Equal(t, tt.by, n.To(MustParse(tt.want)))
	}
}

func TestDegree(t *testing.T) {
	for _, tt := range []struct {
		number, alter int
		want          Interval
		semitones     int
	}{
		{1, 0, Unison, 0}, {2, -1, MinorSecond, 1}, {2, 0, MajorSecond, 2}, {3, -1, MinorThird, 3}, {3, 0, MajorThird, 4},
		{4, 0, PerfectFourth, 5}, {4, 1, AugmentedFourth, 6}, {5, -1, DiminishedFifth, 6}, {5, 0, PerfectFifth, 7},
		{5, 1, AugmentedFifth, 8}, {6, -1, MinorSixth, 8}, {6, 0, MajorSixth, 9}, {7, -2, DiminishedSeventh, 9},
		{7, -1, MinorSeventh, 10}, {7, 0, MajorSeventh, 11},
	} {
		assert.Equal(t, tt.want, Degree(tt.number, tt.alter))
		assert.Equal(t, tt.semitones, tt.want.Semitones())
		number, alter := tt.want.Degree()
		assert.Equal(t, [2]int{tt.number, tt.alter}, [2]int{number, alter})
	}
	assert.Equal(t, MajorSecond, Degree(9, 0))
	assert.Equal(t, MajorSixth, Degree(13, 0))
}

func TestMotion(t *testing.T) {
	for _, tt := range []struct{ from, to, want string }{
		{"C", "C", ""}, {"C", "E", "up a major third"}, {"E", "Ab", "up a major third"}, {"C", "G", "down a perfect fourth"},
		{"C", "F", "up a perfect fourth"}, {"C", "Gb", "up a tritone"}, {"F#", "C", "up a tritone"}, {"Bb", "A", "down a minor second"},
		{"Eb", "F", "up a major second"}, {"C", "A", "down a minor third"}, {"Db", "B", "down a major second"},
	} {
		assert.Equal(t, tt.want, MustParse(tt.from).MotionTo(MustParse(tt.to)).String(), "%s to %s", tt.from, tt.to)
	}
}

func TestSimplify(t *testing.T) {
	for in, want := range map[string]string{"B##": "C#", "Fb": "E", "Cb": "B", "E#": "F", "Bbb": "A", "Ebb": "D", "A#": "A#", "Gb": "Gb"} {
		assert.Equal(t, want, MustParse(in).Simplify().String(), in)
	}
}

func FuzzParse(f *testing.F) {
	for _, s := range []string{"C", "F#", "B♭", "G𝄪", "h", "", "C#b"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		n, err := Parse(s)
		if err != nil {
			return
		}
		again, err := Parse(n.String())
		if err != nil || again != n {
			t.Fatalf("%q: %v does not round trip: %v", s, n, err)
		}
	})
}
