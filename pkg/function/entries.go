package function

import (
	"strings"

	"fifthwise/pkg/pitch"
)

// mode is the search's own: major 0 or minor 1. The church modes are told
// apart after the search.
const (
	major = iota
	minor
	modeCount
)

// An entry is one degree and target of an idiom, written out.
type entry struct {
	*idiom
	degree Degree
	target Degree // the tonicised degree; none for the key itself
	root   uint8  // semitones above the tonic
	goal   uint8  // the tonic it is heard in: semitones above the key's
	pays   uint16 // roots whose chord pays its debt, as a set
	label  uint8  // equal for entries of the same degree and target
	place  place
	set    kinds // the row's, without those that an earlier row says as well
}

// place sorts entries by how their position in the chart matters.
type place uint8

const (
	placeTonic place = iota
	placeDominant
	placeOther
	placeBorrowed
	placeForeign // no function in the key
	placeCount
)

func (e *entry) is(w when) bool       { return e.when&w != 0 }
func (e *entry) owes() bool           { return e.pays != 0 || e.wantsDominant() }
func (e *entry) applied() bool        { return e.target.IsValid() }
func (e *entry) payRoot(r uint8) bool { return e.pays>>r&1 != 0 }

// wantsDominant: only a dominant of the same target pays.
func (e *entry) wantsDominant() bool { return e.to == toDominant }

// homeDominant: it pulls to the tonic of the key itself.
func (e *entry) homeDominant() bool {
	return e.function == Dominant && !e.applied() && e.payRoot(0)
}

// vocabulary is one mode's entries with an index by root and kind.
type vocabulary struct {
	entries []entry
	strict  []bool
	index   [12][kindCount][]listed
}

// listed is an entry in the index, with what is asked of it there.
type listed struct {
	id              uint16
	place           place
	asWritten, blue bool
	two             bool   // a region may begin on it as on its two
	needs           uint16 // roots above the tonic of which the next chord must have one; 0: any
}

var vocabularies = func() (v [modeCount]vocabulary) {
	for m := range v {
		v[m] = expand(m)
	}
	return v
}()

func expand(mode int) (v vocabulary) {
	type name struct{ degree, target Degree }
	labels := map[name]uint8{}
	for i := range idioms {
		row := &idioms[i]
		if row.in>>mode&1 == 0 {
			continue
		}
		targets := []Degree{{}}
		if row.of != "" {
			targets = mustDegrees(row.of)
		}
		for _, t := range targets {
			for _, d := range mustDegrees(row.degrees) {
				e := newEntry(row, d, t)
				e.set = row.kinds
				if row.fit == FitChromatic {
					e.set &^= v.covered(e.root, d)
				}
				n := name{d, t}
				if _, ok := labels[n]; !ok {
					labels[n] = uint8(len(labels))
				}
				e.label = labels[n]
				v.add(e)
			}
		}
	}
	return v
}

// covered are the qualities that entries on a degree of the key itself take,
// whatever follows.
func (v *vocabulary) covered(root uint8, d Degree) (set kinds) {
	for i := range v.entries {
		e := &v.entries[i]
		if e.degree == d && e.root == root && !e.applied() && !e.is(strictly|asWritten) {
			set |= e.set
		}
	}
	return set
}

func (v *vocabulary) add(e entry) {
	id := uint16(len(v.entries))
	v.entries = append(v.entries, e)
	v.strict = append(v.strict, e.is(strictly))
	for k := range kindCount {
		if e.set.has(k) {
			v.index[e.root][k] = append(v.index[e.root][k], listed{id, e.place, e.is(asWritten), e.is(blue), enterTerm(&e) == EnterTwo, e.needs()})
		}
	}
}

// needs is the set of roots that may follow an entry whose debt is strict: those
// that pay, and its own, which holds it.
func (e *entry) needs() uint16 {
	if !e.is(strictly) {
		return 0
	}
	set := e.pays | 1<<e.root
	if e.wantsDominant() {
		set |= 1<<((e.goal+7)%12) | 1<<((e.goal+1)%12)
	}
	return set
}

func newEntry(row *idiom, d, target Degree) entry {
	e := entry{idiom: row, degree: d, target: target, place: placeOther}
	if target.IsValid() {
		e.goal = uint8(target.semitones())
	}
	at := func(d Degree) uint8 { return uint8(pitch.Class(e.goal).Plus(d.semitones())) }
	e.root = at(d)
	switch row.to {
	case "", toDominant:
	case "up":
		e.pays = 1 << uint8(pitch.Class(e.root).Plus(1))
	default:
		for _, to := range mustDegrees(row.to) {
			e.pays |= 1 << at(to)
		}
	}
	switch {
	case e.is(arrives):
		e.place = placeTonic
	case e.homeDominant():
		e.place = placeDominant
	case row.role == Borrowed, row.role == Neapolitan:
		e.place = placeBorrowed
	case row.role == Chromatic:
		e.place = placeForeign
	}
	return e
}

// mustDegrees reads the degrees of a table cell.
func mustDegrees(cell string) (list []Degree) {
	for _, word := range strings.Fields(cell) {
		d, err := ParseDegree(word)
		if err != nil {
			panic("function: vocabulary: " + err.Error())
		}
		list = append(list, d)
	}
	return list
}

