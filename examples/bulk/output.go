package main

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"os"

	"fifthwise/examples/internal/corpus"
)

// output is where rows go.
type output struct {
	*bufio.Writer
	file  *os.File      // nil: standard output
	info  os.FileInfo   // of the file
	found corpus.Origin // the last chart that is there already
}

// open opens the output. Rows that are there already are added to the tally
// where they are gone on with, and a torn one is cut off.
func (o *options) open(stdout io.Writer, t *tally) (*output, error) {
	if o.out == "" {
		to := &output{Writer: bufio.NewWriterSize(stdout, 256<<10)}
		_, err := to.Write(o.form.header())
		return to, err
	}
	file, err := os.OpenFile(o.out, os.O_RDWR|os.O_CREATE, 0o644)
	if err != nil {
		return nil, err
	}
	to := &output{Writer: bufio.NewWriterSize(file, 256<<10), file: file}
	if err := to.begin(o, t); err != nil {
		return nil, errors.Join(fmt.Errorf("%s: %w", o.out, err), file.Close())
	}
	return to, nil
}

func (to *output) begin(o *options, t *tally) (err error) {
	if to.info, err = to.file.Stat(); err != nil {
		return err
	}
	size := to.info.Size()
	old := reread{each: t.add}
	switch {
	case !to.info.Mode().IsRegular():
		if o.resume {
			return errors.New("-resume goes on with a file")
		}
	case size > 0 && !o.resume:
		return errors.New("the file has something in it (-resume goes on with it; to begin anew, remove it)")
	case size > 0:
		if err := old.all(o.form, to.file, size); err != nil {
			return err
		}
		if err := to.file.Truncate(old.end); err != nil {
			return err
		}
		if _, err := to.file.Seek(old.end, io.SeekStart); err != nil {
			return err
		}
	}
	to.found = old.found
	if old.end == 0 {
		_, err = to.Write(o.form.header())
	}
	return err
}

// sync has what was written outlive the program and, in a file, the machine.
func (to *output) sync() error {
	if err := to.Flush(); err != nil || to.file == nil || !to.info.Mode().IsRegular() {
		return err
	}
	return to.file.Sync()
}

func (to *output) close() error {
	if to.file == nil {
		return nil
	}
	return to.file.Close()
}
