package function

import (
	"fmt"
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
	o := a.outcome
	return sentence(o.entry(column).explain(r.Event.Chord, r.Event.Symbol, r.Key, a.written), a.movingVoice(column), a.overPedal(column), o.leadsTo(a, column), a.pivotal(i))
}

// Reason says what the alternative makes of the chord.
func (a Alternative) Reason() string {
	if a.entry == nil {
		return ""
	}
	played := &a.analysis.Chords[a.chord]
	where := ""
	if a.Key != played.Key {
		where = "in " + a.analysis.written.key(a.Key)
	}
	return sentence(a.entry.explain(played.Event.Chord, played.Event.Symbol, a.Key, a.analysis.written), where)
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
//	{root} {3} {5} {7} notes of the chord, as it is heard
//	{degree} the chord's degree        {target} the tonicised degree
//	{goal} the tonic it pulls to       {lead} {fourth} that tonic's leading tone and fourth
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
	root, q := e.heard(c, k.Tonic())
	note := func(n pitch.Note) []byte { return n.AppendTo(dst, w.accidentals) }
	switch mark {
	case "chord":
		return append(dst, symbol...)
	case "key":
		return k.AppendTo(dst, w.accidentals)
	case "tonic":
		return note(k.Tonic())
	case "root":
		return note(root)
	case "3":
		alter, _ := q.Third()
		return note(root.Add(pitch.Degree(3, alter)))
	case "5":
		alter, _ := q.Fifth()
		return note(root.Add(pitch.Degree(5, alter)))
	case "7":
		alter, ok := q.Seventh()
		if !ok {
			alter = -1 // the seventh that a dominant triad leaves out
		}
		return note(root.Add(pitch.Degree(7, alter)))
	case "degree":
		return e.degree.appendTo(dst, w.accidentals)
	case "target":
		return e.target.appendTo(dst, w.accidentals)
	case "goal":
		return note(e.goalIn(k.Tonic()))
	case "fourth":
		return note(e.goalIn(k.Tonic()).Add(pitch.PerfectFourth))
	case "lead":
		return note(e.goalIn(k.Tonic()).Sub(pitch.MinorSecond))
	}
	panic("function: vocabulary: unknown mark {" + mark + "}")
}

// leadsTo says how column i goes on: how its debt is paid, or that it is not,
// or which cadence it ends.
func (o *outcome) leadsTo(a *Analysis, i int) string {
	e := o.entry(i)
	symbol := func(column int) string { return a.Chords[o.columns[column].first].Event.Symbol }
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
		return fmt.Sprintf("by way of %s it goes to %s", symbol(n), symbol(p))
	case p >= 0:
		return fmt.Sprintf("%s comes between, and %s answers it", symbol(n), symbol(p))
	case n == 0:
		return "the tune ends on it"
	}
	return fmt.Sprintf("it does not resolve: %s follows", symbol(n))
}

// overPedal tells of a bass held through several chords.
func (a *Analysis) overPedal(column int) string {
	c := a.Chords[a.outcome.columns[column].first].Event.Chord
	if !a.outcome.columns[column].pedal || !c.HasBass() {
		return ""
	}
	return a.written.note(c.Bass()) + " is held below as a pedal"
}

// movingVoice tells of a voice that moves while the harmony stays: between two
// chords of one degree, root and family of thirds one note changes.
func (a *Analysis) movingVoice(column int) string {
	o := a.outcome
	for _, other := range [2]int{column - 1, column + 1} {
		if other < 0 || other >= len(o.columns) || o.chosen[other].key != o.chosen[column].key || o.entry(other).degree != o.entry(column).degree {
			continue
		}
		here, there := a.Chords[o.columns[column].first].Event.Chord, a.Chords[o.columns[other].first].Event.Chord
		if here.Root() != there.Root() || here.Quality() == there.Quality() {
			continue
		}
		own, foreign := onlyIn(here, there), onlyIn(there, here)
		switch {
		case len(own) == 1 && len(foreign) == 1 && other < column:
			return fmt.Sprintf("one voice moves, from %s to %s", a.written.note(foreign[0]), a.written.note(own[0]))
		case len(own) == 1 && other < column:
			return fmt.Sprintf("a moving voice reaches %s", a.written.note(own[0]))
		case len(foreign) == 1 && len(own) <= 1 && other > column:
			return fmt.Sprintf("a voice moves on to %s", a.written.note(foreign[0]))
		}
	}
	return ""
}

// onlyIn are the notes of c that d has not.
func onlyIn(c, d chord.Chord) (notes []pitch.Note) {
	for _, n := range c.Notes() {
		if d.Classes()>>n.Class()&1 == 0 {
			notes = append(notes, n)
		}
	}
	return notes
}

// pivotal tells a pivot's second reading.
func (a *Analysis) pivotal(i int) string {
	if p := a.Chords[i].Pivot; p.Key.IsValid() {
		return fmt.Sprintf("as %s of %s it joins the two keys", a.written.numeral(p.Numeral, p.Key), a.written.key(p.Key))
	}
	return ""
}
