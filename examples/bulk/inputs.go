package main

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"iter"
	"os"
	"path/filepath"
	"strings"
	"sync/atomic"

	"fifthwise/examples/internal/command"
	"fifthwise/examples/internal/corpus"
	"fifthwise/examples/internal/request"
	"fifthwise/pkg/chart"
	"fifthwise/pkg/chart/abc"
	"fifthwise/pkg/chart/file"
)

// inputs is where charts come from.
type inputs struct {
	names   []string
	stdin   *os.File
	except  os.FileInfo   // the file of rows, which may lie among the charts
	skip    corpus.Origin //  the last chart that needs no reading
	number  int           // of the last chart found
	bytes   atomic.Int64
	changed error // the charts to skip are not those that come
}

// source is a chart that is still to be read.
type source struct {
	corpus.Origin
	read func() (chart.Chart, error)
}

// sources are the charts of all inputs, in order.
func (in *inputs) sources() iter.Seq[source] {
	return func(yield func(source) bool) {
		for name, err := range in.files() {
			take := func(place string, read func() (chart.Chart, error)) bool {
				s := source{in.next(name, place), read}
				return in.changed == nil && (s.Number <= in.skip.Number || yield(s))
			}
			if err == nil {
				var more bool
				if more, err = in.charts(name, take); !more {
					return
				}
			}
			if err != nil && !take("", fault(err)) {
				return
			}
		}
		if in.number < in.skip.Number {
			in.changed = fmt.Errorf("%d charts are written already, but there are only %d: the inputs have changed", in.skip.Number, in.number)
		}
	}
}

// next counts a chart, and compares the last of those to skip with its row.
func (in *inputs) next(name, place string) corpus.Origin {
	in.number++
	o := corpus.Origin{Number: in.number, File: strings.ToValidUTF8(name, "�"), Place: place}
	if o.Number == in.skip.Number && o != in.skip {
		in.changed = fmt.Errorf("chart %d is written already as that of %s, but now it is that of %s: the inputs have changed", o.Number, in.skip.Name(), o.Name())
	}
	return o
}

// fault is a chart that cannot be read.
func fault(err error) func() (chart.Chart, error) {
	return func() (chart.Chart, error) { return chart.Chart{}, err }
}

const stdinName = "-"

// files are the names of all files, in order. The error is that of a name.
func (in *inputs) files() iter.Seq2[string, error] {
	return func(yield func(string, error) bool) {
		if len(in.names) == 0 {
			yield(stdinName, nil)
			return
		}
		for _, name := range in.names {
			for _, match := range matches(name) {
				if !in.walk(match, yield) {
					return
				}
			}
		}
	}
}

// matches are the files of a glob; other names stand for themselves.
func matches(name string) []string {
	if _, err := os.Lstat(name); err == nil || name == stdinName {
		return []string{name}
	}
	if list, err := filepath.Glob(name); err == nil && len(list) > 0 {
		return list
	}
	return []string{name} // and let opening say what is wrong
}

// walk goes through a folder in the order of names; what is hidden in it, or no
// file, is passed over. It is false once yield is.
func (in *inputs) walk(root string, yield func(string, error) bool) bool {
	more := true
	if root == stdinName {
		return yield(root, nil)
	}
	if info, err := os.Stat(root); err == nil && in.isOutput(info) {
		return true
	}
	_ = filepath.WalkDir(root, func(name string, entry fs.DirEntry, err error) error {
		switch {
		case name == root && (err != nil || !entry.IsDir()):
			more = yield(name, bare(err))
			return fs.SkipAll
		case err != nil:
			more = yield(name, bare(err))
		case name != root && strings.HasPrefix(entry.Name(), ".") && entry.IsDir():
			return fs.SkipDir
		case !strings.HasPrefix(entry.Name(), ".") && in.isFile(name):
			more = yield(name, nil)
		}
		if !more {
			return fs.SkipAll
		}
		return nil
	})
	return more
}

// isFile reports whether a name in a folder is that of a file to read.
func (in *inputs) isFile(name string) bool {
	info, err := os.Stat(name)
	return err != nil || info.Mode().IsRegular() && !in.isOutput(info)
}

func (in *inputs) isOutput(info os.FileInfo) bool {
	return in.except != nil && os.SameFile(info, in.except)
}

// taker takes the next chart; it is false when no more is wanted.
type taker func(place string, read func() (chart.Chart, error)) bool

// charts gives the charts of a file to take. The error is that of reading it.
func (in *inputs) charts(name string, take taker) (more bool, err error) {
	f := in.stdin
	if name != stdinName {
		if f, err = os.Open(name); err != nil {
			return true, bare(err)
		}
		defer f.Close()
	}
	r := bufio.NewReaderSize(counter{f, &in.bytes}, 64<<10)
	switch first, err := firstByte(r); {
	case err == io.EOF && name == stdinName:
		return true, nil
	case err != nil && err != io.EOF:
		return true, bare(err)
	case first == '{':
		return lines(r, take)
	}
	data, err := command.ReadAll(r)
	switch {
	case err != nil:
		return true, bare(err)
	case file.Detect(data) == file.ABC:
		return tunes(data, take), nil
	}
	return take("", func() (chart.Chart, error) {
		f, err := file.Read(data)
		return f.Chart, err
	}), nil
}

// bare is an error without the file's name, which is told beside it.
func bare(err error) error {
	var path *fs.PathError
	if errors.As(err, &path) {
		return path.Err
	}
	return err
}

// firstByte is the first byte that is no space or byte order mark, without taking anything away.
func firstByte(r *bufio.Reader) (byte, error) {
	for n := 1; ; n++ {
		head, err := r.Peek(n)
		if err == bufio.ErrBufferFull {
			return 0, nil
		}
		if err != nil {
			return 0, err
		}
		if b := head[n-1]; strings.IndexByte(" \t\r\n\xef\xbb\xbf", b) < 0 {
			return b, nil
		}
	}
}

// lines gives the charts of a stream, one a line.
func lines(r *bufio.Reader, take taker) (more bool, err error) {
	for line, err := range request.Lines(r) {
		if err != nil {
			return true, bare(err)
		}
		if !take(fmt.Sprintf("line %d", line.Number), line.Chart) {
			return false, nil
		}
	}
	return true, nil
}

// tunes gives the tunes of a book in ABC. Only a book of several has places.
func tunes(data []byte, take taker) bool {
	var held abc.Tune
	var heldErr error
	count := 0
	place := func(n int) string { return fmt.Sprintf("tune %d", n) }
	for t, err := range abc.Tunes(data) {
		if count++; count == 2 && !take(place(1), parsed(held, heldErr)) {
			return false
		}
		if count >= 2 && !take(place(count), parsed(t, err)) {
			return false
		}
		held, heldErr = t, err
	}
	return count != 1 || take("", parsed(held, heldErr))
}

func parsed(t abc.Tune, err error) func() (chart.Chart, error) {
	return func() (chart.Chart, error) { return t.Chart, err }
}

// counter counts the bytes that are read.
type counter struct {
	io.Reader
	bytes *atomic.Int64
}

func (c counter) Read(p []byte) (int, error) {
	n, err := c.Reader.Read(p)
	c.bytes.Add(int64(n))
	return n, err
}

// size is how many bytes there are to read, 0 if that cannot be told.
func (in *inputs) size() (sum int64) {
	for name := range in.files() {
		info, err := os.Stat(name)
		if name == stdinName {
			info, err = in.stdin.Stat()
		}
		if err == nil && !info.Mode().IsRegular() {
			return 0
		}
		if err == nil {
			sum += info.Size()
		}
	}
	return sum
}
