package main

import (
	"bytes"
	"compress/gzip"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/apache/beam/sdks/v2/go/pkg/beam"
	"github.com/apache/beam/sdks/v2/go/pkg/beam/log"
	"github.com/apache/beam/sdks/v2/go/pkg/beam/testing/ptest"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fifthwise/examples/internal/corpus"
	"fifthwise/examples/internal/request"
)

// asProgram has the test binary be the program.
const asProgram = "BEAM_AS_PROGRAM"

// Pipelines run on prism; go test -args -runner flink -endpoint ... runs them elsewhere.
func TestMain(m *testing.M) {
	if os.Getenv(asProgram) != "" {
		os.Exit(run(os.Args[1:], os.Stdout, os.Stderr))
	}
	log.SetupLogging("error", "text")
	ptest.Main(m)
}

// written is what a run wrote.
type written struct {
	rows, statistics, faults string
	parts                    int
}

// optionsIn are options that write into a new folder.
func optionsIn(t *testing.T, input string, size, top int) *options {
	dir := t.TempDir()
	return &options{input: input, readings: filepath.Join(dir, "rows"), statistics: filepath.Join(dir, "statistics.json"),
		faults: filepath.Join(dir, "faults.txt"), size: size, top: top}
}

// pipeline runs the pipeline.
func pipeline(t *testing.T, o *options) written {
	t.Helper()
	p, s := beam.NewPipelineWithRoot()
	o.pipeline(s)
	require.NoError(t, ptest.Run(p))
	return o.written(t)
}

func (o *options) written(t *testing.T) (w written) {
	t.Helper()
	parts, err := filepath.Glob(o.readings + "-*")
	require.NoError(t, err)
	for _, part := range parts {
		w.rows += contents(t, part)
	}
	w.parts, w.statistics, w.faults = len(parts), contents(t, o.statistics), contents(t, o.faults)
	return w
}

// contents are those of a file, none where it is missing.
func contents(t *testing.T, name string) string {
	t.Helper()
	text, err := os.ReadFile(name)
	if errors.Is(err, os.ErrNotExist) {
		return ""
	}
	require.NoError(t, err)
	return string(text)
}

// bulkProgram builds examples/bulk.
func bulkProgram(t *testing.T) string {
	t.Helper()
	program := filepath.Join(t.TempDir(), "bulk.exe")
	build := exec.Command("go", "build", "-o", program, "./examples/bulk")
	build.Dir = "../.."
	out, err := build.CombinedOutput()
	require.NoError(t, err, "%s", out)
	return program
}

// bulk has examples/bulk read the same charts, one at a time.
func bulk(t *testing.T, program string, o *options) (w written) {
	t.Helper()
	dir := t.TempDir()
	rows, summary := filepath.Join(dir, "rows"), filepath.Join(dir, "summary.json")
	var faults bytes.Buffer
	cmd := exec.Command(program, "-workers", "1", "-top", fmt.Sprint(o.top), "-out", rows, "-summary", summary, o.input)
	cmd.Stderr = &faults
	var exit *exec.ExitError
	if err := cmd.Run(); !errors.As(err, &exit) { // it is 1 where a chart is bad
		require.NoError(t, err)
	}
	return written{rows: contents(t, rows), statistics: contents(t, summary), faults: faults.String()}
}

// files writes lines into so many files, of different lengths, and is their glob.
func files(t *testing.T, lines []string, count int) string {
	t.Helper()
	dir := t.TempDir()
	for i := range count {
		from, to := len(lines)*i*i/count/count, len(lines)*(i+1)*(i+1)/count/count
		require.NoError(t, os.WriteFile(filepath.Join(dir, fmt.Sprintf("charts%d.ndjson", i)), []byte(strings.Join(lines[from:to], "\n")), 0o644))
	}
	return filepath.Join(dir, "*.ndjson")
}

const thousand = 1000

