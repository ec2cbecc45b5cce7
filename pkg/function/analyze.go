package function

import (
	"sync"

	"fifthwise/pkg/chart"
	"fifthwise/pkg/key"
	"fifthwise/pkg/pitch"
)

// Option changes how a chart is analysed.
type Option func(*settings)

type settings struct {
	written writing
	model   *Model
}

var defaultModel = sync.OnceValue(func() *Model { return NewModel(Default()) })

// WithModel reads with other weights than [Default]; nil leaves the default.
func WithModel(m *Model) Option {
	return func(s *settings) { s.model = m }
}

// writing is how sentences write numerals, notes and keys.
type writing struct {
	style       NumeralStyle
	accidentals pitch.Accidentals
}

// Written has sentences (reasons, evidence, warnings) write numerals in a style
// and accidentals in ASCII or Unicode. Without it they are [Upper] and ASCII.
// Chord symbols stay as written.
func Written(style NumeralStyle, accidentals pitch.Accidentals) Option {
	return func(s *settings) { s.written = writing{style, accidentals} }
}

func (w writing) numeral(n Numeral, k key.Key) string {
	return n.Text(w.style, k.Mode(), w.accidentals)
}

func (w writing) note(n pitch.Note) string { return string(n.AppendTo(nil, w.accidentals)) }

func (w writing) key(k key.Key) string { return string(k.AppendTo(nil, w.accidentals)) }

// Analyze reads a chart: key regions, a numeral under every chord, and what
// each does. Any chart is read; one without a sounding chord has no regions.
// The same chart gives the same reading always. Time and memory grow with the
// number of chords as played.
func Analyze(c chart.Chart, options ...Option) Analysis {
	s := settings{}
	for _, o := range options {
		if o != nil {
			o(&s)
		}
	}
	if s.model == nil {
		s.model = defaultModel()
	}
	events := c.Played()
	a := Analysis{Chords: make([]Reading, len(events)), written: s.written}
	for i, e := range events {
		a.Chords[i] = Reading{Event: e, Region: -1, ResolvesTo: -1, Confidence: 1}
	}
	l := lattices.Get().(*lattice)
	defer lattices.Put(l)
	l.Model = s.model
	l.build(c.Key, events)
	if len(l.columns) == 0 {
		a.Warnings = c.Warnings
		return a
	}
	l.sum(faint)
	steps := l.path()
	a.outcome = l.outcome(steps, events)
	a.outcome.findHolds()
	a.outcome.findStrikes(a.Chords)
	a.addRegions()
	a.nameModes()
	a.addReadings()
	a.addDebts()
	a.addPivots()
	a.addCadences()
	a.Home = a.home(c.Key)
	a.addWarnings(c)
	return a
}

// WrittenAs is the reading with sentences that write numerals and accidentals in
// another way; warnings, which are made, stay as they are.
func (a *Analysis) WrittenAs(style NumeralStyle, accidentals pitch.Accidentals) Analysis {
	b := *a
	b.written = writing{style, accidentals}
	return b
}

// addRegions splits the path where the key changes.
func (a *Analysis) addRegions() {
	o := a.outcome
	for from := 0; from < len(o.chosen); {
		to := from + 1
		for to < len(o.chosen) && o.chosen[to].key == o.chosen[from].key {
			to++
		}
		k, disagree := o.spell(a.Chords, from, to)
		r := Region{Key: k, First: o.columns[from].first, Last: o.columns[to-1].last, Confidence: o.keyChance(a.Chords, from, to)}
		if n := len(a.Regions); n > 0 {
			r.Motion = a.Regions[n-1].Key.Tonic().MotionTo(k.Tonic())
		}
		a.Regions = append(a.Regions, r)
		if disagree {
			a.warnRespelled(len(a.Regions) - 1)
		}
		from = to
	}
}

// keyChance is the mean probability of the key of columns [from, to), weighted
// by their length.
func (o *outcome) keyChance(chords []Reading, from, to int) float64 {
	sum, all := 0.0, 0.0
	for i := from; i < to; i++ {
		c, k := &o.columns[i], o.chosen[i].key
		length, chance := 0.0, 0.0
		for j := c.first; j <= c.last; j++ {
			length += chords[j].Event.Len.Float64()
		}
		for s, hi := c.in(int(k)); s < hi; s++ {
			chance += float64(o.chance[s])
		}
		sum += length * chance
		all += length
	}
	return min(1, sum/all)
}

// addReadings gives each chord what the path says of it.
func (a *Analysis) addReadings() {
	o := a.outcome
	for n := range a.Regions {
		region := &a.Regions[n]
		for j := region.First; j <= region.Last; j++ {
			if o.events[j] < 0 {
				continue
			}
			i := int(o.events[j])
			e := o.entry(i)
			r := &a.Chords[j]
			r.Region, r.Key = n, region.Key
			r.Degree, r.Target = e.degree, e.target
			r.Function, r.Role = e.function, e.role
			r.Numeral = e.numeral(r.Event.Chord, region.Key.Tonic())
			r.Confidence = o.labelChance(i)
			r.Scale = e.scale(r.Event.Chord, region.Key)
		}
	}
}

// labelChance is the probability of column i's key, degree and target.
func (o *outcome) labelChance(i int) float64 {
	c, k, label := &o.columns[i], o.chosen[i].key, o.entry(i).label
	sum := float32(0)
	for s, hi := c.in(int(k)); s < hi; s++ {
		if c.slot(s).label == label {
			sum += o.chance[s]
		}
	}
	return min(1, float64(sum))
}
