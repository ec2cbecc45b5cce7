package musicxml

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"fifthwise/pkg/chart"
	"fifthwise/pkg/chart/roadmap"
)

// score is what of a file concerns harmony.
type score struct {
	title string
	names map[string]string // of parts by their ids
	parts []*part
	byID  map[string]*part
	bars  []bar // what any part says of each measure

	decoder   *xml.Decoder
	timewise  bool
	part      *part // being read
	measure   int   // being read, from 0; -1 outside
	next      bar   // what is known of the next measure before it is read
	harmonies int   // in all parts
	faults    ErrorList
	warnings  []chart.Warning
	told      map[chart.Warning]bool
}

// bar is a measure as all parts tell of it.
type bar struct {
	roadmap.Bar
	number   string
	length   chart.Beats // in quarter notes, of the longest part
	times    int         // how often words say that a passage is played; 0: they do not
	final    bool        // a final bar line stands behind it
	codaSign bool        // a coda sign that may be either the coda or the way to it
}

// part is a part with its chords.
type part struct {
	id        string
	harmonies []harmony
	silences  []harmony // that words say

	divisions int // of a quarter note
	at, end   chart.Beats
	signature signature
	first     signature // the first of the part
	changes   []int     // measures in which another comes
	transpose bool
	repeats   map[int]int // of measures that repeat others: how many bars before these stand
	repeating int         // that measures to come do; 0: none
}

// Bounds of a score.
const (
	maxMeasures  = chart.MaxPlayedBars
	maxHarmonies = chart.MaxPlayedChords // of a part
	maxInAll     = 2 * maxHarmonies
	maxParts     = 1000
)

func readScore(text []byte) (*score, error) {
	if err := checkBounds(text); err != nil {
		return nil, err
	}
	s := &score{names: map[string]string{}, byID: map[string]*part{}, told: map[chart.Warning]bool{}, measure: -1, decoder: xml.NewDecoder(bytes.NewReader(text))}
	s.decoder.CharsetReader = func(_ string, in io.Reader) (io.Reader, error) { return in, nil } // decoded already
	err := s.document()
	var e *Error
	switch {
	case err == nil:
	case errors.As(err, &e):
		return nil, e
	default:
		return nil, s.broken(err)
	}
	return s, nil
}

// broken is the fault of a file that is no sound XML.
func (s *score) broken(err error) *Error {
	e := s.fault("", "the file is no sound XML", "export it again")
	e.cause = err
	var syntax *xml.SyntaxError
	switch {
	case errors.As(err, &syntax):
		e.Line, e.Msg = syntax.Line, "the file is no sound XML: "+syntax.Msg
		if strings.Contains(syntax.Msg, "entity") {
			e.Hint = "entities of a document type are not read; write the characters themselves"
		}
	case errors.Is(err, io.EOF):
		e.Msg = "the file ends before the score does"
	default:
		e.Msg += ": " + clip(strings.TrimPrefix(err.Error(), "xml: "))
	}
	return e
}

// fault is a fault at the place that is being read.
func (s *score) fault(symbol, msg, hint string) *Error {
	e := &Error{Symbol: clip(symbol), Msg: clip(msg), Hint: hint}
	e.Line, _ = s.decoder.InputPos()
	if s.part != nil {
		e.Part = s.nameOf(s.part)
	}
	if s.measure >= 0 && s.measure < len(s.bars) {
		e.Measure = s.bars[s.measure].label(s.measure)
	}
	return e
}

// warn tells, once, of something in a measure that may not have been meant.
func (s *score) warn(measure int, format string, args ...any) {
	w := chart.Warning{Bar: s.numberOf(measure), Message: clip(fmt.Sprintf(format, args...))}
	if !s.told[w] {
		s.told[w] = true
		s.warnings = append(s.warnings, w)
	}
}

// numberOf is the number of a measure, without the X of one that is not counted;
// 0 where it has none.
func (s *score) numberOf(measure int) int {
	n := 0
	fmt.Sscanf(strings.TrimLeft(s.bars[measure].number, "Xx"), "%d", &n)
	return n
}

func (s *score) nameOf(p *part) string {
	if name := s.names[p.id]; name != "" {
		return clip(name)
	}
	return clip(p.id)
}

// label is the number of the measure at i as it is printed or, without one,
// counted.
func (b *bar) label(i int) string {
	if b.number == "" {
		return strconv.Itoa(i + 1)
	}
	return clip(b.number)
}

func (s *score) document() error {
	for {
		token, err := s.decoder.Token()
		if err == io.EOF {
			return &Error{Msg: "the file holds no score", Hint: "MusicXML starts with <score-partwise> or <score-timewise>"}
		}
		if err != nil {
			return err
		}
		start, ok := token.(xml.StartElement)
		if !ok {
			continue
		}
		switch start.Name.Local {
		case "score-partwise", "score-timewise":
			s.timewise = start.Name.Local == "score-timewise"
			return s.children(s.top)
		}
		return s.fault("", fmt.Sprintf("the file is <%s>, no score of MusicXML", start.Name.Local), "a score is <score-partwise> or <score-timewise>")
	}
}

// children calls f for every element in the one that is open, up to its end. f
// reads its element to the end.
func (s *score) children(f func(xml.StartElement) error) error {
	for {
		token, err := s.decoder.Token()
		if err != nil {
			return err
		}
		switch t := token.(type) {
		case xml.EndElement:
			return nil
		case xml.StartElement:
			if err := f(t); err != nil {
				return err
			}
		}
	}
}

