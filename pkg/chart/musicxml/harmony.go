package musicxml

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"fifthwise/pkg/chart"
	"fifthwise/pkg/chord"
	"fifthwise/pkg/pitch"
)

// harmony is a chord symbol in its place.
type harmony struct {
	measure        int
	at             chart.Beats // in its measure, in quarter notes
	chord          chord.Chord
	symbol         string // as written
	opens, closes  bool   // a bracket stands before or behind it
	after          int    // the byte of the file behind its element
	offset, staff  string // as written; may be empty
	line           int
	fault          *Error
	alternate      bool // another analysis of the chord before
	polychordWords string
}

// harmony takes in a chord symbol. Its fault is told if its part is read.
func (s *score) harmony(e *element) error {
	p := s.part
	if len(p.harmonies) == maxHarmonies {
		return s.fault("", fmt.Sprintf("the part has more than %d chord symbols", maxHarmonies), "")
	}
	h := harmony{measure: s.measure, at: p.at, after: int(s.decoder.InputOffset()), offset: e.textOf("offset"), staff: e.textOf("staff")}
	h.line, _ = s.decoder.InputPos()
	h.at = h.at.Add(s.duration(h.offset))
	if h.at.Less(chart.Beats{}) {
		h.at = chart.Beats{}
	}
	kind, _ := e.attr("type")
	h.alternate = kind == "alternate"
	if err := h.read(e, p.signature); err != nil {
		h.fault = s.fault(h.symbol, err.Error(), "")
		var syntax *pitch.SyntaxError
		if errors.As(err, &syntax) {
			h.fault.Msg, h.fault.Hint, h.fault.cause = syntax.Msg, syntax.Hint, err
		}
		var own *Error
		if errors.As(err, &own) {
			h.fault.Msg, h.fault.Hint = own.Msg, own.Hint
		}
	}
	p.harmonies = append(p.harmonies, h)
	return nil
}

// group is one chord of a harmony: a root, a numeral or a function, its kind,
// bass and degrees.
type group struct {
	root      *element // <root>, <numeral> or <function>
	kind      *element
	inversion string
	bass      *element
	degrees   []*element
}

// groups are the chords of a harmony: one as a rule; of several stacked ones
// the upper, or the one that is of the next, first.
func groups(e *element) []group {
	var all []group
	for i := range e.Children {
		c := &e.Children[i]
		switch c.name() {
		case "root", "numeral", "function":
			all = append(all, group{root: c})
			continue
		}
		if len(all) == 0 {
			continue
		}
		g := &all[len(all)-1]
		switch c.name() {
		case "kind":
			g.kind = c
		case "inversion":
			g.inversion = c.text()
		case "bass":
			g.bass = c
		case "degree":
			g.degrees = append(g.degrees, c)
		}
	}
	return all
}

func (h *harmony) read(e *element, k signature) error {
	all := groups(e)
	if len(all) == 0 {
		return fault("the harmony has no root", "it starts with <root>, <numeral> or <function>")
	}
	h.symbol = all[0].text()
	if kind := all[0].kind; kind == nil {
		return fault("the harmony has no kind", "a <kind> stands behind its root")
	} else if kind.text() == noneKind {
		h.chord, h.symbol = chord.Chord{}, silenceText(h.symbol)
		return nil
	}
	h.brackets()
	if all[0].root.name() == "root" {
		return h.readRoots(all)
	}
	return h.readNumerals(all, k)
}

// silenceText is the text of a harmony that is none, if a chart can read it.
func silenceText(text string) string {
	if c, err := chord.Parse(text); err == nil && c.IsSilence() {
		return text
	}
	return chord.Chord{}.String()
}

// brackets takes a bracket without a partner off the symbol's edge: it opens or
// closes a group of chords that may be left out, as one around the symbol does.
func (h *harmony) brackets() {
	balance, least := 0, 0
	for _, r := range h.symbol {
		switch r {
		case '(':
			balance++
		case ')':
			balance--
			least = min(least, balance)
		}
	}
	encloses := strings.HasPrefix(h.symbol, "(") && strings.HasSuffix(h.symbol, ")") && balance == 0 && least == 0
	if h.opens = strings.HasPrefix(h.symbol, "(") && (balance > 0 || encloses); h.opens {
		h.symbol = h.symbol[1:]
	}
	if h.closes = strings.HasSuffix(h.symbol, ")") && (balance < 0 || encloses); h.closes {
		h.symbol = h.symbol[:len(h.symbol)-1]
	}
}

