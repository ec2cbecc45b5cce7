package evaluate

import (
	"encoding/json"
	"errors"
	"fmt"
	"reflect"
	"slices"
	"strings"

	"fifthwise/pkg/chart"
	"fifthwise/pkg/chord"
	"fifthwise/pkg/function"
	"fifthwise/pkg/key"
)

// record is a piece as its line of JSON has it.
type record struct {
	ID        string            `json:"id"`
	Corpus    string            `json:"corpus"`
	Source    string            `json:"source"`
	Meter     string            `json:"meter"`
	Meters    []change          `json:"meters"`
	TonicOnly bool              `json:"tonic_only"`
	Chords    []json.RawMessage `json:"chords"`
}

// change is a meter and the first bar that it holds in.
type change struct {
	Bar   int    `json:"bar"`
	Meter string `json:"meter"`
	meter chart.Meter
}

type annotation struct {
	Bar      *int     `json:"bar"`
	Beat     *float64 `json:"beat"`
	Symbol   string   `json:"symbol"`
	Key      string   `json:"key"`
	Numeral  string   `json:"numeral"`
	Applied  string   `json:"applied_to"`
	Section  string   `json:"section"`
	Duration *float64 `json:"duration_beats"`
}

// parse reads a line.
func parse(line []byte) (Piece, error) {
	var rec record
	if err := decode(line, &rec); err != nil {
		return Piece{}, err
	}
	w, err := newWriter(&rec)
	if err != nil {
		return Piece{}, fmt.Errorf("%q: %w", rec.ID, err)
	}
	for i, raw := range rec.Chords {
		if err := w.add(raw, i == len(rec.Chords)-1); err != nil {
			return Piece{}, fmt.Errorf("%q: chord %d: %w", rec.ID, i, err)
		}
	}
	return w.Piece, nil
}

// decode reads JSON and says what was expected in the words of the format.
func decode(text []byte, into any) error {
	err := json.Unmarshal(text, into)
	var t *json.UnmarshalTypeError
	var s *json.SyntaxError
	switch {
	case errors.As(err, &t) && t.Field == "":
		return fmt.Errorf("expected an object, not %s", t.Value)
	case errors.As(err, &t):
		return fmt.Errorf("%s: expected %s, not %s", t.Field, kindName(t.Type), t.Value)
	case errors.As(err, &s):
		return fmt.Errorf("not JSON at offset %d: %s", s.Offset, strings.TrimPrefix(s.Error(), "json: "))
	}
	return err
}

func kindName(t reflect.Type) string {
	switch t.Kind() {
	case reflect.Int:
		return "a whole number"
	case reflect.Float64:
		return "a number"
	case reflect.Bool:
		return "true or false"
	case reflect.Slice:
		return "a list"
	case reflect.Struct:
		return "an object"
	}
	return "text"
}

// writer writes a piece's chords into bars.
type writer struct {
	Piece
	changes []change // of meter, by bar
	section string
}

func newWriter(rec *record) (*writer, error) {
	w := &writer{Piece: Piece{ID: rec.ID, Corpus: rec.Corpus, Source: rec.Source, TonicOnly: rec.TonicOnly}, changes: rec.Meters}
	var err error
	if w.Chart.Meter, err = chart.ParseMeter(rec.Meter); err != nil {
		return nil, fmt.Errorf("meter: %w", err)
	}
	for i := range w.changes {
		c := &w.changes[i]
		if c.meter, err = chart.ParseMeter(c.Meter); err != nil {
			return nil, fmt.Errorf("meters: bar %d: %w", c.Bar, err)
		}
	}
	slices.SortStableFunc(w.changes, func(a, b change) int { return a.Bar - b.Bar })
	if len(rec.Chords) == 0 {
		return nil, errors.New("chords: expected at least one")
	}
	return w, nil
}

func (w *writer) meterIn(bar int) chart.Meter {
	m := w.Chart.Meter
	for _, c := range w.changes {
		if c.Bar <= bar {
			m = c.meter
		}
	}
	return m
}

// add writes a chord. It ends the one before and lasts to the end of its bar,
// the last one as long as it says.
func (w *writer) add(raw json.RawMessage, last bool) error {
	var a annotation
	if err := decode(raw, &a); err != nil {
		return err
	}
	c, err := chord.Parse(a.Symbol)
	if err != nil {
		return fmt.Errorf("symbol: %w", err)
	}
	answer, err := a.answer()
	if err != nil {
		return err
	}
	if c.IsSilence() {
		answer = Answer{}
	}
	bar, at, err := w.place(&a)
	if err != nil {
		return err
	}
	if a.Section != "" && a.Section != w.section {
		w.section, bar.Section = a.Section, a.Section
	}
	if k := len(bar.Chords); k > 0 {
		before := &bar.Chords[k-1]
		before.Len = at.Sub(before.At)
	}
	w.write(bar, chart.Slot{Chord: c, Symbol: a.Symbol, At: at, Len: bar.Meter.Beats().Sub(at)}, answer)
	if last {
		return w.hold(a.Duration)
	}
	return nil
}

