package main

import (
	"fmt"
	"io"
	"os"
	"strings"
	"time"
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
	if file, ok := out.(*os.File); !ok || !isTerminal(file) || os.Getenv("TERM") == "dumb" {
		return nil
	}
	return &progress{out: out, in: in, size: in.size(), start: time.Now(), from: in.skip.Number}
}

func isTerminal(file *os.File) bool {
	info, err := file.Stat()
	if err != nil || info.Mode()&os.ModeCharDevice == 0 {
		return false
	}
	null, err := os.Stat(os.DevNull)
	return err != nil || !os.SameFile(info, null)
}

const barWidth = 30

func (p *progress) show(t *tally) {
	if p == nil {
		return
	}
	p.shown = true
	rate := float64(t.charts-p.from) / time.Since(p.start).Seconds()
	fmt.Fprintf(p.out, "\r\x1b[K%s%d charts written, %d bad, %.0f a second", p.bar(), t.charts, t.bad, rate)
}

// bar is the share of the bytes that are read, where their number is known.
func (p *progress) bar() string {
	if p.size == 0 {
		return ""
	}
	read := min(p.in.bytes.Load(), p.size)
	full := int(barWidth * read / p.size)
	return fmt.Sprintf("[%s%s] %3d%%  ", strings.Repeat("=", full), strings.Repeat(" ", barWidth-full), 100*read/p.size)
}

// clear takes the bar away.
func (p *progress) clear() {
	if p != nil && p.shown {
		p.shown = false
		fmt.Fprint(p.out, "\r\x1b[K")
	}
}
