package api

import (
	"cmp"
	"errors"
	"fmt"
	"strings"

	"github.com/go-json-experiment/json"

	"fifthwise/api/wire"
	"fifthwise/pkg/chart"
	"fifthwise/pkg/chart/file"
	"fifthwise/pkg/chart/musicxml"
	"fifthwise/pkg/function"
	"fifthwise/pkg/sheet"
)

// form is a form that charts are answered in.
type form struct {
	media string
	write func(*chartSheet) ([]byte, error)
}

// forms in the order in which they are preferred where a client does not care.
var forms = []form{
	{mediaJSON, (*chartSheet).json},
	{mediaText, (*chartSheet).text},
	{mediaScore, in(file.MusicXML)},
	{mediaCompressed, in(file.CompressedMusicXML)},
	{mediaABC, in(file.ABC)},
	{mediaDrawing, (*chartSheet).drawing},
}

func formMedia() []string {
	media := make([]string, len(forms))
	for i, f := range forms {
		media[i] = f.media
	}
	return media
}

// contentType states the charset of text. JSON is UTF-8, and XML says it itself.
func (f form) contentType() string {
	if strings.HasPrefix(f.media, "text/") {
		return f.media + "; charset=utf-8"
	}
	return f.media
}

// chartSheet is a chart on its way out.
type chartSheet struct {
	source
	printing
	reading *function.Analysis // nil: not asked for
	steps   bool               // tell the steps of the study plan below a drawing
}

func sheetOf(given source, o wire.ChartOptions) *chartSheet {
	s := &chartSheet{source: given, printing: printingOf(given.options), steps: isTrue(o.Steps)}
	if isTrue(o.Analyze) {
		a := s.analyze(given.Chart)
		s.reading = &a
	}
	return s
}

func isTrue(parameter *string) bool { return parameter != nil && *parameter == "true" }

// marks are the words of the reading; none if it was not asked for.
func (s *chartSheet) marks() []chart.Mark {
	if s.reading == nil {
		return nil
	}
	return sheet.Marks(*s.reading, s.style(), s.Measures())
}

// json is the chart as a request for its reading.
func (s *chartSheet) json() ([]byte, error) {
	c := s.Chart
	w := wire.WrittenChart{
		Title:    c.Title,
		Meter:    c.Meter.String(),
		Bars:     barsOf(c),
		Warnings: warnings(c.Warnings),
	}
	if c.Key.IsValid() {
		w.Key = c.Key.String()
	}
	if s.reading != nil {
		w.Analysis = s.answer(c, s.reading)
	}
	body, err := json.Marshal(&w)
	return append(body, '\n'), err
}

// drawing is a sheet to print or show, without a reading the chords alone.
func (s *chartSheet) drawing() ([]byte, error) {
	style := s.style()
	style.Steps = s.steps
	return sheet.SVG(s.Chart, cmp.Or(s.reading, &function.Analysis{}), style), nil
}

func (s *chartSheet) style() sheet.Style {
	return sheet.Style{Numerals: s.numerals, Accidentals: s.accidentals}
}

// text is the text notation, the reading bar by bar in comments behind it.
func (s *chartSheet) text() ([]byte, error) {
	text := s.Chart.AppendTo(nil)
	bar := -1
	for _, m := range chart.MergeMarks(s.marks()) {
		if m.Bar == bar {
			text = append(text, ',')
		} else {
			text = fmt.Appendf(text, "\n# bar %d:", s.Chart.Bars[m.Bar].Number)
			bar = m.Bar
		}
		if m.Above != "" {
			text = fmt.Appendf(text, " %s:", m.Above)
		}
		text = fmt.Appendf(text, " %s", m.Below)
	}
	if bar >= 0 {
		text = append(text, '\n')
	}
	return text, nil
}

// in writes the chart in a format, with the words of the reading. A score that
// stays as it is comes back as it was sent, byte for byte.
func in(format file.Format) func(*chartSheet) ([]byte, error) {
	return func(s *chartSheet) ([]byte, error) {
		if s.reading == nil && s.Format == format && s.body != nil {
			return s.body, nil
		}
		out, err := s.Write(format, s.marks())
		var damaged *musicxml.Error // beside the score, where reading did not look
		if errors.As(err, &damaged) {
			return nil, badSyntax(scoreFault(damaged))
		}
		return out, err
	}
}
