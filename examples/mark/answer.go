package main

import (
	"cmp"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"unicode/utf8"

	"fifthwise/examples/internal/plain"
	"fifthwise/pkg/chart"
	"fifthwise/pkg/review"
)

// fault is what is wrong at a place of an answer.
type fault struct {
	where     string // in JSON; empty in text
	line, col int    // from 1, in characters; 0: of the answer as a whole
	msg, hint string
}

func (f fault) Error() string {
	s := f.msg
	if f.hint != "" {
		s += " (" + f.hint + ")"
	}
	switch {
	case f.where != "":
		return ": " + f.where + ": " + s
	case f.line > 0:
		return fmt.Sprintf(":%d:%d: %s", f.line, f.col, s)
	}
	return ": " + s
}

// faults is all that is wrong with an answer.
type faults []fault

func (l faults) Error() string {
	lines := make([]string, len(l))
	for i, f := range l {
		lines[i] = f.Error()
	}
	return strings.Join(lines, "\n")
}

// err is nil where there are none; else they are in the order of the text, each
// told once.
func (l faults) err() error {
	if len(l) == 0 {
		return nil
	}
	slices.SortStableFunc(l, func(a, b fault) int { return cmp.Or(cmp.Compare(a.line, b.line), cmp.Compare(a.col, b.col)) })
	return slices.Compact(l)
}

// maxFaults is how many faults of a file are told.
const maxFaults = 20

// writeFaults tells what is wrong with a file.
func writeFaults(w io.Writer, name string, err error) {
	var list faults
	var inChart chart.ErrorList
	switch {
	case errors.As(err, &list):
	case errors.As(err, &inChart):
		for _, e := range inChart {
			list = append(list, fault{line: e.Line, col: e.Column, msg: e.Msg, hint: e.Hint})
		}
	default:
		for line := range strings.SplitSeq(err.Error(), "\n") {
			list = append(list, fault{msg: line})
		}
	}
	if more := len(list) - maxFaults; more > 0 {
		list = append(list[:maxFaults:maxFaults], fault{msg: "and " + plain.Counted(more, "more fault")})
	}
	for _, f := range list {
		fmt.Fprintf(w, "%s%v\n", printable(name), f)
	}
}

// given is an answer that was read, with the places of its numerals.
type given struct {
	review.Answer
	name   string
	places []word // of the numerals; nil for JSON
}

// located puts the faults of an answer where they are written.
func (g *given) located(err error) error {
	var list review.ErrorList
	if !errors.As(err, &list) {
		return err
	}
	var out faults
	for _, e := range list {
		f := fault{msg: e.Msg, hint: e.Hint}
		switch {
		case g.places == nil:
			f.where = fmt.Sprintf("%s/%d/%s", e.Field, e.Index, e.Part)
			f.where = "/" + strings.TrimSuffix(strings.TrimSuffix(f.where, "/"), "/-1")
		case e.Field == "numerals" && e.Index >= 0:
			w := g.places[e.Index]
			f.line, f.col = w.line, w.col+utf8.RuneCountInString(w.text[:min(e.Offset, len(w.text))])
			f.msg = fmt.Sprintf("%q: %s", w.text, e.Msg)
		}
		out = append(out, f)
	}
	return out.err()
}

// word is a word of an answer with its place.
type word struct {
	text      string
	line, col int
}
