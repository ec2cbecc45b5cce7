package main

import (
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fifthwise/pkg/chart"
	"fifthwise/pkg/chord"
	"fifthwise/pkg/evaluate"
	"fifthwise/pkg/function"
	"fifthwise/pkg/key"
)

// The pieces are plain: any sound reading has their chords in C, G and C, where
// the analyst has one right, one wrong on purpose and one in the wrong mode.
const harbour, vamps = "testdata/harbour.jsonl", "testdata/vamps.jsonl"

func output(t *testing.T, args ...string) string {
	t.Helper()
	var out, complain strings.Builder
	require.Equal(t, done, run(args, &out, &complain), complain.String())
	require.Empty(t, complain.String())
	return out.String()
}

func TestScores(t *testing.T) {
	assert.Equal(t, `file                    pieces  chords    key  tonic  weighted  changes  label  applied
testdata/harbour.jsonl       2      12  0.667  0.667     0.667        -  1.000    1.000
testdata/vamps.jsonl         1       4  0.000  1.000     0.200        -      -        -
all                          3      16  0.500  0.750     0.550        -  1.000    1.000
`, output(t, harbour, vamps))
}

func TestTonicOnly(t *testing.T) {
	assert.Equal(t, `file                  pieces  chords    key  tonic  weighted  changes  label  applied
testdata/vamps.jsonl       1       4  1.000  1.000     1.000        -  1.000        -
all                        1       4  1.000  1.000     1.000        -  1.000        -
`, output(t, vamps, "-tonic-only", "vamps"), "options may stand behind")
}

func TestWorst(t *testing.T) {
	got := output(t, "-worst", "5", "-tonic-only", "vamps", harbour, vamps)
	_, list, ok := strings.Cut(got, "\n\n")
	require.True(t, ok, got)
	list = regexp.MustCompile(`[01]\.\d{3}`).ReplaceAllString(list, "?.???")
	assert.Equal(t, `1. Fog Signal (harbour), bars 1 to 4, 4 chords
bar  beat  chord  analyst        reading      confidence
  1     1  G      Db major  bV   G major  I        ?.???
  2     1  C      Db major  VII  G major  IV       ?.???
  3     1  D7     Db major  bII  G major  V7       ?.???
  4     1  G      Db major  bV   G major  I        ?.???
`, list)
	assert.Equal(t, 1, strings.Count(output(t, "-worst", "1", harbour, vamps), "\n\n"), "one passage")
	assert.NotContains(t, output(t, harbour), "\n\n", "none asked for")
}

func TestPassage(t *testing.T) {
	a := function.Analysis{}
	p := evaluate.Piece{ID: "Long"}
	c := key.MustParse("C major")
	for i := range longest + 2 {
		p.Answers = append(p.Answers, evaluate.Answer{Key: c, Numeral: "V/II"})
		a.Chords = append(a.Chords, function.Reading{
			Event: chart.Event{Bar: 7, Beat: chart.B(4, 3), Chord: chord.MustParse("A7"), Symbol: "A7"},
			Key:   c.Relative(), Numeral: function.MustParseNumeral("I7"), Confidence: .25 * float64(i%2),
		})
	}
	a.Chords[3].Key = c // agrees: no label is compared
	text := passage(2, &evaluate.Passage{Piece: &p, Reading: &a, First: 0, Last: longest + 1})
	lines := strings.Split(text, "\n")
	assert.Equal(t, "2. Long, bar 7, 25 chords", lines[0])
	assert.Equal(t, "  7   4/3  A7     C major  V/II  A minor  I7       0.000", lines[2])
	assert.Equal(t, "  7   4/3  A7     C major  V/II  A minor  I7       0.250", lines[3])
	assert.Equal(t, "and 1 more", lines[len(lines)-2])
	assert.Len(t, lines, 2+longest+2)

	one := passage(1, &evaluate.Passage{Piece: &p, Reading: &a, First: 3, Last: 4})
	assert.Contains(t, one, "bar 7, 1 chord\n")
}

func TestCalibration(t *testing.T) {
	got := output(t, "-calibration", harbour)
	_, list, _ := strings.Cut(got, "\n\n")
	lines := strings.Split(list, "\n")
	require.Len(t, lines, 13)
	assert.Equal(t, "confidence  chords   mean  right", lines[0])
	assert.Equal(t, "0.0 to 0.1       0      -      -", lines[1])
	assert.Regexp(t, `^0\.9 to 1\.0 `, lines[10])
	assert.Regexp(t, `^expected calibration error 0\.\d{3}$`, lines[11])
}

func TestSameOutputAlways(t *testing.T) {
	args := []string{"-worst", "3", "-calibration", harbour, vamps, harbour}
	first := output(t, args...)
	for range 20 {
		require.Equal(t, first, output(t, args...))
	}
}

func TestHelp(t *testing.T) {
	text := output(t, "-h")
	for _, column := range []string{"pieces", "chords", "key", "tonic", "weighted", "changes", "label", "applied"} {
		assert.Contains(t, text, "\n  "+column)
	}
	for _, option := range []string{"-worst N", "-calibration", "-tonic-only CORPUS,...", "-h"} {
		assert.Contains(t, text, "\n  "+option)
	}
	for line := range strings.Lines(text) {
		assert.LessOrEqual(t, len(line), 81, line)
	}
}

func TestErrors(t *testing.T) {
	const more = "\nevaluate -h says what there is\n"
	tests := []struct {
		name   string
		args   []string
		status int
		want   string
	}{
		{"no file", nil, misusage, "evaluate: expected at least one file of annotated pieces" + more},
		{"unknown option", []string{"-best", "3", harbour}, misusage, "evaluate: flag provided but not defined: -best" + more},
		{"no number", []string{"-worst", "few", harbour}, misusage, `evaluate: invalid value "few" for flag -worst: expected a number from 0` + more},
		{"negative number", []string{"-worst", "-1", harbour}, misusage, `evaluate: invalid value "-1" for flag -worst: expected a number from 0` + more},
		{"missing file", []string{"testdata/none.jsonl"}, faulty, "evaluate: open testdata/none.jsonl: no such file or directory\n"},
		{"faulty line", []string{harbour, "testdata/faulty.jsonl"}, faulty,
			`evaluate: testdata/faulty.jsonl: line 2: "Ebb": chord 1: beat 5: expected one of the 4 of bar 1 in 4/4` + "\n"},
		{"unknown corpus", []string{"-tonic-only", "vamps,quays", harbour, vamps}, faulty,
			`evaluate: -tonic-only: no piece is of the corpus "quays"; there are ["harbour" "vamps"]` + "\n"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			var out, complain strings.Builder
			assert.Equal(t, tt.status, run(tt.args, &out, &complain))
			assert.Equal(t, tt.want, complain.String())
			assert.Empty(t, out.String())
		})
	}
}
