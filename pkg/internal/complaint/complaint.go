// Package complaint says what is wrong with an input: the place, what is wrong, what
// would be right.
package complaint

import (
	"fmt"
	"strconv"
	"strings"
)

// Text is a fault in a line: "bar 3, line 2: no such chord (write C7)". The places
// and the hint may be missing.
func Text(where []string, msg, hint string) string {
	s := msg
	if len(where) > 0 {
		s = strings.Join(where, ", ") + ": " + s
	}
	if hint != "" {
		s += " (" + hint + ")"
	}
	return s
}

// In says where in a text a fault lies, behind other places: "line 2, column 9" and
// the word. Line and column are 0, the word empty, where there is none.
func In(where []string, line, column int, word string) []string {
	switch {
	case line > 0 && column > 0:
		where = append(where, fmt.Sprintf("line %d, column %d", line, column))
	case line > 0:
		where = append(where, fmt.Sprintf("line %d", line))
	}
	if word != "" {
		where = append(where, strconv.Quote(word))
	}
	return where
}

// most is how many faults of a list are said.
const most = 10

// Lines says faults one a line, at most ten.
func Lines[E error](list []E) string {
	var b strings.Builder
	for i, e := range list {
		if i > 0 {
			b.WriteByte('\n')
		}
		if i == most {
			fmt.Fprintf(&b, "and %d more", len(list)-most)
			break
		}
		b.WriteString(e.Error())
	}
	return b.String()
}

// Each is the list as errors.Is and errors.As take it.
func Each[E error](list []E) []error {
	errs := make([]error, len(list))
	for i, e := range list {
		errs[i] = e
	}
	return errs
}
