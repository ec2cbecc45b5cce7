package sheet

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"slices"
	"strconv"

	"fifthwise/pkg/chart"
	"fifthwise/pkg/function"
	"fifthwise/pkg/key"
	"fifthwise/pkg/pitch"
)

// pageWidth is that of a drawn sheet, in pixels.
const pageWidth = 1000

// What a drawing leaves empty at its sides, top and bottom.
const (
	sideMargin   = 24
	topMargin    = 20
	bottomMargin = 20
)

var svgRuler = ruler{
	page: pageWidth - sideMargin, margin: 76, opener: 14, repeat: 26, divider: 14, closer: 14,
	pad: 14, gap: 12, slash: 6, least: 80, fills: true,
	chord: func(m *mark) (width, hang float64) {
		if m.isSlash() {
			return slashWidth, 0
		}
		t := setChord(m)
		width, hang = t.width(), bold.width(t.before, rootSize)
		if m.beat != "" {
			width = max(width, hang+beatIndent+sans.width(m.beat, beatSize))
		}
		return width, hang
	},
	leadOf: func(b *bar) string { return b.meter },
	below:  serif.in(numeralSize), lead: bold.in(meterSize),
}

// SVG is the chart as a drawing of 1000 pixels' width: four bars a line, by
// sections and phrases; a numeral under every chord as it is read the first time
// through; the keys as bands over their bars, each with its name and the
// interval from the one before; arrows from dominants to the chords that they
// resolve to, brackets under two-fives; phrases in the margin. Signs of the
// drawing are explained where they occur. Accidentals are ♭ and ♯ whatever the
// style says. The drawing has no scripts and no links, and its text is text.
func SVG(c chart.Chart, a *function.Analysis, s Style) []byte {
	d := newDrawing(c, a, s)
	for _, b := range d.blocks() {
		b.draw()
	}
	return document(strconv.Itoa(pageWidth), number(d.y+bottomMargin), number(d.y+bottomMargin), d.name(), d.description(), d.out.Bytes())
}

func newDrawing(c chart.Chart, a *function.Analysis, s Style) *drawing {
	s.Accidentals = pitch.Unicode
	unicode := a.WrittenAs(s.Numerals, s.Accidentals)
	if s.Steps {
		spellSymbols(&unicode)
	}
	d := &drawing{page: newPage(c, &unicode, s)}
	d.colourKeys()
	return d
}

// block is a part of a drawing that no page's end cuts: the heading, a line of
// bars, the legend, a paragraph of the notes.
type block struct {
	draw   func()
	line   *line // of bars, if it is one
	isNote bool
	price  float64 // of a page's end before it
	height float64
}

// blocks are the parts of the drawing, to be drawn in their order: the legend
// explains what stands before it.
func (d *drawing) blocks() []block {
	g := d.grid(&svgRuler)
	lines := g.lines(d.bars)
	d.link()
	all := []block{{draw: d.heading}}
	for i := range lines {
		l := &lines[i]
		all = append(all, block{draw: func() { d.line(g, l) }, line: l, price: l.price()})
	}
	all = append(all, block{draw: d.legend})
	return append(all, d.notes()...)
}

// spellSymbols writes the chords' accidentals as the drawing does, for the study
// steps.
func spellSymbols(a *function.Analysis) {
	a.Chords = slices.Clone(a.Chords)
	for i := range a.Chords {
		e := &a.Chords[i].Event
		e.Symbol = symbol(e.Symbol, e.Chord, pitch.Unicode)
	}
}

// drawing is a sheet being drawn, from the top.
type drawing struct {
	*page
	y     float64
	out   bytes.Buffer
	bands map[key.Key]band
	used  map[string]bool // signs that the legend explains
}