// text is the group as it is printed, as far as texts are given.
func (g *group) text() string {
	var b strings.Builder
	if g.root.name() == "root" {
		b.WriteString(noteText(g.root, "root"))
	}
	if g.kind != nil {
		text, _ := g.kind.attr("text")
		b.WriteString(text)
	}
	for _, d := range g.degrees {
		if print, _ := d.attr("print-object"); print == "no" {
			continue
		}
		if v := d.child("degree-value"); v != nil {
			text, _ := v.attr("text")
			b.WriteString(text)
		}
	}
	if g.bass != nil {
		b.WriteString("/" + noteText(g.bass, "bass"))
	}
	return strings.ReplaceAll(b.String(), " ", "")
}

// noteText is a root or bass as it is printed.
func noteText(e *element, what string) string {
	step := e.child(what + "-step")
	if step == nil {
		return ""
	}
	text, ok := step.attr("text")
	if !ok {
		text = step.text()
	}
	alter := e.child(what + "-alter")
	if alter == nil {
		return text
	}
	if print, _ := alter.attr("print-object"); print == "no" {
		return text
	}
	n, _ := semitones(alter.text())
	return text + accidentals(n)
}

func accidentals(n int) string {
	if n < 0 {
		return strings.Repeat("b", min(-n, maxAlter))
	}
	return strings.Repeat("#", min(n, maxAlter))
}

const maxAlter = 2

// readRoots reads chords by their roots. Of two stacked ones the upper's notes
// are added to the lower.
func (h *harmony) readRoots(all []group) error {
	c, err := all[len(all)-1].chord()
	if err != nil {
		return err
	}
	for i := len(all) - 2; i >= 0; i-- {
		upper, err := all[i].chord()
		if err != nil {
			return err
		}
		if c, err = stacked(upper, c); err != nil {
			return err
		}
	}
	h.chord = c
	if len(all) > 1 {
		h.polychordWords, h.symbol = h.symbol+" over "+all[len(all)-1].text(), c.String()
		return nil
	}
	if t, err := chord.Parse(h.symbol); err == nil && t.Root() == c.Root() && t.Bass() == c.Bass() && sameNotes(t, c) {
		h.chord = t
		return nil
	}
	h.symbol = c.String()
	return nil
}

// sameNotes reports whether the text of a chord may say what its degrees say,
// the eleventh of a thirteenth apart.
func sameNotes(text, c chord.Chord) bool {
	eleventh := uint16(1) << (c.Root().Class().Plus(5))
	return text.Classes() == c.Classes() || text.Quality().Has(chord.D(13, 0)) && text.Classes()|eleventh == c.Classes()|eleventh
}

// chord is the group's chord, by its root.
func (g *group) chord() (chord.Chord, error) {
	if g.kind == nil {
		return chord.Chord{}, fault("the harmony has no kind", "a <kind> stands behind its root")
	}
	root, err := noteIn(g.root, "root")
	if err != nil {
		return chord.Chord{}, err
	}
	return g.on(root)
}

// on is the group's chord on a root.
func (g *group) on(root pitch.Note) (chord.Chord, error) {
	name := g.kind.text()
	if text, _ := g.kind.attr("text"); name == otherKind && len(g.degrees) == 0 {
		q, err := chord.ParseQuality(text)
		if err != nil {
			return chord.Chord{}, err
		}
		return g.inverted(chord.New(root, q))
	}
	q, ok := qualities[name]
	if !ok {
		return chord.Chord{}, fault(fmt.Sprintf("the kind %q is none of MusicXML's", name), "such as major, minor, dominant, minor-seventh")
	}
	for _, d := range g.degrees {
		var err error
		if q, err = altered(q, d); err != nil {
			return chord.Chord{}, err
		}
	}
	return g.inverted(chord.New(root, q))
}

