// Practice prints what there is to play over a tune, in any key. Without
// arguments it reads a tune of its own; -h says what else it reads and how.
package main

import (
	_ "embed"
	"flag"
	"fmt"
	"io"
	"os"

	"fifthwise/examples/internal/command"
	"fifthwise/pkg/chart/file"
	"fifthwise/pkg/pitch"
)

//go:embed tune.txt
var tune []byte

//go:embed help.txt
var help string

func main() { os.Exit(run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr)) }

func run(args []string, in io.Reader, out, complain io.Writer) int {
	c := command.Command{Name: "practice", Help: help, Out: out, Complain: complain}
	s, path, err := options(args)
	if err != nil {
		return c.Refuse(err)
	}
	name, data := "tune.txt", tune
	if path != "" {
		if name, data, err = command.Read(path, in); err != nil {
			return c.Fail(err)
		}
	}
	f, err := file.Read(data)
	if err != nil {
		for _, e := range command.Faults(err) {
			fmt.Fprintf(complain, "%s: %v\n", name, e)
		}
		return command.Faulty
	}
	part, err := s.part.Of(f.Chart)
	if err == nil {
		_, err = io.WriteString(out, s.page(part))
	}
	if err != nil {
		return c.Fail(err)
	}
	return command.Done
}

// style is how the tune is written.
type style struct {
	part        command.Part
	accidentals pitch.Accidentals
}

// options reads the arguments; options may stand behind the file.
func options(args []string) (s style, path string, err error) {
	set := flag.NewFlagSet("practice", flag.ContinueOnError)
	s.part.Flags(set)
	set.Func("accidentals", "", command.Accidentals(&s.accidentals))
	err = command.Parse(set, args, command.One("chart", &path))
	return s, path, err
}
