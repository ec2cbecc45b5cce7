package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"fifthwise/api/wire"
	"fifthwise/pkg/chart"
	"fifthwise/pkg/pitch"
	"fifthwise/pkg/review"
)

// readJSON reads an answer as the HTTP API takes it.
func (t *task) readJSON(s string) (g given, err error) {
	var w wire.ReviewAnswer
	d := json.NewDecoder(strings.NewReader(s))
	d.DisallowUnknownFields()
	if err := d.Decode(&w); err != nil {
		return g, jsonFault(s, err)
	}
	if _, err := d.Token(); !errors.Is(err, io.EOF) {
		return g, faults{{msg: "more stands behind the answer"}}
	}
	var list faults
	if w.Regions == nil && w.Numerals == nil {
		list = append(list, fault{msg: "the answer has neither regions nor numerals"})
	}
	for i := range w.Regions {
		r, wrong := regionOf(fmt.Sprintf("/regions/%d", i), &w.Regions[i])
		g.Regions, list = append(g.Regions, r), append(list, wrong...)
	}
	if w.Numerals != nil {
		g.Numerals = make([]string, len(w.Numerals))
	}
	for i, n := range w.Numerals {
		if n != nil {
			g.Numerals[i] = *n
		}
	}
	return g, list.err()
}

func regionOf(where string, w *wire.AnswerRegion) (r review.Region, list faults) {
	var err error
	var e *pitch.SyntaxError
	if r.Key, r.NoMode, err = review.ParseKey(w.Key); errors.As(err, &e) {
		list = append(list, fault{where: where + "/key", msg: fmt.Sprintf("%q: %s", w.Key, e.Msg), hint: e.Hint})
	}
	if w.Bar == nil {
		list = append(list, fault{where: where + "/bar", msg: "the bar is missing"})
	} else {
		r.Bar = *w.Bar
	}
	if w.Beat != nil {
		if r.Beat, err = chart.BeatsOf(*w.Beat); err != nil || *w.Beat < 1 {
			list = append(list, fault{where: where + "/beat", msg: "expected a beat, from 1"})
		}
	}
	if w.Pass != nil {
		if r.Pass = *w.Pass; r.Pass < 1 {
			list = append(list, fault{where: where + "/pass", msg: "expected a time through the bar, from 1"})
		}
	}
	return r, list
}

// jsonFault says in our words what the decoder found.
func jsonFault(s string, err error) error {
	var syntax *json.SyntaxError
	var kind *json.UnmarshalTypeError
	switch {
	case errors.As(err, &kind):
		f := placed(s, int(kind.Offset))
		f.msg = fmt.Sprintf("a %s stands where it cannot", kind.Value)
		if kind.Field != "" {
			f.msg += ", in " + kind.Field
		}
		return faults{f}
	case errors.As(err, &syntax):
		f := placed(s, int(syntax.Offset)-1)
		f.msg = "the file is no sound JSON: " + syntax.Error()
		return faults{f}
	case errors.Is(err, io.EOF), errors.Is(err, io.ErrUnexpectedEOF):
		return faults{{msg: "the JSON ends too early"}}
	}
	return faults{{msg: strings.TrimPrefix(err.Error(), "json: "), hint: "the fields are regions and numerals; of a region key, bar, beat and pass"}}
}

// placed is a fault at an offset.
func placed(s string, at int) fault {
	before := s[:max(0, min(at, len(s)))]
	return fault{line: strings.Count(before, "\n") + 1, col: utf8.RuneCountInString(before[strings.LastIndexByte(before, '\n')+1:]) + 1}
}
