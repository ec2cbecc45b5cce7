package request

import (
	"fmt"
	"strconv"
	"strings"

	"fifthwise/pkg/chart"
	"fifthwise/pkg/chart/abc"
	"fifthwise/pkg/chart/musicxml"
)

// Fault is one thing that is wrong with a chart.
type Fault struct {
	Bar     *int   `json:"bar,omitempty"`    // its number
	Line    int    `json:"line,omitempty"`   // of the text, from 1
	Column  int    `json:"column,omitempty"` // in characters, from 1
	Symbol  string `json:"symbol,omitempty"` // as written
	Message string `json:"message"`
	Hint    string `json:"hint,omitempty"`
}

// MaxFaults is how many faults of a chart are told.
const MaxFaults = 20

// FaultsOf are the faults of a chart in any format.
func FaultsOf(err error) []Fault {
	all := []error{err}
	if list, ok := err.(interface{ Unwrap() []error }); ok {
		all = list.Unwrap()
	}
	var faults []Fault
	for _, e := range all[:min(len(all), MaxFaults)] {
		faults = append(faults, FaultOf(e))
	}
	if n := len(all) - MaxFaults; n > 0 {
		faults = append(faults, Fault{Message: fmt.Sprintf("and %d more", n)})
	}
	return faults
}

// FaultOf is one of them.
func FaultOf(err error) Fault {
	switch e := err.(type) {
	case *chart.Error:
		f := Fault{Line: e.Line, Column: e.Column, Symbol: e.Symbol, Message: e.Msg, Hint: e.Hint}
		if e.BarIndex >= 0 {
			f.Bar = &e.Bar
		}
		return f
	case *abc.Error:
		f := Fault{Line: e.Line, Column: e.Column, Symbol: e.Symbol, Message: e.Msg, Hint: e.Hint}
		if e.Bar >= 0 {
			f.Bar = &e.Bar
		}
		return f
	case *musicxml.Error:
		f := Fault{Line: e.Line, Symbol: e.Symbol, Message: e.Msg, Hint: e.Hint}
		if number, err := strconv.Atoi(e.Measure); err == nil {
			f.Bar = &number
		} else if e.Measure != "" { // "X1" is no number, but a name all the same
			f.Message = fmt.Sprintf("measure %s: %s", e.Measure, e.Msg)
		}
		return f
	}
	return Fault{Message: err.Error()}
}

// String is the fault in a line.
func (f Fault) String() string {
	var b strings.Builder
	if f.Bar != nil {
		fmt.Fprintf(&b, "bar %d: ", *f.Bar)
	}
	if f.Line > 0 {
		fmt.Fprintf(&b, "line %d", f.Line)
		if f.Column > 0 {
			fmt.Fprintf(&b, ", column %d", f.Column)
		}
		b.WriteString(": ")
	}
	if f.Symbol != "" {
		fmt.Fprintf(&b, "%q: ", f.Symbol)
	}
	b.WriteString(f.Message)
	if f.Hint != "" {
		fmt.Fprintf(&b, " (%s)", f.Hint)
	}
	return b.String()
}
