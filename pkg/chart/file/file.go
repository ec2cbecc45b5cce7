// Package file reads and writes charts in every format there is: the text
// notation, MusicXML, compressed or not, and ABC.
//
//	f, err := file.Read(data)              // the format is told by the content
//	c := f.Chart
//	out, err := f.Write(file.MusicXML, marks)
//
// A file of MusicXML that is written as MusicXML is the same file with the
// marks added. Formats that a chart is not read from here, such as the JSON of a
// service, are out of scope.
package file

import (
	"bytes"
	"encoding"
	"fmt"
	"regexp"
	"strings"
	"unicode/utf8"

	"fifthwise/pkg/chart"
	"fifthwise/pkg/chart/abc"
	"fifthwise/pkg/chart/musicxml"
	"fifthwise/pkg/pitch"
)

// Format is how a chart is written. The zero value is none.
type Format uint8

// The formats.
const (
	Text Format = iota + 1 // the text notation of package chart
	MusicXML
	CompressedMusicXML
	ABC
)

var names = [...]string{"", "text", "musicxml", "mxl", "abc"}

// String is the format's name: text, musicxml, mxl or abc.
func (f Format) String() string {
	if int(f) < len(names) {
		return names[f]
	}
	return fmt.Sprintf("Format(%d)", uint8(f))
}

// ParseFormat reads a format's name. Errors are of type *pitch.SyntaxError.
func ParseFormat(s string) (Format, error) {
	for f, name := range names {
		if s == name && f > 0 {
			return Format(f), nil
		}
	}
	return 0, &pitch.SyntaxError{Input: s, Msg: "expected text, musicxml, mxl or abc"}
}

// MarshalText prints as [Format.String] does.
func (f Format) MarshalText() ([]byte, error) { return []byte(f.String()), nil }

// UnmarshalText reads what [ParseFormat] reads.
func (f *Format) UnmarshalText(text []byte) (err error) {
	*f, err = ParseFormat(string(text))
	return err
}

var _ encoding.TextUnmarshaler = (*Format)(nil)

// MaxBytes bounds a file, in bytes.
const MaxBytes = musicxml.MaxBytes

// File is a chart that was read.
type File struct {
	Chart    chart.Chart
	Format   Format
	document *musicxml.Document // of MusicXML
}

// Read reads a chart in the format that its content shows. The error is that of
// the format's package, or an *[Error] for what is no text at all.
func Read(data []byte) (File, error) {
	f := Detect(data)
	if at := strange(data); f == Text && at >= 0 {
		return File{}, &Error{Offset: at}
	}
	return ReadAs(f, data)
}

// ReadAs is Read where the format is known.
func ReadAs(f Format, data []byte) (File, error) {
	file := File{Format: f}
	var err error
	switch f {
	case MusicXML, CompressedMusicXML:
		if file.document, err = musicxml.Read(data); err == nil {
			file.Chart = file.document.Chart()
		}
	case ABC:
		file.Chart, err = abc.Parse(data)
	default:
		file.Chart, err = chart.Parse(string(data))
	}
	return file, err
}

// Error is the fault of a file that is no chart in any format.
type Error struct{ Offset int } // of the first byte that no text has

// Error says what the file is not.
func (e *Error) Error() string {
	return fmt.Sprintf("the file is no chart: byte %d is of no text (charts are read from the text notation in UTF-8, MusicXML and ABC)", e.Offset)
}

// strange is the first byte that no text in UTF-8 has; -1: none.
func strange(data []byte) int {
	if utf8.Valid(data) {
		return bytes.IndexByte(data, 0)
	}
	for at := 0; ; {
		r, n := utf8.DecodeRune(data[at:])
		if r == utf8.RuneError && n <= 1 || r == 0 {
			return at
		}
		at += n
	}
}

// A line that only ABC has: the first field of a tune, X: with a number, or, in what
// is text, a directive of the file's header, which may be long (The abc music
// standard 2.1, sections 2.2 and 11).
var (
	inABC     = regexp.MustCompile(`(?m)^X:\s*[0-9]`)
	directive = regexp.MustCompile(`(?m)^%%[A-Za-z]`)
)

// Detect tells a format by its content: the start of a zip archive or of XML, or
// a line of ABC, in any encoding; all else is the text notation.
func Detect(data []byte) Format {
	if musicxml.IsCompressed(data) {
		return CompressedMusicXML
	}
	start := data[:min(len(data), 4096)]
	for _, bom := range []string{"\xef\xbb\xbf", "\xff\xfe", "\xfe\xff"} {
		start = bytes.TrimPrefix(start, []byte(bom))
	}
	start = bytes.ReplaceAll(start, []byte{0}, nil) // every other byte of UTF-16
	switch text := strings.TrimLeft(string(start), " \t\r\n"); {
	case strings.HasPrefix(text, "<"):
		return MusicXML
	case strings.HasPrefix(text, "%abc"), inABC.MatchString(text), inABC.Match(data), directive.Match(data) && strange(data) < 0:
		return ABC
	}
	return Text
}

// Measures are, for each bar of the chart, the place in the file of the measure
// that it comes from; nil where each bar is its own.
func (f File) Measures() []int {
	if f.document == nil {
		return nil
	}
	return f.document.Measures()
}

// Write is the chart in a format, with marks where the format has a place for
// them, which the text notation has not. From MusicXML to MusicXML the file stays
// what it was but for the marks.
func (f File) Write(format Format, marks []chart.Mark) ([]byte, error) {
	switch format {
	case MusicXML, CompressedMusicXML:
		return f.musicXML(format, marks)
	case ABC:
		return abc.Format(f.Chart, marks), nil
	}
	return f.Chart.AppendTo(nil), nil
}

func (f File) musicXML(format Format, marks []chart.Mark) ([]byte, error) {
	if f.Format == format {
		return f.document.Annotate(marks)
	}
	score := musicxml.Write
	if f.document != nil {
		score = func(_ chart.Chart, marks []chart.Mark) []byte { return f.document.Score(marks) }
	}
	if format == CompressedMusicXML {
		return musicxml.Compress(score(f.Chart, marks))
	}
	return score(f.Chart, marks), nil
}
