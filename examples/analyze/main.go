// Analyze prints a chart with its reading. Without arguments it reads a tune of
// its own; -h says what else it reads and how.
package main

import (
	_ "embed"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"

	"fifthwise/pkg/chart"
	"fifthwise/pkg/function"
)

//go:embed tune.txt
var tune string

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
	s, file, err := options(args)
	switch {
	case errors.Is(err, flag.ErrHelp):
		fmt.Fprint(out, help)
		return done
	case err != nil:
		fmt.Fprintf(complain, "analyze: %v\nanalyze -h says what there is\n", err)
		return misusage
	}
	name, text, err := read(file, in)
	if err != nil {
		fmt.Fprintf(complain, "analyze: %v\n", err)
		return faulty
	}
	c, err := chart.Parse(text)
	var faults chart.ErrorList
	if errors.As(err, &faults) {
		writeFaults(complain, name, text, faults)
		return faulty
	}
	if _, err := io.WriteString(out, render(c, s)); err != nil {
		fmt.Fprintf(complain, "analyze: %v\n", err)
		return faulty
	}
	return done
}

// options reads the arguments; options may stand behind the file.
func options(args []string) (s style, file string, err error) {
	s.reasons = some
	set := flag.NewFlagSet("analyze", flag.ContinueOnError)
	set.SetOutput(io.Discard)
	set.TextVar(&s.numerals, "numerals", function.Upper, "")
	set.Func("accidentals", "", s.setAccidentals)
	set.Func("alternatives", "", s.setAlternatives)
	set.Func("reasons", "", s.setReasons)
	for len(args) > 0 {
		if err := set.Parse(args); err != nil {
			return s, "", err
		}
		if args = set.Args(); len(args) == 0 {
			break
		}
		if file != "" {
			return s, "", fmt.Errorf("expected one chart, not both %q and %q", file, args[0])
		}
		file, args = args[0], args[1:]
	}
	return s, file, nil
}

// maxText bounds the text of a chart, in bytes.
const maxText = 8 << 20

// read is the text of the chart and its name.
func read(file string, in io.Reader) (name, text string, err error) {
	switch file {
	case "":
		return "tune.txt", tune, nil
	case "-":
		name = "standard input"
	default:
		f, err := os.Open(file)
		if err != nil {
			return file, "", err
		}
		defer f.Close()
		name, in = file, f
	}
	data, err := io.ReadAll(io.LimitReader(in, maxText+1))
	if err == nil && len(data) > maxText {
		err = fmt.Errorf("%s: the text is longer than %d bytes", name, maxText)
	}
	return name, string(data), err
}
