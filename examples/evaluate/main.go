// Evaluate measures readings against those of human analysts, and fits the costs
// of readings to them. -h says how.
package main

import (
	_ "embed"
	"io"
	"os"

	"fifthwise/examples/internal/command"
)

//go:embed help.txt
var help string

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

func run(args []string, out, complain io.Writer) int {
	c := command.Command{Name: "evaluate", Help: help, Out: out, Complain: complain}
	o, err := parse(args)
	if err != nil {
		return c.Refuse(err)
	}
	if err := o.evaluate(out, complain); err != nil {
		return c.Fail(err)
	}
	return command.Done
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
