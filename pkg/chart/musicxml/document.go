package musicxml

import (
	"cmp"
	"slices"

	"fifthwise/pkg/chart"
	"fifthwise/pkg/chart/roadmap"
	"fifthwise/pkg/key"
)

// Document is a file that was read, with its chart.
type Document struct {
	text     []byte // of the score, in UTF-8
	encoding encoding
	archive  *archive // nil: not compressed
	chart    chart.Chart
	measures []int      // of each bar of the chart, the measure it comes from
	labels   []string   // numbers of the measures
	symbols  [][]symbol // by measure, in time
	earlier  []span     // what Annotate added before
}

// symbol is a chord symbol of the chart with all places where the file has it,
// one in each part.
type symbol struct{ places []harmony }

// Read reads a file, compressed or not, of at most [MaxBytes]. The error is an
// *[Error], or an [ErrorList] of all faulty chords.
func Read(data []byte) (*Document, error) {
	if len(data) > MaxBytes {
		return nil, tooLarge("the file", MaxBytes)
	}
	d := &Document{}
	if IsCompressed(data) {
		var err error
		if d.archive, err = openArchive(data); err != nil {
			return nil, err
		}
		if data, err = unzip(d.archive.score, MaxBytes); err != nil {
			return nil, err
		}
	}
	text, e, err := decode(data)
	if err != nil {
		return nil, err
	}
	d.text, d.encoding, d.earlier = text, e, additions(text)
	s, err := readScore(text)
	if err != nil {
		return nil, err
	}
	if err := d.take(s); err != nil {
		return nil, err
	}
	return d, nil
}

// Chart is the chart of the file: its bars as written where repeats and
// endings are all its signs, else as played. It shares its slices with d and is
// for reading.
func (d *Document) Chart() chart.Chart { return d.chart }

// Measures are, for each bar of the chart, the place of its measure in the file,
// from 0.
func (d *Document) Measures() []int { return slices.Clone(d.measures) }

// take makes the chart of a score.
func (d *Document) take(s *score) error {
	parts, err := s.withChords()
	if err != nil {
		return err
	}
	p := parts[0]
	if p.transpose {
		s.warn(0, "part %q is for a transposing instrument; its chords are read as written", s.nameOf(p))
	}
	for _, measure := range p.changes[:min(len(p.changes), maxChanges)] {
		s.warn(measure, "the key signature changes; only the first one is a hint for the reading")
	}
	for _, other := range s.parts {
		if len(other.harmonies) > 0 && !slices.Contains(parts, other) {
			s.warn(0, "part %q has other chords than part %q and is not read", s.nameOf(other), s.nameOf(p))
		}
	}
	faults := slices.Clone(s.faults)
	d.symbols = make([][]symbol, len(s.bars))
	for i, h := range p.harmonies {
		switch {
		case h.fault != nil:
			if len(faults) < MaxErrors {
				faults = append(faults, h.fault)
			}
			continue
		case h.alternate && i > 0 && p.harmonies[i-1].measure == h.measure:
			s.warn(h.measure, "%s is another reading of the chord before it and is left out", h.symbol)
			continue
		case h.said != "":
			s.warn(h.measure, "%s is read as %s", h.said, h.symbol)
		}
		if h.early {
			s.warn(h.measure, "%s stands before its bar and is read at its start", h.symbol)
		}
		var all symbol
		for _, q := range parts {
			all.places = append(all.places, q.harmonies[i])
		}
		d.symbols[h.measure] = append(d.symbols[h.measure], all)
	}
	if err := faults.orNil(); err != nil {
		return err
	}
	for _, h := range p.silences {
		if !slices.ContainsFunc(d.symbols[h.measure], func(s symbol) bool { return s.places[0].at == h.at }) {
			d.symbols[h.measure] = append(d.symbols[h.measure], symbol{[]harmony{h}})
		}
	}
	for i := range d.symbols {
		d.symbols[i] = inOrder(d.symbols[i])
		d.labels = append(d.labels, s.bars[i].label(i))
	}
	bars := d.bars(s, p)
	slices.SortStableFunc(s.warnings, func(a, b chart.Warning) int { return cmp.Compare(a.Bar, b.Bar) })
	head := chart.Chart{Title: oneLine(s.title), Key: hint(p.first, p.harmonies), Warnings: s.warnings}
	tune, err := roadmap.Layout(head, bars)
	d.chart, d.measures = tune.Chart, tune.Written
	return d.located(err, s.nameOf(p))
}

// inOrder are the symbols of a measure in time. One that stands twice at a place,
// as on both staves of a piano, is one.
func inOrder(symbols []symbol) []symbol {
	slices.SortStableFunc(symbols, func(a, b symbol) int { return a.places[0].at.Cmp(b.places[0].at) })
	var all []symbol
	for _, s := range symbols {
		if n := len(all); n > 0 && all[n-1].places[0].isAs(s.places[0]) {
			all[n-1].places = append(all[n-1].places, s.places...)
			continue
		}
		all = append(all, s)
	}
	return all
}

// maxChanges is how many changes of the key signature are warned of.
const maxChanges = 20

// withChords is the part that has chords and those that share all of them; of
// parts with other chords, the one that has most, of these one at concert pitch.
func (s *score) withChords() ([]*part, error) {
	var most *part
	for _, p := range s.parts {
		if len(p.harmonies) > 0 && (most == nil || p.saysMoreThan(most)) {
			most = p
		}
	}
	if most == nil {
		return nil, &Error{Msg: "the file has no chord symbols", Hint: "they are <harmony> elements; notes alone are not read"}
	}
	parts := []*part{most}
	for _, p := range s.parts {
		if p != most && slices.EqualFunc(p.harmonies, most.harmonies, harmony.isAs) {
			parts = append(parts, p)
		}
	}
	return parts, nil
}

func (p *part) saysMoreThan(q *part) bool {
	more := len(p.harmonies) - len(q.harmonies)
	return more > 0 || more == 0 && q.transpose && !p.transpose
}

// isAs reports whether two parts have the same chord at the same place.
func (h harmony) isAs(g harmony) bool {
	return h.measure == g.measure && h.at == g.at && h.chord == g.chord && h.fault == nil && g.fault == nil
}

// hint is the key of a signature. Without a mode it is the relative minor where
// the last chord is its tonic, as a tune ends (common practice, no source).
func hint(first signature, harmonies []harmony) key.Key {
	k := first.key()
	if _, known := modes[first.mode]; !k.IsValid() || known {
		return k
	}
	last := harmonies[len(harmonies)-1].chord
	third, ok := last.Quality().Third()
	if minor := k.Relative(); ok && third < 0 && last.Root() == minor.Tonic() {
		return minor
	}
	return k
}

// located gives the faults of a chart the measures they come from.
func (d *Document) located(err error, part string) error {
	list, ok := err.(chart.ErrorList)
	if !ok {
		return err
	}
	var faults ErrorList
	for _, e := range list {
		f := &Error{Part: part, Symbol: e.Symbol, Msg: e.Msg, Hint: e.Hint, cause: e}
		if e.BarIndex >= 0 && e.BarIndex < len(d.measures) {
			f.Measure = d.labels[d.measures[e.BarIndex]]
		}
		faults = append(faults, f)
	}
	return faults.orNil()
}
