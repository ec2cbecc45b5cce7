package review_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fifthwise/pkg/function"
	"fifthwise/pkg/review"
)

const (
	sevenOfKey = "In figured bass 7 is the seventh of the key."
	noNote     = ""
)

// Figures count in the scale of the key, and say what is in the bass (common
// practice, no source).
func TestFigures(t *testing.T) {
	type noted struct {
		numeral string
		verdict review.Verdict
		note    string
	}
	tests := []struct {
		name, chart, regions string
		marks                []noted
	}{
		{"sevenths of a major key", "| Abmaj7 | Dbmaj7 | Bbm7/Db | Eb7/G | Fm7 | Abmaj7 |", "Ab major 1", []noted{
			{"I7", agrees, sevenOfKey}, {"IV7", agrees, sevenOfKey}, {"ii65", agrees, noNote}, {"V65", agrees, noNote}, {"vi7", agrees, noNote}, {"Imaj7", agrees, noNote},
		}},
		{"without figures 7 is minor", "| Abmaj7 | Dbmaj7 | Bbm7/Db | Eb7/G | Fm7 | Abmaj7 |", "Ab major 1", []noted{
			{"I7", contradicts, noNote}, {"IV7", contradicts, noNote}, {"ii7", agrees, noNote}, {"V7", agrees, noNote}, {"vi7", agrees, noNote}, {"I", agrees, noNote},
		}},
		{"sevenths of a minor key", "| Cm | G7/B | Cm7 | Abmaj7 | Dm7b5 | G7 | Cm | Ebmaj7 | Dm7b5/F | G7 | Cm |", "C minor 1", []noted{
			{"i", agrees, noNote}, {"V65", agrees, noNote}, {"i7", agrees, noNote}, {"VI7", agrees, sevenOfKey}, {"ii7", agrees, sevenOfKey}, {"V7", agrees, noNote}, {"i", agrees, noNote},
			{"III7", agrees, sevenOfKey}, {"iiø65", agrees, noNote}, {"V7", agrees, noNote}, {"i", agrees, noNote},
		}},
		{"inverted sevenths of the key", "| Cmaj7/E | Fmaj7/C | G7/B | Cmaj7/B | C |", "C major 1", []noted{
			{"I65", agrees, "In figured bass 65 has the seventh of the key."}, {"IV4/3", agrees, "In figured bass 4/3 has the seventh of the key."},
			{"V65", agrees, noNote}, {"I42", agrees, "In figured bass 42 has the seventh of the key."}, {"I", agrees, noNote},
		}},
		{"the 6 of a triad over its third", "| Cmaj7 | Dm7 | G7 | C/E |", "C major 1", []noted{
			{"I7", agrees, sevenOfKey}, {"ii7", agrees, noNote}, {"V7", agrees, noNote}, {"I6", agrees, noNote},
		}},
		{"an added sixth over its third", "| Cmaj7 | Dm7 | G7 | C6/E |", "C major 1", []noted{
			{"I7", contradicts, noNote}, {"ii7", agrees, noNote}, {"V7", agrees, noNote}, {"I6", agrees, noNote},
		}},
		{"all in capitals", "| Cmaj7 | Dm7 | G7/B | C |", "C major 1", []noted{
			{"I7", agrees, sevenOfKey}, {"II7", agrees, sevenOfKey}, {"V65", agrees, noNote}, {"I", agrees, noNote},
		}},
		{"the case tells the third", "| Cmaj7 | Dm7 | G7/B | C |", "C major 1", []noted{
			{"I7", agrees, sevenOfKey}, {"II7", contradicts, noNote}, {"V65", agrees, noNote}, {"i", contradicts, noNote},
		}},
		{"a dominant that is one", "| C | C7 | F/A | G7/B | C |", "C major 1", []noted{
			{"I", agrees, noNote}, {"I7", defensible, noNote}, {"IV6", agrees, noNote}, {"V65", agrees, noNote}, {"I7", contradicts, noNote},
		}},
		{"another degree is wrong", "| Cmaj7 | Dm7 | G7/B | C |", "C major 1", []noted{
			{"IV7", contradicts, noNote}, {"iv7", contradicts, noNote}, {"V65", agrees, noNote}, {"III7", contradicts, noNote},
		}},
		{"another bass", "| Abmaj7 | Bbm7 | Eb7 | Ab/C | Abm6 | Eb7/Db | Ab |", "Ab major 1", []noted{
			{"I42", agrees, "In figured bass 42 has the seventh of the key. 42 puts the seventh in the bass; the chart has the root there."},
			{"ii42", agrees, "42 puts the seventh in the bass; the chart has the root there."},
			{"V4/3", agrees, "4/3 puts the fifth in the bass; the chart has the root there."},
			{"I64", agrees, "64 puts the fifth in the bass; the chart has the third there."},
			{"i64", agrees, "64 puts the fifth in the bass; the chart has the root there."},
			{"V65", agrees, "65 puts the third in the bass; the chart has the seventh there."},
			{"I53", agrees, noNote},
		}},
		{"a 6 may be a sixth", "| C | F | C6 | Dm | G7 | C |", "C major 1", []noted{
			{"I", agrees, noNote}, {"IV6", agrees, noNote}, {"I6", agrees, noNote}, {"ii6", agrees, noNote}, {"V7", agrees, noNote}, {"I", agrees, noNote},
		}},
		{"a 6 beside other figures", "| C | F | C6 | Dm | G7/B | C/E |", "C major 1", []noted{
			{"I", agrees, noNote}, {"IV6", agrees, "6 puts the third in the bass; the chart has the root there."}, {"I6", agrees, noNote},
			{"ii6", agrees, "6 puts the third in the bass; the chart has the root there."}, {"V65", agrees, noNote}, {"I5/3", agrees, "5/3 puts the root in the bass; the chart has the third there."},
		}},
		{"places in words", "| C/G | G7/F | F/D | C |", "C major 1", []noted{
			{"I/3rd", agrees, "/3rd puts the third in the bass; the chart has the fifth there."}, {"V7/7th", agrees, noNote},
			{"IV/3rd", agrees, "/3rd puts the third in the bass; the chart has the sixth there."}, {"I", agrees, noNote},
		}},
		{"the six-four of the dominant", "| Dm7/F | C/G | G7 | C |", "C major 1", []noted{
			{"ii65", agrees, noNote}, {"V64", defensible, noNote}, {"V7", agrees, noNote}, {"I", agrees, noNote},
		}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			a := function.Analyze(chartOf(t, tt.chart))
			answer := review.Answer{Regions: regionsOf(t, tt.regions)}
			for _, n := range tt.marks {
				answer.Numerals = append(answer.Numerals, n.numeral)
			}
			r, err := review.Of(&a, answer)
			require.NoError(t, err)
			for i, m := range r.Chords {
				assert.Equal(t, tt.marks[i], noted{answer.Numerals[i], m.Verdict, m.Note}, m.Reason)
				assert.True(t, strings.HasPrefix(m.Reason, m.Note), m.Reason)
				if m.Verdict == agrees {
					assert.True(t, strings.HasSuffix(m.Reason, a.Reason(m.Chord)), m.Reason)
				}
			}
		})
	}
}
