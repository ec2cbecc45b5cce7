package main

import (
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"fifthwise/examples/internal/command"
	"fifthwise/pkg/chart"
)

// writeFaults tells all that is wrong with a chart.
func writeFaults(w io.Writer, name, text string, err error) {
	var inText chart.ErrorList
	if errors.As(err, &inText) {
		for _, f := range inText {
			writeFault(w, name, text, f)
		}
		writeCount(w, len(inText))
		return
	}
	all := command.Faults(err)
	for _, e := range all {
		fmt.Fprintf(w, "%s: %v\n", name, e)
	}
	writeCount(w, len(all))
}

func writeCount(w io.Writer, faults int) {
	if faults > 1 {
		fmt.Fprintf(w, "%d faults\n", faults)
	}
}

// writeFault tells a fault of the text notation with its place, the line it
// stands in and what would be right.
func writeFault(w io.Writer, name, text string, f *chart.Error) {
	where := ""
	if f.BarIndex >= 0 {
		where = fmt.Sprintf("bar %d: ", f.Bar)
	}
	fmt.Fprintf(w, "%s:%d:%d: %s%s\n", name, f.Line, f.Column, where, f.Msg)
	before, after := around(text, f.Offset)
	fmt.Fprintf(w, "    %s%s\n    %s^\n", before, after, blank(before))
	if f.Hint != "" {
		fmt.Fprintf(w, "    %s\n", f.Hint)
	}
}

// quoted is how much of a line is shown before a fault and after it, in
// characters.
const quoted = 60

// around is the line about an offset of the text, in two parts, cut to what
// can be shown.
func around(text string, offset int) (before, after string) {
	before = text[strings.LastIndexByte(text[:offset], '\n')+1 : offset]
	after, _, _ = strings.Cut(text[offset:], "\n")
	after = strings.TrimRight(after, "\r")
	if n := utf8.RuneCountInString(before) - quoted; n > 0 {
		before = "..." + string([]rune(before)[n:])
	}
	if r := []rune(after); len(r) > quoted {
		after = string(r[:quoted]) + "..."
	}
	return before, after
}

// blank is as wide as s.
func blank(s string) string {
	return strings.Map(func(r rune) rune {
		if r == '\t' {
			return r
		}
		return ' '
	}, s)
}
