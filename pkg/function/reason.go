package function

import (
	"fmt"
	"slices"
	"strings"

	"fifthwise/pkg/chord"
	"fifthwise/pkg/key"
	"fifthwise/pkg/pitch"
)

// Reason says in a sentence or two why chord i is read as it is: what its idiom
// is, in notes of this chord, and what it leads to. Silence has none, nor has an
// index out of range: "".
func (a *Analysis) Reason(i int) string {
	if !a.sounds(i) {
		return ""
	}
	column := int(a.outcome.events[i])
	r := &a.Chords[i]
	e := a.outcome.entry(column)
	return sentence(e.explain(r.Event.Chord, r.Event.Symbol, r.Key, a.written), a.movingVoice(i), a.overPedal(column),
		a.besideNeighbour(i), a.outcome.leadsTo(a, column), a.pivotal(i))
}

// Reason says what the alternative makes of the chord.
func (a Alternative) Reason() string {
	if a.entry == nil {
		return ""
	}
	played := &a.analysis.Chords[a.chord]
	said := a.entry.explain(played.Event.Chord, played.Event.Symbol, a.Key, a.analysis.written)
	if name := a.analysis.written.key(a.Key); a.Key != played.Key && !strings.Contains(said, name) {
		said = "in " + name + ", " + said
	}
	return sentence(said)
}

// sentence joins the parts that say something into one.
func sentence(parts ...string) string {
	var room [256]byte
	said := room[:0]
	for _, p := range parts {
		if p == "" {
			continue
		}
		if len(said) > 0 {
			said = append(said, "; "...)
		}
		said = append(said, p...)
	}
	if said[0] >= 'a' && said[0] <= 'z' {
		said[0] -= 'a' - 'A'
	}
	return string(append(said, '.'))
}

// explain fills the marks of the row's sentence:
//
//	{chord} the symbol as written      {key} {tonic} the key and its tonic
//	{root} {3} {5} {6} {7}             notes of the chord, as it is heard
//	{above} {below}                    the notes a half step from its root
//	{target} the tonicised degree      {dominant} {sharp} the key's fifth, and the note below it
//	{goal} the tonic it pulls to       {lead} {fourth} that tonic's leading tone and fourth
//	{pull} what pulls to the goal      {foreign} which notes are not of the key
func (e *entry) explain(c chord.Chord, symbol string, k key.Key, w writing) string {
	var room [160]byte
	said, rest := room[:0], e.says
	for {
		open := strings.IndexByte(rest, '{')
		if open < 0 {
			return string(append(said, rest...))
		}
		end := open + strings.IndexByte(rest[open:], '}')
		said = append(said, rest[:open]...)
		said = e.appendMark(said, rest[open+1:end], c, symbol, k, w)
		rest = rest[end+1:]
	}
}

func (e *entry) appendMark(dst []byte, mark string, c chord.Chord, symbol string, k key.Key, w writing) []byte {
	switch mark {
	case "chord":
		return append(dst, symbol...)
	case "key":
		return k.AppendTo(dst, w.accidentals)
	case "target":
		return appendDegree(dst, e.target, w.style, w.style == Cased && isMinorTarget(k.Mode(), e.target), w.accidentals)
	case "pull":
		return append(dst, e.pull(c, k.Tonic(), w)...)
	case "foreign":
		return append(dst, foreign(c, k, w)...)
	}
	return e.noteOf(mark, c, k.Tonic()).AppendTo(dst, w.accidentals)
}

// noteOf is the note that a mark stands for.
func (e *entry) noteOf(mark string, c chord.Chord, tonic pitch.Note) pitch.Note {
	root, q := e.heard(c, tonic)
	switch mark {
	case "tonic":
		return tonic
	case "dominant":
		return tonic.Add(pitch.PerfectFifth)
	case "sharp":
		return tonic.Add(pitch.PerfectFifth).Sub(pitch.MinorSecond)
	case "goal":
		return e.goalIn(tonic)
	case "fourth":
		return e.goalIn(tonic).Add(pitch.PerfectFourth)
	case "lead":
		return e.goalIn(tonic).Sub(pitch.MinorSecond)
	case "root":
		return root
	case "above":
		return root.Add(pitch.MinorSecond)
	case "below":
		return root.Sub(pitch.MinorSecond)
	case "3":
		alter, _ := q.Third()
		return root.Add(pitch.Degree(3, alter))
	case "5":
		alter, _ := q.Fifth()
		return root.Add(pitch.Degree(5, alter))
	case "6":
		return root.Add(pitch.Degree(6, 0))
	case "7":
		alter, ok := q.Seventh()
		if !ok {
			alter = -1 // the seventh that a dominant triad leaves out
		}
		return root.Add(pitch.Degree(7, alter))
	}
	panic("function: vocabulary: unknown mark {" + mark + "}")
}

