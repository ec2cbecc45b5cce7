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
	marks, symbols := d.placed(marks)
	for i, m := range marks {
		for _, h := range symbols[i].places {
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

// placed are the marks merged by the chord symbols of the file that they are at,
// with these. Several bars of the chart may come from one measure.
func (d *Document) placed(marks []chart.Mark) ([]chart.Mark, []symbol) {
	var all []chart.Mark
	byPlace := map[int]symbol{}
	bar, symbols := -1, []symbol(nil)
	for _, m := range marks {
		if m.Bar < 0 || m.Bar >= len(d.chart.Bars) || m.Chord < 0 || m.Chord >= len(d.chart.Bars[m.Bar].Chords) {
			continue
		}
		if m.Bar != bar {
			bar, symbols = m.Bar, d.symbolsOf(m.Bar)
		}
		if s := symbols[m.Chord]; len(s.places) > 0 {
			m.Bar, m.Chord = s.places[0].after, 0
			byPlace[m.Bar] = s
			all = append(all, m)
		}
	}
	all = chart.MergeMarks(all)
	placed := make([]symbol, len(all))
	for i, m := range all {
		placed[i] = byPlace[m.Bar]
	}
	return all, placed
}

// symbolsOf are the chord symbols of the file that the chords of a bar come from;
// without places for a silence that the file does not write. A bar may have been
// made of two measures, and chords been left out of it.
func (d *Document) symbolsOf(bar int) []symbol {
	measure, chords := d.measures[bar], d.chart.Bars[bar].Chords
	left := slices.Concat(d.symbols[measure:min(measure+2, len(d.symbols))]...)
	found := make([]symbol, len(chords))
	for k, slot := range chords {
		i := slices.IndexFunc(left, func(s symbol) bool {
			return s.places[0].chord == slot.Chord && s.places[0].symbol == slot.Symbol
		})
		if i >= 0 {
			found[k], left = left[i], left[i+1:]
		}
	}
	return found
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
