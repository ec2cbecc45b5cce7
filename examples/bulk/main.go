// Bulk reads charts by the million: files, folders or a stream in, a row a chart
// out. -h says how.
package main

import (
	_ "embed"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"runtime/debug"
)

//go:embed help.txt
var help string

// Exit statuses.
const (
	done     = 0
	faulty   = 1 // a chart has faults, or a file cannot be read or written
	misusage = 2
)

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
	o, err := parse(args)
	if err == nil && len(o.inputs) == 0 && isTerminal(in) {
		err = errors.New("expected files or folders, or charts on standard input")
	}
	switch {
	case errors.Is(err, flag.ErrHelp):
		fmt.Fprint(out, help)
		return done
	case err != nil:
		fmt.Fprintf(complain, "bulk: %v\nbulk -h says what there is\n", err)
		return misusage
	}
	t, err := o.bulk(in, out, complain)
	if err != nil {
		fmt.Fprintf(complain, "bulk: %v\n", err)
	}
	if err != nil || t.bad > 0 {
		return faulty
	}
	return done
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
