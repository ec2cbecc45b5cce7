package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fifthwise/examples/internal/command"
	"fifthwise/examples/internal/command/commandtest"
	"fifthwise/pkg/chart"
	"fifthwise/pkg/chord"
	"fifthwise/pkg/evaluate"
	"fifthwise/pkg/function"
	"fifthwise/pkg/key"
)

// The pieces are plain: any sound reading has their chords in C, G and C, where
// the analyst has one right, one wrong on purpose and one in the wrong mode.
const harbour, vamps = "testdata/harbour.jsonl", "testdata/vamps.jsonl"

func measured(args ...string) (status int, out, complaint string) {
	return commandtest.Run(func(out, complain io.Writer) int { return run(args, out, complain) })
}

func output(t *testing.T, args ...string) string {
	t.Helper()
	status, out, complaint := measured(args...)
	require.Equal(t, command.Done, status, complaint)
	require.Empty(t, complaint)
	return out
}

func TestScores(t *testing.T) {
	assert.Equal(t, `file                    pieces  chords    key  tonic  weighted  changes  label  applied  margin
testdata/harbour.jsonl       2      12  0.667  0.667     0.667        -  1.000    1.000   ?.???
testdata/vamps.jsonl         1       4  0.000  1.000     0.200        -      -        -   ?.???
all                          3      16  0.500  0.750     0.550        -  1.000    1.000   ?.???
`, margins.ReplaceAllString(output(t, harbour, vamps), "?.???\n"))
}

// margins are the last column, which depends on the costs.
var margins = regexp.MustCompile(`\d\.\d{3}\n`)

func TestTonicOnly(t *testing.T) {
	assert.Equal(t, `file                  pieces  chords    key  tonic  weighted  changes  label  applied  margin
testdata/vamps.jsonl       1       4  1.000  1.000     1.000        -  1.000        -   ?.???
all                        1       4  1.000  1.000     1.000        -  1.000        -   ?.???
`, margins.ReplaceAllString(output(t, vamps, "-tonic-only", "vamps"), "?.???\n"), "options may stand behind")
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
	parts := strings.Split(output(t, "-calibration", harbour), "\n\n")
	require.Len(t, parts, 3)
	assert.Regexp(t, `^file                    labels  confidence  right  error  brier
testdata/harbour\.jsonl      12       0\.\d{3}  0\.667  0\.\d{3}  0\.\d{3}
all                         12       0\.\d{3}  0\.667  0\.\d{3}  0\.\d{3}$`, parts[1])
	lines := strings.Split(parts[2], "\n")
	require.Len(t, lines, 14)
	assert.Equal(t, "confidence  chords   mean  right", lines[0])
	assert.Equal(t, "0.0 to 0.1       0      -      -", lines[1])
	assert.Regexp(t, `^0\.9 to 1\.0 `, lines[10])
	assert.Regexp(t, `^expected calibration error 0\.\d{3}$`, lines[11])
	assert.Regexp(t, `^Brier score 0\.\d{3}$`, lines[12])
}

func TestFolds(t *testing.T) {
	got := output(t, "-folds", "2", "-blank", "-steps", "3", "-shares", "1,.5", harbour, vamps)
	lines := strings.Split(got, "\n")
	require.Len(t, lines, 8)
	assert.Regexp(t, `^file +fold  pieces  chords `, lines[0])
	for i, want := range []string{"harbour.jsonl  in         2      12", "vamps.jsonl    in         1       4", "all                     in         3      16"} {
		assert.Contains(t, lines[1+i], want, "each piece counted once")
		assert.Contains(t, lines[4+i], strings.Replace(want, "in  ", "out ", 1))
	}
}

func TestFit(t *testing.T) {
	name := filepath.Join(t.TempDir(), "costs.tsv")
	require.NoError(t, os.WriteFile(name, bytes.Repeat([]byte("longer than what is written\n"), 1000), 0o600))
	fitted := output(t, "-json", "-fit", name, "-steps", "20", "-pull", "0", harbour, vamps)
	assert.Equal(t, fitted, output(t, "-json", "-weights", name, harbour, vamps), "what is written is what was measured")
	lines := strings.Split(string(readFile(t, name)), "\n")
	assert.Len(t, lines, len(function.Terms())+1)
	assert.Regexp(t, `^fit major i\t-?\d+(\.\d\d?)?$`, lines[0])

	margin := func(text string) float64 {
		var p page
		require.NoError(t, json.Unmarshal([]byte(text), &p))
		return float64(p.Rows[len(p.Rows)-1].Margin)
	}
	assert.Less(t, margin(fitted), margin(output(t, "-json", harbour, vamps)))
}

func TestJSON(t *testing.T) {
	var p page
	require.NoError(t, json.Unmarshal([]byte(output(t, "-json", harbour, vamps)), &p))
	require.Len(t, p.Rows, 3)
	row := p.Rows[2]
	assert.Equal(t, "all", row.File)
	assert.Equal(t, 16, row.Chords)
	assert.InDelta(t, .55, float64(row.Weighted), 1e-12)
	assert.Len(t, row.Calibration.Bins, 10)
	require.NoError(t, json.Unmarshal([]byte(output(t, "-json", "-worst", "1", harbour)), &p))
	require.Len(t, p.Worst, 1)
	assert.Equal(t, "Fog Signal", p.Worst[0].Piece)
	assert.Equal(t, readingsJSON{1, "1", "G", "Db major", "bV", "G major", "I", p.Worst[0].Chords[0].Confidence}, p.Worst[0].Chords[0])

	text := output(t, "-json", harbour, vamps)
	assert.Contains(t, text, `"changes": null`, "nothing to count")
	assert.Contains(t, text, `"worst": []`)
	assert.NotContains(t, text, `"fold"`)
	assert.Equal(t, 3, strings.Count(output(t, "-json", "-folds", "2", "-steps", "1", harbour, vamps), `"fold": "out"`))
}

