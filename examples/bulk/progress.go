package main

import (
	"fmt"
	"io"
	"time"

	"fifthwise/examples/internal/command"
)

// progress is a bar that shows how far a run has come. A nil one shows nothing.
type progress struct {
	out   io.Writer
	in    *inputs
	size  int64 // bytes to read; 0: not known
	start time.Time
	from  int // charts that were there before
	shown bool
}

// progressOn shows progress on a terminal only.
func progressOn(out io.Writer, in *inputs) *progress {
	if !command.ShowsProgress(out) {
		return nil
	}
	return &progress{out: out, in: in, size: in.size(), start: time.Now(), from: in.skip.Number}
}

func (p *progress) show(t *tally) {
	if p == nil {
		return
	}
	p.shown = true
	rate := float64(t.charts-p.from) / time.Since(p.start).Seconds()
	fmt.Fprintf(p.out, command.ClearLine+"%s%d charts written, %d bad, %.0f a second", p.bar(), t.charts, t.bad, rate)
}

// bar is the share of the bytes that are read, where their number is known.
func (p *progress) bar() string {
	if p.size == 0 {
		return ""
	}
	return command.Bar(30, min(p.in.bytes.Load(), p.size), p.size) + "  "
}

// clear takes the bar away.
func (p *progress) clear() {
	if p != nil && p.shown {
		p.shown = false
		fmt.Fprint(p.out, command.ClearLine)
	}
}
