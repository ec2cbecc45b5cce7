package main

import (
	"fmt"
	"io"

	"fifthwise/examples/internal/command"
)

// progress is a bar that shows how far fitting has come. A nil one shows
// nothing.
type progress struct {
	out         io.Writer
	done, total int
}

// progressOn shows progress on a terminal only.
func progressOn(out io.Writer, total int) *progress {
	if !command.ShowsProgress(out) {
		return nil
	}
	return &progress{out: out, total: total}
}

func (p *progress) step(int, float64) {
	if p == nil {
		return
	}
	p.done++
	fmt.Fprintf(p.out, "\rfitting %s", command.Bar(40, int64(p.done), int64(p.total)))
}

// clear takes the bar away.
func (p *progress) clear() {
	if p != nil && p.done > 0 {
		fmt.Fprint(p.out, command.ClearLine)
	}
}
