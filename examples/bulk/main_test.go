package main

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fifthwise/examples/internal/command"
	"fifthwise/examples/internal/command/commandtest"
	"fifthwise/examples/internal/corpus"
	"fifthwise/examples/internal/request"
	"fifthwise/pkg/chart/file"
)

// asProgram has the test binary be the program, to be killed.
const asProgram = "BULK_AS_PROGRAM"

func TestMain(m *testing.M) {
	if os.Getenv(asProgram) != "" {
		os.Exit(run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr))
	}
	os.Exit(m.Run())
}

// songs has charts in every format, bad ones among them.
const songs = "testdata/songs"

// bulk runs the program without standard input.
func bulk(t *testing.T, args ...string) (status int, out, complaints string) {
	t.Helper()
	in, err := os.Open(os.DevNull)
	require.NoError(t, err)
	defer in.Close()
	return bulkOf(in, args...)
}

func bulkOf(in *os.File, args ...string) (status int, out, complaints string) {
	return commandtest.Run(func(out, complain io.Writer) int { return run(args, in, out, complain) })
}

// formArgs are the arguments for every form of rows.
var formArgs = map[string][]string{
	"rows.ndjson": {"-as", "ndjson"},
	"charts.csv":  {"-as", "csv"},
	"chords.csv":  {"-as", "csv", "-rows", "chords"},
}

func golden(t *testing.T, name, got string) {
	t.Helper()
	commandtest.Golden(t, "testdata/golden/"+name, got)
}

func TestForms(t *testing.T) {
	for name, args := range formArgs {
		t.Run(name, func(t *testing.T) {
			status, out, complaints := bulk(t, append(args, songs)...)
			assert.Equal(t, command.Faulty, status)
			golden(t, name, out)
			faults, summary, _ := strings.Cut(complaints, "\n12 charts")
			golden(t, "faults.txt", faults+"\n")
			golden(t, "summary.txt", "12 charts"+summary)
		})
	}
}

func TestStyles(t *testing.T) {
	_, out, _ := bulk(t, "-as", "csv", "-numerals", "cased", "-accidentals", "unicode", songs)
	golden(t, "cased.csv", out)
}

func TestEveryRowHasItsColumns(t *testing.T) {
	for _, f := range []form{chartsCSV, chordsCSV} {
		text, err := os.ReadFile("testdata/golden/" + map[form]string{chartsCSV: "charts.csv", chordsCSV: "chords.csv"}[f])
		require.NoError(t, err)
		records, err := csv.NewReader(bytes.NewReader(text)).ReadAll()
		require.NoError(t, err)
		assert.Equal(t, f.columns(), records[0])
		for _, column := range f.columns() {
			assert.Contains(t, help, column)
		}
	}
}

func TestSummaryAsJSON(t *testing.T) {
	dir := t.TempDir()
	status, out, _ := bulk(t, songs, "-out", filepath.Join(dir, "rows"), "-summary", filepath.Join(dir, "summary.json"), "-top", "3")
	assert.Equal(t, command.Faulty, status)
	assert.Contains(t, out, "12 charts, 6 of them bad; 42 chords\n") // the rows are elsewhere
	text, err := os.ReadFile(filepath.Join(dir, "summary.json"))
	require.NoError(t, err)
	golden(t, "summary.json", string(text))
	var s corpus.Summary
	require.NoError(t, json.Unmarshal(text, &s))
	chords := 0
	for _, r := range s.Roles {
		chords += r.Chords
	}
	assert.Equal(t, s.Chords, chords)
	assert.Len(t, s.Progressions, 3*(corpus.MaxRun-1))
}

// Rows come in the order of the charts, and nothing depends on how many are read
// at a time.
func TestOrder(t *testing.T) {
	var b strings.Builder
	for i := range 400 {
		// long and short charts in turn, so that the short ones are done first
		fmt.Fprintf(&b, `{"title":"%d","changes":"| C |%s"}`+"\n", i, strings.Repeat(" Dm7 | G7 | C |", i%3*20))
	}
	name := filepath.Join(t.TempDir(), "tunes")
	require.NoError(t, os.WriteFile(name, []byte(b.String()), 0o644))
	status, one, summary := bulk(t, "-workers", "1", name)
	require.Equal(t, command.Done, status, summary)
	status, many, again := bulk(t, "-workers", "8", name)
	require.Equal(t, command.Done, status)
	assert.Equal(t, one, many)
	assert.Equal(t, summary, again)
	n := 0
	for line := range strings.Lines(many) {
		var r struct {
			Number int
			Title  string
		}
		require.NoError(t, json.Unmarshal([]byte(line), &r))
		assert.Equal(t, fmt.Sprint(n), r.Title)
		n++
		assert.Equal(t, n, r.Number)
	}
	assert.Equal(t, 400, n)
}

