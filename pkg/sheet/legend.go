package sheet

import "fmt"

// Signs that a legend explains.
const (
	homeBandSign      = "band of the home key"
	bandSign          = "band of another key"
	arrowSign         = "arrow"
	dashedArrowSign   = "dashed arrow"
	leavingSign       = "arrow that leaves its line"
	bracketSign       = "bracket"
	dashedBracketSign = "dashed bracket"
	pivotSign         = "pivot"
	beatSign          = "beat"
	phraseSign        = "phrase"
	laterPhraseSign   = "phrase of a later time through"
)

// explained are the signs with what is said of them.
var explained = []struct{ sign, words string }{
	{homeBandSign, "the home key"},
	{bandSign, "another key, dashed in its own way"},
	{arrowSign, "a dominant resolves down a fifth"},
	{dashedArrowSign, "a dominant resolves down a half step"},
	{leavingSign, "the chord it resolves to is on a line below"},
	{bracketSign, "a two-five"},
	{dashedBracketSign, "a two-five with the substitute dominant"},
	{pivotSign, "what the chord is in the key next to it"},
	{beatSign, "the beat on which the chord starts"},
	{phraseSign, "a phrase, by its letter in the form"},
	{laterPhraseSign, "below it, of a later time through"},
}

// legend explains the signs that the sheet has, in columns.
func (d *drawing) legend() {
	const sample, columns = 46, 3
	d.y += lineGap
	n := 0
	for _, e := range explained {
		if !d.used[e.sign] {
			continue
		}
		if n%columns == 0 {
			d.y += legendRow
		}
		x := sideMargin + float64(n%columns)*(pageWidth-2*sideMargin)/columns
		n++
		y := d.y - 4
		switch e.sign {
		case homeBandSign, bandSign:
			b := bands[0]
			if e.sign == bandSign {
				b = bands[1]
			}
			d.stroke(fmt.Sprintf("M%s %sh36", number(x), number(y)), b.colour, 4, dashes(b.dashes))
		case leavingSign:
			d.stroke(fmt.Sprintf("M%s %sC%s %s %s %s %s %sh14", number(x), number(y+5), number(x), number(y-3), number(x+6), number(y-4), number(x+14), number(y-4)), ink, 1.3, "")
			d.point(fmt.Sprintf("M%s %sl-8 -4v8z", number(x+34), number(y-4)))
		case arrowSign, dashedArrowSign:
			attributes := ""
			if e.sign == dashedArrowSign {
				attributes = dashes("5 3")
			}
			d.stroke(fmt.Sprintf("M%s %sC%s %s %s %s %s %s", number(x), number(y+3), number(x+8), number(y-9), number(x+24), number(y-9), number(x+32), number(y+1)), ink, 1.3, attributes)
			d.point(fmt.Sprintf("M%s %sl-7 -4l6 -5z", number(x+33), number(y+4)))
		case bracketSign, dashedBracketSign:
			attributes := ""
			if e.sign == dashedBracketSign {
				attributes = dashes("5 3")
			}
			d.stroke(fmt.Sprintf("M%s %sv6h34v-6", number(x), number(y-4)), ink, 1.3, attributes)
		case pivotSign:
			d.text(x, d.y, pivotSize, "II in …", serifType+` fill="`+quiet+`" font-style="italic"`)
		case beatSign:
			d.text(x+8, d.y, beatSize, "2.5", `fill="`+quiet+`"`)
		case phraseSign:
			d.text(x+8, d.y, noteSize, "A", serifType+` fill="`+quiet+`" font-style="italic"`)
		case laterPhraseSign:
			d.text(x+8, d.y, noteSize, "B", serifType+` fill="`+quiet+`" font-style="italic"`)
		}
		d.text(x+sample, d.y, numberSize, e.words, `fill="`+quiet+`"`)
	}
}
