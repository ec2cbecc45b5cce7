package main

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"strings"
	"unicode"
	"unicode/utf8"

	"fifthwise/examples/internal/command"
	"fifthwise/pkg/chart"
	"fifthwise/pkg/chart/file"
	"fifthwise/pkg/function"
	"fifthwise/pkg/review"
)

// task is the chart that answers are about, with its reading.
type task struct {
	options  *options
	chart    chart.Chart
	analysis function.Analysis
	sounding []int // chords that sound, as indexes into the reading's
}

func (o *options) read(folder fs.FS, name string) (*task, error) {
	data, err := readFile(folder, name)
	if err != nil {
		return nil, err
	}
	f, err := file.Read(data)
	if err != nil {
		return nil, err
	}
	t := &task{options: o, chart: f.Chart, analysis: function.Analyze(f.Chart, function.Written(o.numerals, o.accidentals))}
	for i := range t.analysis.Chords {
		if t.analysis.Chords[i].Region >= 0 {
			t.sounding = append(t.sounding, i)
		}
	}
	if len(t.sounding) == 0 {
		return nil, errors.New("no chord of the chart sounds")
	}
	return t, nil
}

// event is sounding chord i as played.
func (t *task) event(i int) *chart.Event { return &t.analysis.Chords[t.sounding[i]].Event }

func readFile(folder fs.FS, name string) ([]byte, error) {
	f, err := folder.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return command.ReadAll(f)
}

const pageEnd = ".marked.txt"

// answersIn are the names of the answers in a folder; pages of an earlier run are
// none.
func answersIn(folder fs.FS, said string) (names []string, err error) {
	entries, err := fs.ReadDir(folder, ".")
	if err != nil {
		return nil, fmt.Errorf("%s: %w", said, errors.Unwrap(err))
	}
	for _, e := range entries {
		n := e.Name()
		if e.IsDir() || strings.HasPrefix(n, ".") || strings.HasSuffix(n, pageEnd) {
			continue
		}
		if strings.HasSuffix(n, ".txt") || strings.HasSuffix(n, ".json") {
			names = append(names, n)
		}
	}
	if len(names) == 0 {
		return nil, fmt.Errorf("%s: the folder has no answers (files that end in .txt or .json)", said)
	}
	return names, nil
}

// student is a student's answer, marked.
type student struct {
	file   string
	name   string
	answer *review.Answer // nil: with faults
	review review.Review
}

func (s *student) pageName() string { return strings.TrimSuffix(s.file, ".txt") + pageEnd }

// isNoText reports whether a text has no such character; of what is no UTF-8 Go makes
// the sign for that.
func isNoText(r rune) bool { return r == 0 || r == utf8.RuneError }

// printable is a name without what a terminal would take for a command or not know.
func printable(name string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsPrint(r) {
			return r
		}
		return utf8.RuneError
	}, name)
}

// student reads an answer and marks it. There is a student whatever is wrong.
func (t *task) student(folder fs.FS, name string) (*student, error) {
	s := &student{file: name, name: printable(strings.TrimSuffix(strings.TrimSuffix(name, ".txt"), ".json"))}
	data, err := readFile(folder, name)
	if err != nil {
		return s, err
	}
	if at := bytes.IndexFunc(data, isNoText); at >= 0 {
		return s, fmt.Errorf("the file is no answer: byte %d is of no text (answers are text in UTF-8)", at)
	}
	read := t.readText
	if strings.HasSuffix(name, ".json") {
		read = t.readJSON
	}
	a, err := read(string(data))
	if a.name != "" {
		s.name = printable(a.name)
	}
	if err != nil {
		return s, err
	}
	marked, err := review.Of(&t.analysis, a.Answer)
	if err != nil {
		return s, a.located(err)
	}
	s.answer, s.review = &a.Answer, marked
	return s, nil
}