func TestInputs(t *testing.T) {
	dir := t.TempDir()
	write := func(name, text string) {
		name = filepath.Join(dir, name)
		require.NoError(t, os.MkdirAll(filepath.Dir(name), 0o755))
		require.NoError(t, os.WriteFile(name, []byte(text), 0o644))
	}
	write("b/2.txt", "| C |")
	write("b/1.txt", "| C |")
	write("b/.git/1.txt", "| C |")
	write("b/.hidden", "| C |")
	write("b/c/0.txt", "| C |")
	write("marked", "\ufeff\n {\"changes\":\"| C |\"}")
	write("long", `{"changes":"| C |"}`+"\n{"+strings.Repeat(" ", request.MaxLine)+"}\n"+`{"changes":"| F |"}`+"\n")
	write("unended", "{"+strings.Repeat(" ", request.MaxLine))
	write("empty", "")
	write("large", strings.Repeat("#\n", file.MaxBytes/2+1))
	write("binary", "C\x00")
	write("one.abc", "X:1\nK:C\n\"C\"C4 |]\n")
	tests := []struct {
		name   string
		args   []string
		want   []string // file and place of each row
		faults []string
	}{
		{"folder", []string{"b"}, []string{"b/1.txt", "b/2.txt", "b/c/0.txt"}, nil},
		{"glob", []string{"b/?.txt"}, []string{"b/1.txt", "b/2.txt"}, nil},
		{"glob of folders", []string{"[b]"}, []string{"b/1.txt", "b/2.txt", "b/c/0.txt"}, nil},
		{"as often as named", []string{"b/1.txt", "b/1.txt"}, []string{"b/1.txt", "b/1.txt"}, nil},
		{"byte order mark", []string{"marked"}, []string{"marked, line 2"}, nil},
		{"one tune", []string{"one.abc"}, []string{"one.abc"}, nil},
		{"no file", []string{"nowhere", "b/1.txt"}, []string{"nowhere", "b/1.txt"}, []string{"nowhere: no such file or directory"}},
		{"no match", []string{"no*"}, []string{"no*"}, []string{"no*: no such file or directory"}},
		{"long line", []string{"long"}, []string{"long, line 1", "long, line 2", "long, line 3"}, []string{"long, line 2: the line has more than 1 MiB"}},
		{"long line at the end", []string{"unended"}, []string{"unended, line 1"}, []string{"unended, line 1: the line has more than 1 MiB"}},
		{"empty", []string{"empty"}, []string{"empty"}, []string{`empty: line 1, column 1: the chart has no bars (write chords between bar lines: | C | F G |)`}},
		{"large", []string{"large"}, []string{"large"}, []string{fmt.Sprintf("large: the file has more than %d MiB", file.MaxBytes>>20)}},
		{"binary", []string{"binary"}, []string{"binary"}, []string{"binary: the file is no chart: byte 1 is of no text (charts are read from the text notation in UTF-8, MusicXML and ABC)"}},
	}
	t.Chdir(dir)
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			status, out, complaints := bulk(t, test.args...)
			var got []string
			for line := range strings.Lines(out) {
				var o corpus.Origin
				require.NoError(t, json.Unmarshal([]byte(line), &o))
				got = append(got, o.Name())
			}
			assert.Equal(t, test.want, got)
			faults, _, _ := strings.Cut(complaints, fmt.Sprintf("%d charts,", len(test.want)))
			assert.Equal(t, strings.Join(test.faults, "\n"), strings.TrimSuffix(faults, "\n"))
			assert.Equal(t, len(test.faults) > 0, status == command.Faulty)
		})
	}
}

func TestStandardInput(t *testing.T) {
	for _, args := range [][]string{nil, {"-"}} {
		in, err := os.Open(songs + "/ferry.txt")
		require.NoError(t, err)
		status, out, _ := bulkOf(in, args...)
		in.Close()
		assert.Equal(t, command.Done, status)
		assert.Contains(t, out, `{"number":1,"file":"-","title":"Ferry at Six"`)
	}
	status, out, summary := bulk(t)
	assert.Equal(t, command.Done, status)
	assert.Empty(t, out)
	assert.Equal(t, "0 charts, 0 of them bad; 0 chords\n", summary)
}

// Rows that are written among the charts are not read as such.
func TestOutputAmongCharts(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(dir, "z.txt"), []byte("| C |"), 0o644))
	rows := filepath.Join(dir, "rows.ndjson")
	for _, inputs := range [][]string{{dir}, {filepath.Join(dir, "*"), "-resume"}} {
		status, out, complaints := bulk(t, append(inputs, "-out", rows)...)
		require.Equal(t, command.Done, status, complaints)
		assert.Contains(t, out, "1 charts, 0 of them bad")
	}
}

func TestMisuse(t *testing.T) {
	tests := []struct {
		args []string
		want string
	}{
		{[]string{"-as", "xml"}, `invalid value "xml" for flag -as: expected ndjson or csv`},
		{[]string{"-rows", "bars"}, `invalid value "bars" for flag -rows: expected charts or chords`},
		{[]string{"-rows", "chords"}, "-rows chords goes with -as csv: a row of NDJSON holds its chords"},
		{[]string{"-resume"}, "-resume goes with -out: it goes on with a file"},
		{[]string{"-workers", "0"}, `invalid value "0" for flag -workers: expected a number from 1`},
		{[]string{"-sync", "-1s"}, `invalid value "-1s" for flag -sync: expected a time such as 500ms or 2s`},
		{[]string{"-accidentals", "both"}, `invalid value "both" for flag -accidentals: expected ascii or unicode`},
	}
	for _, test := range tests {
		t.Run(strings.Join(test.args, " "), func(t *testing.T) {
			status, out, complaints := bulk(t, test.args...)
			assert.Equal(t, command.Misusage, status)
			assert.Empty(t, out)
			assert.Equal(t, commandtest.Complaint("bulk", status, test.want), complaints)
		})
	}
	status, out, _ := bulk(t, "-h")
	assert.Equal(t, command.Done, status)
	assert.Equal(t, help, out)
}

func TestUnwritable(t *testing.T) {
	full, err := os.OpenFile("/dev/full", os.O_WRONLY, 0)
	if err != nil {
		t.Skip("this system has no device that is always full:", err)
	}
	defer full.Close()
	var complaints bytes.Buffer
	assert.Equal(t, command.Faulty, run([]string{songs}, os.Stdin, full, &complaints))
	assert.Contains(t, complaints.String(), "no space left on device")
	status, _, complain := bulk(t, songs, "-out", filepath.Join(t.TempDir(), "no", "rows"))
	assert.Equal(t, command.Faulty, status)
	assert.Contains(t, complain, "no such file or directory")
}