// pull says how a dominant aims at its goal: by the leading tone, or, where the
// chord leaves that out, by its root.
func (e *entry) pull(c chord.Chord, tonic pitch.Note, w writing) string {
	lead, goal := e.noteOf("lead", c, tonic), w.note(e.goalIn(tonic))
	if c.Classes()>>lead.Class()&1 == 0 {
		return fmt.Sprintf("%s falls a fifth to %s", w.note(e.noteOf("root", c, tonic)), goal)
	}
	return fmt.Sprintf("%s is the leading tone to %s", w.note(lead), goal)
}

// foreign names the notes of a chord that a key lacks.
func foreign(c chord.Chord, k key.Key, w writing) string {
	own := k.Scale().Classes()
	if k.Mode() == key.Minor {
		own |= key.HarmonicMinorScale.On(k.Tonic()).Classes() | key.MelodicMinorScale.On(k.Tonic()).Classes()
	}
	notes := slices.DeleteFunc(c.Notes(), func(n pitch.Note) bool { return own>>n.Class()&1 != 0 })
	switch len(notes) {
	case 0:
		return fmt.Sprintf("its notes, from %s up, all belong to %s", w.note(c.Root()), w.key(k))
	case 1:
		return fmt.Sprintf("%s is foreign to %s", w.note(notes[0]), w.key(k))
	}
	return fmt.Sprintf("%s are foreign to %s", w.notes(notes), w.key(k))
}

// notes lists notes in words: "E, G and B".
func (w writing) notes(list []pitch.Note) string {
	var said []string
	for _, n := range list {
		said = append(said, w.note(n))
	}
	last := len(said) - 1
	if last == 0 {
		return said[0]
	}
	return strings.Join(said[:last], ", ") + " and " + said[last]
}

// leadsTo says how column i goes on: how its debt is paid, or that it is not,
// or which cadence it ends.
func (o *outcome) leadsTo(a *Analysis, i int) string {
	e := o.entry(i)
	symbol := a.symbolOf
	if len(o.columns) < 2 {
		return ""
	}
	n := o.next(i)
	around := ""
	if n == 0 {
		around = " at the top"
	}
	p := o.payer(i)
	switch {
	case !e.owes() && p < 0:
		return ""
	case !e.owes():
		return fmt.Sprintf("it goes to %s", symbol(p))
	case p == n && (o.pays(i, n) || o.paysBySubstitute(i, n)):
		return fmt.Sprintf("it goes to %s%s", symbol(n), around)
	case p == n:
		return fmt.Sprintf("it is turned aside to %s, a deceptive resolution", symbol(n))
	case p >= 0 && o.entry(n).label == e.label:
		return fmt.Sprintf("by way of %s it resolves to %s", symbol(n), symbol(p))
	case p >= 0:
		return fmt.Sprintf("%s comes between before it resolves to %s", symbol(n), symbol(p))
	case n == 0:
		return "the tune ends on it"
	}
	return fmt.Sprintf("it does not resolve: %s follows", symbol(n))
}

// overPedal tells of a bass held through several chords.
func (a *Analysis) overPedal(column int) string {
	c := a.chordOf(column)
	if !a.outcome.columns[column].pedal || !c.HasBass() {
		return ""
	}
	return a.written.note(c.Bass()) + " is held below as a pedal"
}

// pivotal tells a pivot's second reading.
func (a *Analysis) pivotal(i int) string {
	if p := a.Chords[i].Pivot; p.Key.IsValid() {
		return fmt.Sprintf("as %s of %s it joins the two keys", a.written.numeral(p.Numeral, p.Key), a.written.key(p.Key))
	}
	return ""
}