func (w *writer) write(b *chart.Bar, s chart.Slot, a Answer) {
	b.Chords = append(b.Chords, s)
	w.Answers = append(w.Answers, a)
}

// place is the bar and the beat, from 0, at which a chord starts. What comes
// before the first chord is silence, or no part of the pickup.
func (w *writer) place(a *annotation) (*chart.Bar, chart.Beats, error) {
	if a.Bar == nil || *a.Bar < 0 {
		return nil, chart.Beats{}, errors.New("bar: expected the printed number of a bar, from 0")
	}
	if a.Beat == nil || *a.Beat < 1 {
		return nil, chart.Beats{}, errors.New("beat: expected a number from 1")
	}
	beat, err := chart.BeatsOf(*a.Beat)
	if err != nil {
		return nil, chart.Beats{}, fmt.Errorf("beat: %w", err)
	}
	at, first := beat.Sub(chart.B(1, 1)), len(w.Chart.Bars) == 0
	bar, err := w.barFor(*a.Bar, at)
	if err != nil {
		return nil, at, err
	}
	left := bar.Meter.Beats().Sub(at)
	switch {
	case left.Cmp(chart.Beats{}) <= 0:
		return nil, at, fmt.Errorf("beat %v: expected one of the %v of bar %d in %v", beat, bar.Meter.Beats(), *a.Bar, bar.Meter)
	case first && bar.Number == 0:
		w.Chart.Pickup = left
	case first && !at.IsZero():
		w.write(bar, chart.Slot{Len: at}, Answer{})
	}
	return bar, at, nil
}

// maxHeld bounds for how many bars a chord may be held.
const maxHeld = 1000

// barFor is the bar in which a chord starts. Bars that nothing starts in are
// added before it. A place that does not come after the chord before is a bar
// written again.
func (w *writer) barFor(number int, at chart.Beats) (*chart.Bar, error) {
	from := number
	if n := len(w.Chart.Bars); n > 0 {
		last := &w.Chart.Bars[n-1]
		switch {
		case number == last.Number && last.Chords[len(last.Chords)-1].At.Less(at):
			return last, nil
		case number == 0:
			return nil, errors.New("bar 0: expected a pickup only at the start")
		case number > last.Number+maxHeld:
			return nil, fmt.Errorf("bar %d: expected at most %d bars after bar %d", number, maxHeld, last.Number)
		case number > last.Number:
			from = last.Number + 1
		}
	}
	for ; from <= number; from++ {
		w.addBar(from)
	}
	return &w.Chart.Bars[len(w.Chart.Bars)-1], nil
}

func (w *writer) addBar(number int) {
	w.Chart.Bars = append(w.Chart.Bars, chart.Bar{Number: number, Meter: w.meterIn(number)})
}

// hold lets the last chord last so many beats, in whole bars beyond its own.
func (w *writer) hold(duration *float64) error {
	if duration == nil {
		return nil
	}
	left, err := chart.BeatsOf(*duration)
	if err != nil {
		return fmt.Errorf("duration_beats: %w", err)
	}
	last := &w.Chart.Bars[len(w.Chart.Bars)-1]
	slot := &last.Chords[len(last.Chords)-1]
	switch {
	case left.Cmp(chart.Beats{}) <= 0:
		return errors.New("duration_beats: expected more than 0")
	case left.Less(slot.Len):
		slot.Len = left
	}
	left = left.Sub(slot.Len)
	for number := last.Number + 1; (chart.Beats{}).Less(left); number++ {
		if number > last.Number+maxHeld {
			return fmt.Errorf("duration_beats: expected at most %d bars", maxHeld)
		}
		w.addBar(number)
		left = left.Sub(w.meterIn(number).Beats())
	}
	return nil
}

// answer is what the analyst said of the chord.
func (a *annotation) answer() (Answer, error) {
	if a.Key == "" {
		return Answer{}, nil
	}
	k, err := key.Parse(a.Key)
	if err != nil {
		return Answer{}, fmt.Errorf("key: %w", err)
	}
	out := Answer{Key: k, Numeral: a.Numeral}
	if a.Applied != "" {
		out.Numeral += "/" + a.Applied
	}
	return out, a.label(&out)
}

// sixths are the classical names of the augmented sixths: on a lead sheet a
// dominant seventh on bVI.
var sixths = []string{"It6", "Fr43", "Ger65"}

// label reads the numeral and its target. A nested target is left unread.
func (a *annotation) label(out *Answer) (err error) {
	if a.Numeral == "" {
		return nil
	}
	numeral := a.Numeral
	if slices.Contains(sixths, numeral) {
		numeral = "bVI"
	}
	if out.Degree, err = function.ParseDegree(numeral); err != nil {
		return fmt.Errorf("numeral: %w", err)
	}
	if strings.Contains(a.Applied, "/") {
		out.Degree = function.Degree{}
		return nil
	}
	out.Labeled = true
	if a.Applied == "" {
		return nil
	}
	if out.Target, err = function.ParseDegree(a.Applied); err != nil {
		return fmt.Errorf("applied_to: %w", err)
	}
	if out.Target == function.D(1, 0) {
		out.Target = function.Degree{}
	}
	return nil
}
