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

// analyze runs the program.
func analyze(in string, args ...string) (status int, out, complaint string) {
	var stdout, stderr strings.Builder
	status = run(args, strings.NewReader(in), &stdout, &stderr)
	return status, stdout.String(), stderr.String()
}

// TestPages holds the pages of the tune that the program brings along and of
// the charts under testdata, all invented, against what was printed before:
// a change of the reading or of the layout shows as a difference.
func TestPages(t *testing.T) {
	charts, err := filepath.Glob("testdata/*.txt")
	require.NoError(t, err)
	require.NotEmpty(t, charts)
	for _, file := range append(charts, "tune.txt") {
		t.Run(file, func(t *testing.T) {
			status, page, complaint := analyze("", file)
			require.Equal(t, done, status, complaint)
			for line := range strings.Lines(page) {
				assert.LessOrEqual(t, width(strings.TrimRight(line, "\n")), 100, line)
				assert.Equal(t, strings.TrimRight(line, " \n")+"\n", line)
			}
			golden := filepath.Join("testdata", strings.TrimSuffix(filepath.Base(file), ".txt")+".page")
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
	status, page, complaint := analyze("")
	assert.Equal(t, done, status)
	assert.Empty(t, complaint)
	_, fromFile, _ := analyze("", "tune.txt")
	assert.Equal(t, fromFile, page)
}

func TestArguments(t *testing.T) {
	const chart = "| Dm7b5 G7b9 | Cm6 |"
	tests := []struct {
		name      string
		args      []string
		status    int
		has       string // some of what is printed
		hasNot    string
		complaint string
	}{
		{"help", []string{"-h"}, done, "usage: analyze", "", ""},
		{"standard input", []string{"-"}, done, "IIm7b5  V7b9", "Other readings", ""},
		{"cased", []string{"-numerals", "cased", "-"}, done, "ii7b5  V7b9", "", ""},
		{"arabic, double hyphen", []string{"--numerals=arabic", "-"}, done, "2m7b5  5 7b9", "", ""},
		{"unicode", []string{"-accidentals", "unicode", "-"}, done, "Dm7♭5   G7♭9", "", ""},
		{"options behind the file", []string{"-", "-numerals", "cased"}, done, "ii7b5", "", ""},
		{"alternatives", []string{"-alternatives", "2", "-"}, done, "Other readings", "", ""},
		{"all reasons", []string{"-reasons", "all", "-"}, done, "Cm6, Im6 in C minor", "", ""},
		{"no reasons", []string{"-reasons", "none", "-"}, done, "Key path", "Why", ""},
		{"unknown option", []string{"-key", "C", "-"}, misusage, "", "", "flag provided but not defined: -key"},
		{"bad style", []string{"-numerals", "roman", "-"}, misusage, "", "", `invalid value "roman" for flag -numerals: expected a style of numerals: upper, cased or arabic at offset 0 of "roman"`},
		{"bad signs", []string{"-accidentals", "utf8", "-"}, misusage, "", "", `invalid value "utf8" for flag -accidentals: expected ascii or unicode`},
		{"too many alternatives", []string{"-alternatives", "6", "-"}, misusage, "", "", `invalid value "6" for flag -alternatives: expected 0 to 5`},
		{"no number", []string{"-alternatives", "two", "-"}, misusage, "", "", `invalid value "two" for flag -alternatives: expected 0 to 5`},
		{"bad reasons", []string{"-reasons", "few", "-"}, misusage, "", "", `invalid value "few" for flag -reasons: expected none, some or all`},
		{"two charts", []string{"a.txt", "b.txt"}, misusage, "", "", `expected one chart, not both "a.txt" and "b.txt"`},
		{"no such file", []string{"testdata/missing.txt"}, faulty, "", "", "open testdata/missing.txt: no such file or directory"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			status, page, complaint := analyze(chart, tt.args...)
			assert.Equal(t, tt.status, status)
			assert.Contains(t, page, tt.has)
			if tt.hasNot != "" {
				assert.NotContains(t, page, tt.hasNot)
			}
			switch tt.status {
			case misusage:
				assert.Equal(t, "analyze: "+tt.complaint+"\nanalyze -h says what there is\n", complaint)
			case faulty:
				assert.Equal(t, "analyze: "+tt.complaint+"\n", complaint)
			default:
				assert.Empty(t, complaint)
			}
		})
	}
}

func TestHelpExampleIsAChart(t *testing.T) {
	_, from, found := strings.Cut(help, "The text notation:\n\n")
	require.True(t, found)
	example, _, found := strings.Cut(from, "\n\n  | ||")
	require.True(t, found)
	status, page, complaint := analyze(strings.ReplaceAll(example, "\n  ", "\n")[2:], "-")
	assert.Equal(t, done, status, complaint)
	assert.Contains(t, page, "Three Doors Down the Hall")
}

func TestFileTooLong(t *testing.T) {
	status, _, complaint := analyze(strings.Repeat("# words\n", file.MaxBytes/8)+"|", "-")
	assert.Equal(t, faulty, status)
	assert.Equal(t, "analyze: standard input: the file has more than 32 MiB\n", complaint)
}

// A chart that is written in a format is read in it, with the same reading.
func TestFormats(t *testing.T) {
	inKey := "Key: F major\n" + string(tune) // notation says the key, if only by its signature
	status, want, complaint := analyze(inKey, "-", "-reasons", "none")
	require.Equal(t, done, status, complaint)
	for _, format := range []string{"text", "musicxml", "mxl", "abc"} {
		t.Run(format, func(t *testing.T) {
			status, written, complaint := analyze(inKey, "-", "-format", format)
			require.Equal(t, done, status, complaint)
			assert.Empty(t, complaint)
			status, page, complaint := analyze(written, "-", "-reasons", "none")
			require.Equal(t, done, status, complaint)
			assert.Equal(t, want, page)
		})
	}
}

func TestTuneOfABook(t *testing.T) {
	const book = "X:1\nT:One\nM:4/4\nL:1/4\nK:C\n\"C\"c4|\n\nX:7\nT:Two\nM:4/4\nL:1/4\nK:C\n\"F\"c4|\n"
	status, text, complaint := analyze(book, "-", "-tune", "7", "-format", "text")
	assert.Equal(t, done, status, complaint)
	assert.Equal(t, "Title: Two\nMeter: 4/4\nKey: C major\n\n| F |\n", text)
	status, _, complaint = analyze(book, "-", "-tune", "3")
	assert.Equal(t, faulty, status)
	assert.Equal(t, "standard input: the file has no tune X:3\n", complaint)
}

// TestDrawing holds the picture that README.md shows.
func TestDrawing(t *testing.T) {
	const golden = "testdata/tune.svg"
	status, drawing, complaint := analyze("", "-format", "svg")
	require.Equal(t, done, status, complaint)
	if *update {
		require.NoError(t, os.WriteFile(golden, []byte(drawing), 0o644))
	}
	want, err := os.ReadFile(golden)
	require.NoError(t, err)
	assert.Equal(t, string(want), drawing)
}

func TestFaultsOfFiles(t *testing.T) {
	_, score, _ := analyze("", "-format", "musicxml")
	_, tune, _ := analyze("", "-format", "abc")
	tests := []struct{ name, in, want string }{
		{"a kind", strings.Replace(score, ">diminished-seventh<", ">diminishedseventh<", 1), `standard input: part "Chords", measure 3, line 32, "Abdim7": the kind "diminishedseventh" is none of MusicXML's (such as major, minor, dominant, minor-seventh)` + "\n"},
		{"cut short", score[:2000], `standard input: part "Chords", measure 2, line 22: the file is no sound XML: unexpected EOF (export it again)` + "\n"},
		{"a symbol of ABC", strings.Replace(tune, `"Abdim7"`, `"Abdimm7"`, 1), `standard input: tune 1, bar 3, line 7, column 82, "Abdimm7": expected an altered degree, maj7, add, no, sus, alt, a bracket or a bass` + "\n"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			status, page, complaint := analyze(tt.in, "-")
			assert.Equal(t, faulty, status)
			assert.Empty(t, page)
			assert.Equal(t, tt.want, complaint)
		})
	}
}

// FuzzPage holds that every text gives a page or its faults.
func FuzzPage(f *testing.F) {
	charts, err := filepath.Glob("testdata/*.txt")
	require.NoError(f, err)
	for _, file := range append(charts, "tune.txt") {
		text, err := os.ReadFile(file)
		require.NoError(f, err)
		f.Add(string(text))
	}
	f.Add("| Cm7 F7 | b7 |")
	f.Add("Pickup: 1/3\n| C@4 |: N.C. | (C | / / / / ) :|")
	f.Fuzz(func(t *testing.T, text string) {
		status, page, complaint := analyze(text, "-", "-alternatives", "2", "-accidentals", "unicode")
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
