// Package request reads the charts that programs are given a line each, as the
// API is sent them, and says what is wrong with a chart in any format.
package request

import (
	"errors"
	"fmt"
	"io"
	"slices"

	"github.com/go-json-experiment/json"
	"github.com/go-json-experiment/json/jsontext"

	"fifthwise/api/wire"
	"fifthwise/pkg/chart"
	"fifthwise/pkg/key"
)

// Chart reads a chart as the API is sent it. The errors are told all at
// once where they lie in chords.
func Chart(text []byte) (chart.Chart, error) {
	var r wire.AnalysisRequest
	if err := json.Unmarshal(text, &r, json.RejectUnknownMembers(true)); err != nil {
		return chart.Chart{}, inWords(err)
	}
	h, err := header(&r.Chart)
	switch {
	case err != nil:
		return chart.Chart{}, err
	case (r.Changes == nil) == (len(r.Bars) == 0):
		return chart.Chart{}, errors.New("expected either changes or bars")
	case r.Changes != nil:
		return chart.ParseWith(*r.Changes, h)
	}
	bars := make([]chart.BarEntries, len(r.Bars))
	for i := range r.Bars {
		if bars[i], err = entries(&r.Bars[i]); err != nil {
			bar := i + 1
			if n := r.Bars[i].Number; n != nil {
				bar = *n
			}
			return chart.Chart{}, &chart.Error{Bar: bar, BarIndex: i, Chord: -1, Msg: err.Error()}
		}
	}
	c, err := chart.FromEntries(h, bars)
	for i := range min(len(r.Bars), len(c.Bars)) {
		c.Bars[i].Double = r.Bars[i].Double
	}
	return c, err
}

// inWords says what is wrong with a line of JSON without naming our types.
func inWords(err error) error {
	var syntax *jsontext.SyntacticError
	var mismatch *json.SemanticError
	switch {
	case errors.Is(err, io.ErrUnexpectedEOF):
		return errors.New("the JSON ends too early (a chart stands on one line)")
	case errors.As(err, &syntax):
		return fmt.Errorf("byte %d of the line is no sound JSON: %w", syntax.ByteOffset, syntax.Err)
	case errors.Is(err, json.ErrUnknownName) && errors.As(err, &mismatch):
		return fmt.Errorf("%s: unknown field (a chart has title, meter, key and either changes or bars)", mismatch.JSONPointer)
	case errors.As(err, &mismatch):
		return fmt.Errorf("%s: the value is of another type than expected", mismatch.JSONPointer)
	}
	return err
}

func header(c *wire.Chart) (h chart.Header, err error) {
	h.Title = c.Title
	if h.Meter, err = meter(c.Meter); err != nil {
		return h, fmt.Errorf("/meter: %w", err)
	}
	if c.Key != nil {
		if h.Key, err = key.Parse(*c.Key); err != nil {
			return h, fmt.Errorf("/key: %w", err)
		}
	}
	return h, nil
}

func meter(s *string) (chart.Meter, error) {
	if s == nil {
		return chart.Meter{}, nil
	}
	return chart.ParseMeter(*s)
}

func entries(b *wire.Bar) (e chart.BarEntries, err error) {
	if e.Meter, err = meter(b.Meter); err != nil {
		return e, fmt.Errorf("meter: %w", err)
	}
	if b.Chords == nil {
		return e, errors.New("chords is missing ([] holds the chord before)")
	}
	e.Number, e.Section = b.Number, b.Section
	e.Chords = slices.Grow(e.Chords, len(b.Chords))
	for _, c := range b.Chords {
		beat, err := beats(c.Beat, 1)
		if err != nil {
			return e, fmt.Errorf("%q: beat: %w", c.Symbol, err)
		}
		length, err := beats(c.Beats, 0)
		if err != nil {
			return e, fmt.Errorf("%q: beats: %w", c.Symbol, err)
		}
		e.Chords = append(e.Chords, chart.Entry{Symbol: c.Symbol, Beat: beat, Beats: length, Optional: c.Optional})
	}
	return e, nil
}

// beats is a number of beats from some number on, 0 excluded: that stands for
// none given.
func beats(f *float64, from float64) (chart.Beats, error) {
	switch {
	case f == nil:
		return chart.Beats{}, nil
	case *f < from:
		return chart.Beats{}, fmt.Errorf("expected %v or more", from)
	case *f <= 0:
		return chart.Beats{}, errors.New("expected more than 0")
	}
	return chart.BeatsOf(*f)
}
