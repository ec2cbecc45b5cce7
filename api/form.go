package api

import (
	"fmt"
	"strings"

	"github.com/go-json-experiment/json"

	"fifthwise/api/wire"
	"fifthwise/pkg/chart"
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
	{mediaScore, (*chartSheet).plainScore},
	{mediaCompressed, (*chartSheet).compressedScore},
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
}

func sheetOf(given source, analyze bool) *chartSheet {
	s := &chartSheet{source: given, printing: printingOf(given.options)}
	if analyze {
		a := s.analyze(given.chart)
		s.reading = &a
	}
	return s
}

// marks are the words of the reading; none if it was not asked for.
func (s *chartSheet) marks() []chart.Mark {
	if s.reading == nil {
		return nil
	}
	var written []int
	if s.score != nil {
		written = s.score.Measures()
	}
	return sheet.Marks(*s.reading, sheet.Style{Numerals: s.numerals, Accidentals: s.accidentals}, written)
}

// json is the chart as a request for its reading.
func (s *chartSheet) json() ([]byte, error) {
	c := s.chart
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

// text is the text notation, the reading bar by bar in comments behind it.
func (s *chartSheet) text() ([]byte, error) {
	text := s.chart.AppendTo(nil)
	bar := -1
	for _, m := range chart.MergeMarks(s.marks()) {
		if m.Bar == bar {
			text = append(text, ',')
		} else {
			text = fmt.Appendf(text, "\n# bar %d:", s.chart.Bars[m.Bar].Number)
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

// plainScore is MusicXML.
func (s *chartSheet) plainScore() ([]byte, error) {
	file, err := s.scoreFile()
	if err != nil || !musicxml.IsCompressed(file) {
		return file, err
	}
	return unpacked(file)
}

// compressedScore is MusicXML in an archive.
func (s *chartSheet) compressedScore() ([]byte, error) {
	file, err := s.scoreFile()
	if err != nil || musicxml.IsCompressed(file) {
		return file, err
	}
	return musicxml.Compress(file)
}

// scoreFile is the score that was sent, without a reading the very same bytes;
// what was sent otherwise is written as a score. It may be compressed.
func (s *chartSheet) scoreFile() ([]byte, error) {
	switch {
	case s.score == nil:
		return musicxml.Write(s.chart, s.marks()), nil
	case s.reading == nil:
		return s.file, nil
	}
	return s.score.Annotate(s.marks())
}
