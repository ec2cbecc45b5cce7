// Evaluate measures readings against those of human analysts. -h says how.
package main

import (
	_ "embed"
	"errors"
	"flag"
	"fmt"
	"io"
	"maps"
	"os"
	"slices"
	"strconv"
	"strings"

	"fifthwise/pkg/evaluate"
	"fifthwise/pkg/function"
)

//go:embed help.txt
var help string

// Exit statuses.
const (
	done     = 0
	faulty   = 1 // a file cannot be read
	misusage = 2
)

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

func run(args []string, out, complain io.Writer) int {
	o, err := parse(args)
	switch {
	case errors.Is(err, flag.ErrHelp):
		fmt.Fprint(out, help)
		return done
	case err != nil:
		fmt.Fprintf(complain, "evaluate: %v\nevaluate -h says what there is\n", err)
		return misusage
	}
	text, err := o.report()
	if err == nil {
		_, err = io.WriteString(out, text)
	}
	if err != nil {
		fmt.Fprintf(complain, "evaluate: %v\n", err)
		return faulty
	}
	return done
}

type options struct {
	worst       int
	calibration bool
	tonicOnly   []string // corpora
	files       []string
}

// parse reads the arguments; options may stand behind files.
func parse(args []string) (o options, err error) {
	set := flag.NewFlagSet("evaluate", flag.ContinueOnError)
	set.SetOutput(io.Discard)
	set.Func("worst", "", o.setWorst)
	set.BoolVar(&o.calibration, "calibration", false, "")
	set.Func("tonic-only", "", o.setTonicOnly)
	for len(args) > 0 {
		if err := set.Parse(args); err != nil {
			return o, err
		}
		if args = set.Args(); len(args) > 0 {
			o.files, args = append(o.files, args[0]), args[1:]
		}
	}
	if len(o.files) == 0 {
		return o, errors.New("expected at least one file of annotated pieces")
	}
	return o, nil
}

func (o *options) setWorst(value string) (err error) {
	if o.worst, err = strconv.Atoi(value); err != nil || o.worst < 0 {
		return errors.New("expected a number from 0")
	}
	return nil
}

func (o *options) setTonicOnly(value string) error {
	o.tonicOnly = append(o.tonicOnly, strings.Split(value, ",")...)
	return nil
}

// report reads all files and says how they are read.
func (o *options) report() (string, error) {
	var all []evaluate.Piece
	var ends []int // of each file's pieces in all
	for _, name := range o.files {
		pieces, err := read(name)
		if err != nil {
			return "", err
		}
		all = append(all, pieces...)
		ends = append(ends, len(all))
	}
	if err := o.markTonicOnly(all); err != nil {
		return "", err
	}
	readings := evaluate.Analyze(all)
	var page strings.Builder
	page.WriteString(o.scores(all, readings, ends))
	if o.calibration {
		page.WriteString("\n" + calibration(all, readings))
	}
	for i, p := range evaluate.Worst(all, readings, o.worst) {
		page.WriteString("\n" + passage(i+1, &p))
	}
	return page.String(), nil
}

func read(name string) ([]evaluate.Piece, error) {
	file, err := os.Open(name)
	if err != nil {
		return nil, err
	}
	defer file.Close()
	pieces, err := evaluate.Read(file)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	return pieces, nil
}

// markTonicOnly marks the pieces of the corpora of -tonic-only, each of which
// must have some.
func (o *options) markTonicOnly(pieces []evaluate.Piece) error {
	corpora := map[string]bool{}
	for i := range pieces {
		p := &pieces[i]
		corpora[p.Corpus] = true
		p.TonicOnly = p.TonicOnly || slices.Contains(o.tonicOnly, p.Corpus)
	}
	for _, name := range o.tonicOnly {
		if !corpora[name] {
			return fmt.Errorf("-tonic-only: no piece is of the corpus %q; there are %q", name, slices.Sorted(maps.Keys(corpora)))
		}
	}
	return nil
}

// scores is the table of accuracy.
func (o *options) scores(pieces []evaluate.Piece, readings []function.Analysis, ends []int) string {
	t := table{align: "<>>>>>>>>"}
	t.add("file", "pieces", "chords", "key", "tonic", "weighted", "changes", "label", "applied")
	add := func(name string, s evaluate.Score) {
		t.add(name, s.Pieces, s.Chords, s.KeyShare(), s.TonicShare(), s.WeightedShare(), s.ChangesF1(), s.LabelShare(), s.AppliedF1())
	}
	var all evaluate.Score
	from := 0
	for i, name := range o.files {
		var s evaluate.Score
		for ; from < ends[i]; from++ {
			s = s.Add(evaluate.Compare(&pieces[from], &readings[from]))
		}
		add(name, s)
		all = all.Add(s)
	}
	add("all", all)
	return t.String()
}

// calibration is the table of labels given, by tenths of their confidence.
func calibration(pieces []evaluate.Piece, readings []function.Analysis) string {
	var c evaluate.Calibration
	for i := range pieces {
		c.Add(&pieces[i], &readings[i])
	}
	t := table{align: "<>>>"}
	t.add("confidence", "chords", "mean", "right")
	tenth := 1 / float64(len(c))
	for i, b := range c {
		n := float64(b.Chords)
		t.add(fmt.Sprintf("%.1f to %.1f", float64(i)*tenth, float64(i+1)*tenth), b.Chords, b.Confidence/n, float64(b.Right)/n)
	}
	return t.String() + "expected calibration error " + share(c.Error()) + "\n"
}
