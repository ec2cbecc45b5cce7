package abc

import (
	"math/bits"
	"slices"
	"strconv"
	"strings"

	"fifthwise/pkg/chart"
	"fifthwise/pkg/chart/roadmap"
)

// barsALine is how many bars stand in a line.
const barsALine = 4

// Format writes a chart as one tune: its chords under their canonical names
// over invisible rests, four bars a line, each part and each repeat from a new
// line; optional chords in brackets from the first to the last of them. The
// marks, which may be nil, stand as annotations above and below their chords.
//
// For a valid chart [Parse] reads from it a chart that is played the same. It
// is [chart.Chart.Equal], but that the start of a repeat is stated where this
// notation would take another, a double bar behind a :| belongs to it, and what
// is silent before the first chord is N.C. Repeats that cannot be so written are
// written out. An upbeat that is the only bar is read as an incomplete one.
func Format(c chart.Chart, marks []chart.Mark) []byte {
	f := formatter{chart: c, marks: map[[2]int]chart.Mark{}}
	for _, m := range chart.MergeMarks(marks) {
		f.marks[[2]int{m.Bar, m.Chord}] = m
	}
	f.write()
	return f.dst
}

// formatter writes a chart.
type formatter struct {
	dst   []byte
	chart chart.Chart
	bars  []written
	marks map[[2]int]chart.Mark // by bar and chord

	meter   chart.Meter
	column  int  // bars in the line so far
	grouped bool // an optional group is open
}

// written is a bar as it is to be written.
type written struct {
	roadmap.Bar
	index  int // its place in the chart
	upbeat bool
}

func (f *formatter) write() {
	f.bars = signed(f.chart)
	f.header()
	for i := range f.bars {
		f.bar(i)
	}
	if f.column > 0 {
		f.dst = append(f.dst, '\n')
	}
}

// unit is the length of a note without a number, in parts of a whole note.
const unit = 8

func (f *formatter) header() {
	f.field('X', "1")
	f.field('T', escaped(f.chart.Title))
	f.meter = meterOf(f.chart.Meter)
	if len(f.bars) > 0 {
		f.meter = f.bars[0].Meter
	}
	f.field('M', f.meter.String())
	f.field('L', "1/"+strconv.Itoa(unit))
	f.field('K', formatKey(f.chart.Key))
}

func (f *formatter) field(letter byte, value string) {
	f.dst = append(append(append(f.dst, letter, ':'), value...), '\n')
}

// signed is the bars of a chart with signs by which this notation plays them
// in the same order: those of the chart, those with the starts of all repeats
// stated, or none.
func signed(c chart.Chart) []written {
	order := c.Order()
	bars := barsOf(c)
	if keeps(c, bars, order) {
		return bars
	}
	for k := 1; k < len(order); k++ {
		if from, to := order[k-1], order[k]; to <= from && from < len(bars) && bars[from].RepeatEnd {
			bars[to].RepeatStart = true
		}
	}
	if keeps(c, bars, order) {
		return bars
	}
	bars = barsOf(c.Unfolded())
	for i := range bars {
		if i < len(order) {
			bars[i].index = order[i]
		}
	}
	return bars
}

// keeps reports whether bars with such signs are read in an order.
func keeps(c chart.Chart, bars []written, order []int) bool {
	if len(bars) == 0 {
		return true
	}
	plain := make([]roadmap.Bar, len(bars))
	for i, b := range bars {
		plain[i] = b.Bar
		plain[i].Chords = nil
	}
	plain[0].Chords = []chart.Slot{{}}
	imply(plain)
	t, _ := roadmap.Layout(chart.Chart{}, plain)
	read := t.Chart.Order()
	for k, i := range read {
		read[k] = t.Written[i]
	}
	return slices.Equal(read, order)
}

