package main

import (
	"errors"
	"flag"
	"fmt"
	"math"
	"strconv"
	"strings"

	"fifthwise/examples/internal/command"
)

type options struct {
	json        bool
	calibration bool
	worst       int
	tonicOnly   []string // corpora
	weights     string   // a file of costs
	folds       int
	fit         string // a file to write costs to
	blank       bool
	shares      []float64 // by file
	pull        float64
	steps       int
	files       []string
}

// fitting are the options that mean nothing unless something is fitted.
var fitting = []string{"blank", "shares", "pull", "steps"}

// parse reads the arguments; options may stand behind files.
func parse(args []string) (o options, err error) {
	o.pull, o.steps = 1, 50
	set := flag.NewFlagSet("evaluate", flag.ContinueOnError)
	set.BoolVar(&o.json, "json", false, "")
	set.BoolVar(&o.calibration, "calibration", false, "")
	set.Func("worst", "", command.Whole(&o.worst, 0))
	set.Func("tonic-only", "", o.setTonicOnly)
	set.StringVar(&o.weights, "weights", "", "")
	set.Func("folds", "", command.Whole(&o.folds, 2))
	set.StringVar(&o.fit, "fit", "", "")
	set.BoolVar(&o.blank, "blank", false, "")
	set.Func("shares", "", o.setShares)
	set.Func("pull", "", func(value string) error { return number(value, &o.pull) })
	set.Func("steps", "", command.Whole(&o.steps, 1))
	err = command.Parse(set, args, command.Many(&o.files))
	set.Visit(func(f *flag.Flag) {
		for _, name := range fitting {
			if f.Name == name && !o.fits() && err == nil {
				err = fmt.Errorf("-%s goes with -folds or -fit", name)
			}
		}
	})
	switch {
	case err != nil:
		return o, err
	case o.folds > 0 && o.fit != "":
		return o, errors.New("expected -folds or -fit, not both: -fit takes all pieces")
	case len(o.files) == 0:
		return o, errors.New("expected at least one file of annotated pieces")
	case o.shares != nil && len(o.shares) != len(o.files):
		return o, fmt.Errorf("-shares: expected one for each of %d files, not %d", len(o.files), len(o.shares))
	}
	return o, nil
}

// fits reports whether anything is to be fitted.
func (o *options) fits() bool { return o.folds > 0 || o.fit != "" }

func number(value string, to *float64) error {
	x, err := strconv.ParseFloat(value, 64)
	if err != nil || !(x >= 0) || math.IsInf(x, 0) {
		return errors.New("expected a number from 0")
	}
	*to = x
	return nil
}

func (o *options) setTonicOnly(value string) error {
	o.tonicOnly = append(o.tonicOnly, strings.Split(value, ",")...)
	return nil
}

func (o *options) setShares(value string) error {
	o.shares = nil
	for word := range strings.SplitSeq(value, ",") {
		var x float64
		if err := number(word, &x); err != nil {
			return errors.New("expected numbers from 0 with commas between them")
		}
		o.shares = append(o.shares, x)
	}
	return nil
}
