package main

import (
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fifthwise/examples/internal/command"
	"fifthwise/examples/internal/command/commandtest"
	"fifthwise/pkg/function"
	"fifthwise/pkg/review"
)

func mark(args ...string) (status int, out, complaint string) {
	return commandtest.Run(func(out, complain io.Writer) int { return run(args, out, complain) })
}

// folder is a folder with these files.
func folder(t *testing.T, files map[string]string) string {
	t.Helper()
	dir := t.TempDir()
	for name, content := range files {
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), []byte(content), 0o600))
	}
	return dir
}

// TestDemo holds what the program shows of its own answers.
func TestDemo(t *testing.T) {
	status, out, complaint := mark()
	assert.Equal(t, command.Done, status)
	assert.Empty(t, complaint)
	commandtest.Page(t, "testdata/demo.txt", out, pageWidth)
}

// The pages that are written into a folder are those that are shown.
func TestPages(t *testing.T) {
	out := filepath.Join(t.TempDir(), "new", "pages")
	status, table, complaint := mark("-chart", "demo/chart.txt", "demo/answers", "-out", out)
	require.Equal(t, command.Done, status, complaint)
	_, shown, _ := mark()
	for _, name := range []string{"ilse", "marko", "tove.json"} {
		page, err := os.ReadFile(filepath.Join(out, name+".marked.txt"))
		require.NoError(t, err)
		assert.Contains(t, shown, string(page))
	}
	assert.True(t, strings.HasPrefix(shown, table))
	assert.Equal(t, 4, strings.Count(table, "\n"))
}

func TestPagesOfAnEarlierRunAreNoAnswers(t *testing.T) {
	dir := folder(t, map[string]string{"a.txt": "| I |", "b.json": `{"numerals": ["I"]}`, "notes.pdf": "", ".hidden.txt": "x"})
	chart := filepath.Join(folder(t, map[string]string{"c.txt": "| C |"}), "c.txt")
	for range 2 {
		status, table, complaint := mark("-chart", chart, "-out", dir, dir)
		require.Equal(t, command.Done, status, complaint)
		assert.Equal(t, 3, strings.Count(table, "\n"), table)
	}
	found, err := fs.Glob(os.DirFS(dir), "*"+pageEnd)
	require.NoError(t, err)
	assert.Equal(t, []string{"a.marked.txt", "b.json.marked.txt"}, found)
}

// The chart may lie among the answers.
func TestChartAmongAnswers(t *testing.T) {
	dir := folder(t, map[string]string{"a.txt": "| I |", "c.txt": "| C |"})
	status, table, complaint := mark("-chart", filepath.Join(dir, "c.txt"), dir)
	assert.Equal(t, command.Done, status, complaint)
	assert.Equal(t, 2, strings.Count(table, "\n"), table)
}

func TestHelpExampleIsAnAnswer(t *testing.T) {
	_, from, found := strings.Cut(help, "place of the\nchords:\n\n")
	require.True(t, found)
	example, _, found := strings.Cut(from, "\n\n")
	require.True(t, found)
	dir := folder(t, map[string]string{"x.txt": example})
	chart := filepath.Join(folder(t, map[string]string{"c.txt": "| Fmaj7 | Gm7 C7 | Fmaj7 | Dm7 C7 | Dm7 | G7 | Cmaj7 | Cmaj7 |"}), "c.txt")
	status, out, complaint := mark("-chart", chart, dir)
	assert.Equal(t, command.Done, status, complaint)
	assert.Contains(t, out, "Ana     94%       9           0            0      1")
}

func TestStyles(t *testing.T) {
	_, cased, _ := mark("-numerals", "cased")
	assert.Contains(t, cased, "2  Em7b5   VII     defensible   ii7b5/vi\n")
	_, signs, _ := mark("-accidentals", "unicode", "-numerals=arabic")
	assert.Contains(t, signs, "2  A7b9    III     defensible   5 7♭9/6\n")
}

