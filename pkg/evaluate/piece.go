package evaluate

import (
	"bufio"
	"encoding/json"
	"fmt"
	"io"
	"math"
	"strings"

	"fifthwise/pkg/chart"
	"fifthwise/pkg/chord"
	"fifthwise/pkg/function"
	"fifthwise/pkg/key"
)

// Piece is a chart with what a human analyst said of each chord.
type Piece struct {
	ID, Corpus, Source string
	Chart              chart.Chart
	Answers            []Answer // one for every chord as played; silences have none
}

// Answer is what the analyst said of one chord. Its zero value is nothing: the
// chord is not counted.
type Answer struct {
	Key     key.Key
	Degree  function.Degree // in the key, or in the tonicised key
	Target  function.Degree // the tonicised degree; none if not applied
	Labeled bool            // Degree and Target could be read
	Numeral string          // as annotated
	Pivot   key.Key         // the other key of a pivot chord; invalid if none
}

// record is a piece as its line of JSON has it.
type record struct {
	ID     string       `json:"id"`
	Corpus string       `json:"corpus"`
	Source string       `json:"source"`
	Meter  string       `json:"meter"`
	Meters []meterAt    `json:"meters"`
	Chords []annotation `json:"chords"`
}

type meterAt struct {
	Bar   int    `json:"bar"`
	Meter string `json:"meter"`
}

type annotation struct {
	Bar     int     `json:"bar"`
	Beat    float64 `json:"beat"`
	Symbol  string  `json:"symbol"`
	Key     string  `json:"key"`
	Numeral string  `json:"numeral"`
	Applied string  `json:"applied_to"`
	Section string  `json:"section"`
	Pivot   *struct {
		Key string `json:"key"`
	} `json:"pivot"`
}

// maxLine bounds a line of a corpus file in bytes.
const maxLine = 16 << 20

// Read reads annotated pieces, one JSON object a line:
//
//	{"id", "corpus", "source", "meter", "meters"?: [{"bar", "meter"}],
//	 "chords": [{"bar", "beat", "symbol", "key", "numeral", "applied_to", "section"?, "pivot"?: {"key"}}]}
//
// symbol is a chord in Harte or lead-sheet syntax; bar the printed number, 0
// for a pickup; beat counts from 1 in the beats of the meter. A chord lasts
// until the next one. numeral is in upper-case Roman, counted from the major
// scale of the tonic; for an applied chord it is counted in the tonicised key
// and applied_to names the degree, in lower case where it is minor. The first
// faulty line stops the reading; the error names it.
func Read(r io.Reader) ([]Piece, error) {
	lines := bufio.NewScanner(r)
	lines.Buffer(nil, maxLine)
	var pieces []Piece
	for n := 1; lines.Scan(); n++ {
		if len(strings.TrimSpace(lines.Text())) == 0 {
			continue
		}
		var rec record
		if err := json.Unmarshal(lines.Bytes(), &rec); err != nil {
			return nil, fmt.Errorf("line %d: %w", n, err)
		}
		p, err := rec.piece()
		if err != nil {
			return nil, fmt.Errorf("line %d: %s: %w", n, rec.ID, err)
		}
		pieces = append(pieces, p)
	}
	return pieces, lines.Err()
}

