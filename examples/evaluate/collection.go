package main

import (
	"fmt"
	"maps"
	"os"
	"slices"

	"fifthwise/pkg/evaluate"
	"fifthwise/pkg/function"
)

// collection is the pieces of all files, one file's after the other's.
type collection struct {
	names  []string
	ends   []int // of each file's pieces
	pieces []evaluate.Piece
}

func (o *options) readAll() (*collection, error) {
	c := &collection{names: o.files}
	for _, name := range o.files {
		pieces, err := read(name)
		if err != nil {
			return nil, err
		}
		c.pieces = append(c.pieces, pieces...)
		c.ends = append(c.ends, len(c.pieces))
	}
	return c, o.markTonicOnly(c.pieces)
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

// byFile is the pieces of each file.
func (c *collection) byFile() (files [][]evaluate.Piece) {
	from := 0
	for _, to := range c.ends {
		files = append(files, c.pieces[from:to])
		from = to
	}
	return files
}

// rows adds the results of pieces, each read so many times, up by file, and for
// all.
func (c *collection) rows(fold string, results []evaluate.Result, times int) (rows []row) {
	var all evaluate.Result
	from := 0
	for i, to := range c.ends {
		var sum evaluate.Result
		for _, r := range results[from:to] {
			sum = sum.Add(r)
		}
		from = to
		rows = append(rows, row{c.names[i], fold, times, sum})
		all = all.Add(sum)
	}
	return append(rows, row{"all", fold, times, all})
}

// measure fits, if that is asked for, and reads all pieces.
func (o *options) measure(c *collection, p *progress) (*report, error) {
	weights, err := o.start()
	if err != nil {
		return nil, err
	}
	examples := evaluate.Weigh(c.byFile(), o.shares)
	fit := evaluate.Fit{Start: weights, Pull: evaluate.Pulls(o.pull), Steps: o.steps, Watch: p.step}
	defer p.clear()
	if o.folds > 0 {
		folds, err := fit.Folds(examples, o.folds)
		if err != nil {
			return nil, fmt.Errorf("-folds: %w", err)
		}
		return &report{
			rows:  slices.Concat(c.rows("in", folds.In, o.folds-1), c.rows("out", folds.Out, 1)),
			worst: evaluate.Worst(c.pieces, folds.Readings, o.worst),
		}, nil
	}
	if o.fit != "" {
		if weights, err = fitTo(o.fit, &fit, examples); err != nil {
			return nil, err
		}
	}
	m := function.NewModel(weights)
	readings := evaluate.Analyze(c.pieces, function.WithModel(m))
	return &report{
		rows:  c.rows("", evaluate.Measure(c.pieces, readings, m), 1),
		worst: evaluate.Worst(c.pieces, readings, o.worst),
	}, nil
}

// start is the costs to read with or to start fitting from.
func (o *options) start() (w function.Weights, err error) {
	w = function.Default()
	if o.weights != "" {
		if w, err = readWeights(o.weights); err != nil {
			return w, err
		}
	}
	if o.blank {
		w = evaluate.Blank(w)
	}
	return w, nil
}

func readWeights(name string) (function.Weights, error) {
	file, err := os.Open(name)
	if err != nil {
		return function.Weights{}, err
	}
	defer file.Close()
	w, err := evaluate.ReadWeights(file)
	if err != nil {
		return w, fmt.Errorf("%s: %w", name, err)
	}
	return w, nil
}

// fitTo opens the file before it fits, so that no fit is lost to a wrong name.
func fitTo(name string, fit *evaluate.Fit, examples []evaluate.Example) (w function.Weights, err error) {
	file, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE, 0o666)
	if err != nil {
		return w, err
	}
	defer file.Close()
	w = evaluate.Rounded(fit.Run(examples))
	if err := file.Truncate(0); err != nil {
		return w, err
	}
	if err := evaluate.WriteWeights(file, w); err != nil {
		return w, err
	}
	return w, file.Close()
}
