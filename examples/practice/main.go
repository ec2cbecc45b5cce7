// Practice prints what there is to play over a tune, in any key. Without
// arguments it reads a tune of its own; -h says what else it reads and how.
package main

import (
	_ "embed"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"

	"fifthwise/examples/internal/command"
	"fifthwise/pkg/chart"
	"fifthwise/pkg/chart/file"
	"fifthwise/pkg/function"
	"fifthwise/pkg/key"
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
	inKey, err := s.inKey(f.Chart)
	if err == nil {
		_, err = io.WriteString(out, s.page(inKey))
	}
	if err != nil {
		return c.Fail(err)
	}
	return command.Done
}

// style is how the tune is written.
type style struct {
	key         key.Key // invalid: the tune's own
	instrument  key.Instrument
	accidentals pitch.Accidentals
}

// options reads the arguments; options may stand behind the file.
func options(args []string) (s style, path string, err error) {
	set := flag.NewFlagSet("practice", flag.ContinueOnError)
	set.TextVar(&s.key, "key", key.Key{}, "")
	set.TextVar(&s.instrument, "instrument", key.Concert, "")
	set.Func("accidentals", "", command.Accidentals(&s.accidentals))
	err = command.Parse(set, args, command.One("chart", &path))
	return s, path, err
}

// inKey is the chart in the key that was asked for, as the instrument reads it.
func (s style) inKey(c chart.Chart) (chart.Chart, error) {
	if !s.key.IsValid() && s.instrument == key.Concert {
		return c, nil
	}
	a := function.Analyze(c)
	from := c.Key
	if !from.IsValid() {
		from = a.Home
	}
	if !from.IsValid() {
		return c, errors.New("no key is stated, and none can be read from a chart in which nothing sounds")
	}
	to := s.key
	if !to.IsValid() {
		to = from
	}
	if s.instrument != key.Concert {
		to = s.instrument.Key(to)
	}
	return c.TransposeTo(from, to, a.Passages()...)
}