func TestArguments(t *testing.T) {
	empty := folder(t, nil)
	tests := []struct {
		name      string
		args      []string
		status    int
		complaint string
	}{
		{"no chart", []string{"demo"}, command.Misusage, "expected the chart that the answers are about: -chart FILE"},
		{"no folder", []string{"-chart", "demo/chart.txt"}, command.Misusage, "expected a folder of answers behind the chart"},
		{"two folders", []string{"-chart", "x", "a", "b"}, command.Misusage, `expected one folder of answers, not both "a" and "b"`},
		{"unknown option", []string{"-key", "C"}, command.Misusage, "flag provided but not defined: -key"},
		{"bad style", []string{"-numerals", "roman"}, command.Misusage, `invalid value "roman" for flag -numerals: expected a style of numerals: upper, cased or arabic at offset 0 of "roman"`},
		{"bad signs", []string{"-accidentals", "utf8"}, command.Misusage, `invalid value "utf8" for flag -accidentals: expected ascii or unicode`},
		{"no answers", []string{"-chart", "demo/chart.txt", empty}, command.Faulty, empty + ": the folder has no answers (files that end in .txt or .json)"},
		{"no such folder", []string{"-chart", "demo/chart.txt", "missing"}, command.Faulty, "missing: no such file or directory"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			status, out, complaint := mark(tt.args...)
			assert.Equal(t, tt.status, status)
			assert.Empty(t, out)
			want := "mark: " + tt.complaint + "\n"
			if tt.status == command.Misusage {
				want += "mark -h says what there is\n"
			}
			assert.Equal(t, want, complaint)
		})
	}
	status, out, complaint := mark("-h")
	assert.Equal(t, command.Done, status)
	assert.Empty(t, complaint)
	assert.True(t, strings.HasPrefix(out, "usage: mark"))
}

func TestFaultsOfChart(t *testing.T) {
	tests := []struct{ name, chart, want string }{
		{"a symbol", "| C | b7 |\n| H |", ":1:7: expected the root in upper case (write B7 or Bm7)\n%:2:3: expected a root A to G or N.C. (the German H is B)\n"},
		{"silence", "| N.C. |", ": no chord of the chart sounds\n"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			path := filepath.Join(folder(t, map[string]string{"c.txt": tt.chart}), "c.txt")
			status, out, complaint := mark("-chart", path, "demo/answers")
			assert.Equal(t, command.Faulty, status)
			assert.Empty(t, out)
			assert.Equal(t, path+strings.ReplaceAll(tt.want, "%", path), complaint)
		})
	}
}

// tune has a repeat, endings, a silence, an optional group and a bar that holds.
const tune = "Title: Glass Pier\n[A]\n|: Cmaj7 A7 | Dm7 / G7 / | 1. Em7 A7 :| 2. Cmaj7 | / / / / |\n[B]\n| N.C. | (Dm7 G7) |"

func TestTextAnswers(t *testing.T) {
	tests := []struct{ name, answer, row string }{
		{"as written", "Key: C major\n| Imaj7 V7/II | IIm7 V7 | IIIm7 V7/II | Imaj7 | | | IIm7 V7 |", "100%      13           0            0      0"},
		{"as the chart looks", "Title: Glass Pier\nKey: C major\n[A]\n|: Imaj7 V7/II | IIm7 / V7 / | 1. IIIm7 V7/II :| 2. Imaj7 | / / / / |\n[B]\n| N.C. | (IIm7 V7) |", "100%      13           0            0      0"},
		{"as played", "[C major] I VI7 | II V | III VI7 | I VI7 | II V | I | | | II V", "100%      10           3            0      0"},
		{"spaces, of and sub", "Name: ann\n| I V7 of II | II V | III V of ii | I | | | II V |", "100%      13           0            0      0"},
		{"a key in a bar", "[F major] | Vmaj7 [C major] V7/II | II V | III VI7 | I | | | II V |", "88%      10           1            2      0"},
		{"bars again", "Key: C major\n| I VI7 | II V | III VI7 | I | / | / | ? ? |", "88%       8           3            0      2"},
		{"left blank", "| ? V7/II | | ? ? | ? | | N.C. | |", "12%       2           0            0     11"},
		{"the key alone", "Key: C major", "100%       1           0            0      0"},
		{"comments and sharps", "# mine\n#Idim7 V7/II | II V | III VI7 | I | / | N.C. | ? ?", "75%       8           1            2      2"},
	}
	dir := folder(t, map[string]string{"c.txt": tune})
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			status, out, complaint := mark("-chart", filepath.Join(dir, "c.txt"), folder(t, map[string]string{"ann.txt": tt.answer}))
			assert.Equal(t, command.Done, status, complaint)
			assert.Contains(t, out, tt.row)
		})
	}
}

