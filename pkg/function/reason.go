package function

import (
	"bytes"
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
	var room [256]byte
	return string(a.AppendReason(room[:0], i))
}

// AppendReason appends what [Analysis.Reason] gives to dst.
func (a *Analysis) AppendReason(dst []byte, i int) []byte {
	if !a.sounds(i) {
		return dst
	}
	column := int(a.outcome.events[i])
	r := &a.Chords[i]
	start := len(dst)
	dst = a.outcome.entry(column).explain(dst, r.Event.Chord, r.Event.Symbol, r.Key, a.written)
	line, pedal := a.movingVoice(i), a.overPedal(column)
	beside := ""
	if line == "" && pedal == "" {
		beside = a.besideNeighbour(column)
	}
	for _, said := range [...]string{line, pedal, beside, a.outcome.leadsTo(a, column), a.pivotal(i)} {
		if said != "" {
			dst = append(append(dst, "; "...), said...)
		}
	}
	return sentence(dst, start)
}

// Reason says what the alternative makes of the chord.
func (a Alternative) Reason() string {
	var room [256]byte
	return string(a.AppendReason(room[:0]))
}

// AppendReason appends what [Alternative.Reason] gives to dst.
func (a Alternative) AppendReason(dst []byte) []byte {
	if a.entry == nil {
		return dst
	}
	played, w := &a.analysis.Chords[a.chord], a.analysis.written
	start := len(dst)
	dst = a.Key.AppendTo(append(dst, "in "...), w.accidentals)
	name := dst[start+len("in "):]
	dst = append(dst, ", "...)
	said := len(dst)
	dst = a.entry.explain(dst, played.Event.Chord, played.Event.Symbol, a.Key, w)
	if a.Key == played.Key || bytes.Contains(dst[said:], name) {
		dst = slices.Delete(dst, start, said)
	}
	return sentence(dst, start)
}

// sentence makes one of what stands from start on.
func sentence(said []byte, start int) []byte {
	if c := &said[start]; *c >= 'a' && *c <= 'z' {
		*c -= 'a' - 'A'
	}
	return append(said, '.')
}

// explain appends the row's sentence and fills the marks of the row's sentence:
//
//	{chord} the symbol as written      {key} {tonic} the key and its tonic
//	{root} {3} {5} {6} {7}             notes of the chord, as it is heard
//	{above} {below}                    the notes a half step from its root
//	{target} the tonicised degree      {dominant} {sharp} the key's fifth, and the note below it
//	{goal} the tonic it pulls to       {lead} {fourth} that tonic's leading tone and fourth
//	{pull} what pulls to the goal      {foreign} which notes are not of the key
func (e *entry) explain(dst []byte, c chord.Chord, symbol string, k key.Key, w writing) []byte {
	rest := e.says
	for {
		open := strings.IndexByte(rest, '{')
		if open < 0 {
			return append(dst, rest...)
		}
		end := open + strings.IndexByte(rest[open:], '}')
		dst = append(dst, rest[:open]...)
		dst = e.appendMark(dst, rest[open+1:end], c, symbol, k, w)
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
		return e.appendPull(dst, c, k.Tonic(), w)
	case "foreign":
		return appendForeign(dst, c, k, w)
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

// appendPull says how a dominant aims at its goal: by the leading tone, or, where
// the chord leaves that out, by its root.
func (e *entry) appendPull(dst []byte, c chord.Chord, tonic pitch.Note, w writing) []byte {
	lead, goal := e.noteOf("lead", c, tonic), e.goalIn(tonic)
	if c.Classes()>>lead.Class()&1 == 0 {
		dst = append(e.noteOf("root", c, tonic).AppendTo(dst, w.accidentals), " falls a fifth to "...)
	} else {
		dst = append(lead.AppendTo(dst, w.accidentals), " is the leading tone to "...)
	}
	return goal.AppendTo(dst, w.accidentals)
}

// appendForeign names the notes of a chord that a key lacks.
func appendForeign(dst []byte, c chord.Chord, k key.Key, w writing) []byte {
	own := k.Scale().Classes()
	if k.Mode() == key.Minor {
		own |= key.HarmonicMinorScale.On(k.Tonic()).Classes() | key.MelodicMinorScale.On(k.Tonic()).Classes()
	}
	var room [12]pitch.Note
	notes := slices.DeleteFunc(c.AppendNotes(room[:0]), func(n pitch.Note) bool { return own>>n.Class()&1 != 0 })
	switch len(notes) {
	case 0:
		dst = c.Root().AppendTo(append(dst, "its notes, from "...), w.accidentals)
		dst = append(dst, " up, all belong to "...)
	case 1:
		dst = append(notes[0].AppendTo(dst, w.accidentals), " is foreign to "...)
	default:
		dst = append(w.appendNotes(dst, notes), " are foreign to "...)
	}
	return k.AppendTo(dst, w.accidentals)
}

// appendNotes lists notes in words: "E, G and B".
func (w writing) appendNotes(dst []byte, list []pitch.Note) []byte {
	for i, n := range list {
		switch {
		case i == 0:
		case i == len(list)-1:
			dst = append(dst, " and "...)
		default:
			dst = append(dst, ", "...)
		}
		dst = n.AppendTo(dst, w.accidentals)
	}
	return dst
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
		return "it goes to " + symbol(p)
	case p == n && o.pays(i, n):
		return "it goes to " + symbol(n) + around
	case p == n && o.paysBySubstitute(i, n):
		goal := e.goalIn(a.Chords[o.columns[i].first].Key.Tonic())
		return "it goes to " + symbol(n) + around + ", the substitute of " + a.written.note(goal) + "7"
	case p == n:
		return "it is turned aside to " + symbol(n) + ", a deceptive resolution"
	case p >= 0 && o.entry(n).label == e.label:
		return "by way of " + symbol(n) + " it resolves to " + symbol(p)
	case p >= 0:
		return symbol(n) + " comes between before it resolves to " + symbol(p)
	case n == 0:
		return "the tune ends on it"
	}
	return "it does not resolve: " + symbol(n) + " follows"
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
		return "as " + a.written.numeral(p.Numeral, p.Key) + " of " + a.written.key(p.Key) + " it joins the two keys"
	}
	return ""
}
