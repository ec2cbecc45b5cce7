package sheet

import (
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"fifthwise/pkg/chart"
	"fifthwise/pkg/chord"
	"fifthwise/pkg/function"
	"fifthwise/pkg/key"
	"fifthwise/pkg/pitch"
	"fifthwise/pkg/study"
)

// page is the content of a sheet: bars with all that stands in, above and below
// them. It knows nothing of places on paper.
type page struct {
	style    Style
	chart    chart.Chart
	analysis *function.Analysis
	plan     study.Plan
	bars     []bar
	links    []link
}

// bar is a written bar.
type bar struct {
	number  string
	section string   // the name, where one starts
	phrases []string // that start here, by their names, in the order of play
	breaks  bool     // a line starts here
	empty   bool     // it is not drawn
	ending  string   // "1." where an ending opens
	within  bool     // the bar lies in an ending
	closed  bool     // … which closes behind it
	meter   string   // where it changes
	opens   sign
	closes  sign
	simile  bool // the bar before again
	marks   []mark
}

// sign is a bar line.
type sign uint8

const (
	single sign = iota
	double
	repeatStart
	repeatEnd
)

// mark is a chord, or a slash for a beat through which one is held, with what
// stands above and below it.
type mark struct {
	at      float64 // place in the bar, from 0 to 1
	symbol  string  // "/" for a slash
	opens   bool    // a bracket stands before it
	closes  bool    // … and behind it
	beat    string  // the beat that it starts on, where neither its place nor slashes tell
	numeral string
	pivot   string // what it is in the key next to its own
	key     string // where it is not the key of the chord before
	motion  string // the interval from there
	chord   int    // the chord as first played; -1: none
	region  int    // the region of that chord; -1: none
	begins  bool   // the region begins with it
	ends    bool   // the region ends with it
}

func (m *mark) isSlash() bool { return m.symbol == "/" }

func newPage(c chart.Chart, a *function.Analysis, s Style) *page {
	c.Title = printed(c.Title)
	p := &page{style: s, chart: c, analysis: a, plan: study.Of(a)}
	p.bars = make([]bar, len(c.Bars))
	chords := p.writtenChords()
	meter := c.Meter
	for i, b := range c.Bars {
		d := &p.bars[i]
		d.number = fmt.Sprint(b.Number)
		d.section = printed(b.Section)
		if b.RepeatStart {
			d.opens = repeatStart
		}
		switch {
		case b.RepeatEnd:
			d.closes = repeatEnd
		case b.Double || i == len(c.Bars)-1:
			d.closes = double
		}
		if len(b.Ending) > 0 {
			d.ending = passes(b.Ending)
		}
		if b.Meter != meter && b.Meter != (chart.Meter{}) {
			d.meter, meter = b.Meter.String(), b.Meter
		}
		d.breaks = b.Section != "" || b.RepeatStart || i > 0 && p.bars[i-1].closes != single || i == 1 && !c.Pickup.IsZero()
		d.empty = i == 0 && p.isEmptyPickup()
		d.marks = p.marksOf(i, chords[:len(b.Chords)])
		chords = chords[len(b.Chords):]
	}
	p.star()
	p.boundRegions()
	p.closeEndings()
	if p.form() != "" {
		p.namePhrases()
	}
	p.findSimiles()
	return p
}

// isEmptyPickup: an upbeat of the melody alone, in which no chord sounds.
func (p *page) isEmptyPickup() bool {
	sounds := func(s chart.Slot) bool { return !s.Chord.IsSilence() }
	return !p.chart.Pickup.IsZero() && len(p.bars) > 1 && !p.bars[0].breaks && !slices.ContainsFunc(p.chart.Bars[0].Chords, sounds)
}

// passes are the times through an ending: "1,2." or, more in a row, "1–4."
func passes(times []int) string {
	var said []string
	for i := 0; i < len(times); {
		n := 1
		for i+n < len(times) && times[i+n] == times[i]+n {
			n++
		}
		s := fmt.Sprint(times[i])
		if n == 2 {
			n = 1
		}
		if n > 2 {
			s = fmt.Sprintf("%d–%d", times[i], times[i+n-1])
		}
		said, i = append(said, s), i+n
	}
	return strings.Join(said, ",") + "."
}

// boundRegions finds the chords with which regions begin and end on paper.
func (p *page) boundRegions() {
	var last *mark
	for i := range p.bars {
		for k := range p.bars[i].marks {
			m := &p.bars[i].marks[k]
			if m.region < 0 {
				continue
			}
			m.begins = last == nil || last.region != m.region
			if last != nil {
				last.ends = m.begins
			}
			last = m
		}
	}
	if last != nil {
		last.ends = true
	}
}

// closeEndings finds where endings end: at a repeat, a double bar, or before
// what else begins.
func (p *page) closeEndings() {
	open := false
	for i := range p.bars {
		b := &p.bars[i]
		open = open || b.ending != ""
		if b.within = open; !open {
			continue
		}
		if i+1 == len(p.bars) || b.closes != single || p.bars[i+1].ending != "" || p.bars[i+1].breaks {
			b.closed, open = true, false
		}
	}
}

// form is the tune as letters; none where it is one phrase.
func (p *page) form() string {
	if f := p.plan.Form.Letters; utf8.RuneCountInString(f) > 1 {
		return f
	}
	return ""
}

