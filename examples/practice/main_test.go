package main

import (
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fifthwise/pkg/chart/file"
)

var update = flag.Bool("update", false, "write the pages under testdata anew")

// practice runs the program.
func practice(in string, args ...string) (status int, out, complaint string) {
	var stdout, stderr strings.Builder
	status = run(args, strings.NewReader(in), &stdout, &stderr)
	return status, stdout.String(), stderr.String()
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
			require.Equal(t, done, status, complaint)
			for line := range strings.Lines(page) {
				assert.LessOrEqual(t, width(strings.TrimRight(line, "\n")), pageWidth, line)
				assert.Equal(t, strings.TrimRight(line, " \n")+"\n", line)
			}
			golden := filepath.Join("testdata", name)
			if *update {
				require.NoError(t, os.WriteFile(golden, []byte(page), 0o644))
			}
			want, err := os.ReadFile(golden)
			require.NoError(t, err)
			assert.Equal(t, string(want), page)
		})
	}
}

func TestWithoutArgumentsTheTuneIsRead(t *testing.T) {
	status, page, complaint := practice("")
	assert.Equal(t, done, status)
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
		{"help", []string{"-h"}, done, "usage: practice", ""},
		{"standard input", []string{"-"}, done, "  | Dm7 | G7 | Cmaj7\n  | F   | F  | E\n  | C   | B  | B\n", ""},
		{"another key", []string{"-key", "Ab major", "-"}, done, "Ab major\n\nGuide-tone lines\n\n    1      2     3\n  | Bbm7 | Eb7 | Abmaj7\n  | Db   | Db  | C\n  | Ab   | G   | G\n", ""},
		{"a theoretical key", []string{"-key", "G#", "-"}, done, "Ab major\n", ""},
		{"for an instrument", []string{"-instrument", "Eb", "-"}, done, "A major, for an instrument in Eb\n", ""},
		{"in a key for an instrument", []string{"-instrument=F", "--key=B major", "-"}, done, "F# major, for an instrument in F\n", ""},
		{"the tune's own key", []string{"-key", "C", "-"}, done, "G mixolydian: G A B C D E F\n", ""},
		{"unicode", []string{"-accidentals", "unicode", "-key", "B♭", "-"}, done, "  | Cm7 | F7 | B♭maj7\n  | E♭  | E♭ | D\n", ""},
		{"options behind the file", []string{"-", "-key", "D major"}, done, "  | Em7 | A7 | Dmaj7\n", ""},
		{"no key", []string{"-key", "H", "-"}, misusage, "", `invalid value "H" for flag -key: expected a note name A to G at offset 0 of "H"`},
		{"no instrument", []string{"-instrument", "alto", "-"}, misusage, "", `invalid value "alto" for flag -instrument: expected an instrument in C, Bb, Eb or F at offset 0 of "alto"`},
		{"bad signs", []string{"-accidentals", "utf8", "-"}, misusage, "", `invalid value "utf8" for flag -accidentals: expected ascii or unicode`},
		{"unknown option", []string{"-tempo", "90"}, misusage, "", "flag provided but not defined: -tempo"},
		{"two charts", []string{"a.txt", "b.txt"}, misusage, "", `expected one chart, not both "a.txt" and "b.txt"`},
		{"another mode", []string{"-key", "C minor", "-"}, faulty, "", "the chart is in C major: expected a key in major, not C minor"},
		{"no such file", []string{"testdata/missing.txt"}, faulty, "", "open testdata/missing.txt: no such file or directory"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			status, page, complaint := practice(chart, tt.args...)
			assert.Equal(t, tt.status, status)
			assert.Contains(t, page, tt.has)
			switch tt.status {
			case misusage:
				assert.Equal(t, "practice: "+tt.complaint+"\npractice -h says what there is\n", complaint)
			case faulty:
				assert.Equal(t, "practice: "+tt.complaint+"\n", complaint)
			default:
				assert.Empty(t, complaint)
			}
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
			assert.Equal(t, faulty, status)
			assert.Empty(t, page)
			assert.Equal(t, tt.want, complaint)
		})
	}
	status, _, complaint := practice("N.C.", "-key", "D", "-")
	assert.Equal(t, faulty, status)
	assert.Equal(t, "practice: no key is stated, and none can be read from a chart in which nothing sounds\n", complaint)
	status, page, _ := practice("N.C.", "-")
	assert.Equal(t, done, status)
	assert.Equal(t, "\nGuide-tone lines\n\n    1\n  | N.C.\n  |\n  |\n\nChord tones and scales\n", page)
}

// FuzzPage holds that every text gives a page or its faults.
func FuzzPage(f *testing.F) {
	charts, err := filepath.Glob("testdata/*.txt")
	require.NoError(f, err)
	for _, name := range append(charts, "tune.txt") {
		text, err := os.ReadFile(name)
		require.NoError(f, err)
		f.Add(string(text))
	}
	f.Add("| Cm7 F7 | b7 |")
	f.Add("Pickup: 1/3\n| C@4 |: N.C. | (C | / / / / ) :|")
	f.Fuzz(func(t *testing.T, text string) {
		status, page, complaint := practice(text, "-", "-instrument", "Eb")
		switch status {
		case done:
			assert.NotEmpty(t, page)
			assert.Empty(t, complaint)
		case faulty:
			assert.Empty(t, page)
			assert.NotEmpty(t, complaint)
		default:
			t.Errorf("status %d", status)
		}
	})
}
