// Evaluate measures readings against those of human analysts, and fits the costs
// of readings to them. -h says how.
package main

import (
	_ "embed"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
)

//go:embed help.txt
var help string

// Exit statuses.
const (
	done     = 0
	faulty   = 1 // a file cannot be read or written
	misusage = 2
)

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

func run(args []string, out, complain io.Writer) int {
	o, err := parse(args)
	switch {
	case errors.Is(err, flag.ErrHelp):
		fmt.Fprint(out, help)
		return done
	case err != nil:
		fmt.Fprintf(complain, "evaluate: %v\nevaluate -h says what there is\n", err)
		return misusage
	}
	if err := o.evaluate(out, complain); err != nil {
		fmt.Fprintf(complain, "evaluate: %v\n", err)
		return faulty
	}
	return done
}

func (o *options) evaluate(out, complain io.Writer) error {
	c, err := o.readAll()
	if err != nil {
		return err
	}
	r, err := o.measure(c, progressOn(complain, o.steps*max(1, o.folds)))
	if err != nil {
		return err
	}
	text := r.text(o)
	if o.json {
		if text, err = r.json(); err != nil {
			return err
		}
	}
	_, err = io.WriteString(out, text)
	return err
}
