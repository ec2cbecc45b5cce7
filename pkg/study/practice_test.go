package study_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"fifthwise/pkg/chart"
	"fifthwise/pkg/chord"
	"fifthwise/pkg/function"
	"fifthwise/pkg/key"
	"fifthwise/pkg/pitch"
	"fifthwise/pkg/study"
)

func practiceOf(t require.TestingT, text string) (function.Analysis, study.Practice) {
	c, err := chart.Parse(text)
	require.NoError(t, err, text)
	a := function.Analyze(c)
	return a, study.PracticeOf(&a)
}

// Thirds, sevenths, sixths and suspended fourths are members of the chords after
// R. Hutchinson, Music Theory for the 21st-Century Classroom, ch. 31; which of
// them guide where one is missing is common practice, no source.
func TestGuides(t *testing.T) {
	tests := []struct{ quality, want string }{
		{"maj7", "3 7"}, {"7", "3 b7"}, {"m7", "b3 b7"}, {"m7b5", "b3 b7"}, {"dim7", "b3 bb7"}, {"m(maj7)", "b3 7"},
		{"7alt", "3 b7"}, {"13", "3 b7"}, {"7#9", "3 b7"}, {"m11", "b3 b7"}, {"maj7#11", "3 7"}, {"7#5", "3 b7"},
		{"6", "3 6"}, {"m6", "b3 6"}, {"6/9", "3 6"},
		{"7sus4", "4 b7"}, {"9sus4", "4 b7"}, {"sus4", "4 1"}, {"sus2", "2 1"}, {"7sus2", "2 b7"},
		{"", "3 1"}, {"m", "b3 1"}, {"add9", "3 1"}, {"aug", "3 #5"}, {"dim", "b3 b5"}, {"5", "5 1"},
		{":(1)", "1 1"}, {":(1,b5)", "b5 1"}, {":(1,b7)", "1 b7"}, {":(1,5,b7)", "5 b7"}, {":(1,b6)", "1 b6"},
	}
	for _, tt := range tests {
		t.Run(tt.quality, func(t *testing.T) {
			q, err := chord.ParseQuality(tt.quality)
			require.NoError(t, err)
			g := study.Guides(q)
			assert.Equal(t, tt.want, g[0].String()+" "+g[1].String())
		})
	}
}

// line tells a line's notes, with the motion to each where it moves.
func line(steps []study.Step) string {
	var said []string
	for _, s := range steps {
		switch {
		case s.Rests:
			said = append(said, "-")
		case s.Motion != 0:
			said = append(said, fmt.Sprintf("%v%+d", s.Note, s.Motion))
		default:
			said = append(said, s.Note.String())
		}
	}
	return strings.Join(said, " ")
}

// That the seventh falls to the third, while the third is held as the seventh, is
// common practice, no source; the notes follow from it.
func TestGuideToneLines(t *testing.T) {
	tests := []struct{ name, chart, first, second string }{
		{"two-five-one", "Dm7 | G7 | Cmaj7", "F F E-1", "C B-1 B"},
		{"in minor", "Dm7b5 | G7b9 | Cm6", "F F Eb-2", "C B-1 A-2"},
		{"a triad takes its root behind the leading tone", "G7 | C", "B C+1", "F E-1"},
		{"around the circle", "Em7 | A7 | Dm7 | G7 | Cmaj7 | Fmaj7", "G G F-2 F E-1 E", "D C#-1 C-1 B-1 B A-2"},
		{"a suspension resolves", "G7sus4 | G7 | C6", "C B-1 A-2", "F F E-1"},
		{"a substitute", "Dm7 | Db7 | Cmaj7", "F F E-1", "C Cb-1 B"},
		{"one chord twice", "C7 | C7", "E E", "Bb Bb"},
		{"silence", "Dm7 | N.C. | G7", "F - F", "C - B-1"},
		{"silence before all", "N.C. | G7", "- B", "- F"},
		{"nothing but silence", "N.C.", "-", "-"},
		{"half steps down", "Bm7 | Bbm7 | Am7", "D Db-1 C-1", "A Ab-1 G-1"},
		{"a diminished chord that passes", "Am7 | Abdim7 | Gm7", "C B-1 Bb-1", "G F-2 F"},
		{"a tritone apart, one way as far as the other", "C7 | Gb7", "E E", "Bb Bb"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			_, p := practiceOf(t, tt.chart)
			first := strings.NewReplacer("Fb", "E").Replace(line(p.Lines[0]))
			assert.Equal(t, tt.first, first)
			assert.Equal(t, tt.second, line(p.Lines[1]))
		})
	}
}

