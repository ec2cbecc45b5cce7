package main

import (
	"fmt"
	"strconv"

	"fifthwise/examples/internal/command"
	"fifthwise/pkg/chart/file"
	"fifthwise/pkg/function"
	"fifthwise/pkg/pitch"
	"fifthwise/pkg/sheet"
)

// style is how a page is written.
type style struct {
	numerals     function.NumeralStyle
	accidentals  pitch.Accidentals
	alternatives int // of each chord, at most
	reasons      reasons
	format       file.Format // of the file that is written; none: a page
	drawn        bool        // an SVG drawing is written
	handout      bool        // … page by page, in HTML
	paper        sheet.Paper // of these pages
	part         command.Part
	tune         int // of a book in ABC, by its number; 0: the only one
}

// reasons says for which chords a reason is given.
type reasons uint8

const (
	none reasons = iota
	some         // those that are more than a plain chord of the key
	all
)

func (s *style) setFormat(value string) (err error) {
	s.format, s.drawn, s.handout = 0, value == "svg", value == "html"
	if s.drawn || s.handout || value == "page" {
		return nil
	}
	if s.format, err = file.ParseFormat(value); err != nil {
		return fmt.Errorf("expected page, svg, html, text, musicxml, mxl or abc")
	}
	return nil
}

func (s *style) setAlternatives(value string) (err error) {
	s.alternatives, err = strconv.Atoi(value)
	if err != nil || s.alternatives < 0 || s.alternatives > function.MaxAlternatives {
		return fmt.Errorf("expected 0 to %d", function.MaxAlternatives)
	}
	return nil
}

func (s *style) setReasons(value string) error {
	switch value {
	case "none":
		s.reasons = none
	case "some":
		s.reasons = some
	case "all":
		s.reasons = all
	default:
		return fmt.Errorf("expected none, some or all")
	}
	return nil
}
