// Beam reads charts in a pipeline of Apache Beam, on one machine or on many. -h
// says how.
package main

import (
	"context"
	_ "embed"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"slices"

	"github.com/apache/beam/sdks/v2/go/pkg/beam"
	"github.com/apache/beam/sdks/v2/go/pkg/beam/io/filesystem"
	"github.com/apache/beam/sdks/v2/go/pkg/beam/log"
	"github.com/apache/beam/sdks/v2/go/pkg/beam/x/beamx"

	"fifthwise/examples/internal/command"
)

//go:embed help.txt
var help string

// options are the program's arguments.
type options struct {
	input      string // a glob
	readings   string // what the names of files of rows begin with
	statistics string // a file
	faults     string // a file; empty: none
	size       int    // how many rows a file has
	top        int    // how many forms, and progressions of each length, are told
	level      string // of what Beam tells
	flags      bool   // tell all flags
}

func main() {
	os.Exit(run(os.Args[1:], os.Stdout, os.Stderr))
}

func run(args []string, out, complain io.Writer) int {
	c := command.Command{Name: "beam", Help: help, Out: out, Complain: complain}
	var o options
	// All flags are those of the command line: Beam and its runners define theirs
	// there, and where the program is a worker they are given to it.
	set := flag.CommandLine
	set.Init("beam", flag.ContinueOnError)
	set.SetOutput(io.Discard)
	o.define(set)
	err := set.Parse(args)
	beam.Init() // does not come back where the program is a worker
	if err == nil && o.flags {
		set.SetOutput(out)
		set.PrintDefaults()
		return command.Done
	}
	if err == nil {
		err = o.check(set.Args())
	}
	ctx := context.Background()
	if err == nil {
		err = o.vacant(ctx)
	}
	if err != nil {
		return c.Refuse(err)
	}
	log.SetupLogging(o.level, "text")
	p, s := beam.NewPipelineWithRoot()
	o.pipeline(s)
	if err := beamx.Run(ctx, p); err != nil {
		return c.Fail(err)
	}
	return command.Done
}

func (o *options) define(set *flag.FlagSet) {
	set.StringVar(&o.input, "input", "", "files of charts, a `glob`")
	set.StringVar(&o.readings, "readings", "", "what the names of the files of rows begin with, a `prefix`")
	set.StringVar(&o.statistics, "statistics", "", "the `file` of statistics")
	set.StringVar(&o.faults, "faults", "", "the `file` of what is wrong with charts")
	set.IntVar(&o.size, "size", 1000, "how many rows a file has")
	set.IntVar(&o.top, "top", 10, "how many forms, and progressions of each length, are told")
	set.BoolVar(&o.flags, "flags", false, "tell all flags, those of Beam and its runners too")
	set.StringVar(&o.level, "log_level", "warn", "what Beam tells of its work: debug, info, warn or error")
}

// check tells all that is wrong with the arguments.
func (o *options) check(rest []string) error {
	var faults []error
	for _, f := range []struct{ name, value string }{{"input", o.input}, {"readings", o.readings}, {"statistics", o.statistics}} {
		if f.value == "" {
			faults = append(faults, fmt.Errorf("-%s is missing", f.name))
		}
	}
	if o.faults != "" && o.faults == o.statistics {
		faults = append(faults, errors.New("-faults and -statistics: expected two files"))
	}
	if o.size < 1 {
		faults = append(faults, fmt.Errorf("-size %d: expected a number from 1", o.size))
	}
	if o.top < 1 {
		faults = append(faults, fmt.Errorf("-top %d: expected a number from 1", o.top))
	}
	if !slices.Contains([]string{"debug", "info", "warn", "error"}, o.level) {
		faults = append(faults, fmt.Errorf("-log_level %q: expected debug, info, warn or error", o.level))
	}
	if len(rest) > 0 {
		faults = append(faults, fmt.Errorf("%q: expected flags alone; files are given with -input, a glob in quotes", rest[0]))
	}
	return errors.Join(faults...)
}

// vacant tells which outputs are there already. Rows of an earlier run must not
// come to stand among those of this one.
func (o *options) vacant(ctx context.Context) error {
	var faults []error
	for _, glob := range []string{o.readings + "-*", o.statistics, o.faults} {
		if glob == "" { // no file of faults
			continue
		}
		if found, err := list(ctx, glob); err != nil {
			faults = append(faults, fmt.Errorf("%s: %w", glob, err))
		} else if len(found) > 0 {
			faults = append(faults, fmt.Errorf("%s: the file is there already (to begin anew, remove it)", found[0]))
		}
	}
	return errors.Join(faults...)
}

func list(ctx context.Context, glob string) ([]string, error) {
	files, err := filesystem.New(ctx, glob)
	if err != nil {
		return nil, err
	}
	defer files.Close()
	return files.List(ctx, glob)
}