// What analyze prints in figures has a space before a quality that begins with one.
func TestFiguresWithSpaces(t *testing.T) {
	const faulty = "-       -           -            -      -  has faults"
	tests := []struct{ name, chart, answer, row, complaint string }{
		{"a dominant", "| C | Dm7 G7 | C |", "| 1 | 2m7 5 7 | 1 |", "100%       4           0            0      0", ""},
		{"applied, with tensions", "| C | A7b9 | Dm7 G7 | C |", "| 1 | 5 7b9/2 | 2m7 5 7 | 1 |", "100%       5           0            0      0", ""},
		{"a substitute of a target", "| C | Eb7 | Dm7 Db7 | C6 |", "| 1 | sub5 7/2 | 2m7 sub5 7 | 1 6 |", "100%       5           0            0      0", ""},
		{"the bar before again", "| Dm7 G7 | % | C |", "| 2m7 5 7 | % | 1 |", "100%       5           0            0      0", ""},
		{"written as one", "| C | Dm7 G7 | C |", "| 1 | 2m7 57 | 1 |", "100%       4           0            0      0", ""},
		{"two degrees are two chords", "| C | G Bdim | C |", "| 1 | 5 7 | 1 |", "100%       4           0            0      0", ""},
		{"two ways", "| C | G7 C Bdim | C |", "| 1 | 5 7 1 7 | 1 |", faulty, `:1:7: bar 2 has 4 numerals, and the chart 3 chords there (write 57 for 5 7 if that is one numeral)`},
		{"no way", "| C | Dm7 G7 | C |", "| 1 | 2m7 5 7 1 | 1 |", faulty, `:1:7: bar 2 has 4 numerals, and the chart 2 chords there (write 57 for 5 7 if that is one numeral)`},
		{"Roman", "| C | Dm7 G7 | C |", "| I | ii7 V 7 | I |", faulty, `:1:7: bar 2 has 3 numerals, and the chart 2 chords there (? for one that is left blank)`},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			chart := filepath.Join(folder(t, map[string]string{"c.txt": tt.chart}), "c.txt")
			dir := folder(t, map[string]string{"a.txt": tt.answer})
			_, out, complaint := mark("-chart", chart, dir)
			assert.Contains(t, out, tt.row)
			if tt.complaint != "" {
				tt.complaint = filepath.Join(dir, "a.txt") + tt.complaint + "\n"
			}
			assert.Equal(t, tt.complaint, complaint)
		})
	}
}

// What analyze prints of the demo's chart in figures is an answer that agrees.
func TestFiguresOfAnalyze(t *testing.T) {
	o := options{numerals: function.Arabic}
	task, err := o.read(os.DirFS("demo"), "chart.txt")
	require.NoError(t, err)
	var answer strings.Builder
	for i, c := range task.sounding {
		if r := &task.analysis.Chords[c]; i == 0 || task.event(i-1).Bar != r.Event.Bar {
			answer.WriteString(" |")
		}
		if r := &task.analysis.Chords[c]; i == 0 || r.Key != task.analysis.Chords[task.sounding[i-1]].Key {
			answer.WriteString(" [" + r.Key.String() + "]")
		}
		answer.WriteString(" " + task.analysis.NumeralOf(c))
	}
	require.Contains(t, answer.String(), "5 7/4")
	marked, err := task.student(os.DirFS(folder(t, map[string]string{"a.txt": answer.String()})), "a.txt")
	require.NoError(t, err)
	assert.Equal(t, len(task.sounding), marked.counts()[review.Agrees])
}

