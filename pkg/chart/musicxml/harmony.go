package musicxml

import (
	"errors"
	"fmt"
	"strings"

	"fifthwise/pkg/chart"
	"fifthwise/pkg/chord"
	"fifthwise/pkg/pitch"
)

// harmony is a chord symbol in its place.
type harmony struct {
	measure       int
	at            chart.Beats // in its measure, in quarter notes
	chord         chord.Chord
	symbol        string // as written
	opens, closes bool   // a bracket stands before or behind it
	after         int    // the byte of the file behind its element
	offset, staff string // as written; may be empty
	line          int
	fault         *Error
	alternate     bool   // another analysis of the chord before
	early         bool   // by its offset it stands before its measure
	said          string // what is printed, where it is read as something else
}

// harmony takes in a chord symbol. Its fault is told if its part is read.
func (s *score) harmony(e *element) error {
	p := s.part
	if s.harmonies++; s.harmonies > maxInAll {
		return s.fault("", fmt.Sprintf("the score has more than %d chord symbols", maxInAll), "export the lead sheet alone")
	}
	if len(p.harmonies) == maxHarmonies {
		return s.fault("", fmt.Sprintf("the part has more than %d chord symbols", maxHarmonies), "")
	}
	h := s.placed(e, harmony{})
	kind, _ := e.attr("type")
	h.alternate = kind == "alternate"
	if err := h.read(e, p.signature); err != nil {
		h.fault = s.fault(h.symbol, err.Error(), "")
		var syntax *pitch.SyntaxError
		if errors.As(err, &syntax) {
			h.fault.Msg, h.fault.Hint, h.fault.cause = clip(syntax.Msg), syntax.Hint, err
		}
		var own *Error
		if errors.As(err, &own) {
			h.fault.Msg, h.fault.Hint = clip(own.Msg), own.Hint
		}
	}
	p.harmonies = append(p.harmonies, h)
	return nil
}

// placed is a harmony at the place of an element that was read.
func (s *score) placed(e *element, h harmony) harmony {
	h.measure, h.after, h.offset, h.staff = s.measure, int(s.decoder.InputOffset()), e.textOf("offset"), e.textOf("staff")
	h.line, _ = s.decoder.InputPos()
	if h.at = s.part.at.Add(s.duration(h.offset)); h.at.Less(chart.Beats{}) {
		h.at, h.early = chart.Beats{}, true
	}
	return h
}

func (h *harmony) read(e *element, k signature) error {
	all := groups(e)
	if len(all) == 0 {
		return fault("the harmony has no root", "it starts with <root>, <numeral> or <function>")
	}
	h.symbol = all[0].text()
	if kind := all[0].kind; kind == nil {
		return fault("the harmony has no kind", "a <kind> stands behind its root")
	} else if h.brackets(); kind.text() == noneKind {
		h.readNone(&all[0])
		return nil
	}
	if all[0].root.name() == "root" {
		return h.readRoots(all)
	}
	return h.readNumerals(all, k)
}

// readNone reads a chord whose kind is none, whatever its root: silence, but that
// programs write a symbol so which they do not understand.
func (h *harmony) readNone(g *group) {
	words := h.symbol
	switch g.root.name() {
	case "root":
		words = strings.TrimPrefix(words, noteText(g.root, "root"))
	case "function":
		words = g.root.text() + words
	}
	c, err := chord.Parse(words)
	if h.chord, h.symbol = c, words; err == nil {
		return
	}
	if h.symbol = c.String(); words != "" {
		h.said = words
	}
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

// readRoots reads chords by their roots. Of two stacked ones the upper's notes
// are added to the lower.
func (h *harmony) readRoots(all []group) error {
	c, err := all[len(all)-1].chord()
	if err != nil {
		if len(all) == 1 && h.readText(&all[0]) {
			return nil
		}
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
		h.said, h.symbol = h.symbol+" over "+all[len(all)-1].text(), c.String()
		return nil
	}
	if t, err := chord.Parse(h.symbol); err == nil && t.Root() == c.Root() && (t.Bass() == c.Bass() || !c.HasBass()) && all[0].says(t, c) {
		h.chord = t
		return nil
	}
	h.symbol = c.String()
	return nil
}

// readText reads a chord of the kind other by its text where that is more than
// the quality: a whole symbol on the same root, one with its bass, or silence.
func (h *harmony) readText(g *group) bool {
	root, err := noteIn(g.root, "root")
	text, _ := g.kind.attr("text")
	if err != nil || g.kind.text() != otherKind || len(g.degrees) > 0 || text == "" {
		return false
	}
	for _, s := range []string{h.symbol, text} {
		if c, err := chord.Parse(s); err == nil && (c.IsSilence() || c.Root() == root) {
			h.chord, h.symbol = c, s
			return true
		}
	}
	return false
}

func fault(msg, hint string) error { return &Error{Msg: msg, Hint: hint} }
