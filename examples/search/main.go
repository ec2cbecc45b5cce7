// Search finds which charts of a folder share passages with a chart, whatever
// their keys. -h says how.
package main

import (
	_ "embed"
	"errors"
	"flag"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strconv"
	"strings"

	"fifthwise/examples/internal/command"
	"fifthwise/pkg/chart"
	"fifthwise/pkg/chart/file"
	"fifthwise/pkg/phrase"
)

//go:embed help.txt
var help string

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

// search is what is asked for.
type search struct {
	from, to int // written bars; 0: the whole chart
	least    int // bars of a passage
	chart    string
	folders  []string
}

func run(args []string, out, complain io.Writer) int {
	c := command.Command{Name: "search", Help: help, Out: out, Complain: complain}
	s, err := options(args)
	if err != nil {
		return c.Refuse(err)
	}
	tune, err := read(s.chart)
	if err != nil {
		return c.Fail(fmt.Errorf("%s: %w", s.chart, err))
	}
	var index phrase.Index
	events := tune.Played()
	index.Add(s.chart, events)
	status := command.Done
	for _, folder := range s.folders {
		err := filepath.WalkDir(folder, func(path string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() || same(path, s.chart) {
				return err
			}
			c, err := read(path)
			if err != nil {
				fmt.Fprintf(complain, "%s: %v\n", path, err)
				status = command.Faulty
				return nil
			}
			index.Add(path, c.Played())
			return nil
		})
		if err != nil {
			return c.Fail(err)
		}
	}
	if s.from > 0 {
		return max(status, s.passage(&index, events, c))
	}
	s.shared(&index, events, out)
	return status
}

func options(args []string) (s search, err error) {
	set := flag.NewFlagSet("search", flag.ContinueOnError)
	set.SetOutput(io.Discard)
	set.IntVar(&s.least, "least", 4, "")
	set.Func("bars", "", func(value string) (err error) {
		from, to, found := strings.Cut(value, "-")
		s.from, err = strconv.Atoi(from)
		if err == nil && found {
			s.to, err = strconv.Atoi(to)
		}
		if err != nil || !found || s.from < 1 || s.to <= s.from {
			return errors.New("expected two bars or more, such as 17-24")
		}
		return nil
	})
	if err := set.Parse(args); err != nil {
		return s, err
	}
	if set.NArg() < 2 {
		return s, errors.New("expected a chart and a folder to search")
	}
	if s.least < 2 {
		return s, errors.New("-least: a passage has two bars or more")
	}
	s.chart, s.folders = set.Arg(0), set.Args()[1:]
	return s, nil
}

func read(path string) (chart.Chart, error) {
	data, err := os.ReadFile(path)
	if err != nil {
		return chart.Chart{}, err
	}
	f, err := file.Read(data)
	return f.Chart, err
}

func same(a, b string) bool {
	x, err := os.Stat(a)
	y, other := os.Stat(b)
	return err == nil && other == nil && os.SameFile(x, y)
}

// passage tells where some bars of the chart stand elsewhere.
func (s *search) passage(index *phrase.Index, events []chart.Event, c command.Command) int {
	var bars []chart.Event
	for _, e := range events {
		if e.Pass == 1 && e.Bar >= s.from && e.Bar <= s.to {
			bars = append(bars, e)
		}
	}
	if len(bars) == 0 {
		_ = c.Fail(fmt.Errorf("%s: no chord starts in bars %d to %d", s.chart, s.from, s.to))
		return command.Misusage
	}
	found := 0
	for _, p := range index.Find(bars) {
		if p.Chart > 0 {
			fmt.Fprintln(c.Out, told(p))
			found++
		}
	}
	if found == 0 {
		fmt.Fprintln(c.Out, "no other chart has these bars")
	}
	return command.Done
}

// shared tells what passages of the chart stand elsewhere.
func (s *search) shared(index *phrase.Index, events []chart.Event, out io.Writer) {
	shared := index.Shared(0, s.least)
	for _, g := range shared {
		fmt.Fprintf(out, "%s\n", stretch(events, g.First, g.Bars))
		for _, p := range g.Places {
			fmt.Fprintf(out, "  %s\n", told(p))
		}
	}
	if len(shared) == 0 {
		fmt.Fprintf(out, "no other chart shares %d bars with it\n", s.least)
	}
}

// stretch names bars as played by their written numbers.
func stretch(events []chart.Event, first, bars int) string {
	number := func(measure int) int {
		n := 0
		for _, e := range events {
			if e.Measure <= measure {
				n = e.Bar + measure - e.Measure
			}
		}
		return n
	}
	return fmt.Sprintf("bars %d–%d", number(first), number(first+bars-1))
}

func told(p phrase.Place) string {
	s := fmt.Sprintf("%s, bar %d as played", p.Name, p.First+1)
	if p.Motion != 0 {
		s += ", " + p.Motion.String()
	}
	return s
}