func (s *score) top(start xml.StartElement) error {
	switch start.Name.Local {
	case "part-list":
		return s.children(s.partName)
	case "work", "movement-title", "credit":
		e, err := s.tree(start)
		if err == nil {
			s.header(&e)
		}
		return err
	case "part":
		return s.inPart(start, func() error {
			s.measure = -1
			return s.children(s.inPartwise)
		})
	case "measure":
		return s.inMeasure(start, func() error { return s.children(s.inTimewise) })
	}
	return s.decoder.Skip()
}

func (s *score) inPartwise(start xml.StartElement) error {
	if start.Name.Local != "measure" {
		return s.decoder.Skip()
	}
	return s.inMeasure(start, s.music)
}

func (s *score) inTimewise(start xml.StartElement) error {
	if start.Name.Local != "part" {
		return s.decoder.Skip()
	}
	return s.inPart(start, s.music)
}

// partName takes the name of a part.
func (s *score) partName(start xml.StartElement) error {
	e, err := s.tree(start)
	if id, ok := e.attr("id"); ok && len(s.names) < maxParts {
		s.names[id] = e.textOf("part-name")
	}
	return err
}

// header takes the title.
func (s *score) header(e *element) {
	switch e.name() {
	case "work":
		s.title = e.textOf("work-title")
	case "movement-title":
		if s.title == "" {
			s.title = e.text()
		}
	case "credit":
		if s.title == "" && e.textOf("credit-type") == "title" {
			s.title = e.textOf("credit-words")
		}
	}
}

func (s *score) inPart(start xml.StartElement, read func() error) error {
	id, _ := attrOf(start.Attr, "id")
	if s.part = s.byID[id]; s.part == nil {
		if len(s.parts) == maxParts {
			return s.fault("", fmt.Sprintf("the score has more than %d parts", maxParts), "export the lead sheet alone")
		}
		s.part = &part{id: id, divisions: 1, repeats: map[int]int{}}
		s.parts, s.byID[id] = append(s.parts, s.part), s.part
	}
	err := read()
	if err == nil {
		s.part = nil
	}
	return err
}

func (s *score) inMeasure(start xml.StartElement, read func() error) error {
	s.measure++
	if s.measure == len(s.bars) {
		if s.measure == maxMeasures {
			e := s.fault("", fmt.Sprintf("the score has more than %d measures", maxMeasures), "")
			e.cause = chart.ErrTooLong
			return e
		}
		s.next.number, _ = attrOf(start.Attr, "number")
		s.bars = append(s.bars, s.next)
		s.next = bar{}
	}
	return read()
}

// barAt is the bar of a measure, which may be the next or, for signs that lead
// nowhere, the one before the first.
func (s *score) barAt(measure int) *bar {
	switch {
	case measure < 0:
		return &bar{}
	case measure == len(s.bars):
		return &s.next
	}
	return &s.bars[measure]
}

// music reads a measure of a part.
func (s *score) music() error {
	p, b := s.part, &s.bars[s.measure]
	p.at, p.end = chart.Beats{}, chart.Beats{}
	if p.repeating > 0 {
		p.repeats[s.measure] = p.repeating
	}
	err := s.children(s.item)
	if b.length.Less(p.end) {
		b.length = p.end
	}
	return err
}

// item reads what stands in a measure.
func (s *score) item(start xml.StartElement) error {
	switch name := start.Name.Local; name {
	case "note":
		return s.note()
	case "attributes", "backup", "forward", "direction", "barline", "sound", "harmony":
		e, err := s.tree(start)
		if err != nil {
			return err
		}
		switch name {
		case "attributes":
			s.attributes(&e)
		case "backup":
			s.move(chart.Beats{}.Sub(s.duration(e.textOf("duration"))))
		case "forward":
			s.move(s.duration(e.textOf("duration")))
		case "direction":
			s.direction(&e)
		case "barline":
			s.barline(&e)
		case "sound":
			s.sound(&e)
		case "harmony":
			return s.harmony(&e)
		}
		return nil
	}
	return s.decoder.Skip()
}

// note moves on by the length of a note; notes of a chord and grace notes have
// none of their own.
func (s *score) note() error {
	var length chart.Beats
	still := false
	err := s.children(func(start xml.StartElement) error {
		switch start.Name.Local {
		case "chord", "grace":
			still = true
		case "duration":
			e, err := s.tree(start)
			length = s.duration(e.text())
			return err
		}
		return s.decoder.Skip()
	})
	if !still {
		s.move(length)
	}
	return err
}

func (s *score) move(by chart.Beats) {
	p := s.part
	p.at = p.at.Add(by)
	if p.at.Less(chart.Beats{}) {
		p.at = chart.Beats{}
	}
	if p.end.Less(p.at) {
		p.end = p.at
	}
}

// duration is a number of divisions in quarter notes.
func (s *score) duration(text string) chart.Beats {
	if n, err := strconv.Atoi(text); err == nil && n > math.MinInt32 && n < math.MaxInt32 {
		return chart.B(n, s.part.divisions)
	}
	b, _ := chart.ParseBeats(text) // what is no number is no length
	num, den := b.Fraction()
	return chart.B(num, den*s.part.divisions)
}