func TestProgress(t *testing.T) {
	var out strings.Builder
	assert.Nil(t, progressOn(&out, 4), "no terminal")
	file, err := os.Create(filepath.Join(t.TempDir(), "log"))
	require.NoError(t, err)
	defer file.Close()
	assert.Nil(t, progressOn(file, 4), "no terminal")

	var none *progress
	none.step(0, 0)
	none.clear()

	p := &progress{out: &out, total: 4}
	p.clear()
	assert.Empty(t, out.String(), "nothing to take away")
	p.step(0, 0)
	assert.Equal(t, "\rfitting [==========                              ]  25%", out.String())
	p.clear()
	assert.True(t, strings.HasSuffix(out.String(), "\r\x1b[K"))
}

func readFile(t *testing.T, name string) []byte {
	t.Helper()
	data, err := os.ReadFile(name)
	require.NoError(t, err)
	return data
}

func TestSameOutputAlways(t *testing.T) {
	args := []string{"-worst", "3", "-calibration", harbour, vamps, harbour}
	first := output(t, args...)
	for range 20 {
		require.Equal(t, first, output(t, args...))
	}
	args = []string{"-folds", "2", "-steps", "5", "-json", harbour, vamps}
	first = output(t, args...)
	for range 5 {
		require.Equal(t, first, output(t, args...))
	}
}

func TestHelp(t *testing.T) {
	text := output(t, "-h")
	for _, column := range []string{"pieces", "chords", "key", "tonic", "weighted", "changes", "label", "applied", "fold", "margin"} {
		assert.Contains(t, text, "\n  "+column)
	}
	for _, option := range []string{"-worst N", "-calibration", "-tonic-only CORPUS,...", "-weights FILE", "-json", "-h",
		"-folds K", "-fit FILE", "-blank", "-shares X,...", "-pull X", "-steps N"} {
		assert.Contains(t, text, "\n  "+option)
	}
	for line := range strings.Lines(text) {
		assert.LessOrEqual(t, len(line), 81, line)
	}
}

func TestErrors(t *testing.T) {
	line, _, _ := strings.Cut(string(readFile(t, vamps)), "\n")
	costs := fmt.Sprintf("%s: line 1: expected the name of a term, a tab and a cost, not %q", vamps, line)
	tests := []struct {
		name   string
		args   []string
		status int
		want   string
	}{
		{"no file", nil, command.Misusage, "expected at least one file of annotated pieces"},
		{"unknown option", []string{"-best", "3", harbour}, command.Misusage, "flag provided but not defined: -best"},
		{"no number", []string{"-worst", "few", harbour}, command.Misusage, `invalid value "few" for flag -worst: expected a number from 0`},
		{"negative number", []string{"-worst", "-1", harbour}, command.Misusage, `invalid value "-1" for flag -worst: expected a number from 0`},
		{"one fold", []string{"-folds", "1", harbour}, command.Misusage, `invalid value "1" for flag -folds: expected a number from 2`},
		{"no steps", []string{"-folds", "2", "-steps", "0", harbour}, command.Misusage, `invalid value "0" for flag -steps: expected a number from 1`},
		{"endless pull", []string{"-folds", "2", "-pull", "Inf", harbour}, command.Misusage, `invalid value "Inf" for flag -pull: expected a number from 0`},
		{"no share", []string{"-folds", "2", "-shares", "1,half", harbour}, command.Misusage,
			`invalid value "1,half" for flag -shares: expected numbers from 0 with commas between them`},
		{"shares without files", []string{"-folds", "2", "-shares", "1,1", harbour}, command.Misusage, "-shares: expected one for each of 1 files, not 2"},
		{"nothing to fit", []string{"-blank", harbour}, command.Misusage, "-blank goes with -folds or -fit"},
		{"two fits", []string{"-folds", "2", "-fit", "costs.tsv", harbour}, command.Misusage, "expected -folds or -fit, not both: -fit takes all pieces"},
		{"too many folds", []string{"-folds", "3", harbour}, command.Faulty, "-folds: expected from 2 folds to one for each of the 2 pieces, not 3"},
		{"no such costs", []string{"-weights", "testdata/none.tsv", harbour}, command.Faulty, "open testdata/none.tsv: no such file or directory"},
		{"faulty costs", []string{"-weights", vamps, harbour}, command.Faulty, costs},
		{"no place to write", []string{"-fit", "testdata/none/costs.tsv", harbour}, command.Faulty, "open testdata/none/costs.tsv: no such file or directory"},
		{"missing file", []string{"testdata/none.jsonl"}, command.Faulty, "open testdata/none.jsonl: no such file or directory"},
		{"faulty line", []string{harbour, "testdata/faulty.jsonl"}, command.Faulty,
			`testdata/faulty.jsonl: line 2: "Ebb": chord 1: beat 5: expected one of the 4 of bar 1 in 4/4`},
		{"unknown corpus", []string{"-tonic-only", "vamps,quays", harbour, vamps}, command.Faulty,
			`-tonic-only: no piece is of the corpus "quays"; there are ["harbour" "vamps"]`},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			status, out, complaint := measured(tt.args...)
			assert.Equal(t, tt.status, status)
			assert.Equal(t, commandtest.Complaint("evaluate", tt.status, tt.want), complaint)
			assert.Empty(t, out)
		})
	}
}
