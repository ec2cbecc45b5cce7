package abc

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"fifthwise/pkg/chart"
	"fifthwise/pkg/chord"
	"fifthwise/pkg/pitch"
)

// quoted takes in the text between quotes at a place: a chord, a sign, an
// annotation or other text (The abc music standard 2.1, sections 4.18, 4.19).
func (r *reader) quoted(raw string, p place) {
	text := strings.TrimSpace(unescape(raw))
	if text == "" {
		return
	}
	if strings.IndexByte("^_<>@", text[0]) >= 0 {
		p.voice.addSign(signOf(annotation(text)))
		return
	}
	p.offset++ // behind the quotes
	lines := splitLines(text)
	lines = lines[:min(len(lines), chart.MaxChords)]
	taken := false
	for _, l := range lines {
		if l = strings.TrimSpace(l); l == "" {
			continue
		}
		if taken && len(l) <= maxWord && r.isChord(l) {
			r.warn(p.bar, "%s is another line of the chord symbol %s and is left out", quote(l), quote(clip(text)))
			continue
		}
		taken = r.word(l, text == raw && len(lines) == 1, p) || taken
	}
}

// annotation is the text of an annotation without the sign of its place.
func annotation(text string) string {
	if text[0] != '@' {
		return strings.TrimSpace(text[1:])
	}
	return strings.TrimLeft(text[1:], "0123456789.,- ")
}

// splitLines are the lines of a symbol: divided by semicolons or line breaks.
func splitLines(text string) []string {
	return strings.FieldsFunc(strings.ReplaceAll(text, `\n`, "\n"), func(r rune) bool { return r == ';' || r == '\n' })
}

// isChord reports whether a text is a chord symbol, perhaps in brackets.
func (r *reader) isChord(text string) bool {
	_, _, err := parseChord(strings.Trim(text, "()"))
	return err == nil
}

// maxWord bounds what may be a chord or several, in bytes.
const maxWord = 512

// word takes in a line of a symbol and reports whether it is a chord. Plain says
// that it stands in the file just so.
func (r *reader) word(w string, plain bool, p place) bool {
	v := p.voice
	if len(w) > maxWord {
		r.warnText(w, p)
		return false
	}
	if c, symbol, err := parseChord(w); err == nil {
		v.chord(c, symbol, p)
		return true
	}
	front, inner, behind := chart.Unbracket(w)
	if c, symbol, err := parseChord(inner); err == nil && front+behind != "" {
		if front == "(" && behind == ")" && len(v.pending) > 0 {
			r.warn(p.bar, "%s is an alternate of %s and is left out", quote(inner), quote(v.pending[len(v.pending)-1].Symbol))
			return true
		}
		r.brackets(front, w, p)
		v.chord(c, symbol, p)
		r.brackets(behind, w, p)
		return true
	}
	if r.alternate(w, p) || r.severalIn(w, p) {
		return true
	}
	if s := signOf(w); s != noSign {
		v.addSign(s)
		return false
	}
	_, _, err := parseChord(inner)
	if !looksLikeChord(inner) {
		r.warnText(w, p)
		return false
	}
	r.brackets(front, w, p)
	e := r.fault(p, w, "", "")
	e.explain(err)
	if plain {
		e.offset += faultOffset(err) + len(front)
	}
	r.brackets(behind, w, p)
	return true
}

// warnText says that a text is no chord, where it stands first.
func (r *reader) warnText(w string, p place) {
	if w = clip(w); !r.texts[w] && len(r.texts) < maxWarnings {
		r.texts[w] = true
		r.warn(p.bar, "%s is no chord symbol and is passed over as text", quote(w))
	}
}

func faultOffset(err error) int {
	if e, ok := err.(*pitch.SyntaxError); ok {
		return e.Offset
	}
	return 0
}

// parseChord reads a chord or a silence. A natural behind the root is that of
// older programs and says nothing.
func parseChord(w string) (c chord.Chord, symbol string, err error) {
	switch strings.ToLower(strings.TrimRight(w, ".")) {
	case "n.c", "nc", "no chord", "tacet":
		return chord.Chord{}, w, nil
	case "n": // the silence of another syntax, and in quotes a text
		return chord.Chord{}, w, &pitch.SyntaxError{Input: w, Msg: "expected a root A to G or N.C."}
	}
	if len(w) > 1 && w[1] == '=' && 'A' <= w[0] && w[0] <= 'G' {
		w = w[:1] + w[2:]
	}
	c, err = chord.Parse(w)
	return c, w, err
}

// alternate reads a chord with an alternate in brackets behind it: "G(Em)".
func (r *reader) alternate(w string, p place) bool {
	open := strings.IndexByte(w, '(')
	if open <= 0 || !strings.HasSuffix(w, ")") {
		return false
	}
	regular, other := strings.TrimSpace(w[:open]), w[open+1:len(w)-1]
	c, symbol, err := parseChord(regular)
	if _, _, err2 := parseChord(other); err != nil || err2 != nil {
		return false
	}
	r.warn(p.bar, "%s is an alternate of %s and is left out", quote(other), quote(regular))
	p.voice.chord(c, symbol, p)
	return true
}

// severalIn reads chords with spaces between.
func (r *reader) severalIn(w string, p place) bool {
	fields := strings.Fields(w)
	if len(fields) < 2 || len(fields) > chart.MaxChords {
		return false
	}
	for _, f := range fields {
		if _, _, err := parseChord(f); err != nil {
			return false
		}
	}
	for _, f := range fields {
		c, symbol, _ := parseChord(f)
		p.voice.chord(c, symbol, p)
	}
	return true
}

// chord lets a chord wait for the next note.
func (v *voice) chord(c chord.Chord, symbol string, p place) {
	if len(v.pending) == 0 {
		v.from = p
	}
	v.pending = append(v.pending, stand{Slot: chart.Slot{Chord: c, Symbol: symbol, Optional: v.grouped}})
}

// brackets opens and closes groups of optional chords.
func (r *reader) brackets(s, symbol string, p place) {
	v := p.voice
	for _, c := range s {
		switch {
		case c == '(' && v.grouped:
			r.fault(p, symbol, "optional groups do not nest", "close the one before with )")
		case c == '(':
			v.grouped, v.opened = true, p
		case !v.grouped:
			r.fault(p, symbol, "nothing opens the group that ) closes", "write ( before its first chord")
		default:
			v.grouped = false
		}
	}
}

// looksLikeChord reports whether a text that is no chord was meant as one: it
// begins with a letter, has no spaces and is neither a word nor the name of a
// note with its octave. Of words the parser of chords understands less than
// half.
func looksLikeChord(w string) bool {
	root, size := utf8.DecodeRuneInString(w)
	if !unicode.IsLetter(root) || strings.ContainsFunc(w, unicode.IsSpace) {
		return false
	}
	rest := w[size:]
	if 'A' <= root && root <= 'G' {
		switch {
		case strings.Trim(rest, ",'=") == "":
			return false
		case strings.ContainsFunc(w, func(r rune) bool { return !unicode.IsLetter(r) }):
			return strings.ContainsAny(rest, "0123456789#/+-°øΔ♯♭(")
		}
		_, _, err := parseChord(w)
		return len(w) < 4 && rest == strings.ToLower(rest) || 2*faultOffset(err) > len(w)
	}
	if root == 'H' && rest == "" {
		return true
	}
	_, _, err := parseChord("C" + rest)
	return err == nil && rest != ""
}
