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

func (e *entry) hasMinorThird() bool { return e.kinds&(aMinor|aMinor6|aMinor64) != 0 }

func (e *entry) isDiminished() bool { return e.kinds&^(aDim|aDim7) == 0 }

// homeDominant: it pulls to the tonic of the key itself.
func (e *entry) homeDominant() bool {
	return e.function == Dominant && !e.applied() && e.payRoot(0)
}

// vocabulary is each mode's entries.
var vocabulary = [modeCount][]entry{expand(major), expand(minor)}

func expand(mode int) (list []entry) {
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
					e.set &^= covered(list, e.root, d)
				}
				n := name{d, t}
				if _, ok := labels[n]; !ok {
					labels[n] = uint8(len(labels))
				}
				e.label = labels[n]
				list = append(list, e)
			}
		}
	}
	return list
}

// covered are the qualities that entries on a degree of the key itself take,
// whatever follows.
func covered(list []entry, root uint8, d Degree) (set kinds) {
	for i := range list {
		e := &list[i]
		if e.degree == d && e.root == root && !e.applied() && !e.is(strictly|asWritten) {
			set |= e.set
		}
	}
	return set
}

// A door is how a region begins.
type door uint8

const (
	doorTonic door = iota // on its tonic, which is not owed then
	doorTwo               // on its two
	doorOther             // on another chord
	doorCount
)

func (e *entry) doorOf() door {
	switch {
	case e.is(arrives):
		return doorTonic
	case enterTerm(e) == EnterTwo:
		return doorTwo
	}
	return doorOther
}

// settles is the set of roots that may follow an entry whose debt is strict: those
// that pay, and its own, which holds it.
func (e *entry) settles() uint16 {
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
