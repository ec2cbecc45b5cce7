package musicxml

import (
	"fmt"
	"strconv"
	"strings"

	"fifthwise/pkg/chord"
	"fifthwise/pkg/pitch"
)

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
	for i := range e.children {
		c := &e.children[i]
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

// accidentals are so many sharps, or flats where n is less than 0; of more than
// two, which no note or degree has, three.
func accidentals(n int) string {
	if n < 0 {
		return strings.Repeat("b", min(-n, 3))
	}
	return strings.Repeat("#", min(n, 3))
}

// says reports whether the text of a chord may stand for what its kind and
// degrees give. Where the kind has a text and no degree is printed beside it, it
// may say more: it is what the page says, and what was meant where no kind would
// do, as C7alt over a bare dominant. It may leave out the eleventh of a
// thirteenth, the fifth of an altered chord and the third of a suspended one. It
// also counts where it has all degrees that are added and kind and degrees make
// no chord that lead sheets name, as where the seventh of 7sus4 is lowered twice.
func (g *group) says(text, c chord.Chord) bool {
	q, notes := text.Quality(), text.Classes()
	optional := uint16(0)
	if q.Has(chord.D(13, 0)) {
		optional |= 1 << c.Root().Class().Plus(5)
	}
	if q.IsAltered() {
		optional |= 1 << c.Root().Class().Plus(7)
	}
	if q.Family() == chord.Suspended {
		optional |= 1<<c.Root().Class().Plus(3) | 1<<c.Root().Class().Plus(4)
	}
	words, _ := g.kind.attr("text")
	if words != "" && isUnnamed(c.Quality()) && !isUnnamed(q) && g.isIn(q) {
		return true
	}
	symbols, _ := g.kind.attr("use-symbols")
	whole := words != "" && symbols != "yes"
	for _, d := range g.degrees {
		print, _ := d.attr("print-object")
		whole = whole && print == "no"
	}
	if whole {
		return c.Classes()&^(notes|optional) == 0
	}
	return c.Classes()|optional == notes|optional
}

// isUnnamed reports whether lead sheets have no name for a quality.
func isUnnamed(q chord.Quality) bool { return strings.HasPrefix(q.String(), ":") }

// isIn reports whether a quality has the degrees that the group adds or alters,
// however altered, and none that it takes away.
func (g *group) isIn(q chord.Quality) bool {
	for _, d := range g.degrees {
		number, _ := strconv.Atoi(d.textOf("degree-value"))
		if _, has := degreeOf(q, number); has == (d.textOf("degree-type") == "subtract") {
			return false
		}
	}
	return len(g.degrees) > 0
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
		if text == "" {
			return chord.Chord{}, fault("the kind other says nothing of the chord", "its degrees or its text do")
		}
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
	return g.inverted(chord.New(root, withTensions(q)))
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
	n, err := pitch.Parse(step + accidentals(alter))
	return n, err
}
