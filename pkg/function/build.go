package function

import (
	"slices"

	"fifthwise/pkg/chart"
	"fifthwise/pkg/key"
	"fifthwise/pkg/phrase"
)

// build makes the lattice of a chart.
func (l *lattice) build(hint key.Key, events []chart.Event) {
	evidence := phrase.Find(events)
	l.hint = -1
	if hint.IsValid() {
		l.hint = indexOf(hint)
	}
	l.own, l.prices = l.own[:0], l.prices[:0]
	l.addColumns(events, evidence)
	if len(l.columns) == 0 {
		return
	}
	l.style = l.styleOf(events, evidence)
	near := l.product([]usage{{ChangeNear, l.style.rich}})
	l.open, l.thin = l.Model.open.near(near).ring(), l.Model.thin.near(near).ring()
	l.blue = l.product([]usage{{BlueChart, l.style.blue}})
	l.twoRich = l.product([]usage{{EnterTwoRich, l.style.rich}})
	l.quitRich = l.product([]usage{{LeaveUnsettledRich, l.style.rich}})
	l.home = l.homesOf(events, evidence)
	for k := range keyCount {
		l.homeFactor[k] = l.hinted(k, HintElsewhere) * l.product(l.home.uses(l.room[:0], k))
	}
	for d := range doorCount {
		l.pivot[d] = [2]float64{1, l.factor[PivotTonic+Term(d)]}
	}
	l.pivot[doorOther][1] *= l.product([]usage{{PivotOtherRich, l.style.rich}})
	l.left = [2]float64{1, l.factor[PivotLeft]}
	for i := range l.columns {
		c := &l.columns[i]
		here := events[c.first].Chord
		c.pedal = l.pedal(i, events)
		c.root, c.shape = int(here.Root().Class()), shapeOf(here, c.pedal)
		c.natural = (c.shape.natural<<(c.root*modeCount) | c.shape.natural>>(keyCount-c.root*modeCount)) & (1<<keyCount - 1)
		c.price = l.priceOf(c.traits)
		l.addSlots(c)
	}
}

// addSlots gives the slots of a column their factors.
func (l *lattice) addSlots(c *column) {
	c.base = int32(len(l.own))
	var home [keyCount]float64
	for key, factor := range l.homeFactor {
		home[c.above(key)] = factor
	}
	slots, factors, place := c.shape.slots, l.slots[c.shape.number], &l.price(c).place
	l.own = slices.Grow(l.own, len(slots))[:len(l.own)+len(slots)]
	own := l.own[c.base:]
	for s := range slots {
		own[s] = factors[s].fit * home[slots[s].key] * place[slots[s].spot]
	}
}

// pedal: the bass is held through this chord and both neighbours, or through
// three chords of which it is the first or last, under changing roots.
func (l *lattice) pedal(i int, events []chart.Event) bool {
	held := func(from int) bool {
		if from < 0 || from+2 >= len(l.columns) {
			return false
		}
		bass := events[l.columns[from].first].Chord.Bass().Class()
		for j := from + 1; j <= from+2; j++ {
			if events[l.columns[j].first].Chord.Bass().Class() != bass {
				return false
			}
		}
		return true
	}
	return held(i-2) || held(i-1) || held(i)
}