// A pickup is bar 0, as analyze prints it, and may be left out.
func TestPickup(t *testing.T) {
	const plain = "Pickup: 1\n| G7 | C | Dm7 G7 | C |"
	const repeated = "Pickup: 1\n| G7 |: C | Dm7 G7 :| C |"
	tests := []struct{ name, chart, answer, row, complaint string }{
		{"written", plain, "Key: C major\n| V7 | I | IIm7 V7 | I |", "100%       5           0            0      0", ""},
		{"left out", plain, "Key: C major\n| I | IIm7 V7 | I |", "92%       4           0            0      1", ""},
		{"left out, as played", repeated, "Key: C major\n| I | IIm7 V7 | I | IIm7 V7 | I |", "95%       7           0            0      1", ""},
		{"as played", repeated, "Key: C major\n| V7 | I | IIm7 V7 | I | IIm7 V7 | I |", "100%       8           0            0      0", ""},
		{"too many numerals", plain, "| I | IIm7 V7 I | I |", "has faults", ":1:7: bar 2 has 3 numerals, and the chart 2 chords there (? for one that is left blank)"},
		{"too few bars", plain, "| I | V |", "has faults", ": the answer has 2 bars, and the chart 3, beside its pickup (a bar of the answer for each; one with nothing in it is blank; the pickup's may be left out)"},
		{"too many bars", repeated, "| I | V | I | V | I | I | I | I |", "has faults", ": the answer has 8 bars, and the chart 3, or 5 as played, beside its pickup (a bar of the answer for each; one with nothing in it is blank; the pickup's may be left out)"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			chart := filepath.Join(folder(t, map[string]string{"c.txt": tt.chart}), "c.txt")
			dir := folder(t, map[string]string{"a.txt": tt.answer})
			pages := t.TempDir()
			_, out, complaint := mark("-chart", chart, "-out", pages, dir)
			assert.Contains(t, out, tt.row)
			if tt.complaint != "" {
				assert.Equal(t, filepath.Join(dir, "a.txt")+tt.complaint+"\n", complaint)
				return
			}
			page, err := os.ReadFile(filepath.Join(pages, "a.marked.txt"))
			require.NoError(t, err)
			assert.Contains(t, string(page), "C major: agrees\n")
			assert.Regexp(t, `\n +0  *G7 `, string(page))
		})
	}
}

// What agrees may have something to be told, bars that come again say so, and a
// remark stands at the top.
func TestWhatPagesTell(t *testing.T) {
	page := func(chart, answer string) string {
		t.Helper()
		dir := folder(t, map[string]string{"c.txt": chart, "a.txt": answer})
		pages := t.TempDir()
		status, _, complaint := mark("-chart", filepath.Join(dir, "c.txt"), "-out", pages, dir)
		require.Equal(t, command.Done, status, complaint)
		text, err := os.ReadFile(filepath.Join(pages, "a.marked.txt"))
		require.NoError(t, err)
		return string(text)
	}
	assert.Equal(t, `Chart: a
Score 100%: 7 agree, 0 can be defended, 0 contradict the chart, 0 blank

Keys
  bar 1, C major: agrees

Chords
  bar             chord  answer  verdict  expected
    1             Cmaj7  I7      agrees
       In figured bass 7 is the seventh of the key.
    2             Dm7    ii65    agrees
       65 puts the third in the bass; the chart has the root there.
    2             G7     V7      agrees
    1 (2nd time)  Cmaj7  I7      agrees
       In figured bass 7 is the seventh of the key.
    2 (2nd time)  Dm7    ii65    agrees
       65 puts the third in the bass; the chart has the root there.
    2 (2nd time)  G7     V7      agrees
    3             C6     I       agrees
`, page("|: Cmaj7 | Dm7 G7 :| C6 |", "Key: C major\n| I7 | ii65 V7 | I |"))

	const minor = "| Cm7 | Dm7b5 G7 | Cm7 | Fm7 | Dm7b5 | G7 | Cm6 | Cm6 |"
	assert.Contains(t, page(minor, "Key: C\n| i7 | iiø7 V7 | i7 | iv7 | iiø7 | V7 | i6 | i6 |"), "taken as\n       major: write C minor if that is meant.\n")
	assert.Contains(t, page(minor, "Key: Eb\n| vi7 | viiø7 III7 | vi7 | ii7 | viiø7 | III7 | vi6 | vi6 |"), " blank\nThe degrees fit one another, but are counted in the relative key: in Eb major,\nwhere C minor is heard.\n")
}

