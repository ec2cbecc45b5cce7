package function

import (
	"fmt"

	"fifthwise/pkg/chord"
)

// besideNeighbour says how a chord that is only foreign to the key is joined to
// the chord after it or before it: by a half step of roots, by notes in common,
// by a whole step or by a fifth.
func (a *Analysis) besideNeighbour(column int) string {
	if a.outcome.entry(column).fit != FitChromatic {
		return ""
	}
	after, before := column+1, column-1
	for _, said := range [...]string{
		a.rootStep(column, after, 1), a.rootStep(column, before, 1),
		a.sharedNotes(column, after, 2), a.sharedNotes(column, before, 2),
		a.rootStep(column, after, 2), a.rootStep(column, before, 2),
		a.rootStep(column, after, 5), a.sharedNotes(column, after, 1), a.sharedNotes(column, before, 1),
	} {
		if said != "" {
			return said
		}
	}
	return ""
}

var rootSteps = map[int]string{1: "up a half step", -1: "down a half step", 2: "up a whole step", -2: "down a whole step", 5: "down a fifth", -5: "up a fifth"}

// rootStep tells of a root that moves by so many semitones to or from another
// column; "" if it does not.
func (a *Analysis) rootStep(column, other, semitones int) string {
	if other < 0 || other >= len(a.outcome.columns) {
		return ""
	}
	here, there := a.chordOf(column), a.chordOf(other)
	d := int(here.Root().MotionTo(there.Root()))
	how := "moves"
	if here.Quality() == there.Quality() {
		how = "slides"
	}
	switch {
	case max(d, -d) != semitones:
		return ""
	case other > column:
		return fmt.Sprintf("it %s %s to %s", how, rootSteps[d], a.symbolOf(other))
	}
	return fmt.Sprintf("it %s %s from %s", how, rootSteps[-d], a.symbolOf(other))
}

// sharedNotes names the notes in common with another column; "" if they are
// fewer than so many.
func (a *Analysis) sharedNotes(column, other, least int) string {
	if other < 0 || other >= len(a.outcome.columns) {
		return ""
	}
	here, there := a.chordOf(column), a.chordOf(other)
	shared := here.Notes()[:0]
	for _, n := range here.Notes() {
		if there.Classes()>>n.Class()&1 != 0 {
			shared = append(shared, n)
		}
	}
	if len(shared) < least {
		return ""
	}
	where := "after"
	if other < column {
		where = "before"
	}
	return fmt.Sprintf("it shares %s with %s %s it", a.written.appendNotes(nil, shared), a.symbolOf(other), where)
}

// symbolOf is a column's chord as written.
func (a *Analysis) symbolOf(column int) string {
	return a.Chords[a.outcome.columns[column].first].Event.Symbol
}

// chordOf is a column's chord.
func (a *Analysis) chordOf(column int) chord.Chord {
	return a.Chords[a.outcome.columns[column].first].Event.Chord
}
