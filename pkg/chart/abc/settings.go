package abc

import (
	"strings"

	"fifthwise/pkg/chart"
)

// settings are what fields say of the notes that follow them.
type settings struct {
	meter meter
	unit  chart.Beats // the length of notes without a number, in whole notes; zero: by the meter
	signs [128]sign   // of letters, by U: fields
}

// fileHeader is what the fields before the first tune say of all (The abc music
// standard 2.1, section 2.2.2).
func fileHeader(b block) settings {
	s := settings{}
	s.signs['S'], s.signs['O'] = segnoSign, codaSign
	skip := ""
	for l := range b.lines() {
		switch {
		case skip != "":
			if strings.HasPrefix(l.text, "%%end"+skip) {
				skip = ""
			}
			continue
		case l.begun() != "":
			skip = l.begun()
			continue
		case l.field() == 'K':
			return s
		}
		value := func() string { return withoutComment(l.text)[2:] }
		switch l.field() {
		case 'M':
			if m, err := parseMeter(value()); err == nil {
				s.meter = m
			}
		case 'L':
			s.unit, _ = parseUnit(value())
		case 'U':
			s.userSymbol(value())
		}
	}
	return s
}

// userSymbol reads the value of a U: field: "T = !trill!" (The abc music
// standard 2.1, section 4.16).
func (s *settings) userSymbol(value string) {
	letter, meant, found := strings.Cut(value, "=")
	letter, meant = strings.TrimSpace(letter), strings.TrimSpace(meant)
	if !found || len(letter) != 1 || letter[0] >= 128 {
		return
	}
	s.signs[letter[0]] = decorations[strings.Trim(meant, "!+")]
}

// unitNote is the length of notes without a number.
func (s *settings) unitNote() chart.Beats {
	if s.unit.IsZero() {
		s.unit = s.meter.unitNote()
	}
	return s.unit
}
