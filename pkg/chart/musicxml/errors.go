package musicxml

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"fifthwise/pkg/internal/complaint"
)

// Error is a fault of a file.
type Error struct {
	Part    string // its name, or its id; empty: the fault lies in no part
	Measure string // as numbered; empty: the fault lies in no measure
	Line    int    // from 1; 0: not known
	Symbol  string // of the chord; may be empty
	Msg     string // what is wrong, in lower case
	Hint    string // what would be right; may be empty
	cause   error
}

// Error says where the fault is, what is wrong and what would be right:
//
//	part "Lead", measure 17, line 203, "foo": the kind is none of MusicXML's (…)
func (e *Error) Error() string {
	var where []string
	if e.Part != "" {
		where = append(where, fmt.Sprintf("part %q", e.Part))
	}
	if e.Measure != "" {
		where = append(where, "measure "+e.Measure)
	}
	return complaint.Text(complaint.In(where, e.Line, 0, e.Symbol), e.Msg, e.Hint)
}

// clip bounds the words of a fault, so that a file full of them is told briefly.
func clip(words string) string {
	const most = 300 // bytes
	if len(words) <= most {
		return words
	}
	return strings.ToValidUTF8(words[:most], "") + "…"
}

// Unwrap is what the fault was found by, where that is another error.
func (e *Error) Unwrap() error { return e.cause }

// MaxErrors is how many faults of one file are told.
const MaxErrors = 1000

// ErrorList is all faults of a file, at most [MaxErrors], in its order.
type ErrorList []*Error

// Error says the faults one a line, at most ten.
func (l ErrorList) Error() string { return complaint.Lines(l) }

// Unwrap gives errors.Is and errors.As the single faults.
func (l ErrorList) Unwrap() []error { return complaint.Each(l) }

// orNil is the list, sorted, as an error: nil if it is empty.
func (l ErrorList) orNil() error {
	if len(l) == 0 {
		return nil
	}
	slices.SortStableFunc(l, func(a, b *Error) int { return cmp.Compare(a.Line, b.Line) })
	return l
}
