package main

import (
	"fmt"
	"io"
	"time"

	"fifthwise/examples/internal/corpus"
)

// writer makes rows of sources and writes them in order.
//
// One goroutine finds the sources, as many as are asked for read and encode
// them, and this one writes. At most a few charts a worker are under way, so
// that memory does not grow with the input.
type writer struct {
	*options
	output   *output
	tally    *tally
	complain io.Writer
	progress *progress
}

// ahead is how many charts a worker may be ahead of the writing.
const ahead = 8

// task is a source on its way to be written.
type task struct {
	source source
	result chan result
}

// result is a row ready to be written.
type result struct {
	text      []byte
	facts     corpus.Facts
	complaint []byte
	err       error
}

func (w *writer) all(in *inputs) error {
	tasks, order := make(chan task, ahead*w.workers), make(chan task, ahead*w.workers)
	stop := make(chan struct{})
	defer close(stop)
	for range w.workers {
		go func() {
			for t := range tasks {
				t.result <- w.work(t.source)
			}
		}()
	}
	go func() {
		defer close(order)
		defer close(tasks)
		for s := range in.sources() {
			t := task{s, make(chan result, 1)}
			select {
			case order <- t:
				tasks <- t
			case <-stop:
				return
			}
		}
	}()
	if err := w.write(order); err != nil {
		return err
	}
	return in.changed
}

// work makes the row of a chart.
func (w *writer) work(s source) (r result) {
	row := w.style.Row(s.Origin, s.read)
	r.facts, r.complaint = row.Facts(), row.Complaint()
	r.text, r.err = w.form.encode(&row, &r.facts)
	return r
}

// write writes results in the order of their tasks, and at every tick makes
// sure of what is written.
func (w *writer) write(order <-chan task) error {
	tick := time.NewTicker(w.sync)
	defer tick.Stop()
	defer w.progress.clear()
	for {
		select {
		case t, ok := <-order:
			if !ok {
				return w.checkpoint()
			}
			if err := w.one(t); err != nil {
				return err
			}
			if len(order) == 0 && w.out == "" {
				if err := w.output.Flush(); err != nil {
					return err
				}
			}
		case <-tick.C:
			if err := w.checkpoint(); err != nil {
				return err
			}
		}
	}
}

func (w *writer) one(t task) error {
	r := <-t.result
	if r.err != nil {
		return r.err
	}
	w.tally.add(&r.facts)
	if len(r.complaint) > 0 {
		w.progress.clear()
		_, _ = w.complain.Write(r.complaint)
	}
	_, err := w.output.Write(r.text)
	return err
}

// checkpoint makes sure of what is written before it says so.
func (w *writer) checkpoint() error {
	if err := w.output.sync(); err != nil {
		return err
	}
	w.progress.show(w.tally)
	if w.log {
		fmt.Fprintf(w.complain, "%d charts written, %d of them bad\n", w.tally.charts, w.tally.bad)
	}
	return nil
}
