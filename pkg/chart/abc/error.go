package abc

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"unicode/utf8"

	"fifthwise/pkg/internal/complaint"
	"fifthwise/pkg/pitch"
)

// MaxErrors is how many faults of one tune are told.
const MaxErrors = 1000

// ErrNoChords is what the error of a tune without chord symbols wraps.
var ErrNoChords = errors.New("the tune holds no chord symbols")

// Error is a fault of a tune.
type Error struct {
	Tune   int    // the number after X:; 0: none
	Bar    int    // number of the bar; -1: the fault lies in no bar
	Line   int    // of the file, from 1; 0: the fault lies in no line
	Column int    // from 1, in code points
	Symbol string // the chord or field as written; may be empty
	Msg    string // what is wrong, in lower case
	Hint   string // what would be right; may be empty
	offset int    // in the line, in bytes
	cause  error
}

// Error says where the fault is, what is wrong and what would be right:
//
//	tune 3, bar 17, line 12, column 9, "Xm7": expected a root A to G or N.C.
func (e *Error) Error() string {
	var where []string
	if e.Tune > 0 {
		where = append(where, fmt.Sprintf("tune %d", e.Tune))
	}
	if e.Bar >= 0 {
		where = append(where, fmt.Sprintf("bar %d", e.Bar))
	}
	return complaint.Text(complaint.In(where, e.Line, e.Column, e.Symbol), e.Msg, e.Hint)
}

// explain takes over what the parser of a symbol or meter says.
func (e *Error) explain(err error) {
	e.Msg, e.cause = err.Error(), err
	var s *pitch.SyntaxError
	if errors.As(err, &s) {
		e.Msg, e.Hint = s.Msg, s.Hint
	}
}

// Unwrap is the parser's own error where a symbol or meter was not understood,
// the chart's where it does not validate, [ErrNoChords], or nil.
func (e *Error) Unwrap() error { return e.cause }

// ErrorList is all faults of a tune, at most [MaxErrors], in the order in which
// they stand in it.
type ErrorList []*Error

// Error says the faults one a line, at most ten.
func (l ErrorList) Error() string { return complaint.Lines(l) }

// Unwrap gives errors.Is and errors.As the single faults.
func (l ErrorList) Unwrap() []error { return complaint.Each(l) }

// sort brings the list into the order of the file.
func (l ErrorList) sort() {
	slices.SortStableFunc(l, func(a, b *Error) int {
		return cmp.Or(cmp.Compare(a.Line, b.Line), cmp.Compare(a.offset, b.offset))
	})
}

// locate fills in the columns of a sorted list from the lines of the tune.
func (l ErrorList) locate(text block) {
	for line := range text.lines() {
		column, from := 1, 0
		for len(l) > 0 && l[0].Line <= line.number {
			if to := min(l[0].offset, len(line.text)); l[0].Line == line.number {
				column += utf8.RuneCountInString(line.text[from:to])
				from = to
			}
			l[0].Column = column
			l = l[1:]
		}
	}
}
