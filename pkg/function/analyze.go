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
	model *Model
}

var defaultModel = sync.OnceValue(func() *Model { return NewModel(Default()) })

// WithModel reads with other weights than [Default].
func WithModel(m *Model) Option {
	return func(s *settings) { s.model = m }
}

// Analyze reads a chart: key regions, a numeral under every chord, and what
// each does. Any chart is read; one without a sounding chord has no regions.
// The same chart gives the same reading always. Time and memory grow with the
// number of chords as played.
func Analyze(c chart.Chart, options ...Option) Analysis {
	s := settings{}
	for _, o := range options {
		o(&s)
	}
	if s.model == nil {
		s.model = defaultModel()
	}
	events := c.Played()
	a := Analysis{Chords: make([]Reading, len(events))}
	for i, e := range events {
		a.Chords[i] = Reading{Chart: e, Region: -1, ResolvesTo: -1, Confidence: 1}
	}
	l := lattices.Get().(*lattice)
	defer lattices.Put(l)
	l.Model = s.model
	l.build(c.Key, events)
	if len(l.columns) == 0 {
		return a
	}
	l.sum()
	steps := l.path()
	a.outcome = l.outcome(steps, len(events))
	a.addRegions(l, steps)
	a.addReadings(l, steps)
	return a
}

// addRegions splits the path where the key changes.
func (a *Analysis) addRegions(l *lattice, steps []step) {
	for i, s := range steps {
		c := &l.columns[i]
		if i > 0 && s.key == steps[i-1].key {
			a.Regions[len(a.Regions)-1].Last = c.last
			continue
		}
		a.Regions = append(a.Regions, Region{First: c.first, Last: c.last})
	}
	from := 0
	for r := range a.Regions {
		to := from
		for to < len(steps) && l.columns[to].first <= a.Regions[r].Last {
			to++
		}
		a.Regions[r].Key = l.spell(a.Chords, steps[from:to], l.columns[from:to])
		if r > 0 {
			a.Regions[r].Motion = a.Regions[r-1].Key.Tonic().MotionTo(a.Regions[r].Key.Tonic())
		}
		from = to
	}
}

// addReadings gives each chord what the path says of it.
func (a *Analysis) addReadings(l *lattice, steps []step) {
	region := 0
	for i, s := range steps {
		c := &l.columns[i]
		for a.Regions[region].Last < c.first {
			region++
		}
		k := a.Regions[region].Key
		e := &vocabularies[s.key%modeCount].entries[l.entries[s.slot]]
		for j := c.first; j <= c.last; j++ {
			r := &a.Chords[j]
			if r.Chart.Chord.IsSilence() {
				continue
			}
			r.Region, r.Key = region, k
			r.Degree, r.Target = e.degree, e.target
			r.Function, r.Role = e.function, e.role
			r.Numeral = e.numeral(r.Chart.Chord)
			r.Confidence = l.label[s.slot]
		}
	}
}

// spell names a region's key as the chart spells the chords on I, II and V.
func (l *lattice) spell(chords []Reading, steps []step, columns []column) key.Key {
	tonic, mode := int(steps[0].key)/modeCount, key.Major
	if steps[0].key%modeCount == minor {
		mode = key.Minor
	}
	best, votes := key.New(pitch.Of(pitch.Class(tonic)), mode), map[pitch.Note]int{}
	for i, s := range steps {
		e := &vocabularies[s.key%modeCount].entries[l.entries[s.slot]]
		if e.applied() || e.degree.Alter() != 0 {
			continue
		}
		weight := 1
		if n := e.degree.Number(); n == 1 || n == 2 || n == 5 {
			weight = 100
		}
		root := chords[columns[i].first].Chart.Chord.Root()
		votes[root.Sub(pitch.Degree(e.degree.Number(), 0))] += weight
	}
	top := 0
	for n, v := range votes {
		k := key.New(n, mode)
		if v > top || v == top && abs(k.Signature()) < abs(best.Signature()) {
			best, top = k, v
		}
	}
	return best
}

func abs(n int) int { return max(n, -n) }