func TestWhatIsNoText(t *testing.T) {
	chart := filepath.Join(folder(t, map[string]string{"c.txt": "| C |"}), "c.txt")
	binary := folder(t, map[string]string{"a.txt": "| I |\nIV V\x00\x01\xff", "b.json": "\xff\xfe{", "c.txt": "| I |"})
	_, out, complaint := mark("-chart", chart, binary)
	assert.Equal(t, filepath.Join(binary, "a.txt")+": the file is no answer: byte 10 is of no text (answers are text in UTF-8)\n"+
		filepath.Join(binary, "b.json")+": the file is no answer: byte 0 is of no text (answers are text in UTF-8)\n", complaint)
	assert.Contains(t, out, "c      100%")

	many := folder(t, map[string]string{"a.txt": strings.Repeat("H ", 30)})
	_, _, complaint = mark("-chart", chart, many)
	assert.Equal(t, 1, strings.Count(complaint, "\n"), "one bar with too many numerals: %s", complaint)
	long := filepath.Join(folder(t, map[string]string{"c.txt": strings.Repeat("| C ", 30)}), "c.txt")
	many = folder(t, map[string]string{"a.txt": strings.Repeat("| H ", 30)})
	_, _, complaint = mark("-chart", long, many)
	assert.Equal(t, maxFaults+1, strings.Count(complaint, "\n"))
	assert.True(t, strings.HasSuffix(complaint, filepath.Join(many, "a.txt")+": and 10 more faults\n"), complaint)

	// A name in Latin-1, and one that would change the terminal's colour.
	named := folder(t, map[string]string{"Mar\xeda.txt": "| I |", "x\x1b[31m.txt": "| H |", "y.txt": "Name: \x1b[31mred\n| I |"})
	_, out, complaint = mark("-chart", chart, named)
	assert.Contains(t, out, "Mar\ufffda ")
	assert.NotContains(t, out+complaint, "\x1b")
	assert.Contains(t, complaint, "x\ufffd[31m.txt:1:3:")
}