// namePhrases writes the names of phrases at the bars where they first start,
// with those that start there when the bar is repeated. A name that is the
// section's is not said twice.
func (p *page) namePhrases() {
	order := p.chart.Order()
	upbeat := 0
	if !p.chart.Pickup.IsZero() {
		upbeat = 1
	}
	seen := make([]bool, len(p.bars))
	starts := map[int]string{}
	for i := range p.plan.Form.Phrases {
		f := &p.plan.Form.Phrases[i]
		for _, o := range f.Occurrences {
			starts[o.First+upbeat] = f.Name
		}
	}
	for k, i := range order {
		b := &p.bars[i]
		name, ok := starts[k]
		if ok && (!seen[i] || len(b.phrases) > 0 && !slices.Contains(b.phrases, name)) {
			b.phrases, b.breaks = append(b.phrases, name), true
		}
		seen[i] = true
	}
	for i := range p.bars {
		if b := &p.bars[i]; len(b.phrases) == 1 && b.phrases[0] == strings.TrimRight(b.section, " 0123456789") {
			b.phrases = nil
		}
	}
}

// findSimiles finds bars that are the bar before again, with the same reading.
func (p *page) findSimiles() {
	for i := 1; i < len(p.bars); i++ {
		b, before := &p.bars[i], &p.bars[i-1]
		b.simile = !b.breaks && b.meter == "" && b.ending == "" && len(p.chart.Bars[i].Chords) > 0 &&
			slices.EqualFunc(b.marks, before.marks, func(m, n mark) bool {
				return m.at == n.at && m.symbol == n.symbol && m.numeral == n.numeral && m.region == n.region &&
					m.key == "" && !m.opens && !m.closes && !n.opens && !n.closes && m.pivot == n.pivot
			})
	}
}

// writtenChords are the chords of all written bars, one after the other, as
// they are read the first time through.
func (p *page) writtenChords() []mark {
	var marks []mark
	var optional []bool
	shown := key.Key{}
	for i, chords := range p.firstPasses() {
		for k, s := range p.chart.Bars[i].Chords {
			m := mark{symbol: symbol(s.Symbol, s.Chord, p.style.Accidentals), chord: -1, region: -1}
			if k < len(chords) {
				p.addReading(&m, chords[k], &shown)
			}
			marks, optional = append(marks, m), append(optional, s.Optional)
		}
	}
	for i := range marks {
		marks[i].opens = optional[i] && (i == 0 || !optional[i-1])
		marks[i].closes = optional[i] && (i+1 == len(marks) || !optional[i+1])
	}
	return marks
}

// firstPasses is, for every written bar, the chords that start in it the first
// time through.
func (p *page) firstPasses() [][]int {
	first := make([][]int, len(p.chart.Bars))
	for i := range p.analysis.Chords {
		e := &p.analysis.Chords[i].Event
		at := &first[e.BarIndex]
		if len(*at) == 0 || p.analysis.Chords[(*at)[0]].Event.Pass == e.Pass {
			*at = append(*at, i)
		}
	}
	return first
}

// addReading writes the numeral of chord i to its mark, and its key where that
// is not the one shown before.
func (p *page) addReading(m *mark, i int, shown *key.Key) {
	r := &p.analysis.Chords[i]
	m.chord = i
	if r.Event.Chord.IsSilence() {
		return
	}
	m.numeral, m.region = p.numeral(r.Numeral, r.Key), r.Region
	if r.Pivot.Key.IsValid() {
		m.pivot = fmt.Sprintf("%s in %s", p.numeral(r.Pivot.Numeral, r.Pivot.Key), p.keyName(r.Pivot.Key))
	}
	if r.Key == *shown {
		return
	}
	*shown = r.Key
	m.key = p.keyName(r.Key)
	if p.analysis.Regions[r.Region].First == i {
		m.motion = p.analysis.Move(r.Region)
	}
}

func (p *page) keyName(k key.Key) string { return string(k.AppendTo(nil, p.style.Accidentals)) }

func (p *page) numeral(n function.Numeral, k key.Key) string {
	return n.Text(p.style.Numerals, k.Mode(), p.style.Accidentals)
}

// symbol is a chord as the chart writes it, but for the signs of its
// accidentals. In a chord symbol every b is a flat.
func symbol(s string, c chord.Chord, signs pitch.Accidentals) string {
	if s = printed(s); s == "" {
		s = c.String()
	}
	if signs == pitch.ASCII {
		return s
	}
	return strings.NewReplacer("b", "♭", "#", "♯").Replace(s)
}

// printed is a text without characters that do not print, on one line.
func printed(s string) string {
	if strings.ContainsFunc(s, isUnprinted) {
		s = strings.Join(strings.FieldsFunc(s, isUnprinted), " ")
	}
	return strings.TrimSpace(s)
}

func isUnprinted(r rune) bool { return r != ' ' && !unicode.IsPrint(r) }

// facts are what is said of the tune under its title.
func (p *page) facts() string {
	whole := len(p.chart.Bars)
	if !p.chart.Pickup.IsZero() {
		whole--
	}
	facts := fmt.Sprintf("%s, %s", p.chart.Meter, count(whole, "bar"))
	if p.analysis.Home.IsValid() {
		facts += ", home key " + p.keyName(p.analysis.Home)
	}
	return facts
}

func count(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}