// pairTerm is how chord a, read as an entry, goes on to chord b in the same
// key. ok is false where b may not follow: a strict debt unpaid.
func pairTerm(a, b *entry) (t Term, ok bool) {
	if a.degree == b.degree && a.target == b.target {
		return PairHold, true
	}
	if a.owes() {
		if t, done := debtTerm(a, b); done {
			return t, true
		}
		if a.is(strictly) {
			return 0, false
		}
		return unpaidTerm(a, b), true
	}
	if b.is(arrives) {
		return arrivalTerm(a), true
	}
	switch {
	case a.function == Predominant && b.homeDominant():
		return PairToDominant, true
	case a.function == Tonic && b.homeDominant() && b.role == Diatonic:
		return PairTonicToDominant, true
	case a.fit == FitMinorI7 && b.root == 5 && b.kinds&aSeventh != 0:
		return PairLikeTwo, true
	case a.is(arrives) && b.role == Diatonic:
		return PairFromTonic, true
	}
	return motionTerm(a.root, b.root), true
}

// debtTerm is the term for a debt paid, at once or through the target's two.
func debtTerm(a, b *entry) (Term, bool) {
	if a.wantsDominant() {
		return PairTwoFive, b.answersTwo(a)
	}
	if !a.payRoot(b.root) {
		return PairLate, a.function == Dominant && b.isTwo() && a.payRoot((b.root+5)%12)
	}
	switch {
	case a.role == PassingDiminished || a.role == CommonToneDiminished:
		return PairDimPaid, true
	case a.applied() && (a.role == TritoneSubstitute || a.role == SecondaryLeadingTone):
		return PairPaidSub, true
	case a.applied() && b.kinds&aSeventh != 0:
		return PairPaidFive, true
	case a.applied():
		return PairPaid, true
	case b.fit == FitPicardy:
		return PairPicardy, true
	case b.is(arrives) && a.degree == D(5, 0):
		if a.kinds&aSeventh != 0 {
			return PairCadence7, true
		}
		return PairCadence, true
	case b.is(arrives) && a.degree == D(7, 0):
		return PairLeading, true
	case b.is(arrives):
		return PairSubstitute, true
	case a.homeDominant():
		return PairHalf, true
	}
	return PairToDominant, true
}

// answersTwo: b is the dominant of the two-five that a begins. It may be named
// otherwise, as the substitute subV7 that Abm7 goes with in C, or may itself be
// the substitute of that dominant.
func (b *entry) answersTwo(a *entry) bool {
	if b.function != Dominant || !b.owes() || b.kinds&(aSeventh|aSus7|aTriad) == 0 {
		return false
	}
	if b.role == TritoneSubstitute && a.target.Alter() <= 0 {
		return b.goal == a.goal || b.root == (a.goal+7)%12
	}
	return b.target == a.target
}

// isTwo: a chord that can be the two of a dominant a fourth above it.
func (e *entry) isTwo() bool {
	return e.kinds&(kinds(1<<kMinor7)|aHalfDim) != 0 && e.role != Chromatic && !e.is(arrives)
}

// unpaidTerm is the term for a debt that the next chord does not pay.
func unpaidTerm(a, b *entry) Term {
	up := (b.root + 12 - a.goal) % 12 // above the tonic it aimed at
	switch {
	case a.degree == D(5, 0) && a.homeDominant():
		return turnedTerm(b, up)
	case a.degree == D(7, 0) && a.homeDominant() && up == 4 && b.kinds&aMinor != 0:
		return PairHalf // VII to III, as in the circle of fifths
	case a.degree == D(5, 0) && a.function == Dominant && turnsAside(b, up):
		return PairAside
	case b.isTwo() && b.wantsDominant():
		return PairInterrupted
	}
	return PairBroken
}

// turnedTerm is the term of V going elsewhere than to I.
func turnedTerm(b *entry, up uint8) Term {
	switch {
	case up == 5 && b.kinds&aMajor != 0:
		return PairHalfToIV
	case up == 5 && b.role != Chromatic, turnsAside(b, up):
		return PairDeceptive
	}
	return PairHalf
}

// turnsAside: a dominant's debt is paid deceptively by VI, bVI or III of the
// key it aims at, so V7/VI by IV and V7/III by I.
func turnsAside(b *entry, up uint8) bool {
	return b.role != Chromatic && (up == 9 && b.kinds&aMinor != 0 || up == 8 && b.kinds&aMajor != 0 || up == 4 && b.kinds&aMinor != 0)
}

// arrivalTerm is how a chord without a debt reaches the tonic.
func arrivalTerm(a *entry) Term {
	switch {
	case a.degree == D(4, 0) && a.kinds&aMajor != 0:
		return PairPlagal
	case a.degree == D(4, 0):
		return PairMinorPlagal
	case a.degree == D(7, -1):
		return PairSubtonic
	}
	return PairOtherToTonic
}

// motionTerm is the term of a plain root motion.
func motionTerm(from, to uint8) Term {
	return [12]Term{PairSameRoot, PairStepUp, PairStepUp, PairThirdUp, PairThirdUp, PairFifth,
		PairTritone, PairFourth, PairThirdDown, PairThirdDown, PairStepDown, PairStepDown}[(to+12-from)%12]
}

// isCadence: the terms by which a tonic is confirmed.
func isCadence(t Term) bool {
	switch t {
	case PairCadence, PairCadence7, PairLeading, PairSubstitute:
		return true
	}
	return false
}

// enterTerm is how a region begins on an entry.
func enterTerm(e *entry) Term {
	switch {
	case e.is(lean):
		return EnterLean
	case e.is(arrives):
		return EnterTonic
	case e.homeDominant():
		return EnterDominant
	case e.degree == D(2, 0) && e.function == Predominant && !e.applied():
		return EnterTwo
	case e.function == Predominant && !e.applied() && e.role != Chromatic:
		return EnterFour
	}
	return EnterOther
}

// leaveTerm is how a settled region ends on an entry.
func leaveTerm(e *entry) Term {
	switch {
	case e.is(arrives):
		return LeaveTonic
	case e.homeDominant():
		return LeaveDominant
	case e.owes():
		return LeaveInDebt
	}
	return LeaveOther
}
