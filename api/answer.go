package api

import (
	"math"

	"fifthwise/api/wire"
	"fifthwise/pkg/chart"
	"fifthwise/pkg/function"
	"fifthwise/pkg/key"
	"fifthwise/pkg/pitch"
	"fifthwise/pkg/study"
)

// printing is how a reading is put into words.
type printing struct {
	numerals     function.NumeralStyle
	accidentals  pitch.Accidentals
	alternatives int
	practice     bool
	*texts
}

// printingOf takes options whose values are known to be good.
func printingOf(o wire.AnalysisOptions) printing {
	p := printing{alternatives: 2, texts: new(texts)}
	if o.Numerals != nil {
		p.numerals, _ = function.ParseNumeralStyle(*o.Numerals)
	}
	if o.Accidentals != nil && *o.Accidentals == "unicode" {
		p.accidentals = pitch.Unicode
	}
	if o.Alternatives != nil {
		p.alternatives = *o.Alternatives
	}
	p.practice = o.Practice != nil && *o.Practice
	return p
}

func (p printing) analyze(c chart.Chart) function.Analysis {
	return function.Analyze(c, function.Written(p.numerals, p.accidentals))
}

func (p printing) key(k key.Key) string {
	var room [32]byte
	return p.text(k.AppendTo(room[:0], p.accidentals))
}

func (p printing) scale(s key.Scale) string {
	var room [64]byte
	return p.text(s.AppendTo(room[:0], p.accidentals))
}

func (p printing) note(n pitch.Note) string { return n.Text(p.accidentals) }

func (p printing) numeral(n function.Numeral, k key.Key) string {
	var room [48]byte
	return p.text(n.AppendText(room[:0], p.numerals, k.Mode(), p.accidentals))
}

// answer is a reading in the API's shape.
func (p printing) answer(c chart.Chart, a *function.Analysis) *wire.Analysis {
	w := &wire.Analysis{
		Title:    c.Title,
		Meter:    c.Meter.String(),
		HomeKey:  p.key(a.Home),
		Regions:  make([]wire.Region, len(a.Regions)),
		Chords:   make([]wire.ChordReading, len(a.Chords)),
		Cadences: make([]wire.Cadence, len(a.Cadences)),
		Warnings: warnings(a.Warnings),
	}
	clock := clock{chart: c}
	for i := range a.Regions {
		w.Regions[i] = p.region(a, i, &clock)
	}
	for i := range a.Chords {
		w.Chords[i] = p.chord(a, i)
	}
	for i, c := range a.Cadences {
		w.Cadences[i] = wire.Cadence{Kind: c.Kind.String(), Key: p.key(c.Key), Chords: c.Chords}
	}
	plan := study.Of(a)
	w.Form = plan.Form.Letters
	w.Phrases = phrases(&plan, &clock)
	w.Study = studyOf(&plan)
	if p.practice {
		w.Study.Practice = p.practiceOf(a)
	}
	return w
}

func warnings(list []chart.Warning) []wire.Warning {
	w := make([]wire.Warning, len(list))
	for i, x := range list {
		w[i] = wire.Warning{Bar: x.Bar, Message: x.Message}
	}
	return w
}

func (p printing) region(a *function.Analysis, i int, clock *clock) wire.Region {
	r := &a.Regions[i]
	return wire.Region{
		Key:        p.key(r.Key),
		FirstChord: r.First,
		LastChord:  r.Last,
		Start:      clock.start(&a.Chords[r.First].Event),
		End:        clock.end(&a.Chords[r.Last].Event),
		Motion:     r.Motion.String(),
		Confidence: rounded(r.Confidence),
		Evidence:   a.Evidence(i),
	}
}

func (p printing) chord(a *function.Analysis, i int) wire.ChordReading {
	r := &a.Chords[i]
	w := wire.ChordReading{
		Index:      i,
		Bar:        r.Event.Bar,
		Beat:       r.Event.Beat.Float64(),
		Beats:      r.Event.Len.Float64(),
		Pass:       r.Event.Pass,
		Section:    r.Event.Section,
		Symbol:     r.Event.Symbol,
		Numeral:    p.numeral(r.Numeral, r.Key),
		Function:   r.Function.String(),
		Role:       r.Role.String(),
		Confidence: rounded(r.Confidence),
	}
	if r.Region < 0 {
		return w
	}
	w.Bass = p.note(r.Event.Chord.Bass())
	w.Region = &r.Region
	w.Key = p.key(r.Key)
	w.Degree, w.AppliedTo = r.Degree.String(), r.Target.String()
	var notes [12]pitch.Note
	w.Notes = p.notes(r.Event.Chord.AppendNotes(notes[:0]))
	w.Scale = p.scale(r.Scale)
	var reason [256]byte
	w.Reason = p.text(a.AppendReason(reason[:0], i))
	w.Alternatives = p.alternativesOf(a, i)
	if r.ResolvesTo >= 0 {
		w.ResolvesTo = &r.ResolvesTo
	}
	if r.Pivot.Key.IsValid() {
		w.Pivot = &wire.Pivot{Key: p.key(r.Pivot.Key), Numeral: p.numeral(r.Pivot.Numeral, r.Pivot.Key)}
	}
	return w
}

func (p printing) notes(notes []pitch.Note) []string {
	names := p.list(len(notes))
	for i, n := range notes {
		names[i] = p.note(n)
	}
	return names
}

func (p printing) alternativesOf(a *function.Analysis, i int) []wire.Alternative {
	list := a.Alternatives(i, p.alternatives)
	w := make([]wire.Alternative, len(list))
	var reason [256]byte
	for i := range list {
		alt := &list[i]
		w[i] = wire.Alternative{
			Key:        p.key(alt.Key),
			Numeral:    p.numeral(alt.Numeral, alt.Key),
			Degree:     alt.Degree.String(),
			AppliedTo:  alt.Target.String(),
			Role:       alt.Role.String(),
			Reason:     p.text(alt.AppendReason(reason[:0])),
			Confidence: rounded(alt.Confidence),
		}
	}
	return w
}

// rounded cuts a probability to four decimals; no more of it means anything.
func rounded(p float64) float64 { return math.Round(p*1e4) / 1e4 }