// colourKeys gives every key its band, the home key the first.
func (d *drawing) colourKeys() {
	d.bands, d.used = map[key.Key]band{d.analysis.Home: bands[0]}, map[string]bool{}
	for _, r := range d.analysis.Regions {
		if _, ok := d.bands[r.Key]; !ok {
			d.bands[r.Key] = bands[1+(len(d.bands)-1)%(len(bands)-1)]
		}
	}
}

// document puts a drawing into its frame.
func document(width, height, viewHeight, name, description string, body []byte) []byte {
	var b bytes.Buffer
	fmt.Fprintf(&b, `<svg xmlns="http://www.w3.org/2000/svg" width="%s" height="%s" viewBox="0 0 %d %s" role="graphics-document document" font-family="%s" fill="%s">`+"\n",
		width, height, pageWidth, viewHeight, sansFamilies, ink)
	fmt.Fprintf(&b, "<title>%s</title>\n<desc>%s</desc>\n", escaped(name), escaped(description))
	fmt.Fprintf(&b, `<rect width="100%%" height="100%%" fill="%s"/>`+"\n", paper)
	b.Write(body)
	b.WriteString("</svg>\n")
	return b.Bytes()
}

const sansFamilies = "Helvetica, Arial, 'Liberation Sans', sans-serif"

// serifType is the type of numerals, in which a I is no stroke.
const serifType = `font-family="Georgia, 'Times New Roman', 'Liberation Serif', serif"`

func (d *drawing) name() string {
	if d.chart.Title == "" {
		return "Chord chart"
	}
	return d.chart.Title
}

// description tells the sheet in words: what it is, its keys and its form.
func (d *drawing) description() string {
	s := "Chord chart with numerals, " + d.facts() + "."
	for i, r := range d.analysis.Regions {
		first := d.analysis.Chords[r.First].Event
		s += fmt.Sprintf(" Bar %d: %s", first.Bar, d.keyName(r.Key))
		if i > 0 {
			s += ", " + d.analysis.Move(i)
		}
		s += "."
	}
	if f := d.form(); f != "" {
		s += " Form: " + f + "."
	}
	return s
}

// number prints a place, to a tenth of a pixel.
func number(f float64) string {
	return strconv.FormatFloat(float64(int(f*10+.5))/10, 'f', -1, 64)
}

func escaped(s string) string {
	var b bytes.Buffer
	_ = xml.EscapeText(&b, []byte(s)) // a Buffer takes all
	return b.String()
}

// text writes words at a place; attributes are as in SVG.
func (d *drawing) text(x, y, size float64, s, attributes string) {
	if s == "" {
		return
	}
	fmt.Fprintf(&d.out, `<text x="%s" y="%s" font-size="%s"%s>%s</text>`+"\n", number(x), number(y), number(size), spaced(attributes), escaped(s))
}

// stroke writes a path.
func (d *drawing) stroke(path, colour string, width float64, attributes string) {
	fmt.Fprintf(&d.out, `<path d="%s" fill="none" stroke="%s" stroke-width="%s"%s/>`+"\n", path, colour, number(width), spaced(attributes))
}

func spaced(attributes string) string {
	if attributes == "" {
		return ""
	}
	return " " + attributes
}

// dashes is the attribute of a line that may be dashed.
func dashes(s string) string {
	if s == "" {
		return ""
	}
	return `stroke-dasharray="` + s + `"`
}

func (d *drawing) heading() {
	d.y += topMargin
	if d.chart.Title != "" {
		for _, l := range wrap(d.chart.Title, pageWidth-2*sideMargin, bold.in(titleSize)) {
			d.y += titleSize + 2
			d.text(sideMargin, d.y, titleSize, l, `font-weight="bold"`)
		}
	}
	d.y += 22
	facts := d.facts()
	if f := d.form(); f != "" {
		facts += ", form " + f
	}
	for i, l := range wrap(facts, pageWidth-2*sideMargin, sans.in(factsSize)) {
		if i > 0 {
			d.y += 20
		}
		d.text(sideMargin, d.y, factsSize, l, `fill="`+quiet+`"`)
	}
	d.y += 10
}
