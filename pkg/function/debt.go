package function

import "fifthwise/pkg/pitch"

// root is the pitch class on which column i is heard.
func (o *outcome) root(i int) pitch.Class { return o.at(i, o.entry(i).root) }

// at is the pitch class so many semitones above the tonic of column i's key.
func (o *outcome) at(i int, semitones uint8) pitch.Class {
	return pitch.Class(int(o.chosen[i].key) / modeCount).Plus(int(semitones))
}

// next is the column after i, round to the first from the last.
func (o *outcome) next(i int) int { return (i + 1) % len(o.columns) }

// payer is the column that pays column i's debt: the next one, or, where the
// target's own two or another two-five stands between, the one after; or the
// chord that pays it deceptively. -1 where nothing is owed or it is not paid.
func (o *outcome) payer(i int) int {
	e := o.entry(i)
	if len(o.columns) < 2 {
		return -1
	}
	n := o.next(i)
	if !e.owes() {
		if e.function == Dominant && e.kinds&aSeventh != 0 && o.root(i).Plus(5) == o.root(n) {
			return n // bVII7 of minor to bIII
		}
		return -1
	}
	if n = o.afterHold(i); n == i {
		return -1
	}
	if o.pays(i, n) || o.paysBySubstitute(i, n) {
		return n
	}
	if e.function != Dominant {
		return -1
	}
	if o.entry(n).isTwo() {
		if m := o.next(n); o.root(n).Plus(5) == o.root(m) || o.entry(n).wantsDominant() {
			if o.pays(i, m) {
				return m
			}
			if m = o.next(m); o.entry(n).wantsDominant() && o.pays(i, m) {
				return m
			}
		}
	}
	if o.chosen[n].key == o.chosen[i].key && paidAside(e, o.entry(n)) {
		return n
	}
	return -1
}

// paysBySubstitute: column n is the substitute of the dominant that column i
// aims at, as Db7 is of G7 after D7.
func (o *outcome) paysBySubstitute(i, n int) bool {
	e := o.entry(i)
	root := o.root(n).Plus(6 - int(o.at(i, 0)))
	return e.applied() && e.function == Dominant && o.entry(n).role == TritoneSubstitute && e.payRoot(uint8(root))
}

// afterHold is the first column after i with another label or key, round from
// the last to the first: V7sus V7 is one dominant. It is i where all are alike.
func (o *outcome) afterHold(i int) int {
	n := o.holds[i]
	if n == len(o.columns) && o.alike(len(o.columns)-1, 0) {
		n = o.holds[0]
	}
	if n == len(o.columns) {
		n = 0
	}
	if o.alike(i, n) {
		return i
	}
	return n
}

// findHolds finds for every column where its run of one label ends.
func (o *outcome) findHolds() {
	o.holds = make([]int, len(o.columns))
	for i := len(o.columns) - 1; i >= 0; i-- {
		o.holds[i] = i + 1
		if i+1 < len(o.columns) && o.alike(i, i+1) {
			o.holds[i] = o.holds[i+1]
		}
	}
}

// alike: both columns bear one label and role in one key.
func (o *outcome) alike(i, n int) bool {
	a, b := o.entry(i), o.entry(n)
	return o.chosen[i].key == o.chosen[n].key && a.label == b.label && a.role == b.role
}

// paidAside: the debt is paid deceptively.
func paidAside(a, b *entry) bool {
	switch unpaidTerm(a, b) {
	case PairDeceptive, PairHalfToIV, PairAside:
		return true
	}
	return false
}

func (o *outcome) pays(i, n int) bool {
	e := o.entry(i)
	if e.wantsDominant() {
		return o.chosen[n].key == o.chosen[i].key && o.entry(n).answersTwo(e)
	}
	return e.payRoot(uint8(o.root(n).Plus(-int(o.at(i, 0)))))
}

// addDebts fills in what each chord resolves to.
func (a *Analysis) addDebts() {
	o := a.outcome
	for i := range o.columns {
		p := o.payer(i)
		if p < 0 {
			continue
		}
		for j := o.columns[i].first; j <= o.columns[i].last; j++ {
			if o.events[j] >= 0 {
				a.Chords[j].ResolvesTo = o.columns[p].first
			}
		}
	}
}
