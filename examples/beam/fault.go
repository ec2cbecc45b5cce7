package main

import (
	"errors"
	"fmt"
	"strings"

	"fifthwise/pkg/chart"
)

// Fault is one thing that is wrong with a chart.
type Fault struct {
	Bar     *int   `json:"bar,omitempty"`    // its number
	Line    int    `json:"line,omitempty"`   // of the text of changes, from 1
	Column  int    `json:"column,omitempty"` // in characters, from 1
	Symbol  string `json:"symbol,omitempty"` // as written
	Message string `json:"message"`
	Hint    string `json:"hint,omitempty"`
}

// maxFaults is how many faults of a chart are told.
const maxFaults = 20

func faultsOf(err error) []Fault {
	all := []error{err}
	if list, ok := err.(interface{ Unwrap() []error }); ok {
		all = list.Unwrap()
	}
	var faults []Fault
	for _, e := range all[:min(len(all), maxFaults)] {
		faults = append(faults, faultOf(e))
	}
	if n := len(all) - maxFaults; n > 0 {
		faults = append(faults, Fault{Message: fmt.Sprintf("and %d more", n)})
	}
	return faults
}

func faultOf(err error) Fault {
	var e *chart.Error
	if !errors.As(err, &e) {
		return Fault{Message: err.Error()}
	}
	f := Fault{Line: e.Line, Column: e.Column, Symbol: e.Symbol, Message: e.Msg, Hint: e.Hint}
	if e.BarIndex >= 0 {
		f.Bar = &e.Bar
	}
	return f
}

// text is the fault in a line.
func (f Fault) text() string {
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
