package main

import (
	"bytes"
	"errors"
	"flag"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fifthwise/examples/internal/command"
)

// program runs the program.
func program(t *testing.T, args ...string) (status int, out, complaints string) {
	t.Helper()
	var o, c bytes.Buffer
	cmd := exec.Command(os.Args[0], args...)
	cmd.Env = append(os.Environ(), asProgram+"=1")
	cmd.Stdout, cmd.Stderr = &o, &c
	err := cmd.Run()
	if exit := (*exec.ExitError)(nil); errors.As(err, &exit) {
		return exit.ExitCode(), o.String(), c.String()
	}
	require.NoError(t, err)
	return 0, o.String(), c.String()
}

func TestProgram(t *testing.T) {
	o := optionsIn(t, files(t, newInventor(3).requests(50), 2), 20, 5)
	want := pipeline(t, optionsIn(t, o.input, 7, 5))
	args := []string{"-input", o.input, "-readings", o.readings, "-statistics", o.statistics, "-faults", o.faults, "-size", "20", "-top", "5"}

	status, out, complaints := program(t, args...)
	assert.Equal(t, 0, status)
	assert.Empty(t, out)
	assert.Empty(t, complaints)
	got := o.written(t)
	assert.Equal(t, 3, got.parts)
	got.parts = want.parts
	assert.Equal(t, want, got)

	status, _, complaints = program(t, args...)
	assert.Equal(t, command.Misusage, status)
	assert.Equal(t, "beam: "+o.readings+"-000000: the file is there already (to begin anew, remove it)\n"+
		o.statistics+": the file is there already (to begin anew, remove it)\n"+
		o.faults+": the file is there already (to begin anew, remove it)\n"+
		"beam -h says what there is\n", complaints)
	assert.Equal(t, got.rows, o.written(t).rows)
}

func TestProgramFails(t *testing.T) {
	dir := t.TempDir()
	status, _, complaints := program(t, "-input", filepath.Join(dir, "*.ndjson"), "-readings", filepath.Join(dir, "r"), "-statistics", filepath.Join(dir, "s"))
	assert.Equal(t, command.Faulty, status)
	assert.Contains(t, complaints, "no files matching pattern")
}

func TestMisusage(t *testing.T) {
	tests := []struct {
		name string
		args []string
		want string
	}{
		{"no flag", nil, "-input is missing\n-readings is missing\n-statistics is missing"},
		{"an unknown flag", []string{"-inputs", "x"}, "flag provided but not defined: -inputs"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			status, out, complaints := program(t, tt.args...)
			assert.Equal(t, command.Misusage, status)
			assert.Empty(t, out)
			assert.Equal(t, "beam: "+tt.want+"\nbeam -h says what there is\n", complaints)
		})
	}
}

func TestHelp(t *testing.T) {
	status, out, complaints := program(t, "-h")
	assert.Equal(t, 0, status)
	assert.Equal(t, help, out)
	assert.Empty(t, complaints)

	status, out, complaints = program(t, "-flags")
	assert.Equal(t, 0, status)
	assert.Contains(t, out, "-environment_type")
	assert.Empty(t, complaints)

	set := flag.NewFlagSet("", flag.ContinueOnError)
	new(options).define(set)
	set.VisitAll(func(f *flag.Flag) { assert.Contains(t, help, "\n  -"+f.Name+" ") })
}

func TestCheck(t *testing.T) {
	all := options{input: "*.ndjson", readings: "r", statistics: "s", size: 1, top: 1, level: "warn"}
	tests := []struct {
		name    string
		change  func(*options)
		rest    []string
		wantErr string
	}{
		{"all", func(*options) {}, nil, ""},
		{"none", func(o *options) { *o = options{size: 1, top: 1, level: "info"} }, nil, "-input is missing\n-readings is missing\n-statistics is missing"},
		{"one file for two", func(o *options) { o.faults = o.statistics }, nil, "-faults and -statistics: expected two files"},
		{"size", func(o *options) { o.size = 0 }, nil, "-size 0: expected a number from 1"},
		{"top", func(o *options) { o.top = -1 }, nil, "-top -1: expected a number from 1"},
		{"level", func(o *options) { o.level = "loud" }, nil, `-log_level "loud": expected debug, info, warn or error`},
		{"a file", func(*options) {}, []string{"a.ndjson", "b.ndjson"}, `"a.ndjson": expected flags alone; files are given with -input, a glob in quotes`},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			o := all
			tt.change(&o)
			if err := o.check(tt.rest); tt.wantErr == "" {
				assert.NoError(t, err)
			} else {
				assert.EqualError(t, err, tt.wantErr)
			}
		})
	}
}

func TestVacantKnowsItsStorage(t *testing.T) {
	o := options{readings: "tape://r", statistics: filepath.Join(t.TempDir(), "s")}
	err := o.vacant(t.Context())
	require.Error(t, err)
	assert.Contains(t, err.Error(), `file system scheme "tape" not registered`)
}
