package function_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fifthwise/pkg/key"
)

// The scales that go with a chord type; Hutchinson, Music Theory for the
// 21st-Century Classroom, ch. 31 §31.10.1, Table 31.10.3, and 7b5#9 from the
// answers to §31.12 ex. 6. Each type stands in an invented chart at the place of
// the mark; the scale taken is one of the type's.
func TestScaleByChordType(t *testing.T) {
	tests := []struct {
		symbol string
		scales []key.ScaleKind
		charts []string
	}{
		{"Cmaj7", []key.ScaleKind{key.MajorScale, key.LydianScale}, []string{"%s | Dm7 | G7 | Cmaj7", "Gmaj7 | %s | Am7 D7 | Gmaj7", "Em7 | %s | Am7 B7 | Em7"}},
		{"Cmaj7#11", []key.ScaleKind{key.LydianScale}, []string{"%s | Dm7 | G7 | Cmaj7", "Gmaj7 | %s | Am7 D7 | Gmaj7"}},
		{"Cmaj7#5", []key.ScaleKind{key.LydianAugmentedScale}, []string{"%s | Fmaj7 | G7 | Cmaj7", "Am6 | %s | Bm7b5 E7 | Am6"}},
		{"Dm7", []key.ScaleKind{key.DorianScale, key.NaturalMinorScale}, []string{"Cmaj7 | %s | G7 | Cmaj7", "Fmaj7 | %s | Gm7 C7 | Fmaj7", "%s | Gm7 | Em7b5 A7 | Dm7"}},
		{"Bm7b5", []key.ScaleKind{key.LocrianScale, key.LocrianSharp2Scale}, []string{"Am6 | %s | E7 | Am6", "Cmaj7 | %s | E7 | Am7 | Dm7 G7 | Cmaj7", "Dm | %s | Em7b5 A7 | Dm"}},
		{"Dm9b5", []key.ScaleKind{key.LocrianSharp2Scale}, []string{"Cm6 | %s | G7 | Cm6"}},
		{"C#dim7", []key.ScaleKind{key.DiminishedWholeHalfScale}, []string{"Cmaj7 | %s | Dm7 G7 | Cmaj7", "Dm | %s | Dm | Em7b5 A7 | Dm"}},
		{"Cm(maj7)", []key.ScaleKind{key.MelodicMinorScale}, []string{"%s | Fm7 | Dm7b5 G7 | Cm6", "Gmaj7 | %s | Am7 D7 | Gmaj7"}},
		{"Cm6/9", []key.ScaleKind{key.DorianScale, key.MelodicMinorScale}, []string{"%s | Fm7 | Dm7b5 G7 | Cm6", "Gmaj7 | %s | Am7 D7 | Gmaj7"}},
		{"G7", []key.ScaleKind{key.MixolydianScale}, []string{"Cmaj7 | %s | Cmaj7 | Fmaj7", "Fmaj7 | %s | Gm7 C7 | Fmaj7", "%s | C7 | G7 | D7 C7 | G7"}},
		{"G7#11", []key.ScaleKind{key.LydianDominantScale}, []string{"Cmaj7 | Dm7 %s | Cmaj7 | Cmaj7", "Gbmaj7 | Abm7 %s | Gbmaj7 | Gbmaj7"}},
		{"G7#5", []key.ScaleKind{key.WholeToneScale}, []string{"Cmaj7 | Dm7 %s | Cmaj7 | Cmaj7", "Fmaj7 | %s | Gm7 C7 | Fmaj7"}},
		{"G7b5", []key.ScaleKind{key.WholeToneScale}, []string{"Cmaj7 | Dm7 %s | Cmaj7 | Cmaj7"}},
		{"G7b9", []key.ScaleKind{key.DiminishedHalfWholeScale}, []string{"Cmaj7 | Dm7 %s | Cmaj7 | Cmaj7"}},
		{"G7#9", []key.ScaleKind{key.DiminishedHalfWholeScale}, []string{"Cmaj7 | Dm7 %s | Cmaj7 | Cmaj7"}},
		{"G13#9#11", []key.ScaleKind{key.DiminishedHalfWholeScale}, []string{"Cmaj7 | Dm7 %s | Cmaj7 | Cmaj7", "Cm6 | Dm7b5 %s | Cm6 | Cm6"}},
		{"G7alt", []key.ScaleKind{key.AlteredScale}, []string{"Cmaj7 | Dm7 %s | Cmaj7 | Cmaj7", "Cm6 | Dm7b5 %s | Cm6 | Cm6", "Fmaj7 | %s | Gm7 C7 | Fmaj7"}},
		{"G7b5#9", []key.ScaleKind{key.AlteredScale}, []string{"Cmaj7 | Dm7 %s | Cmaj7 | Cmaj7", "Cm6 | Dm7b5 %s | Cm6 | Cm6"}},
	}
	for _, tt := range tests {
		for _, frame := range tt.charts {
			text := fmt.Sprintf(frame, tt.symbol)
			t.Run(text, func(t *testing.T) {
				a := analyze(t, text)
				i := find(&a, tt.symbol)
				require.GreaterOrEqual(t, i, 0)
				r := &a.Chords[i]
				assert.Contains(t, tt.scales, r.Scale.Kind(), "%v over %v, %v in %v", r.Scale, tt.symbol, r.Numeral, r.Key)
				assert.Equal(t, r.Event.Chord.Root(), r.Scale.Tonic())
			})
		}
	}
}

