package main

import (
	"encoding/xml"
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

// analyze runs the program.
func analyze(in string, args ...string) (status int, out, complaint string) {
	return commandtest.Run(func(out, complain io.Writer) int { return run(args, strings.NewReader(in), out, complain) })
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
			require.Equal(t, command.Done, status, complaint)
			commandtest.Page(t, filepath.Join("testdata", strings.TrimSuffix(filepath.Base(file), ".txt")+".page"), page, 100)
		})
	}
}

func TestWithoutArgumentsTheTuneIsRead(t *testing.T) {
	status, page, complaint := analyze("")
	assert.Equal(t, command.Done, status)
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
		{"help", []string{"-h"}, command.Done, "usage: analyze", "", ""},
		{"standard input", []string{"-"}, command.Done, "IIm7b5  V7b9", "Other readings", ""},
		{"cased", []string{"-numerals", "cased", "-"}, command.Done, "ii7b5  V7b9", "", ""},
		{"arabic, double hyphen", []string{"--numerals=arabic", "-"}, command.Done, "2m7b5  5 7b9", "", ""},
		{"unicode", []string{"-accidentals", "unicode", "-"}, command.Done, "Dm7♭5   G7♭9", "", ""},
		{"options behind the file", []string{"-", "-numerals", "cased"}, command.Done, "ii7b5", "", ""},
		{"alternatives", []string{"-alternatives", "2", "-"}, command.Done, "Other readings", "", ""},
		{"all reasons", []string{"-reasons", "all", "-"}, command.Done, "Cm6, Im6 in C minor", "", ""},
		{"no reasons", []string{"-reasons", "none", "-"}, command.Done, "Key path", "Why", ""},
		{"another key", []string{"-key", "Eb minor", "-"}, command.Done, "home key Eb minor", "C minor", ""},
		{"a key of the other mode", []string{"-key", "Eb", "-"}, command.Faulty, "", "", "the chart is in C minor: expected a key in minor, not Eb major"},
		{"no key", []string{"-key", "H", "-"}, command.Misusage, "", "", `invalid value "H" for flag -key: expected a note name A to G at offset 0 of "H" (the German H is B)`},
		{"a part", []string{"-instrument", "Bb", "-"}, command.Done, "(part in Bb)\n4/4, 2 bars, home key D minor", "C minor", ""},
		{"a part in notation", []string{"-instrument", "Eb", "-format", "text", "-"}, command.Done, "Key: A minor", "C minor", ""},
		{"unknown option", []string{"-home", "C", "-"}, command.Misusage, "", "", "flag provided but not defined: -home"},
		{"bad style", []string{"-numerals", "roman", "-"}, command.Misusage, "", "", `invalid value "roman" for flag -numerals: expected a style of numerals: upper, cased or arabic at offset 0 of "roman"`},
		{"bad signs", []string{"-accidentals", "utf8", "-"}, command.Misusage, "", "", `invalid value "utf8" for flag -accidentals: expected ascii or unicode`},
		{"too many alternatives", []string{"-alternatives", "6", "-"}, command.Misusage, "", "", `invalid value "6" for flag -alternatives: expected 0 to 5`},
		{"no number", []string{"-alternatives", "two", "-"}, command.Misusage, "", "", `invalid value "two" for flag -alternatives: expected 0 to 5`},
		{"bad reasons", []string{"-reasons", "few", "-"}, command.Misusage, "", "", `invalid value "few" for flag -reasons: expected none, some or all`},
		{"bad format", []string{"-format", "pdf", "-"}, command.Misusage, "", "", `invalid value "pdf" for flag -format: expected page, svg, html, text, musicxml, mxl or abc`},
		{"pages", []string{"-format", "html", "-"}, command.Done, "size: a4;", "letter", ""},
		{"pages of another size", []string{"-paper", "letter", "-", "-format", "html"}, command.Done, "size: letter;", "a4", ""},
		{"bad paper", []string{"-format", "html", "-paper", "a5", "-"}, command.Misusage, "", "", `invalid value "a5" for flag -paper: expected a size of paper: a4 or letter at offset 0 of "a5"`},
		{"paper without pages", []string{"-format", "svg", "-paper", "a4", "-"}, command.Misusage, "", "", "-paper is for pages to print: expected -format html with it"},
		{"two charts", []string{"a.txt", "b.txt"}, command.Misusage, "", "", `expected one chart, not both "a.txt" and "b.txt"`},
		{"no such file", []string{"testdata/missing.txt"}, command.Faulty, "", "", "open testdata/missing.txt: no such file or directory"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			status, page, complaint := analyze(chart, tt.args...)
			assert.Equal(t, tt.status, status)
			assert.Contains(t, page, tt.has)
			if tt.hasNot != "" {
				assert.NotContains(t, page, tt.hasNot)
			}
			assert.Equal(t, commandtest.Complaint("analyze", tt.status, tt.complaint), complaint)
		})
	}
}

func TestHelpExampleIsAChart(t *testing.T) {
	_, from, found := strings.Cut(help, "The text notation:\n\n")
	require.True(t, found)
	example, _, found := strings.Cut(from, "\n\n  | ||")
	require.True(t, found)
	status, page, complaint := analyze(strings.ReplaceAll(example, "\n  ", "\n")[2:], "-")
	assert.Equal(t, command.Done, status, complaint)
	assert.Contains(t, page, "Three Doors Down the Hall")
}