// inverted puts the bass under a chord, or the degree that its inversion names.
func (g *group) inverted(c chord.Chord) (chord.Chord, error) {
	if g.bass != nil {
		bass, err := noteIn(g.bass, "bass")
		if err != nil {
			return c, err
		}
		return c.WithBass(bass), nil
	}
	if g.inversion == "" || g.inversion == "0" {
		return c, nil
	}
	n, err := strconv.Atoi(g.inversion)
	degrees := c.Quality().Degrees()
	if err != nil || n < 1 || n >= len(degrees) {
		return c, fault(fmt.Sprintf("the chord has no inversion %q", g.inversion), fmt.Sprintf("a number from 0 to %d", len(degrees)-1))
	}
	return c.WithBass(c.Root().Add(degrees[n].Interval())), nil
}

// altered is a quality with a degree added, altered or taken away (MusicXML
// 4.0, degree-alter: an added degree counts from a dominant chord, another from
// the one in the chord).
func altered(q chord.Quality, e *element) (chord.Quality, error) {
	number, err := strconv.Atoi(e.textOf("degree-value"))
	if err != nil || number < 1 || number > 13 {
		return q, fault(fmt.Sprintf("%q is no degree of a chord", e.textOf("degree-value")), "a number from 1 to 13")
	}
	alter, ok := semitones(e.textOf("degree-alter"))
	if !ok {
		return q, fault(fmt.Sprintf("%q is no alteration of a degree", e.textOf("degree-alter")), "a whole number of semitones")
	}
	in, has := degreeOf(q, number)
	switch kind := e.textOf("degree-type"); {
	case kind == "subtract":
		if has {
			q = q.Without(in)
		}
		return q, nil
	case kind == "alter" && has:
		q, alter = q.Without(in), alter+in.Alter()
	case kind == "add", kind == "alter": // what is not there can only be added
		if number == 7 {
			alter--
		}
	default:
		return q, fault(fmt.Sprintf("%q is nothing that is done to a degree", kind), "add, alter or subtract")
	}
	d, err := chord.ParseDegree(accidentals3(alter) + strconv.Itoa(number))
	if err != nil {
		return q, fault(fmt.Sprintf("degree %d cannot be altered by %d semitones", number, alter), "at most two")
	}
	return q.With(d), nil
}

// degreeOf is the degree of a number in a chord.
func degreeOf(q chord.Quality, number int) (chord.Degree, bool) {
	for d := range q.All() {
		if d.Number() == number {
			return d, true
		}
	}
	return chord.Degree{}, false
}

// stacked is a chord with the notes of another over it.
func stacked(upper, lower chord.Chord) (chord.Chord, error) {
	q := lower.Quality()
	for _, n := range upper.Notes() {
		number, alter := lower.Root().To(n).Degree()
		if number%2 == 0 {
			number += 7
		}
		if number == 1 && alter == 0 {
			continue
		}
		d, err := chord.ParseDegree(accidentals3(alter) + strconv.Itoa(number))
		if err != nil {
			return lower, fault(fmt.Sprintf("%v over %v cannot be told as one chord", upper, lower), "write it as one symbol")
		}
		q = q.With(d)
	}
	return chord.New(lower.Root(), q).WithBass(lower.Bass()), nil
}

// accidentals3 is accidentals for a degree, where three are told as an error.
func accidentals3(n int) string {
	if n < 0 {
		return strings.Repeat("b", min(-n, 3))
	}
	return strings.Repeat("#", min(n, 3))
}

// noteIn is the note of a root or bass.
func noteIn(e *element, what string) (pitch.Note, error) {
	step := e.textOf(what + "-step")
	alter, ok := 0, true
	if a := e.child(what + "-alter"); a != nil {
		alter, ok = semitones(a.text())
	}
	if !ok {
		return pitch.Note{}, fault(fmt.Sprintf("%q is no alteration of a %s", e.textOf(what+"-alter"), what), "a whole number of semitones")
	}
	if len(step) != 1 || step[0] < 'A' || step[0] > 'G' {
		return pitch.Note{}, fault(fmt.Sprintf("%q is no %s", step, what), "a letter from A to G")
	}
	n, err := pitch.Parse(step + accidentals3(alter))
	return n, err
}

// semitones reads a number of them, which the format allows to be a decimal.
func semitones(text string) (int, bool) {
	if text == "" {
		return 0, true
	}
	f, err := strconv.ParseFloat(text, 64)
	n := int(f)
	return n, err == nil && float64(n) == f && n >= -12 && n <= 12
}

func fault(msg, hint string) error { return &Error{Msg: msg, Hint: hint} }