// Where a type has several scales, or sources differ, the chord's place decides.
func TestScaleByPlace(t *testing.T) {
	tests := []struct {
		chart  string
		scales map[string]string // by chord, "Dm7:2" the second that is written so
		source string
	}{
		{"Cmaj7 | Fmaj7 | Em7 | Am7 | Dm7 | G7 | Bm7b5 | C6 | G7sus4 | Cmaj7", map[string]string{
			"Cmaj7": "C major", "Dm7": "D dorian", "Em7": "E phrygian", "Fmaj7": "F lydian", "G7": "G mixolydian", "G7sus4": "G mixolydian",
			"Am7": "A natural minor", "Bm7b5": "B locrian", "C6": "C major",
		}, "the modes of the major scale: Hutchinson, ch. 31 §31.10.1"},
		{"Cm7 | Fm7 | Abmaj7 | Ebmaj7 | Bb | Dm7b5 | G7 | Cm7", map[string]string{
			"Cm7": "C natural minor", "Fm7": "F dorian", "Abmaj7": "Ab lydian", "Ebmaj7": "Eb major", "Bb": "Bb mixolydian", "Dm7b5": "D locrian",
			"G7": "G phrygian dominant",
		}, "common practice, no source"},
		{"Cmaj7 | B7 | Em7 | A7 | Dm7 | G7 | Cmaj7", map[string]string{"B7": "B phrygian dominant", "A7": "A phrygian dominant", "G7": "G mixolydian"}, "a dominant of a minor chord; common practice, no source"},
		{"Cmaj7 | Gm7 C7 | Fmaj7 | D7 | Dm7 G7 | Cmaj7", map[string]string{"Gm7": "G dorian", "C7": "C mixolydian", "D7": "D mixolydian"}, "a dominant of a major chord; common practice, no source"},
		{"Cmaj7 | Fm7 | Bb7 | Cmaj7", map[string]string{"Fm7": "F dorian", "Bb7": "Bb lydian dominant"}, "bVII7; common practice, no source"},
		{"Cmaj7 | Dm7 | Db7 | Cmaj7", map[string]string{"Db7": "Db lydian dominant"}, "a substitute; common practice, no source"},
		{"Cmaj7 | Ab7 | G7 | Cmaj7", map[string]string{"Ab7": "Ab lydian dominant"}, "a substitute; common practice, no source"},
		{"Cm6 | Ab7 | G7 | Cm6", map[string]string{"Ab7": "Ab lydian dominant"}, "an augmented sixth; common practice, no source"},
		{"Cmaj7 | Ebmaj7 | Abmaj7 | Dbmaj7 | Cmaj7", map[string]string{"Ebmaj7": "Eb lydian", "Abmaj7": "Ab lydian", "Dbmaj7": "Db lydian"}, "borrowed majors; common practice, no source"},
		{"Dm7/G | C | F/G | Cmaj7", map[string]string{"Dm7/G": "G mixolydian", "F/G": "G mixolydian"}, "suspended dominants on the bass; common practice, no source"},
		{"E | D | E | D", map[string]string{"E": "E mixolydian", "D": "D lydian"}, "the tonic takes the region's mode; common practice, no source"},
		{"Amaj7 | B/A | Amaj7 | B/A | Amaj7 | Amaj7", map[string]string{"Amaj7": "A lydian"}, "the same"},
		{"Dm7 | / / / / | / / / / | / / / /", map[string]string{"Dm7": "D dorian"}, "the same"},
		{"F7 | Bb7 | F7 | C7 | F7", map[string]string{"F7": "F mixolydian", "Bb7": "Bb mixolydian"}, "a blues; common practice, no source"},
	}
	for _, tt := range tests {
		t.Run(tt.chart, func(t *testing.T) {
			a := analyze(t, tt.chart)
			for name, want := range tt.scales {
				i := find(&a, name)
				require.GreaterOrEqual(t, i, 0, name)
				assert.Equal(t, want, a.Chords[i].Scale.String(), "%s, %v (%s)", name, a.Chords[i].Numeral, tt.source)
			}
		})
	}
}

// Whatever the chart, a scale holds all notes of its chord; a chord that no
// scale holds, and silence, have none.
func TestScalesHoldTheirChords(t *testing.T) {
	for _, c := range ruledCharts() {
		a := analyze(t, c)
		for i := range a.Chords {
			r := &a.Chords[i]
			if r.Scale.IsValid() {
				assert.True(t, r.Scale.ContainsChord(r.Event.Chord), "%v over %s, %v in %v: %s", r.Scale, r.Event.Symbol, r.Numeral, r.Key, c)
			}
		}
	}
	a := analyze(t, "C | N.C. | C:(1,b2) | G7 | C")
	assert.False(t, a.Chords[1].Scale.IsValid(), "silence")
	assert.False(t, a.Chords[2].Scale.IsValid(), "C and Db alone")
}

// ruledCharts are all charts of the tables of rules.
func ruledCharts() (list []string) {
	for _, rules := range [][]practiceRule{namingRules, vocabularyRules, keyRules} {
		for _, r := range rules {
			for _, c := range r.charts {
				list = append(list, c.chart)
			}
		}
	}
	return list
}
