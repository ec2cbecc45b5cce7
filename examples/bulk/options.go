package main

import (
	"errors"
	"flag"
	"fmt"
	"runtime"
	"time"

	"fifthwise/examples/internal/command"
	"fifthwise/examples/internal/corpus"
	"fifthwise/pkg/function"
)

// options are the program's arguments.
type options struct {
	inputs  []string // files, folders, globs, - for standard input; none: standard input
	out     string   // a file; empty: standard output
	resume  bool
	form    form
	style   corpus.Style
	summary string // a file
	top     int
	workers int
	log     bool
	sync    time.Duration
}

// parse reads the arguments; options may stand behind files.
func parse(args []string) (o options, err error) {
	o.top, o.workers, o.sync = 10, runtime.GOMAXPROCS(0), time.Second
	rows, isCSV := "charts", false
	set := flag.NewFlagSet("bulk", flag.ContinueOnError)
	set.StringVar(&o.out, "out", "", "")
	set.BoolVar(&o.resume, "resume", false, "")
	set.Func("as", "", oneOf("ndjson", "csv", func(word string) { isCSV = word == "csv" }))
	set.Func("rows", "", oneOf("charts", "chords", func(word string) { rows = word }))
	set.TextVar(&o.style.Numerals, "numerals", function.Upper, "")
	set.Func("accidentals", "", command.Accidentals(&o.style.Accidentals))
	set.StringVar(&o.summary, "summary", "", "")
	set.Func("top", "", command.Whole(&o.top, 1))
	set.Func("workers", "", command.Whole(&o.workers, 1))
	set.BoolVar(&o.log, "log", false, "")
	set.Func("sync", "", func(value string) (err error) {
		if o.sync, err = time.ParseDuration(value); err != nil || o.sync <= 0 {
			return errors.New("expected a time such as 500ms or 2s")
		}
		return nil
	})
	err = command.Parse(set, args, command.Many(&o.inputs))
	switch {
	case err != nil:
		return o, err
	case o.resume && o.out == "":
		return o, errors.New("-resume goes with -out: it goes on with a file")
	case rows == "chords" && !isCSV:
		return o, errors.New("-rows chords goes with -as csv: a row of NDJSON holds its chords")
	case rows == "chords":
		o.form = chordsCSV
	case isCSV:
		o.form = chartsCSV
	}
	return o, nil
}

func oneOf(a, b string, set func(string)) func(string) error {
	return func(value string) error {
		if value != a && value != b {
			return fmt.Errorf("expected %s or %s", a, b)
		}
		set(value)
		return nil
	}
}