func (rec *record) piece() (Piece, error) {
	p := Piece{ID: rec.ID, Corpus: rec.Corpus, Source: rec.Source}
	if len(rec.Chords) == 0 {
		return p, fmt.Errorf("no chords")
	}
	meters, err := rec.meters()
	if err != nil {
		return p, err
	}
	p.Chart.Meter = meters[0].meter
	section := ""
	for i := range rec.Chords {
		a := &rec.Chords[i]
		c, err := chord.Parse(a.Symbol)
		if err != nil {
			return p, fmt.Errorf("chord %d: %w", i, err)
		}
		answer, err := a.answer()
		if err != nil {
			return p, fmt.Errorf("chord %d: %w", i, err)
		}
		at := beats(a.Beat - 1)
		bar := barFor(&p.Chart, a.Bar, at, meters)
		if bar == nil {
			return p, fmt.Errorf("chord %d: more than %d bars after the bar before", i, maxHeld)
		}
		if a.Section != section {
			section = a.Section
			bar.Section = section
		}
		if i == 0 && !at.IsZero() { // what comes before the first chord is silence
			bar.Chords = append(bar.Chords, chart.Slot{Len: at})
			p.Answers = append(p.Answers, Answer{})
		}
		if k := len(bar.Chords); k > 0 {
			before := &bar.Chords[k-1]
			before.Len = at.Sub(before.At)
		}
		bar.Chords = append(bar.Chords, chart.Slot{Chord: c, Symbol: a.Symbol, At: at, Len: bar.Meter.Beats().Sub(at)})
		p.Answers = append(p.Answers, answer)
	}
	return p, nil
}

// maxHeld bounds for how many bars a chord may be held.
const maxHeld = 1000

// barFor is the bar in which a chord starts. Bars that nothing starts in are
// added up to it. A place that does not come after the chord before is a bar
// written again, such as a second ending.
func barFor(c *chart.Chart, number int, at chart.Beats, meters []meterFrom) *chart.Bar {
	n := len(c.Bars)
	from := number
	if n > 0 {
		last := &c.Bars[n-1]
		again := last.Number == number && len(last.Chords) > 0 && at.Cmp(last.Chords[len(last.Chords)-1].At) <= 0
		if last.Number == number && !again {
			return last
		}
		if number > last.Number {
			from = last.Number + 1
		}
	}
	if number-from > maxHeld {
		return nil
	}
	for ; from <= number; from++ {
		c.Bars = append(c.Bars, chart.Bar{Number: from, Meter: meterIn(meters, from)})
	}
	return &c.Bars[len(c.Bars)-1]
}

// meterFrom is a meter and the first bar that it holds in.
type meterFrom struct {
	bar   int
	meter chart.Meter
}

func (rec *record) meters() ([]meterFrom, error) {
	list := make([]meterFrom, 0, 1+len(rec.Meters))
	for _, m := range append([]meterAt{{math.MinInt, rec.Meter}}, rec.Meters...) {
		meter, err := chart.ParseMeter(m.Meter)
		if err != nil {
			return nil, err
		}
		list = append(list, meterFrom{m.Bar, meter})
	}
	return list, nil
}

func meterIn(meters []meterFrom, bar int) (m chart.Meter) {
	for _, c := range meters {
		if c.bar <= bar {
			m = c.meter
		}
	}
	return m
}

func (a *annotation) answer() (Answer, error) {
	k, err := key.Parse(a.Key)
	if err != nil {
		return Answer{}, err
	}
	out := Answer{Key: k, Numeral: a.Numeral}
	if a.Applied != "" {
		out.Numeral += "/" + a.Applied
	}
	if a.Pivot != nil {
		if out.Pivot, err = key.Parse(a.Pivot.Key); err != nil {
			return Answer{}, err
		}
	}
	out.Degree, out.Target, out.Labeled = label(a.Numeral, a.Applied)
	return out, nil
}

// sixths are the classical names of the augmented sixths: on a lead sheet a
// dominant seventh on bVI.
var sixths = map[string]bool{"It6": true, "Fr43": true, "Ger65": true}

// label reads a numeral and its target; ok is false where they name no degree
// of ours, as nested targets do.
func label(numeral, applied string) (degree, target function.Degree, ok bool) {
	if sixths[numeral] {
		numeral = "bVI"
	}
	degree, err := function.ParseDegree(numeral)
	if err != nil || applied == "" {
		return degree, function.Degree{}, err == nil
	}
	target, err = function.ParseDegree(applied)
	return degree, target, err == nil
}

// beats is a count of beats as an exact fraction, of 48ths at the finest.
func beats(x float64) chart.Beats { return chart.B(int(math.Round(x*48)), 48) }