// barsOf is the bars of a chart with their meters and lengths.
func barsOf(c chart.Chart) []written {
	bars := make([]written, len(c.Bars))
	meter := meterOf(c.Meter)
	for i, b := range c.Bars {
		if b.Meter != (chart.Meter{}) {
			meter = meterOf(b.Meter)
		}
		b.Meter, b.Number = meter, 0
		b.Double = b.Double && !b.RepeatEnd
		full := meter.Beats()
		w := written{Bar: roadmap.Bar{Bar: b, Len: full}, index: i}
		switch {
		case i == 0 && (chart.Beats{}).Less(c.Pickup) && c.Pickup.Less(full):
			w.upbeat, w.Len = true, c.Pickup
			w.Chords = moved(b.Chords, full)
		case i == len(c.Bars)-1 && len(b.Chords) > 0:
			w.Len = b.Chords[len(b.Chords)-1].End()
		}
		bars[i] = w
	}
	return bars
}

// moved is the chords of an upbeat so that they end with a whole bar.
func moved(slots []chart.Slot, full chart.Beats) []chart.Slot {
	slots = slices.Clone(slots)
	if n := len(slots); n > 0 {
		by := full.Sub(slots[n-1].End())
		for k := range slots {
			slots[k].At = slots[k].At.Add(by)
		}
	}
	return slots
}

// meterOf is a meter that notes can be counted in.
func meterOf(m chart.Meter) chart.Meter {
	if !m.IsValid() {
		return chart.Meter{Num: 4, Den: 4}
	}
	return m
}

// bar writes bar i and the bar line behind it.
func (f *formatter) bar(i int) {
	b := &f.bars[i]
	switch {
	case f.column == barsALine || f.column > 0 && (b.Section != "" || b.RepeatStart):
		f.dst = append(f.dst, '\n')
		f.column = 0
	case f.column > 0:
		f.dst = append(f.dst, ' ')
	}
	if b.Section != "" {
		f.field('P', escaped(b.Section))
	}
	if b.RepeatStart {
		f.dst = append(f.dst, "|: "...)
	}
	if len(b.Ending) > 0 {
		f.ending(b.Ending)
	}
	if b.Meter != f.meter {
		f.meter = b.Meter
		f.dst = append(append(append(f.dst, "[M:"...), b.Meter.String()...), "] "...)
	}
	f.chords(i)
	f.dst = append(f.dst, f.barLine(i)...)
	f.column++
}

func (f *formatter) ending(passes []int) {
	f.dst = append(f.dst, '[')
	for k, n := range passes {
		if k > 0 {
			f.dst = append(f.dst, ',')
		}
		f.dst = strconv.AppendInt(f.dst, int64(n), 10)
	}
	f.dst = append(f.dst, ' ')
}

func (f *formatter) barLine(i int) string {
	switch b := &f.bars[i]; {
	case b.RepeatEnd:
		return ":|"
	case b.Double:
		return "||"
	case i == len(f.bars)-1:
		return "|]"
	}
	return "|"
}

// rest is a stretch of a bar, with a chord or without.
type rest struct {
	chord  int // its place in the bar; -1: none starts here
	length chart.Beats
}

// chords writes the chords of bar i over rests that fill it.
func (f *formatter) chords(i int) {
	rests := f.bars[i].rests()
	for k := 0; k < len(rests); {
		odd, next := oddPart(rests[k].length), k+1
		for next < len(rests) && oddPart(rests[next].length) == odd {
			next++
		}
		num, den := 1, 1
		if odd > 1 && odd <= mostInTuplet {
			num, den = odd, below(odd)
		}
		var run []rest
		for ; k < next; k++ {
			run = appendPieces(run, rests[k].chord, scaled(rests[k].length, num, den))
		}
		for notes := range slices.Chunk(run, mostInTuplet) {
			if num > 1 {
				f.tuplet(num, den, len(notes))
			}
			f.notes(i, notes)
		}
	}
}

// notes writes rests of bar i, with their chords.
func (f *formatter) notes(i int, list []rest) {
	for _, r := range list {
		if r.chord >= 0 {
			f.chord(i, r.chord)
		}
		f.rest(r.length)
		f.dst = append(f.dst, ' ')
	}
}

