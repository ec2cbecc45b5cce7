package phrase

import (
	"cmp"
	"slices"
	"sync"

	"fifthwise/pkg/chart"
	"fifthwise/pkg/pitch"
)

// Index finds passages that charts share, whatever their keys. Passages are
// the same by the rule of [FormOf]: equal families, lengths and root motions.
// Charts may be added while others search. The zero value is an empty index.
//
// Every pair of neighbouring bars is listed with the places where it stands. A
// search starts from the rarest pair of its passage and compares the bars around
// each place: its time grows with the places of that pair, not with the charts.
// A chart of 32 bars takes about 650 bytes.
type Index struct {
	lock   sync.RWMutex
	shapes shapes
	charts []indexed
	pairs  map[pair][]at
}

// indexed is a chart of an index.
type indexed struct {
	name  string
	text  []int32       // shapes and motions, as of a piece
	roots []pitch.Class // of its bars
}

// pair is two neighbouring bars: a shape, a motion, a shape.
type pair [3]int32

// at is a bar of a chart.
type at struct{ chart, bar int32 }

// Place is where a passage stands.
type Place struct {
	Chart  int          // its number, in the order of adding, from 0
	Name   string       // of the chart
	First  int          // its first bar, in bars as played from 0; a pickup is none
	Motion pitch.Motion // from the passage that was searched for
}

// Shared is a passage of one chart that others have too.
type Shared struct {
	First, Bars int     // in the chart
	Places      []Place // elsewhere, in the order of charts and bars
}

// Add takes in a chart as played, under a name, and gives its number.
func (x *Index) Add(name string, events []chart.Event) int {
	x.lock.Lock()
	defer x.lock.Unlock()
	if x.pairs == nil {
		x.pairs = map[pair][]at{}
	}
	bars := barsNumbered(events, x.shapes.number)
	c := indexed{name: name, text: textOf(bars), roots: make([]pitch.Class, len(bars))}
	n := len(x.charts)
	for i := range bars {
		c.roots[i] = bars[i].root
		if i > 0 {
			p := c.pair(i - 1)
			x.pairs[p] = append(x.pairs[p], at{int32(n), int32(i - 1)})
		}
	}
	x.charts = append(x.charts, c)
	return n
}

func (c *indexed) pair(bar int) pair { return pair(c.text[2*bar : 2*bar+3]) }

// Len is how many charts the index has.
func (x *Index) Len() int {
	x.lock.RLock()
	defer x.lock.RUnlock()
	return len(x.charts)
}

// Find is all places where a passage of two bars or more stands, given as chords
// as played, of a chart of its own or from the midst of one; it begins with the bar
// in which its first chord starts. Shorter passages, and those that lie in a
// pickup, stand nowhere.
func (x *Index) Find(passage []chart.Event) []Place {
	x.lock.RLock()
	defer x.lock.RUnlock()
	c := indexed{}
	bars := barsNumbered(fromFront(passage), x.numbers())
	c.text = textOf(bars)
	for i := range bars {
		c.roots = append(c.roots, bars[i].root)
	}
	return x.find(&c)
}

// fromFront is a passage counted from its own first bar.
func fromFront(passage []chart.Event) []chart.Event {
	if len(passage) == 0 || passage[0].Measure <= 0 {
		return passage
	}
	moved := slices.Clone(passage)
	for i := range moved {
		moved[i].Measure -= passage[0].Measure
	}
	return moved
}

// numbers gives shapes the numbers of the index, and others numbers that no chart
// of it has.
func (x *Index) numbers() func([]sound, chart.Beats) int32 {
	const unknown = 1 << 30
	own := shapes{}
	var key []byte
	return func(sounds []sound, length chart.Beats) int32 {
		key = appendContents(key[:0], sounds, length)
		if n, ok := x.shapes.numbers[string(key)]; ok {
			return n
		}
		return unknown + own.number(sounds, length)
	}
}

// Shared is the passages of at least so many bars, two at the least, that chart n
// has in common with other charts: the longest ones, from each bar on that does
// not only go on with one begun before.
func (x *Index) Shared(n, least int) []Shared {
	x.lock.RLock()
	defer x.lock.RUnlock()
	if n < 0 || n >= len(x.charts) {
		return nil
	}
	c := &x.charts[n]
	least = max(least, 2)
	found := map[[2]int][]Place{}
	for i := 0; i+least <= len(c.roots); i++ {
		for _, p := range x.pairs[c.pair(i)] {
			o := &x.charts[p.chart]
			if int(p.chart) == n || i > 0 && p.bar > 0 && c.pair(i-1) == o.pair(int(p.bar)-1) {
				continue
			}
			if bars := common(c, o, i, int(p.bar)); bars >= least {
				key := [2]int{i, bars}
				found[key] = append(found[key], x.place(c, i, p))
			}
		}
	}
	shared := make([]Shared, 0, len(found))
	for key, places := range found {
		shared = append(shared, Shared{First: key[0], Bars: key[1], Places: places})
	}
	slices.SortFunc(shared, func(a, b Shared) int {
		return cmp.Or(cmp.Compare(a.First, b.First), cmp.Compare(b.Bars, a.Bars))
	})
	return shared
}

// common is how many bars from one place and from another are the same.
func common(a, b *indexed, i, k int) int {
	n := 0
	for 2*(i+n) < len(a.text) && 2*(k+n) < len(b.text) && a.text[2*(i+n)] == b.text[2*(k+n)] {
		n++
		if at, other := 2*(i+n)-1, 2*(k+n)-1; at >= len(a.text) || other >= len(b.text) || a.text[at] != b.text[other] {
			break
		}
	}
	return n
}

func (x *Index) place(of *indexed, bar int, p at) Place {
	c := &x.charts[p.chart]
	return Place{Chart: int(p.chart), Name: c.name, First: int(p.bar), Motion: of.roots[bar].MotionTo(c.roots[p.bar])}
}

// find is the places of all bars of a passage, by its rarest pair.
func (x *Index) find(c *indexed) []Place {
	rarest, places := -1, []at(nil)
	for i := 0; i+1 < len(c.roots); i++ {
		if list := x.pairs[c.pair(i)]; rarest < 0 || len(list) < len(places) {
			rarest, places = i, list
		}
	}
	var found []Place
	for _, p := range places {
		start, o := int(p.bar)-rarest, &x.charts[p.chart]
		if start >= 0 && start+len(c.roots) <= len(o.roots) && slices.Equal(c.text, o.text[2*start:2*(start+len(c.roots))-1]) {
			found = append(found, x.place(c, 0, at{p.chart, int32(start)}))
		}
	}
	return found
}
