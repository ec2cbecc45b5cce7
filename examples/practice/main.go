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

// Exit statuses.
const (
	done     = 0
	faulty   = 1 // the chart has faults or cannot be read
	misusage = 2
)

func main() { os.Exit(run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr)) }

func run(args []string, in io.Reader, out, complain io.Writer) int {
	s, path, err := options(args)
	switch {
	case errors.Is(err, flag.ErrHelp):
		fmt.Fprint(out, help)
		return done
	case err != nil:
		fmt.Fprintf(complain, "practice: %v\npractice -h says what there is\n", err)
		return misusage
	}
	name, data, err := read(path, in)
	if err != nil {
		fmt.Fprintf(complain, "practice: %v\n", err)
		return faulty
	}
	f, err := file.Read(data)
	if err != nil {
		writeFaults(complain, name, err)
		return faulty
	}
	c, err := s.inKey(f.Chart)
	if err == nil {
		_, err = io.WriteString(out, s.page(c))
	}
	if err != nil {
		fmt.Fprintf(complain, "practice: %v\n", err)
		return faulty
	}
	return done
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
	set.SetOutput(io.Discard)
	set.TextVar(&s.key, "key", key.Key{}, "")
	set.TextVar(&s.instrument, "instrument", key.Concert, "")
	set.Func("accidentals", "", s.setAccidentals)
	for len(args) > 0 {
		if err := set.Parse(args); err != nil {
			return s, "", err
		}
		if args = set.Args(); len(args) == 0 {
			break
		}
		if path != "" {
			return s, "", fmt.Errorf("expected one chart, not both %q and %q", path, args[0])
		}
		path, args = args[0], args[1:]
	}
	return s, path, nil
}

func (s *style) setAccidentals(value string) error {
	switch value {
	case "ascii":
		s.accidentals = pitch.ASCII
	case "unicode":
		s.accidentals = pitch.Unicode
	default:
		return errors.New("expected ascii or unicode")
	}
	return nil
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

// read is the content of the chart's file and its name.
func read(path string, in io.Reader) (name string, data []byte, err error) {
	switch path {
	case "":
		return "tune.txt", tune, nil
	case "-":
		name = "standard input"
	default:
		f, err := os.Open(path)
		if err != nil {
			return path, nil, err
		}
		defer f.Close()
		name, in = path, f
	}
	data, err = io.ReadAll(io.LimitReader(in, file.MaxBytes+1))
	if err == nil && len(data) > file.MaxBytes {
		err = fmt.Errorf("%s: the file has more than %d MiB", name, file.MaxBytes>>20)
	}
	return name, data, err
}

// writeFaults tells all that is wrong with a chart, a line each.
func writeFaults(w io.Writer, name string, err error) {
	all := []error{err}
	if list, ok := err.(interface{ Unwrap() []error }); ok {
		all = list.Unwrap()
	}
	for _, e := range all {
		fmt.Fprintf(w, "%s: %v\n", name, e)
	}
}
