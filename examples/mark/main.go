// Mark marks students' answers to a chart: a table of all, and a page each. Without
// arguments it marks three answers of its own; -h says what else.
package main

import (
	"cmp"
	"embed"
	"errors"
	"flag"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"

	"fifthwise/examples/internal/command"
	"fifthwise/pkg/function"
	"fifthwise/pkg/pitch"
)

//go:embed demo
var demo embed.FS

//go:embed help.txt
var help string

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

func run(args []string, out, complain io.Writer) int {
	c := command.Command{Name: "mark", Help: help, Out: out, Complain: complain}
	o, err := parse(args)
	if err != nil {
		return c.Refuse(err)
	}
	isGood, err := o.mark(out, complain)
	switch {
	case err != nil:
		return c.Fail(err)
	case !isGood:
		return command.Faulty
	}
	return command.Done
}

// options are the program's arguments.
type options struct {
	chart       string // a file; empty: the program's own chart and answers
	answers     string // a folder
	out         string // a folder; empty: no pages are written
	numerals    function.NumeralStyle
	accidentals pitch.Accidentals
}

// parse reads the arguments; options may stand behind the folder.
func parse(args []string) (o options, err error) {
	set := flag.NewFlagSet("mark", flag.ContinueOnError)
	set.StringVar(&o.chart, "chart", "", "")
	set.StringVar(&o.out, "out", "", "")
	set.TextVar(&o.numerals, "numerals", function.Upper, "")
	set.Func("accidentals", "", command.Accidentals(&o.accidentals))
	err = command.Parse(set, args, command.One("folder of answers", &o.answers))
	switch {
	case err != nil:
		return o, err
	case o.answers != "" && o.chart == "":
		return o, errors.New("expected the chart that the answers are about: -chart FILE")
	case o.answers == "" && o.chart != "":
		return o, errors.New("expected a folder of answers behind the chart")
	}
	return o, nil
}

// mark marks all answers; it is false where one has faults.
func (o *options) mark(out, complain io.Writer) (isGood bool, err error) {
	chart, folder := os.DirFS(filepath.Dir(o.chart)), os.DirFS(o.answers)
	name, said := filepath.Base(o.chart), filepath.Clean(o.answers)
	if o.chart == "" {
		chart, _ = fs.Sub(demo, "demo") // a name that is sound
		folder, _ = fs.Sub(demo, "demo/answers")
		name, said = "chart.txt", "demo/answers"
	}
	task, err := o.read(chart, name)
	if err != nil {
		writeFaults(complain, cmp.Or(o.chart, name), err)
		return false, nil
	}
	names, err := answersIn(folder, said)
	if err != nil {
		return false, err
	}
	var list []*student
	isGood = true
	for _, n := range names {
		if filepath.Join(said, n) == filepath.Clean(o.chart) {
			continue
		}
		s, err := task.student(folder, n)
		if err != nil {
			isGood = false
			writeFaults(complain, filepath.Join(said, n), err)
		}
		list = append(list, s)
	}
	if _, err := io.WriteString(out, task.table(list)); err != nil {
		return false, err
	}
	return isGood, o.writePages(out, task, list)
}

// writePages writes the page of every answer that was marked.
func (o *options) writePages(out io.Writer, task *task, list []*student) error {
	if o.out != "" {
		if err := os.MkdirAll(o.out, 0o755); err != nil {
			return err
		}
	}
	for _, s := range list {
		if s.answer == nil {
			continue
		}
		page := task.page(s)
		var err error
		switch {
		case o.out != "":
			err = os.WriteFile(filepath.Join(o.out, s.pageName()), []byte(page), 0o644)
		case o.chart == "":
			_, err = fmt.Fprintf(out, "\n%s", page)
		}
		if err != nil {
			return err
		}
	}
	return nil
}
