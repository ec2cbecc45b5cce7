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
	"strings"

	"fifthwise/examples/internal/command"
	"fifthwise/pkg/chart/abc"
	"fifthwise/pkg/chart/file"
	"fifthwise/pkg/function"
	"fifthwise/pkg/key"
	"fifthwise/pkg/sheet"
)

//go:embed tune.txt
var tune []byte

//go:embed help.txt
var help string

func main() { os.Exit(run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr)) }

func run(args []string, in io.Reader, out, complain io.Writer) int {
	c := command.Command{Name: "analyze", Help: help, Out: out, Complain: complain}
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
	f, err := s.chart(data)
	if err != nil {
		writeFaults(complain, name, string(data), err)
		return command.Faulty
	}
	if f, err = s.inKey(f); err != nil {
		return c.Fail(err)
	}
	written, err := s.write(f, complain)
	if err == nil {
		_, err = out.Write(written)
	}
	if err != nil {
		return c.Fail(err)
	}
	return command.Done
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

// inKey is the file in the key that was asked for, or as the instrument reads it; a
// transposed chart has no file of its own that could stay as it was.
func (s style) inKey(f file.File) (file.File, error) {
	if s.part.IsAsIs() {
		return f, nil
	}
	c, err := s.part.Of(f.Chart)
	if i := s.part.Instrument; i != key.Concert {
		c.Title = strings.TrimSpace(c.Title + " (part in " + i.String() + ")")
	}
	return file.File{Chart: c, Format: f.Format}, err
}

// write is the page of a chart, or its file with the reading's words. A file has
// no place for warnings; they are told apart from it.
func (s style) write(f file.File, complain io.Writer) ([]byte, error) {
	if s.format == 0 && !s.drawn && !s.handout {
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
	if s.handout {
		return handout(f.Chart.Title, s.paper, sheet.Pages(f.Chart, &a, layout, s.paper)), nil
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
	set.TextVar(&s.numerals, "numerals", function.Upper, "")
	set.Func("accidentals", "", command.Accidentals(&s.accidentals))
	set.Func("alternatives", "", s.setAlternatives)
	set.Func("reasons", "", s.setReasons)
	set.Func("format", "", s.setFormat)
	s.part.Flags(set)
	set.TextVar(&s.paper, "paper", sheet.A4, "")
	set.IntVar(&s.tune, "tune", 0, "")
	err = command.Parse(set, args, command.One("chart", &path))
	set.Visit(func(f *flag.Flag) {
		if err == nil && f.Name == "paper" && !s.handout {
			err = errors.New("-paper is for pages to print: expected -format html with it")
		}
	})
	return s, path, err
}
