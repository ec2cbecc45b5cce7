// Bulk reads charts by the million: files, folders or a stream in, a row a chart
// out. -h says how.
package main

import (
	_ "embed"
	"errors"
	"io"
	"os"
	"runtime/debug"

	"fifthwise/examples/internal/command"
)

//go:embed help.txt
var help string

// gcPercent trades some tens of megabytes for time: what lives is small, a few
// charts at a time and the tally, but each chart leaves 100 kB behind.
const gcPercent = 800

func main() {
	if os.Getenv("GOGC") == "" {
		debug.SetGCPercent(gcPercent)
	}
	os.Exit(run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr))
}

func run(args []string, in *os.File, out, complain io.Writer) int {
	c := command.Command{Name: "bulk", Help: help, Out: out, Complain: complain}
	o, err := parse(args)
	if err == nil && len(o.inputs) == 0 && command.IsTerminal(in) {
		err = errors.New("expected files or folders, or charts on standard input")
	}
	if err != nil {
		return c.Refuse(err)
	}
	t, err := o.bulk(in, out, complain)
	switch {
	case err != nil:
		return c.Fail(err)
	case t.bad > 0:
		return command.Faulty
	}
	return command.Done
}

// bulk reads all charts and writes rows and summary. The tally is that of all
// rows, those found in a file that is gone on with too.
func (o *options) bulk(stdin *os.File, stdout, complain io.Writer) (*tally, error) {
	t := newTally()
	to, err := o.open(stdout, t)
	if err != nil {
		return t, err
	}
	in := &inputs{names: o.inputs, stdin: stdin, except: to.info, skip: to.found}
	w := &writer{options: o, output: to, tally: t, complain: complain, progress: progressOn(complain, in)}
	err = errors.Join(w.all(in), to.close())
	if err != nil {
		return t, err
	}
	summary := t.summary(o.top)
	if o.out == "" {
		stdout = complain // rows stand there
	}
	if _, err := io.WriteString(stdout, summaryText(summary)); err != nil {
		return t, err
	}
	if o.summary != "" {
		return t, os.WriteFile(o.summary, append(summary.JSON(), '\n'), 0o644)
	}
	return t, nil
}
