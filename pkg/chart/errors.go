package chart

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"fifthwise/pkg/internal/complaint"
	"fifthwise/pkg/pitch"
)

// MaxErrors is how many faults of one chart are told.
const MaxErrors = 1000

// ErrTooLong is what the fault of a chart beyond [MaxPlayedBars] or
// [MaxPlayedChords] wraps.
var ErrTooLong = errors.New("the chart is too long")

// Error is a fault of a chart.
type Error struct {
	Bar          int    // number of the bar
	BarIndex     int    // its place in Chart.Bars; -1: the fault lies in no bar
	Chord        int    // place of the chord in its bar; -1: the fault lies in no chord
	Symbol       string // of the chord, or the mark as written; may be empty
	SymbolOffset int    // bytes into Symbol where the fault begins
	Line         int    // from 1; 0: the chart was not read from text
	Column       int    // from 1, in code points
	Offset       int    // from 0, in bytes
	Msg          string // what is wrong, in lower case
	Hint         string // what would be right; may be empty
	cause        error
}

// Error says where the fault is, what is wrong and what would be right:
//
//	bar 3, line 2, column 9, "b7": expected a root A to G in upper case (write B7 or Bm7)
func (e *Error) Error() string {
	var where []string
	if e.BarIndex >= 0 {
		where = append(where, fmt.Sprintf("bar %d", e.Bar))
	}
	return complaint.Text(complaint.In(where, e.Line, e.Column, e.Symbol), e.Msg, e.Hint)
}

// explain takes over what the parser of a symbol, key or number says.
func (e *Error) explain(err error) {
	e.Msg, e.cause = err.Error(), err
	var s *pitch.SyntaxError
	if errors.As(err, &s) {
		e.SymbolOffset, e.Msg, e.Hint = s.Offset, s.Msg, s.Hint
	}
}

// Unwrap is the parser's own error where a symbol, key, meter or number of
// beats was not understood, [ErrTooLong] where that is the fault, else nil.
func (e *Error) Unwrap() error { return e.cause }

// ErrorList is all faults of a chart, at most [MaxErrors], in the order in
// which they stand in it.
type ErrorList []*Error

// Error says the faults one a line, at most ten.
func (l ErrorList) Error() string { return complaint.Lines(l) }

// Unwrap gives errors.Is and errors.As the single faults.
func (l ErrorList) Unwrap() []error { return complaint.Each(l) }

// sort brings the list into the order of the chart.
func (l ErrorList) sort() {
	slices.SortStableFunc(l, func(a, b *Error) int {
		return cmp.Or(cmp.Compare(a.Offset, b.Offset), cmp.Compare(a.BarIndex, b.BarIndex), cmp.Compare(a.Chord, b.Chord))
	})
}

// orNil is the list, cut to its bound, as an error: nil if it is empty.
func (l ErrorList) orNil() error {
	if len(l) == 0 {
		return nil
	}
	return l[:min(len(l), MaxErrors)]
}

// locate fills in lines and columns of a sorted list from the offsets in text.
func (l ErrorList) locate(text string) {
	line, column, from := 1, 1, 0
	for _, e := range l {
		for {
			n := strings.IndexByte(text[from:e.Offset], '\n')
			if n < 0 {
				break
			}
			line, column, from = line+1, 1, from+n+1
		}
		column += utf8.RuneCountInString(text[from:e.Offset])
		from = e.Offset
		e.Line, e.Column = line, column
	}
}