func TestFileTooLong(t *testing.T) {
	status, _, complaint := analyze(strings.Repeat("# words\n", file.MaxBytes/8)+"|", "-")
	assert.Equal(t, command.Faulty, status)
	assert.Equal(t, "analyze: standard input: the file has more than 32 MiB\n", complaint)
}

// A chart that is written in a format is read in it, with the same reading.
func TestFormats(t *testing.T) {
	inKey := "Key: F major\n" + string(tune) // notation says the key, if only by its signature
	status, want, complaint := analyze(inKey, "-", "-reasons", "none")
	require.Equal(t, command.Done, status, complaint)
	for _, format := range []string{"text", "musicxml", "mxl", "abc"} {
		t.Run(format, func(t *testing.T) {
			status, written, complaint := analyze(inKey, "-", "-format", format)
			require.Equal(t, command.Done, status, complaint)
			assert.Empty(t, complaint)
			status, page, complaint := analyze(written, "-", "-reasons", "none")
			require.Equal(t, command.Done, status, complaint)
			assert.Equal(t, want, page)
		})
	}
}

func TestTuneOfABook(t *testing.T) {
	const book = "X:1\nT:One\nM:4/4\nL:1/4\nK:C\n\"C\"c4|\n\nX:7\nT:Two\nM:4/4\nL:1/4\nK:C\n\"F\"c4|\n"
	status, text, complaint := analyze(book, "-", "-tune", "7", "-format", "text")
	assert.Equal(t, command.Done, status, complaint)
	assert.Equal(t, "Title: Two\nMeter: 4/4\nKey: C major\n\n| F |\n", text)
	status, _, complaint = analyze(book, "-", "-tune", "3")
	assert.Equal(t, command.Faulty, status)
	assert.Equal(t, "standard input: the file has no tune X:3\n", complaint)
}

// TestDrawing holds the picture that README.md shows.
func TestDrawing(t *testing.T) {
	status, drawing, complaint := analyze("", "-format", "svg")
	require.Equal(t, command.Done, status, complaint)
	commandtest.Golden(t, "testdata/tune.svg", drawing)
}

// TestHandout: a document of pages is well-formed, names what it has, is of drawings
// alone, and loads nothing.
func TestHandout(t *testing.T) {
	written := "Title: <b>Salt & \"Rope\"</b>\n" + strings.Repeat("| Dm7 | G7 | Cmaj7 | A7 |\n", 20)
	status, document, complaint := analyze(written, "-", "-format", "html")
	require.Equal(t, command.Done, status, complaint)
	assert.True(t, strings.HasPrefix(document, "<!DOCTYPE html>\n"))
	count, title, style := map[string]int{}, "", ""
	d := xml.NewDecoder(strings.NewReader(document))
	var open []string
	for {
		token, err := d.Token()
		if err == io.EOF {
			break
		}
		require.NoError(t, err)
		switch x := token.(type) {
		case xml.StartElement:
			open = append(open, x.Name.Local)
			count[strings.Join(open, " ")]++
			for _, a := range x.Attr {
				assert.NotContains(t, []string{"href", "src", "style"}, a.Name.Local)
				assert.False(t, strings.HasPrefix(a.Name.Local, "on"), a.Name.Local)
				assert.True(t, a.Name.Local == "xmlns" || !strings.Contains(a.Value, "//"), a.Value)
			}
		case xml.EndElement:
			open = open[:len(open)-1]
		case xml.CharData:
			switch strings.Join(open, " ") {
			case "html head title":
				title += string(x)
			case "html head style":
				style += string(x)
			}
		}
	}
	assert.Equal(t, `<b>Salt & "Rope"</b>`, title)
	assert.Equal(t, 2, count["html body svg"])
	assert.Contains(t, style, "margin: 0")
	for what := range count {
		assert.NotRegexp(t, `script|link|img|image|use|object|iframe`, what)
	}
	assert.NotRegexp(t, `url|@import`, style)
}

func TestFaultsOfFiles(t *testing.T) {
	_, score, _ := analyze("", "-format", "musicxml")
	_, tune, _ := analyze("", "-format", "abc")
	tests := []struct{ name, in, want string }{
		{"a kind", strings.Replace(score, ">diminished-seventh<", ">diminishedseventh<", 1), `standard input: part "Chords", measure 3, line 32, "Abdim7": the kind "diminishedseventh" is none of MusicXML's (such as major, minor, dominant, minor-seventh)` + "\n"},
		{"cut short", score[:2000], `standard input: part "Chords", measure 2, line 22: the file is no sound XML: unexpected EOF (export it again)` + "\n"},
		{"a symbol of ABC", strings.Replace(tune, `"Abdim7"`, `"Abdimm7"`, 1), `standard input: tune 1, bar 3, line 7, column 82, "Abdimm7": expected an altered degree, maj7, add, no, sus, alt, a bracket or a bass (write Abdim7, or a quality such as m7, maj7 or 7b9)` + "\n"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			status, page, complaint := analyze(tt.in, "-")
			assert.Equal(t, command.Faulty, status)
			assert.Empty(t, page)
			assert.Equal(t, tt.want, complaint)
		})
	}
}

func FuzzPage(f *testing.F) {
	commandtest.FuzzPage(f, func(text string) (status int, page, complaint string) {
		return analyze(text, "-", "-alternatives", "2", "-accidentals", "unicode")
	})
}