func TestAgainstBulk(t *testing.T) {
	program := bulkProgram(t)
	lines := newInventor(7).requests(thousand)
	good := newInventor(8).request(0)
	tests := []struct {
		name      string
		lines     []string
		files     int
		size, top int
		parts     int
		charts    int
	}{
		{"a file", lines, 1, 10_000, 10, 1, thousand},
		{"files and parts", lines, 7, 64, 3, 16, thousand},
		{"more forms and progressions than there are", lines[:20], 1, 1, 100_000, 20, 20},
		{"nothing but a bad chart", []string{`{"bars":[]}`}, 1, 10, 10, 1, 1},
		{"no chord", []string{`{"changes":"| N.C. | N.C. |"}`}, 1, 10, 10, 1, 1},
		{"space, byte order marks, line ends", []string{"\ufeff" + good + "\r", "", " \t\r", "\ufeff" + good, "  " + good + "  \r", ""}, 1, 2, 10, 2, 3},
		{"a line too long", []string{good, `{"title":"` + strings.Repeat("x", request.MaxLine) + `"}`, good}, 1, 2, 10, 2, 3},
		{"a line just not too long", []string{good + strings.Repeat(" ", request.MaxLine-len(good)-1), good}, 1, 2, 10, 1, 2},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			o := optionsIn(t, files(t, tt.lines, tt.files), tt.size, tt.top)
			got, want := pipeline(t, o), bulk(t, program, o)
			assert.Equal(t, tt.charts, strings.Count(got.rows, "\n"))
			assert.Equal(t, tt.parts, got.parts)
			same(t, "rows", want.rows, got.rows)
			same(t, "faults", want.faults, got.faults)
			same(t, "statistics", want.statistics, got.statistics)
		})
	}
}

// same compares long texts by line, telling the first that differs.
func same(t *testing.T, what, want, got string) {
	t.Helper()
	w, g := strings.SplitAfter(want, "\n"), strings.SplitAfter(got, "\n")
	for i := range min(len(w), len(g)) {
		require.Equal(t, w[i], g[i], "%s, line %d", what, i+1)
	}
	require.Len(t, g, len(w), what)
}

// The charts that are invented have what is to be compared.
func TestInventedCharts(t *testing.T) {
	o := optionsIn(t, files(t, newInventor(7).requests(thousand), 3), 500, 20)
	var s corpus.Summary
	w := pipeline(t, o)
	require.NoError(t, json.Unmarshal([]byte(w.statistics), &s))
	assert.Equal(t, thousand, s.Charts)
	assert.GreaterOrEqual(t, s.Bad, 10)
	assert.Less(t, s.Bad, 50)
	assert.Greater(t, len(s.Keys), 12)
	assert.Greater(t, len(s.Forms), 5)
	assert.Len(t, s.Progressions, 20*(corpus.MaxRun-1))
	assert.Greater(t, len(s.Modulations), 5)
	assert.Greater(t, len(s.Roles), 5)
	assert.Contains(t, w.faults, "line ")
	for _, fault := range []string{"unknown field", "ends too early", "no sound JSON", "either changes or bars", "bar 9: \"G7\"", "/key: ", "and 5 more", "another type"} {
		assert.Contains(t, w.faults, fault)
	}
}

func TestGzip(t *testing.T) {
	glob := files(t, newInventor(9).requests(30), 1)
	want := pipeline(t, optionsIn(t, glob, 10, 10))
	name := filepath.Join(t.TempDir(), "charts0.ndjson.gz")
	var b bytes.Buffer
	z := gzip.NewWriter(&b)
	_, err := z.Write([]byte(contents(t, filepath.Join(filepath.Dir(glob), "charts0.ndjson"))))
	require.NoError(t, err)
	require.NoError(t, z.Close())
	require.NoError(t, os.WriteFile(name, b.Bytes(), 0o644))
	got := pipeline(t, optionsIn(t, name, 10, 10))
	assert.Equal(t, want.statistics, got.statistics)
	assert.Equal(t, want.rows, strings.ReplaceAll(got.rows, name, filepath.Join(filepath.Dir(glob), "charts0.ndjson")))
}

func TestWithoutFaultsFile(t *testing.T) {
	o := optionsIn(t, files(t, []string{newInventor(1).request(0), "no chart"}, 1), 10, 10)
	o.faults = ""
	w := pipeline(t, o)
	assert.Contains(t, w.rows, `"faults":[{"message":"byte 1 of the line is no sound JSON`)
	assert.Empty(t, w.faults)
	list, err := os.ReadDir(filepath.Dir(o.readings))
	require.NoError(t, err)
	assert.Len(t, list, 2) // rows and statistics
}

func TestNoSuchFile(t *testing.T) {
	o := optionsIn(t, filepath.Join(t.TempDir(), "*.ndjson"), 10, 10)
	p, s := beam.NewPipelineWithRoot()
	o.pipeline(s)
	err := ptest.Run(p)
	require.Error(t, err)
	assert.Contains(t, err.Error(), fmt.Sprintf("no files matching pattern %q", o.input))
}
