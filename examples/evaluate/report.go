package main

import (
	"fmt"
	"slices"
	"strings"

	"fifthwise/pkg/evaluate"
)

// report is what is printed.
type report struct {
	rows  []row
	worst []evaluate.Passage
}

// row is the result of a file, or of all.
type row struct {
	file   string
	fold   string // in or out; "" without folds
	times  int    // each piece was read
	result evaluate.Result
}

func (r *row) pieces() int { return r.result.Score.Pieces / r.times }
func (r *row) chords() int { return r.result.Score.Chords / r.times }

func (r *report) text(o *options) string {
	var page strings.Builder
	page.WriteString(r.scores())
	if o.calibration {
		page.WriteString("\n" + r.calibrations())
		page.WriteString("\n" + reliability(&r.rows[len(r.rows)-1].result.Calibration))
	}
	for i, p := range r.worst {
		page.WriteString("\n" + passage(i+1, &p))
	}
	return page.String()
}

// table has a line for each row.
func (r *report) table(columns []any, cells func(*row) []any) string {
	t := table{align: "<" + strings.Repeat(">", len(columns))}
	folds := r.rows[0].fold != ""
	add := func(file, fold string, cells []any) {
		line := slices.Concat([]any{file, fold}, cells)
		if !folds {
			line = slices.Delete(line, 1, 2)
		}
		t.add(line...)
	}
	if folds {
		t.align = "<" + t.align
	}
	add("file", "fold", columns)
	for i := range r.rows {
		add(r.rows[i].file, r.rows[i].fold, cells(&r.rows[i]))
	}
	return t.String()
}

// scores is the table of accuracy.
func (r *report) scores() string {
	columns := []any{"pieces", "chords", "key", "tonic", "weighted", "changes", "label", "applied", "margin"}
	return r.table(columns, func(r *row) []any {
		s := r.result.Score
		return []any{r.pieces(), r.chords(), s.KeyShare(), s.TonicShare(), s.WeightedShare(), s.ChangesF1(),
			s.LabelShare(), s.AppliedF1(), r.result.Margin.Mean()}
	})
}

// calibrations is the table of how well confidences are kept.
func (r *report) calibrations() string {
	return r.table([]any{"labels", "confidence", "right", "error", "brier"}, func(r *row) []any {
		c := &r.result.Calibration
		all := c.All()
		n := float64(all.Chords)
		return []any{all.Chords / r.times, all.Confidence / n, float64(all.Right) / n, c.Error(), c.Brier()}
	})
}

// reliability is the table of labels given, by tenths of their confidence.
func reliability(c *evaluate.Calibration) string {
	t := table{align: "<>>>"}
	t.add("confidence", "chords", "mean", "right")
	tenth := 1 / float64(len(c))
	for i, b := range c {
		n := float64(b.Chords)
		t.add(fmt.Sprintf("%.1f to %.1f", float64(i)*tenth, float64(i+1)*tenth), b.Chords, b.Confidence/n, float64(b.Right)/n)
	}
	return t.String() + "expected calibration error " + share(c.Error()) + "\nBrier score " + share(c.Brier()) + "\n"
}
