package main

import (
	"fmt"
	"io"
	"os"
	"strings"
)

// progress is a bar that shows how far fitting has come. A nil one shows
// nothing.
type progress struct {
	out         io.Writer
	done, total int
}

// progressOn shows progress on a terminal only.
func progressOn(out io.Writer, total int) *progress {
	file, ok := out.(*os.File)
	if !ok || os.Getenv("TERM") == "dumb" {
		return nil
	}
	if info, err := file.Stat(); err != nil || info.Mode()&os.ModeCharDevice == 0 {
		return nil
	}
	return &progress{out: out, total: total}
}

const barWidth = 40

func (p *progress) step(int, float64) {
	if p == nil {
		return
	}
	p.done++
	full := barWidth * p.done / p.total
	fmt.Fprintf(p.out, "\rfitting [%s%s] %3d%%", strings.Repeat("=", full), strings.Repeat(" ", barWidth-full), 100*p.done/p.total)
}

// clear takes the bar away.
func (p *progress) clear() {
	if p != nil && p.done > 0 {
		fmt.Fprint(p.out, "\r\x1b[K")
	}
}
