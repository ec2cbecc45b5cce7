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

	"fifthwise/pkg/chart/abc"
	"fifthwise/pkg/chart/file"
	"fifthwise/pkg/function"
	"fifthwise/pkg/sheet"
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
		fmt.Fprintf(complain, "analyze: %v\nanalyze -h says what there is\n", err)
		return misusage
	}
	name, data, err := read(path, in)
	if err != nil {
		fmt.Fprintf(complain, "analyze: %v\n", err)
		return faulty
	}
	f, err := s.chart(data)
	if err != nil {
		writeFaults(complain, name, string(data), err)
		return faulty
	}
	written, err := s.write(f, complain)
	if err == nil {
		_, err = out.Write(written)
	}
	if err != nil {
		fmt.Fprintf(complain, "analyze: %v\n", err)
		return faulty
	}
	return done
}

// chart reads the chart of a file, or one tune of a book in ABC.
func (s style) chart(data []byte) (file.File, error) {
	if s.tune == 0 {
		return file.Read(data)
	}
	for t, err := range abc.Tunes(data) {
		if t.Number == s.tune || t.Number == 0 && err != nil {
			return file.File{Chart: t.Chart, Format: file.ABC}, err
		}
	}
	return file.File{}, fmt.Errorf("the file has no tune X:%d", s.tune)
}

// write is the page of a chart, or its file with the reading's words. A file has
// no place for warnings; they are told apart from it.
func (s style) write(f file.File, complain io.Writer) ([]byte, error) {
	if s.format == 0 && !s.drawn {
		return []byte(render(f.Chart, s)), nil
	}
	a := function.Analyze(f.Chart, function.Written(s.numerals, s.accidentals))
	for _, w := range a.Warnings {
		fmt.Fprintf(complain, "bar %d: %s\n", w.Bar, w.Message)
	}
	layout := sheet.Style{Numerals: s.numerals, Accidentals: s.accidentals, Steps: true}
	if s.drawn {
		return sheet.SVG(f.Chart, &a, layout), nil
	}
	if s.format != file.Text && !f.Chart.Key.IsValid() {
		f.Chart.Key = a.Home // whose signature notation writes
	}
	return f.Write(s.format, sheet.Marks(a, layout, f.Measures()))
}

// options reads the arguments; options may stand behind the file.
func options(args []string) (s style, path string, err error) {
	s.reasons = some
	set := flag.NewFlagSet("analyze", flag.ContinueOnError)
	set.SetOutput(io.Discard)
	set.TextVar(&s.numerals, "numerals", function.Upper, "")
	set.Func("accidentals", "", s.setAccidentals)
	set.Func("alternatives", "", s.setAlternatives)
	set.Func("reasons", "", s.setReasons)
	set.Func("format", "", s.setFormat)
	set.IntVar(&s.tune, "tune", 0, "")
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