// appendPieces appends rests that last so long together: each of a length that
// one note has, plain or dotted, where there are such.
func appendPieces(list []rest, chord int, length chart.Beats) []rest {
	num, den := length.Fraction()
	if oddPart(length) > 1 {
		return append(list, rest{chord, length})
	}
	for num > 0 {
		piece := 1 << (bits.Len(uint(num)) - 1)
		if piece > 1 && num >= piece+piece/2 {
			piece += piece / 2
		}
		list = append(list, rest{chord, chart.B(piece, den)})
		num, chord = num-piece, -1
	}
	return list
}

// rests is the bar cut where chords start, in whole notes.
func (b *written) rests() []rest {
	at, end := chart.Beats{}, b.Len
	if full := b.Meter.Beats(); b.upbeat {
		at, end = full.Sub(b.Len), full
	}
	var list []rest
	add := func(chord int, to chart.Beats) {
		if at.Less(to) {
			list = append(list, rest{chord, wholes(b.Meter, to.Sub(at))})
			at = to
		}
	}
	for k, s := range b.Chords {
		if k == 0 {
			add(-1, s.At)
		}
		to := end
		if k+1 < len(b.Chords) {
			to = b.Chords[k+1].At
		}
		add(k, to)
	}
	add(-1, end)
	return list
}

// mostInTuplet is the largest tuplet that is written as one, of so many notes
// at most, since one digit is all that some programs read; others are written as
// fractions of notes.
const mostInTuplet = 9

// oddPart is the odd factor of the denominator of a length.
func oddPart(b chart.Beats) int {
	_, den := b.Fraction()
	for den%2 == 0 {
		den /= 2
	}
	return den
}

// below is the greatest power of two below n.
func below(n int) int {
	p := 1
	for 2*p < n {
		p *= 2
	}
	return p
}

// tuplet says that the next notes are p in the time of q.
func (f *formatter) tuplet(p, q, notes int) {
	f.dst = strconv.AppendInt(append(f.dst, '('), int64(p), 10)
	if p == 3 && notes == 3 {
		return
	}
	f.dst = strconv.AppendInt(append(f.dst, ':'), int64(q), 10)
	f.dst = strconv.AppendInt(append(f.dst, ':'), int64(notes), 10)
}

// rest writes an invisible rest so long, in whole notes.
func (f *formatter) rest(length chart.Beats) {
	num, den := scaled(length, unit, 1).Fraction()
	f.dst = append(f.dst, 'x')
	if num != 1 {
		f.dst = strconv.AppendInt(f.dst, int64(num), 10)
	}
	if den != 1 {
		f.dst = append(f.dst, '/')
		if den != 2 {
			f.dst = strconv.AppendInt(f.dst, int64(den), 10)
		}
	}
}

// chord writes a chord in quotes with its marks.
func (f *formatter) chord(i, k int) {
	b := &f.bars[i]
	s := b.Chords[k]
	f.dst = append(f.dst, '"')
	if s.Optional && !f.grouped {
		f.dst, f.grouped = append(f.dst, '('), true
	}
	f.dst = append(f.dst, s.Chord.String()...)
	if f.grouped && !f.nextOptional(i, k+1) {
		f.dst, f.grouped = append(f.dst, ')'), false
	}
	f.dst = append(f.dst, '"')
	m := f.marks[[2]int{b.index, k}]
	f.annotation('^', m.Above)
	f.annotation('_', m.Below)
}

func (f *formatter) annotation(where byte, text string) {
	if text == "" {
		return
	}
	f.dst = append(append(append(f.dst, '"', where), strings.ReplaceAll(escaped(text), `"`, "&quot;")...), '"')
}

// nextOptional reports whether the next chord from chord k of bar i on is
// optional.
func (f *formatter) nextOptional(i, k int) bool {
	for ; i < len(f.bars); i, k = i+1, 0 {
		if k < len(f.bars[i].Chords) {
			return f.bars[i].Chords[k].Optional
		}
	}
	return false
}
