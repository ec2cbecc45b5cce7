package musicxml

import (
	"bytes"
	"encoding/xml"
	"regexp"
	"slices"

	"fifthwise/pkg/chart"
)

// What Annotate adds stands between these comments.
const (
	additionStart = "<!--fifthwise-->"
	additionEnd   = "<!--/fifthwise-->"
)

// span is a part of a file, in bytes.
type span struct{ from, to int }

// addition is what direction writes.
var addition = regexp.MustCompile(additionStart + `<direction placement="(?:above|below)"><direction-type><words>[^<]*</words></direction-type>` +
	`(?:<offset>[^<]*</offset>)?(?:<staff>[^<]*</staff>)?</direction>` + additionEnd)

// additions are the parts of a file that Annotate added.
func additions(text []byte) []span {
	var all []span
	for _, at := range addition.FindAllIndex(text, -1) {
		all = append(all, span{at[0], at[1]})
	}
	return all
}

// Annotate is the file with marks at the chords of its chart: words above and
// below the chord symbols. All else is left byte for byte as it was, but for
// what an earlier call added, which goes. A compressed file stays compressed;
// its other members are copied. Marks at no chord symbol of the file, such as
// silence at its start, are passed over.
func (d *Document) Annotate(marks []chart.Mark) ([]byte, error) {
	score := d.Score(marks)
	if d.archive != nil {
		return d.archive.with(score)
	}
	return score, nil
}

// Score is what Annotate gives, but not compressed.
func (d *Document) Score(marks []chart.Mark) []byte {
	type insertion struct {
		at   int
		text []byte
	}
	var added []insertion
	for _, m := range d.placed(marks) {
		for _, h := range d.symbols[m.Bar][m.Chord].places {
			added = append(added, insertion{h.after, direction(m, h.offset, h.staff)})
		}
	}
	slices.SortStableFunc(added, func(a, b insertion) int { return a.at - b.at })
	out := make([]byte, 0, len(d.text)+256*len(added))
	at, gone := 0, d.earlier
	copyTo := func(to int) {
		for len(gone) > 0 && gone[0].from < to {
			out = append(out, d.text[at:gone[0].from]...)
			at = gone[0].to
			gone = gone[1:]
		}
		out = append(out, d.text[at:to]...)
		at = to
	}
	for _, a := range added {
		copyTo(a.at)
		out = append(out, a.text...)
	}
	copyTo(len(d.text))
	return d.encoding.encode(out)
}

// placed are marks with the measures of the file and the chord symbols in them
// in the place of those of the chart. A bar of the chart may have been made of
// two measures, repeat another, and start with a silence that the file does not
// write.
func (d *Document) placed(marks []chart.Mark) []chart.Mark {
	var all []chart.Mark
	for _, m := range marks {
		if m.Bar < 0 || m.Bar >= len(d.chart.Bars) || m.Chord < 0 || m.Chord >= len(d.chart.Bars[m.Bar].Chords) {
			continue
		}
		measure, k := d.measures[m.Bar], m.Chord
		if slots := d.chart.Bars[m.Bar].Chords; slots[0].Chord.IsSilence() && slots[0].Symbol == "" {
			k--
		}
		if k >= len(d.symbols[measure]) {
			k -= len(d.symbols[measure])
			measure++
		}
		if k >= 0 && measure < len(d.symbols) && k < len(d.symbols[measure]) {
			all = append(all, chart.Mark{Bar: d.symbols[measure][k].places[0].measure, Chord: k, Above: m.Above, Below: m.Below})
		}
	}
	return chart.MergeMarks(all)
}

// direction writes the words of a mark as directions.
func direction(m chart.Mark, offset, staff string) []byte {
	var b bytes.Buffer
	for _, w := range []struct{ placement, words string }{{"above", m.Above}, {"below", m.Below}} {
		if w.words == "" {
			continue
		}
		b.WriteString(additionStart + `<direction placement="` + w.placement + `"><direction-type><words>`)
		escape(&b, w.words)
		b.WriteString("</words></direction-type>")
		if offset != "" {
			b.WriteString("<offset>")
			escape(&b, offset)
			b.WriteString("</offset>")
		}
		if staff != "" {
			b.WriteString("<staff>")
			escape(&b, staff)
			b.WriteString("</staff>")
		}
		b.WriteString("</direction>" + additionEnd)
	}
	return b.Bytes()
}

func escape(b *bytes.Buffer, s string) {
	_ = xml.EscapeText(b, []byte(s)) // a Buffer takes all
}
