package musicxml

import (
	"fmt"
	"strconv"
	"strings"

	"fifthwise/pkg/chord"
	"fifthwise/pkg/pitch"
)

// chordSymbol writes chord k of bar i with its mark, so many divisions behind
// the current place.
func (w *writer) chordSymbol(i, k, offset int) {
	s := w.chart.Bars[i].Chords[k]
	opens := s.Optional && !w.open
	w.open = s.Optional
	closes := s.Optional && !w.isOptional(i, k+1)
	w.out.WriteString("      <harmony>")
	if s.Chord.IsSilence() {
		w.out.WriteString(`<root><root-step text="">C</root-step></root><kind text="` + brackets("N.C.", opens, closes) + `">none</kind>`)
	} else {
		w.chord(s.Chord, opens, closes)
	}
	behind := ""
	if offset != 0 {
		behind = strconv.Itoa(offset)
		fmt.Fprintf(&w.out, "<offset>%s</offset>", behind)
	}
	w.out.WriteString("</harmony>")
	w.out.Write(direction(w.marks[[2]int{i, k}], behind, ""))
	w.out.WriteByte('\n')
}

// isOptional reports whether the chord that stands next may be left out.
func (w *writer) isOptional(i, k int) bool {
	for ; i < len(w.chart.Bars); i, k = i+1, 0 {
		if k < len(w.chart.Bars[i].Chords) {
			return w.chart.Bars[i].Chords[k].Optional
		}
	}
	return false
}

func brackets(s string, opens, closes bool) string {
	if opens {
		s = "(" + s
	}
	if closes {
		s += ")"
	}
	return s
}

// chord writes a chord. Its text is that of the kind, and programs print the
// degrees behind it; where that would not read as the symbol does, as in 7sus4
// or alt, or a bracket closes behind, it is the symbol's, and degrees are hidden.
func (w *writer) chord(c chord.Chord, opens, closes bool) {
	kind, symbol, degrees := kindOf(c.Quality())
	word, ok := degreesBehind(symbol, c.Quality())
	text, hidden, typeText := symbol, "", ` text="`+word+`"`
	if !ok || closes && !isUnnamed(c.Quality()) {
		text, hidden, typeText = c.Quality().String(), ` print-object="no"`, ""
	}
	w.note(c.Root(), "root", opens, false)
	fmt.Fprintf(&w.out, `<kind text="%s">%s</kind>`, brackets(text, false, closes && !c.HasBass()), kind)
	if c.HasBass() {
		w.note(c.Bass(), "bass", false, closes)
	}
	for _, d := range degrees {
		fmt.Fprintf(&w.out, `<degree%s><degree-value>%d</degree-value><degree-alter>%d</degree-alter><degree-type%s>%s</degree-type></degree>`, hidden, d.number, d.alter, typeText, d.change)
	}
}

// degreesBehind is the word before the degrees that are printed behind a base
// for them to read as the symbol of a quality: none before altered ones, add
// before a natural one. It is false if they cannot.
func degreesBehind(base string, q chord.Quality) (word string, ok bool) {
	if isUnnamed(q) {
		return "", true // there is no symbol to read as
	}
	rest, ok := strings.CutPrefix(q.String(), base)
	if n, adds := strings.CutPrefix(rest, "add"); ok && adds && n != "" && strings.Trim(n, "0123456789") == "" {
		return "add", true
	}
	ok = ok && !q.IsAltered() && strings.Trim(rest, "b#0123456789()") == ""
	return "", ok && (rest == "" || strings.IndexAny(rest, "b#") <= strings.IndexAny(rest, "0123456789"))
}

// note writes a root or bass, with the bracket that stands at it. One that
// closes stands behind the accidental, which is then part of the text.
func (w *writer) note(n pitch.Note, what string, opens, closes bool) {
	step, text, hidden := string(n.Letter()), "", ""
	switch {
	case closes:
		text, hidden = ` text="`+brackets(n.String(), opens, closes)+`"`, ` print-object="no"`
	case opens:
		text = ` text="` + brackets(step, opens, closes) + `"`
	}
	fmt.Fprintf(&w.out, "<%s><%s-step%s>%s</%s-step>", what, what, text, step, what)
	if a := n.Accidental(); a != 0 {
		fmt.Fprintf(&w.out, "<%s-alter%s>%d</%s-alter>", what, hidden, a, what)
	}
	fmt.Fprintf(&w.out, "</%s>", what)
}

// degreeChange is what is done to a degree of a kind.
type degreeChange struct {
	number, alter int
	change        string // add, alter or subtract
}

// kindOf is the kind from which a quality needs the fewest changes, with its
// symbol and these; of several the first behind which they are printed as the
// symbol has them, or else the first in the table.
func kindOf(q chord.Quality) (kind, symbol string, changes []degreeChange) {
	printed := false
	for _, k := range kinds {
		if k.kind == firstForReading {
			break
		}
		c, ok := changesTo(q, qualities[k.kind])
		if !ok {
			continue
		}
		_, prints := degreesBehind(k.symbol, q)
		if kind == "" || len(c) < len(changes) || len(c) == len(changes) && prints && !printed {
			kind, symbol, changes, printed = k.kind, k.symbol, c, prints
		}
	}
	return kind, strings.TrimPrefix(symbol, ":(1)"), changes
}

// changesTo is what makes one quality of another; false if it cannot be told.
func changesTo(q, from chord.Quality) (changes []degreeChange, ok bool) {
	left := q
	for d := range from.All() {
		if q.Has(d) {
			left = left.Without(d)
			continue
		}
		if to, ok := degreeOf(left, d.Number()); ok && !from.Has(to) {
			changes = append(changes, degreeChange{d.Number(), to.Alter() - d.Alter(), "alter"})
			left = left.Without(to)
			continue
		}
		changes = append(changes, degreeChange{d.Number(), 0, "subtract"})
	}
	for d := range left.All() {
		alter := d.Alter()
		switch d.Number() {
		case 1:
			continue
		case 5:
			if alter != 0 && q.Has(chord.D(5, 0)) {
				return nil, false // added to a natural fifth it would replace it
			}
		case 7:
			alter++
		}
		changes = append(changes, degreeChange{d.Number(), alter, "add"})
	}
	return changes, true
}