func TestPractice(t *testing.T) {
	a, p := practiceOf(t, "Dm7 | D7b9/F# G7 | N.C. | Cmaj7")
	require.Len(t, p.Chords, len(a.Chords))
	tests := []struct{ tones, guides, scale, notes string }{
		{"D F A C", "F C", "D dorian", "D E F G A B C"},
		{"D F# A C Eb", "F# C", "D diminished half-whole", "D Eb F F# G# A B C"},
		{"G B D F", "B F", "G mixolydian", "G A B C D E F"},
		{"", "", "invalid scale", ""},
		{"C E G B", "E B", "C major", "C D E F G A B"},
	}
	for i, tt := range tests {
		m := p.Chords[i]
		assert.Equal(t, tt.tones, spelled(m.Tones))
		assert.Equal(t, tt.scale, m.Scale.String())
		assert.Equal(t, tt.notes, spelled(m.Notes))
		if tt.guides != "" {
			assert.Equal(t, tt.guides, spelled(m.Guides[:]))
		}
	}
	assert.Equal(t, study.Practice{Chords: []study.Material{}, Lines: [2][]study.Step{{}, {}}}, study.PracticeOf(&function.Analysis{}))
}

// The whole-half scale over Bdim7 after Hutchinson, Table 31.10.3, in sound; the
// names are common practice, no source.
func TestNamesToRead(t *testing.T) {
	tests := []struct{ chart, chord, tones, scale, notes string }{
		{"Cm6 | Bdim7 | Cm6", "Bdim7", "B D F Ab", "B diminished whole-half", "B C# D E F G Ab Bb"},
		{"Fmaj7 | Am7 | Abdim7 | Gm7 | C7 | Fmaj7", "Abdim7", "Ab B D F", "Ab diminished whole-half", "Ab Bb B C# D E F G"},
		{"G#m6 | F##dim7 | G#m6", "F##dim7", "F## A# C# E", "F## diminished whole-half", "F## A A# B# C# D# E F#"},
		{"Am7b5 | D7 | Gm6 | Edim7 | Fmaj7", "Edim7", "E G Bb Db", "E diminished whole-half", "E F# G A Bb C Db Eb"},
		{"Am6 | Bm7b5 | E7alt | Am6", "E7alt", "E G# Bb B# D F G", "E altered", "E F G Ab Bb C D"},
		{"Bbm6 | Cm7b5 | F7#9 | Bbm6", "F7#9", "F A C Eb G#", "F diminished half-whole", "F Gb Ab A B C D Eb"},
		{"Ebm6 | Fm7b5 | Bb7alt | Ebm6", "Bb7alt", "Bb D Fb F# Ab Cb C#", "Bb altered", "Bb Cb Db D Fb Gb Ab"},
		{"Gbmaj7 | Cb7 | Gb6", "Cb7", "Cb Eb Gb Bbb", "Cb mixolydian", "Cb Db Eb Fb Gb Ab Bbb"},
	}
	for _, tt := range tests {
		t.Run(tt.chord, func(t *testing.T) {
			a, p := practiceOf(t, tt.chart)
			i := slices.IndexFunc(a.Chords, func(r function.Reading) bool { return r.Event.Symbol == tt.chord })
			m := p.Chords[i]
			assert.Equal(t, tt.tones, spelled(m.Tones))
			assert.Equal(t, tt.scale, m.Scale.String())
			assert.Equal(t, tt.notes, spelled(m.Notes))
		})
	}
}

func spelled(notes []pitch.Note) string {
	var list []string
	for _, n := range notes {
		list = append(list, n.String())
	}
	return strings.Join(list, " ")
}

