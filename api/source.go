package api

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"net/http"
	"strconv"
	"strings"
	"unicode/utf8"

	"fifthwise/api/wire"
	"fifthwise/pkg/chart"
	"fifthwise/pkg/chart/abc"
	"fifthwise/pkg/chart/file"
	"fifthwise/pkg/chart/musicxml"
)

// Media types of charts beside JSON. A drawing is not read.
const (
	mediaText       = "text/plain"
	mediaScore      = "application/vnd.recordare.musicxml+xml"
	mediaCompressed = "application/vnd.recordare.musicxml"
	mediaABC        = "text/vnd.abc"
	mediaDrawing    = "image/svg+xml"
)

// source is a chart as it was sent.
type source struct {
	file.File                      // of no format where it came in a request
	options   wire.AnalysisOptions // that came with it
	body      []byte
}

// sources are the media types that charts are read from. A score may be
// compressed or not under each of its types, since it shows that itself.
var sources = []struct {
	media string
	read  func(*faults, []byte) (source, error)
}{
	{mediaJSON, (*faults).request},
	{mediaScore, (*faults).score},
	{mediaCompressed, (*faults).score},
	{"application/xml", (*faults).score},
	{"text/xml", (*faults).score},
	{mediaABC, (*faults).abc},
	{mediaText, (*faults).text},
}

func sourceMedia() []string {
	media := make([]string, len(sources))
	for i, s := range sources {
		media[i] = s.media
	}
	return media
}

// source reads a chart of a known media type and adds what is wrong with it to
// the faults. The error is the refusal of a body that is none of its type, or
// too long.
func (f *faults) source(media string, body []byte) (source, error) {
	if len(bytes.TrimSpace(body)) == 0 {
		return source{}, badSyntax(Fault{Detail: "the body is empty", Hint: "send a chart"})
	}
	for _, s := range sources {
		if s.media == media {
			return s.read(f, body)
		}
	}
	return source{}, fmt.Errorf("no reader of %s", media)
}

// request reads a request for a reading.
func (f *faults) request(body []byte) (source, error) {
	var request wire.AnalysisRequest
	unknown, err := decode(body, &request)
	if err != nil {
		return source{}, err
	}
	*f = append(*f, unknown...)
	f.ranges(&request)
	c, err := f.chart(&request.Chart)
	return source{File: file.File{Chart: c}, options: request.Options}, err
}

// text reads the text notation.
func (f *faults) text(body []byte) (source, error) {
	if at := invalidUTF8(body); at >= 0 {
		fault := Fault{Detail: fmt.Sprintf("byte 0x%02x is no UTF-8", body[at]), Hint: "save the text as UTF-8", Offset: &at}
		fault.Line, fault.Column = place(body, at)
		return source{}, badSyntax(fault)
	}
	switch file.Detect(body) {
	case file.ABC:
		f.add("", "the body is ABC, not the text notation", "send it with Content-Type: "+mediaABC)
		return source{}, nil
	case file.MusicXML:
		f.add("", "the body is XML, not the text notation", "send MusicXML with Content-Type: "+mediaScore)
		return source{}, nil
	}
	given, err := file.ReadAs(file.Text, body)
	err = f.inText(given.Chart, err)
	for i := range *f {
		(*f)[i].Pointer = "" // no JSON, so no pointer into it
	}
	return source{File: given}, err
}

// invalidUTF8 is where a text is no UTF-8, -1 if it all is.
func invalidUTF8(text []byte) int {
	if utf8.Valid(text) {
		return -1
	}
	for at := 0; ; {
		r, n := utf8.DecodeRune(text[at:])
		if r == utf8.RuneError && n == 1 {
			return at
		}
		at += n
	}
}

// abc reads a tune in ABC.
func (f *faults) abc(body []byte) (source, error) {
	given, err := file.ReadAs(file.ABC, body)
	if err := tooLong(given.Chart, err); err != nil {
		return source{}, err
	}
	var list abc.ErrorList
	errors.As(err, &list)
	for _, e := range list {
		fault := Fault{Detail: e.Msg, Hint: e.Hint, Symbol: e.Symbol, Line: e.Line, Column: e.Column}
		if e.Bar >= 0 {
			fault.Bar = &e.Bar
		}
		*f = append(*f, fault)
	}
	if len(list) > 0 && !holdsTune(body) {
		return source{}, badSyntax((*f)[0])
	}
	return source{File: given}, nil
}

// holdsTune reports whether ABC is so far understood that a tune begins in it.
func holdsTune(body []byte) bool {
	for t := range abc.Tunes(body) {
		return t.Line > 0
	}
	return false
}

// score reads MusicXML.
func (f *faults) score(body []byte) (source, error) {
	format := file.MusicXML
	if musicxml.IsCompressed(body) {
		format = file.CompressedMusicXML
	}
	given, err := file.ReadAs(format, body)
	if err != nil {
		return source{}, f.inScore(err)
	}
	return source{File: given, body: body}, tooLong(given.Chart, nil)
}

// inScore adds the faults of a score. The error is the refusal of one that is
// too large or no sound file.
func (f *faults) inScore(err error) error {
	var list musicxml.ErrorList
	var one *musicxml.Error
	switch {
	case !errors.As(err, &one):
		return err
	case errors.Is(err, musicxml.ErrTooLarge):
		return refuse(http.StatusRequestEntityTooLarge, "the score is too large: %s", one.Msg)
	case errors.Is(err, chart.ErrTooLong):
		return tooLong(chart.Chart{}, err)
	case errors.As(err, &list):
		for _, e := range list {
			*f = append(*f, scoreFault(e))
		}
		return nil
	case one.Unwrap() != nil: // found by what reads XML or archives
		return badSyntax(scoreFault(one))
	}
	*f = append(*f, scoreFault(one))
	return nil
}

// scoreFault names the part and the measure that the fault of a score lies in.
func scoreFault(e *musicxml.Error) Fault {
	fault := Fault{Detail: e.Msg, Hint: e.Hint, Symbol: e.Symbol, Line: e.Line}
	var syntax *xml.SyntaxError
	if errors.As(e, &syntax) && strings.HasPrefix(syntax.Msg, "unexpected EOF") {
		fault.Detail = "the XML ends too early"
	}
	if e.Measure != "" {
		fault.Detail = fmt.Sprintf("measure %s: %s", e.Measure, fault.Detail)
		if number, err := strconv.Atoi(e.Measure); err == nil {
			fault.Bar = &number
		}
	}
	if e.Part != "" {
		fault.Detail = fmt.Sprintf("part %q, %s", e.Part, fault.Detail)
	}
	return fault
}
