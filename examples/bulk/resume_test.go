package main

import (
	"bufio"
	"bytes"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fifthwise/examples/internal/command"
)

// A run that is broken off anywhere in what it writes and gone on with leaves the
// bytes, and tells the summary, of one that was not.
func TestResumeAfterEveryByte(t *testing.T) {
	inputs := []string{songs + "/bad.txt", songs + "/book.abc"}
	for name, args := range formArgs {
		t.Run(name, func(t *testing.T) {
			out := filepath.Join(t.TempDir(), "rows")
			args := append(append(args, inputs...), "-out", out, "-resume", "-workers", "1")
			_, summary, _ := bulk(t, args...)
			want, err := os.ReadFile(out)
			require.NoError(t, err)
			for cut := range len(want) + 1 {
				require.NoError(t, os.WriteFile(out, want[:cut], 0o644))
				status, again, complaints := bulk(t, args...)
				require.Equal(t, command.Faulty, status) // for the bad charts
				got, err := os.ReadFile(out)
				require.NoError(t, err)
				require.Equal(t, string(want), string(got), "cut at %d: %s", cut, complaints)
				require.Equal(t, summary, again, "cut at %d", cut)
			}
		})
	}
}

func TestResumeRefuses(t *testing.T) {
	rows := `{"number":1,"file":"testdata/songs/ferry.txt","faults":[{"message":"x"}]}` + "\n"
	tests := []struct {
		name, there string
		args        []string
		want        string
	}{
		{"not asked for", rows, []string{songs}, "the file has something in it (-resume goes on with it; to begin anew, remove it)"},
		{"another file", "Dear diary,\n", []string{songs, "-resume"}, "behind chart 0 stands no row that was written with these options; -resume goes on with such rows alone"},
		{"another form", rows, []string{songs, "-resume", "-as", "csv"}, "behind chart 0 stands no row that was written with these options; -resume goes on with such rows alone"},
		{"other rows", strings.Join(chartColumns, ",") + "\n", []string{songs, "-resume", "-as", "csv", "-rows", "chords"}, "behind chart 0 stands no row that was written with these options; -resume goes on with such rows alone"},
		{"a row missing", rows + strings.Replace(rows, "1", "3", 1), []string{songs, "-resume"}, "behind chart 1 stands no row that was written with these options; -resume goes on with such rows alone"},
		{"another input", rows, []string{songs, "-resume"}, "chart 1 is written already as that of testdata/songs/ferry.txt, but now it is that of testdata/songs/bad.txt: the inputs have changed"},
		{"fewer inputs", rows + strings.Replace(rows, "1", "2", 1), []string{songs + "/ferry.txt", "-resume"}, "2 charts are written already, but there are only 1: the inputs have changed"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			out := filepath.Join(t.TempDir(), "rows")
			require.NoError(t, os.WriteFile(out, []byte(test.there), 0o644))
			status, _, complaints := bulk(t, append(test.args, "-out", out)...)
			assert.Equal(t, command.Faulty, status)
			assert.Contains(t, complaints, test.want+"\n")
			left, err := os.ReadFile(out)
			require.NoError(t, err)
			assert.Equal(t, test.there, string(left))
		})
	}
}

// A program killed in the middle of a run has written all that it reported, and
// the run is completed as if it had not been broken off.
func TestKilled(t *testing.T) {
	const charts, before = 1200, 700
	stream, err := os.Open(requestsTo(t, charts))
	require.NoError(t, err)
	defer stream.Close()
	whole := filepath.Join(t.TempDir(), "whole")
	_, summary, _ := bulkOf(stream, "-out", whole)
	want, err := os.ReadFile(whole)
	require.NoError(t, err)

	// As many charts as go before are sent, and no end: it cannot have finished.
	cut := filepath.Join(t.TempDir(), "cut")
	program := exec.Command(os.Args[0], "-out", cut, "-sync", "20ms", "-log")
	program.Env = append(os.Environ(), asProgram+"=1")
	in, err := program.StdinPipe()
	require.NoError(t, err)
	told, err := program.StderrPipe()
	require.NoError(t, err)
	require.NoError(t, program.Start())
	go func() {
		for i := range before {
			if _, err := io.WriteString(in, requestOf(i)); err != nil {
				return // it is killed
			}
		}
	}()
	reported := 0
	for lines := bufio.NewScanner(told); reported < before/4 && lines.Scan(); {
		_, err := fmt.Sscanf(lines.Text(), "%d charts written", &reported)
		require.NoError(t, err, lines.Text())
	}
	require.NoError(t, program.Process.Kill())
	require.Error(t, program.Wait())
	require.GreaterOrEqual(t, reported, before/4)

	got, err := os.ReadFile(cut)
	require.NoError(t, err)
	rows := bytes.Count(got, []byte("\n"))
	t.Logf("%d rows reported, %d there", reported, rows)
	assert.GreaterOrEqual(t, rows, reported)
	assert.Less(t, rows, charts)
	assert.True(t, bytes.HasPrefix(want, got))

	_, err = stream.Seek(0, io.SeekStart)
	require.NoError(t, err)
	status, again, complaints := bulkOf(stream, "-out", cut, "-resume")
	require.Equal(t, command.Done, status, complaints)
	assert.Equal(t, summary, again)
	got, err = os.ReadFile(cut)
	require.NoError(t, err)
	assert.True(t, bytes.Equal(want, got))
}