// Of any chart: both lines together have the guides of every chord, no other way
// to share them out moves less, the motions add up, and scales hold the chords.
func TestPracticeOfAnyChart(t *testing.T) {
	symbols := strings.Fields("Cmaj7 Dm7 G7 F6 Bb7 Ebmaj7 Am7b5 D7alt Gm6 C F#dim7 B5 E7sus4 Abaug C:(1) N.C. Dm7/G F/G")
	rapid.Check(t, func(t *rapid.T) {
		a, p := practiceOf(t, strings.Join(rapid.SliceOfN(rapid.SampledFrom(symbols), 1, 24).Draw(t, "chords"), " | "))
		before := -1
		for i := range a.Chords {
			c := a.Chords[i].Event.Chord
			one, two := p.Lines[0][i], p.Lines[1][i]
			require.Equal(t, c.IsSilence(), one.Rests)
			require.Equal(t, c.IsSilence(), two.Rests)
			if c.IsSilence() {
				require.Equal(t, study.Material{}, p.Chords[i])
				continue
			}
			require.ElementsMatch(t, p.Chords[i].Guides[:], []pitch.Note{one.Note, two.Note})
			for _, s := range []study.Step{one, two} {
				require.True(t, c.Root().Add(s.Degree.Interval()).Sounds(s.Note))
				require.Contains(t, p.Chords[i].Tones, s.Note)
			}
			if p.Chords[i].Scale.IsValid() {
				require.Zero(t, c.Classes()&^p.Chords[i].Scale.Classes()&^(1<<c.Bass().Class()))
				require.Len(t, p.Chords[i].Notes, len(p.Chords[i].Scale.Notes()))
				for k, n := range p.Chords[i].Scale.Notes() {
					require.True(t, n.Sounds(p.Chords[i].Notes[k]))
				}
			}
			if before >= 0 {
				requireNearest(t, [2]study.Step{p.Lines[0][before], p.Lines[1][before]}, [2]study.Step{one, two})
			}
			before = i
		}
	})
}

func requireNearest(t require.TestingT, from, to [2]study.Step) {
	far := func(n, m pitch.Note) int {
		moved := int(n.MotionTo(m))
		return max(moved, -moved)
	}
	moved := 0
	for v := range to {
		require.Equal(t, from[v].Note.MotionTo(to[v].Note), to[v].Motion)
		moved += far(from[v].Note, to[v].Note)
	}
	require.LessOrEqual(t, moved, far(from[0].Note, to[1].Note)+far(from[1].Note, to[0].Note))
}

// Practice moves with its tune: in each key the same lines.
func TestPracticeInAllKeys(t *testing.T) {
	a, home := practiceOf(t, ferry)
	c, err := chart.Parse(ferry)
	require.NoError(t, err)
	for _, to := range key.Fourths.Keys(a.Home) {
		moved, err := c.TransposeTo(a.Home, to, a.Passages()...)
		require.NoError(t, err)
		there := function.Analyze(moved)
		p := study.PracticeOf(&there)
		require.Len(t, p.Chords, len(home.Chords))
		for i := range p.Chords {
			for v := range p.Lines {
				assert.Equal(t, home.Lines[v][i].Motion, p.Lines[v][i].Motion, "chord %d in %v", i, to)
			}
			assert.Equal(t, home.Chords[i].Scale.Kind(), p.Chords[i].Scale.Kind(), "chord %d in %v", i, to)
		}
	}
}

func ExamplePracticeOf() {
	c, _ := chart.Parse("Dm7 | G7 | Cmaj7")
	a := function.Analyze(c)
	p := study.PracticeOf(&a)
	for i, m := range p.Chords {
		fmt.Println(a.Chords[i].Event.Chord, m.Tones, p.Lines[0][i].Note, p.Lines[1][i].Note, m.Scale)
	}
	// Output:
	// Dm7 [D F A C] F C D dorian
	// G7 [G B D F] F B G mixolydian
	// Cmaj7 [C E G B] E B C major
}

func BenchmarkPracticeOf(b *testing.B) {
	a, _ := practiceOf(b, ferry)
	b.ReportAllocs()
	for b.Loop() {
		study.PracticeOf(&a)
	}
}