func TestFaultsOfAnswers(t *testing.T) {
	chart := filepath.Join(folder(t, map[string]string{"c.txt": tune}), "c.txt")
	tests := []struct{ name, file, answer, want string }{
		{"nothing", "a.txt", "# nothing\n", ": the answer has neither bars nor a key (write numerals between bar lines)"},
		{"too few bars", "a.txt", "| I VI7 | II V |", ": the answer has 2 bars, and the chart 7, or 9 as played (a bar of the answer for each; one with nothing in it is blank)"},
		{"too many numerals", "a.txt", "| I VI7 I | II V | III VI7 | I | | | II V |", ":1:3: bar 1 has 3 numerals, and the chart 2 chords there (? for one that is left blank)"},
		{"too few numerals", "a.txt", "| I VI7 | II V | III VI7 | I | | |\n| II |", ":2:3: bar 7 has 1 numeral, and the chart 2 chords there (? for one that is left blank)"},
		{"a numeral where a chord is held", "a.txt", "| I VI7 | II V | III VI7 | I | I | | II V |", ":1:32: no chord of the chart starts in this bar, which has 1 numeral"},
		{"no numerals", "a.txt", "| I VI7 | Dm7 V | III V7/x | ? | | |\n| ♭♭♭II V |", `:1:11: "Dm7": expected a degree I to VII or 1 to 7 (a chord symbol is no numeral)
%:1:26: "V7/x": expected the tonicised degree, I to VII or 1 to 7
%:2:3: "♭♭♭II": a degree has at most two flats or sharps`},
		{"keys", "a.txt", "Key: H major\n[X] I VI7 | [G major II V | III VI7 | I | | | II V |", `:1:6: "H major": expected a note name A to G (the German H is B)
%:2:2: "X": expected a note name A to G (such as F major)
%:2:13: the bracket is not closed`},
		{"keys without chords", "a.txt", "Key: F major\nKey: C major\n| I VI7 | II V | III VI7 | I | | | II V |\n[G major]", `:1:6: nothing stands in the key
%:4:2: nothing stands in the key`},
		{"no bar to say again", "a.txt", "| % | II V | III VI7 | I | | | II V |", ":1:3: no bar stands before this one"},
		{"no JSON", "a.json", "| I |", `:1:1: the file is no sound JSON: invalid character '|' looking for beginning of value`},
		{"an empty file", "a.json", "", `: the JSON ends too early`},
		{"cut off", "a.json", `{"numerals": [`, `: the JSON ends too early`},
		{"unknown field", "a.json", `{"numeral": []}`, `: unknown field "numeral" (the fields are regions and numerals; of a region key, bar, beat and pass)`},
		{"another type", "a.json", `{"numerals": [5]}`, `:1:16: a number stands where it cannot, in numerals`},
		{"more behind it", "a.json", `{"numerals": []} {}`, `: more stands behind the answer`},
		{"neither", "a.json", `{}`, `: the answer has neither regions nor numerals`},
		{"regions", "a.json", `{"regions": [{"key": "H"}, {"key": "C", "bar": 1, "beat": 0.5, "pass": 0}]}`, `: /regions/0/key: "H": expected a note name A to G (the German H is B)
%: /regions/0/bar: the bar is missing
%: /regions/1/beat: expected a beat, from 1
%: /regions/1/pass: expected a time through the bar, from 1`},
		{"places", "a.json", `{"regions": [{"key": "C", "bar": 99}], "numerals": ["H"]}`, `: /regions/0/bar: no chord starts in bar 99 (a region begins with a chord)
%: /numerals: 1 numerals for 13 sounding chords (one for each chord as played, repeats unfolded, silences left out, blanks included)
%: /numerals/0: expected a degree I to VII or 1 to 7`},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			dir := folder(t, map[string]string{tt.file: tt.answer, "z.txt": "Key: C major"})
			status, out, complaint := mark("-chart", chart, dir)
			assert.Equal(t, command.Faulty, status)
			path := filepath.Join(dir, tt.file)
			assert.Equal(t, path+strings.ReplaceAll(tt.want, "%", path)+"\n", complaint)
			assert.Contains(t, out, "has faults")
			assert.Contains(t, out, "z      100%", "the others are marked")
		})
	}
}

// FuzzText holds that every text is marked or has faults.
func FuzzText(f *testing.F) {
	f.Add("Key: C major\n| Imaj7 V7/II | IIm7 V7 | IIIm7 V7/II | Imaj7 | | | IIm7 V7 |")
	f.Add("[C major] I VI7 | II V | % | (I) of | II V | sub V | [] | | II V :|")
	f.Add("|| % [\n:Key: ")
	o := options{}
	c := os.DirFS("demo")
	task, err := o.read(c, "chart.txt")
	require.NoError(f, err)
	f.Fuzz(func(t *testing.T, s string) {
		dir := folder(t, map[string]string{"a.txt": s})
		marked, err := task.student(os.DirFS(dir), "a.txt")
		if err != nil {
			assert.Nil(t, marked.answer)
			assert.NotEmpty(t, err.Error())
			return
		}
		assert.NotEmpty(t, task.page(marked))
	})
}
