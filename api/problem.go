package api

import (
	"context"
	"errors"
	"fmt"
	"net/http"
	"os"
	"strconv"

	"fifthwise/api/wire"
)

// Problem is an error that its client is told of. Any other error is answered
// by a bare 500.
type Problem = wire.Problem

// Fault is one thing that is wrong with a request.
type Fault = wire.Fault

// refuse is a problem that the status and a sentence say.
func refuse(status int, format string, args ...any) *Problem {
	return problem(status, fmt.Sprintf(format, args...), nil)
}

// badSyntax is the refusal of what is not understood, for the first fault. One
// that lies in no field is not told twice.
func badSyntax(f Fault) *Problem {
	detail := "the request is not understood"
	if f.Pointer != "" {
		detail += ": " + f.Detail
	}
	return problem(http.StatusBadRequest, detail, []Fault{f})
}

func problem(status int, detail string, list []Fault) *Problem {
	title := http.StatusText(status)
	if status == http.StatusUnprocessableEntity {
		title = "Unprocessable Content" // as RFC 9110 calls it
	}
	if status == http.StatusRequestEntityTooLarge {
		title = "Content Too Large"
	}
	return &Problem{Type: "about:blank", Title: title, Status: status, Detail: detail, Errors: list}
}

// maxFaults is how many faults of a request are told.
const maxFaults = 20

// faults collects all that is wrong with what was understood.
type faults []Fault

func (f *faults) add(pointer, detail, hint string) {
	*f = append(*f, Fault{Pointer: pointer, Detail: detail, Hint: hint})
}

// below puts the faults from some number on below a pointer.
func (f *faults) below(pointer string, from int) {
	for i := from; i < len(*f); i++ {
		(*f)[i].Pointer = pointer + (*f)[i].Pointer
	}
}

// inItem puts the faults from some number on below an item of a list.
func (f *faults) inItem(item, from int) {
	if len(*f) > from {
		f.below("/"+strconv.Itoa(item), from)
	}
}

// err is the refusal for the faults, nil if there are none.
func (f faults) err() error {
	detail := fmt.Sprintf("the request has %d faults", len(f))
	switch {
	case len(f) == 0:
		return nil
	case len(f) == 1:
		detail = "the request has a fault: " + f[0].Detail
	case len(f) > maxFaults:
		detail += fmt.Sprintf("; the first %d are listed", maxFaults)
		f = f[:maxFaults]
	}
	return problem(http.StatusUnprocessableEntity, detail, f)
}

// problemOf is what a client is told of any error.
func problemOf(err error) *Problem {
	var known *Problem
	switch {
	case errors.As(err, &known):
		return known
	case errors.Is(err, context.Canceled): // nobody reads it
		return errGone
	}
	return refuse(http.StatusInternalServerError, "the request could not be answered; the fault is not in it")
}

var errGone = refuse(http.StatusServiceUnavailable, "the request was given up before it was answered")

// arrival is the refusal of a body that stopped coming.
func arrival(err error) *Problem {
	if errors.Is(err, os.ErrDeadlineExceeded) {
		return refuse(http.StatusRequestTimeout, "the body did not arrive in time")
	}
	return refuse(http.StatusBadRequest, "the body broke off, or was not sent as HTTP demands")
}

// grouped prints a number with commas: 1,048,576.
func grouped(n int) string {
	s := strconv.Itoa(n)
	for i := len(s) - 3; i > 0; i -= 3 {
		s = s[:i] + "," + s[i:]
	}
	return s
}
