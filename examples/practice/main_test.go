package main

import (
	"io"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fifthwise/examples/internal/command"
	"fifthwise/examples/internal/command/commandtest"
	"fifthwise/pkg/chart/file"
)

// practice runs the program.
func practice(in string, args ...string) (status int, out, complaint string) {
	return commandtest.Run(func(out, complain io.Writer) int { return run(args, strings.NewReader(in), out, complain) })
}

// TestPages holds the pages of the tune that the program brings along, in two
// keys, and of the charts under testdata, all invented, against what was printed
// before.
func TestPages(t *testing.T) {
	charts, err := filepath.Glob("testdata/*.txt")
	require.NoError(t, err)
	require.NotEmpty(t, charts)
	pages := map[string][]string{
		"tune.page":    {"tune.txt"},
		"tune_bb.page": {"-key", "Gb major", "-instrument", "Bb", "-accidentals", "unicode", "tune.txt"},
	}
	for _, chart := range charts {
		pages[strings.TrimSuffix(filepath.Base(chart), ".txt")+".page"] = []string{chart}
	}
	for name, args := range pages {
		t.Run(name, func(t *testing.T) {
			status, page, complaint := practice("", args...)
			require.Equal(t, command.Done, status, complaint)
			commandtest.Page(t, filepath.Join("testdata", name), page, pageWidth)
		})
	}
}

func TestWithoutArgumentsTheTuneIsRead(t *testing.T) {
	status, page, complaint := practice("")
	assert.Equal(t, command.Done, status)
	assert.Empty(t, complaint)
	_, fromFile, _ := practice("", "tune.txt")
	assert.Equal(t, fromFile, page)
}

// The lines of a two-five-one and the keys of parts: common practice, no source.
func TestArguments(t *testing.T) {
	const chart = "| Dm7 | G7 | Cmaj7 |"
	tests := []struct {
		name      string
		args      []string
		status    int
		has       string // some of what is printed
		complaint string
	}{
		{"help", []string{"-h"}, command.Done, "usage: practice", ""},
		{"standard input", []string{"-"}, command.Done, "  | Dm7 | G7 | Cmaj7\n  | F   | F  | E\n  | C   | B  | B\n", ""},
		{"another key", []string{"-key", "Ab major", "-"}, command.Done, "Ab major\n\nGuide-tone lines\n\n    1      2     3\n  | Bbm7 | Eb7 | Abmaj7\n  | Db   | Db  | C\n  | Ab   | G   | G\n", ""},
		{"a theoretical key", []string{"-key", "G#", "-"}, command.Done, "Ab major\n", ""},
		{"for an instrument", []string{"-instrument", "Eb", "-"}, command.Done, "A major, for an instrument in Eb\n", ""},
		{"in a key for an instrument", []string{"-instrument=F", "--key=B major", "-"}, command.Done, "F# major, for an instrument in F\n", ""},
		{"the tune's own key", []string{"-key", "C", "-"}, command.Done, "G mixolydian: G A B C D E F\n", ""},
		{"unicode", []string{"-accidentals", "unicode", "-key", "B♭", "-"}, command.Done, "  | Cm7 | F7 | B♭maj7\n  | E♭  | E♭ | D\n", ""},
		{"options behind the file", []string{"-", "-key", "D major"}, command.Done, "  | Em7 | A7 | Dmaj7\n", ""},
		{"no key", []string{"-key", "H", "-"}, command.Misusage, "", `invalid value "H" for flag -key: expected a note name A to G at offset 0 of "H" (the German H is B)`},
		{"no instrument", []string{"-instrument", "alto", "-"}, command.Misusage, "", `invalid value "alto" for flag -instrument: expected an instrument in C, Bb, Eb or F at offset 0 of "alto"`},
		{"bad signs", []string{"-accidentals", "utf8", "-"}, command.Misusage, "", `invalid value "utf8" for flag -accidentals: expected ascii or unicode`},
		{"unknown option", []string{"-tempo", "90"}, command.Misusage, "", "flag provided but not defined: -tempo"},
		{"two charts", []string{"a.txt", "b.txt"}, command.Misusage, "", `expected one chart, not both "a.txt" and "b.txt"`},
		{"another mode", []string{"-key", "C minor", "-"}, command.Faulty, "", "the chart is in C major: expected a key in major, not C minor"},
		{"no such file", []string{"testdata/missing.txt"}, command.Faulty, "", "open testdata/missing.txt: no such file or directory"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			status, page, complaint := practice(chart, tt.args...)
			assert.Equal(t, tt.status, status)
			assert.Contains(t, page, tt.has)
			assert.Equal(t, commandtest.Complaint("practice", tt.status, tt.complaint), complaint)
		})
	}
}

func TestFaults(t *testing.T) {
	tests := []struct{ name, in, want string }{
		{"in the text", "| C | b7 |\n| H7 |", "standard input: bar 2, line 1, column 7, \"b7\": expected the root in upper case (write B7 or Bm7)\nstandard input: bar 3, line 2, column 3, \"H7\": expected a root A to G or N.C. (the German H is B)\n"},
		{"in XML", "<html/>", "standard input: line 1: the file is <html>, no score of MusicXML (a score is <score-partwise> or <score-timewise>)\n"},
		{"nothing", "", "standard input: line 1, column 1: the chart has no bars (write chords between bar lines: | C | F G |)\n"},
		{"too long", strings.Repeat("# words\n", file.MaxBytes/8) + "|", "practice: standard input: the file has more than 32 MiB\n"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			status, page, complaint := practice(tt.in, "-")
			assert.Equal(t, command.Faulty, status)
			assert.Empty(t, page)
			assert.Equal(t, tt.want, complaint)
		})
	}
	status, _, complaint := practice("N.C.", "-key", "D", "-")
	assert.Equal(t, command.Faulty, status)
	assert.Equal(t, "practice: no key is stated, and none can be read from a chart in which nothing sounds\n", complaint)
	status, page, _ := practice("N.C.", "-")
	assert.Equal(t, command.Done, status)
	assert.Equal(t, "\nGuide-tone lines\n\n    1\n  | N.C.\n  |\n  |\n\nChord tones and scales\n", page)
}

func FuzzPage(f *testing.F) {
	commandtest.FuzzPage(f, func(text string) (status int, page, complaint string) {
		return practice(text, "-", "-instrument", "Eb")
	})
}
