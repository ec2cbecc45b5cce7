// Package command is what the example programs share as commands: how they end,
// how they read their arguments and a file, and what they show on a terminal.
package command

import (
	"errors"
	"flag"
	"fmt"
	"io"
)

// Exit statuses.
const (
	Done     = 0
	Faulty   = 1 // a chart has faults, or a file cannot be read or written
	Misusage = 2
)

// Command is a program that says why it ends.
type Command struct {
	Name     string
	Help     string // what -h prints
	Out      io.Writer
	Complain io.Writer
}

// Refuse tells what is wrong with the arguments, or the help that they ask for,
// and is the exit status.
func (c Command) Refuse(err error) int {
	if errors.Is(err, flag.ErrHelp) {
		fmt.Fprint(c.Out, c.Help)
		return Done
	}
	fmt.Fprintf(c.Complain, "%s: %v\n%[1]s -h says what there is\n", c.Name, err)
	return Misusage
}

// Fail tells an error, and is the exit status.
func (c Command) Fail(err error) int {
	fmt.Fprintf(c.Complain, "%s: %v\n", c.Name, err)
	return Faulty
}
