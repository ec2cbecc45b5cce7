package function

import (
	"fifthwise/pkg/chart"
	"fifthwise/pkg/key"
	"fifthwise/pkg/phrase"
)

// addSlots lists the readings of a column's chord in every key. Next is the set
// of roots that the next column may be heard on, twice over, so that a shift
// counts it from any tonic: readings whose debt it cannot pay are no readings.
func (l *lattice) addSlots(c *column, heard []hearing, next uint32) {
	for key := range keyCount {
		c.slots[key] = int32(len(l.slots))
		tonic, mode := key/modeCount, key%modeCount
		fit, enter := l.fit[mode], l.enter[mode]
		for i, h := range heard {
			root := int(h.root) - tonic
			if root < 0 {
				root += 12
			}
			factor := l.homeFactor[key]
			if i > 0 {
				factor *= l.factor[laterHearing(h.kind)]
			}
			for _, e := range vocabularies[mode].index[root][h.kind] {
				if e.asWritten && !h.written || e.needs != 0 && uint32(e.needs)&(next>>tonic) == 0 {
					continue
				}
				own := factor * fit[e.id] * c.place[e.place]
				if e.blue {
					own *= l.blue
				}
				entering := own * enter[e.id]
				if e.door == doorTwo {
					entering *= l.twoRich
				}
				l.slots = append(l.slots, slot{own, entering, e.id, e.door, i > 0})
			}
		}
	}
	c.slots[keyCount] = int32(len(l.slots))
}

// laterHearing is the term of a hearing that is not a symbol's first.
func laterHearing(k kind) Term {
	if k == kDiminished7 {
		return FitRespelled
	}
	return FitSecondHearing
}

// build makes the lattice of a chart.
func (l *lattice) build(hint key.Key, events []chart.Event) {
	evidence := phrase.Find(events)
	l.hint = -1
	if hint.IsValid() {
		l.hint = indexOf(hint)
	}
	l.slots = l.slots[:0]
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
	l.left = [2]float64{1, l.factor[PivotLeft]}
	l.heard = l.heard[:0]
	for i := range l.columns {
		c := &l.columns[i]
		c.pedal = l.pedal(i, events)
		c.heard = int32(len(l.heard))
		l.heard = hear(l.heard, events[c.first].Chord, c.pedal)
		c.natural = naturalIn(l.heard[c.heard])
	}
	for i := range l.columns {
		c := &l.columns[i]
		l.price(c)
		l.addSlots(c, l.hearings(i), roots(l.hearings((i+1)%len(l.columns))))
	}
}

// hearings are what column i may be heard as.
func (l *lattice) hearings(i int) []hearing {
	if i+1 < len(l.columns) {
		return l.heard[l.columns[i].heard:l.columns[i+1].heard]
	}
	return l.heard[l.columns[i].heard:]
}

// roots is the set of pitch classes heard as roots, twice over.
func roots(heard []hearing) (set uint32) {
	for _, h := range heard {
		set |= 1<<h.root | 1<<(h.root+12)
	}
	return set
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
