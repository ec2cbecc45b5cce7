package musicxml

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fifthwise/pkg/chart"
)

// signed is a file of measures with the chords C, D, E and so on; what is given
// for each stands before its chord, and behind | after its note.
func signed(measures ...string) []byte {
	for i, m := range measures {
		before, after, _ := strings.Cut(m, "|")
		measures[i] = before + fmt.Sprintf(`<harmony><root><root-step>%c</root-step></root><kind>major</kind></harmony>`, "CDEFGAB"[i]) +
			`<note><rest/><duration>16</duration></note>` + after
	}
	return leadSheet(measures...)
}

// onOneLine are the bars of a chart without its headers.
func onOneLine(c chart.Chart) string {
	_, bars, _ := strings.Cut(c.String(), "\n\n")
	return strings.Join(strings.Fields(strings.ReplaceAll(bars, "|\n| ", "| ")), " ")
}

func barline(location, inner string) string {
	return `<barline location="` + location + `">` + inner + `</barline>`
}

func TestBarlines(t *testing.T) {
	const (
		forward  = `<barline location="left"><bar-style>heavy-light</bar-style><repeat direction="forward"/></barline>`
		backward = `<barline location="right"><bar-style>light-heavy</bar-style><repeat direction="backward"/></barline>`
		double   = `<barline location="right"><bar-style>light-light</bar-style></barline>`
	)
	start := func(number, text string) string {
		return barline("left", `<ending number="`+number+`" type="start">`+text+`</ending>`)
	}
	stop := func(number, kind string) string {
		return barline("right", `<ending number="`+number+`" type="`+kind+`"/>`)
	}
	again := func(number string) string {
		return barline("right", `<ending number="`+number+`" type="stop"/><repeat direction="backward"/>`)
	}
	tests := []struct {
		name     string
		measures []string
		want     string
	}{
		{"none", []string{"", ""}, "| C | D |"},
		{"a repeat", []string{"", forward, "|" + backward, ""}, "| C |: D | E :| F |"},
		{"a repeat from the start", []string{"", "|" + backward, ""}, "| C | D :| E |"},
		{"a double bar", []string{"|" + double, ""}, "| C || D |"},
		{"double bars in other styles", []string{"|" + barline("right", "<bar-style>heavy-heavy</bar-style>"), "|" + barline("right", "<bar-style>heavy</bar-style>"), ""}, "| C || D || E |"},
		{"a bar line that says no place is the right one", []string{"|<barline><bar-style>light-light</bar-style></barline>", ""}, "| C || D |"},
		{"a final bar line within the tune", []string{"|" + barline("right", "<bar-style>light-heavy</bar-style>"), "|" + barline("right", "<bar-style>light-heavy</bar-style>")}, "| C || D |"},
		{"styles that divide nothing", []string{"|" + barline("right", "<bar-style>dashed</bar-style>"), "|" + barline("right", "<bar-style>none</bar-style>"), "|" + barline("middle", "<bar-style>light-light</bar-style>"), ""}, "| C | D | E | F |"},
		{"a double bar at the left of the next", []string{"", barline("left", "<bar-style>light-light</bar-style>"), ""}, "| C || D | E |"},
		{"times", []string{"", forward + "|" + barline("right", `<repeat direction="backward" times="3"/>`), ""}, "| C || D || D || D || E |"},
		{"after-jump", []string{"", "|" + barline("right", `<repeat direction="backward" after-jump="yes"/>`), `|<sound dacapo="yes"/>`}, "| C | D || C | D || E || C | D || C | D || E |"},

		// MusicXML 4.0, ending: stop closes with a downward jog, discontinue without.
		{"endings", []string{forward, start("1", "1.") + "|" + again("1"), start("2", "2.") + "|" + stop("2", "discontinue"), ""}, "|: C | 1. D :| 2. E | F |"},
		{"endings, the second stops", []string{forward, start("1", "") + "|" + again("1"), start("2", "") + "|" + stop("2", "stop"), ""}, "|: C | 1. D :| 2. E | F |"},
		{"an ending without stop", []string{forward, start("1", "") + "|" + backward, start("2", ""), ""}, "|: C | 1. D :| 2. E | F |"},
		{"the second ending opens in the bar line of the first", []string{forward, start("1", "") + "|" + again("1"), start("2", ""), ""}, "|: C | 1. D :| 2. E | F |"},
		// MusicXML 4.0, ending-number: a comma-separated list of positive integers
		// without leading zeros, or none.
		{"two numbers", []string{forward, start("1,2", "") + "|" + again("1,2"), start("3", "")}, "|: C | 1,2. D :| 3. E |"},
		{"two numbers with a space", []string{forward, start("1, 2", "") + "|" + again("1, 2"), start("3", "")}, "|: C | 1,2. D :| 3. E |"},
		{"a range", []string{forward, start("1-3", "") + "|" + again("1-3"), start("4", "")}, "|: C | 1,2,3. D :| 4. E |"},
		{"numbers in the text alone", []string{forward, start(" ", "1.") + "|" + again(" "), start("", "2.")}, "|: C | 1. D :| 2. E |"},
		{"no number says nothing", []string{forward, start(" ", "") + "|" + again(" "), ""}, "|: C | D :| E |"},
		{"a first ending alone", []string{forward, start("1", "") + "|" + again("1"), ""}, "|: C | 1. D :| E |"},
		{"an ending of three measures", []string{forward, start("1", ""), "", "|" + again("1"), start("2", "") + "|" + stop("2", "stop")}, "|: C | 1. D | E | F :| 2. G |"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			d, err := Read(signed(tt.measures...))
			require.NoError(t, err)
			assert.Equal(t, tt.want, onOneLine(d.Chart()))
			assert.Empty(t, d.Chart().Warnings)
		})
	}
}

func TestJumps(t *testing.T) {
	direction := func(types, sound string) string {
		return `<direction><direction-type>` + types + `</direction-type>` + sound + `</direction>`
	}
	words := func(s string) string { return direction("<words>"+s+"</words>", "") }
	tests := []struct {
		name     string
		measures []string
		want     string
	}{
		// MusicXML 4.0, sound element.
		{"dacapo", []string{"", `|<sound dacapo="yes"/>`}, "| C | D || C | D |"},
		{"dacapo, fine", []string{"", `|<sound fine="yes"/>`, `|<sound dacapo="yes"/>`}, "| C | D | E || C | D |"},
		{"fine with a number of divisions", []string{"", `|<sound fine="16"/>`, `|<sound dacapo="yes"/>`}, "| C | D | E || C | D |"},
		{"segno, dalsegno", []string{"", `<sound segno="1"/>`, `|<sound dalsegno="1"/>`}, "| C | D | E || D | E |"},
		{"tocoda, coda", []string{"", `|<sound tocoda="c"/>`, `|<sound dacapo="yes"/>`, `<sound coda="c"/>`}, "| C | D | E || C | D || [Coda] | F |"},
		{"in a direction", []string{"", direction("<words>To the bridge</words>", `<sound segno="1"/>`), "|" + direction("<words>Back</words>", `<sound dalsegno="1"/>`)}, "| C | D | E || D | E |"},
		{"dacapo no", []string{"", `|<sound dacapo="no"/>`}, "| C | D |"},
		{"forward-repeat", []string{"", `<sound forward-repeat="yes"/>`, "|" + barline("right", `<repeat direction="backward"/>`)}, "| C |: D | E :|"},
		{"signs of a bar line", []string{"", barline("left", "<segno/>"), "|" + direction("<words>D.S.</words>", "")}, "| C | D | E || D | E |"},
		{"the name of a bar line's sign", []string{"", `<barline location="left" segno="x"/>`, `|<sound dalsegno="x"/>`}, "| C | D | E || D | E |"},

		// Words and signs without sound: common practice, no source.
		{"D.C.", []string{"", "|" + words("D.C.")}, "| C | D || C | D |"},
		{"da capo al fine", []string{"", "|" + words("Fine"), "|" + words("Da Capo al Fine")}, "| C | D | E || C | D |"},
		{"DC al fine", []string{"", "|" + words("fine"), "|" + words("DC al Fine")}, "| C | D | E || C | D |"},
		{"D. C. with spaces", []string{"", "|" + words("D. C.")}, "| C | D || C | D |"},
		{"a segno sign and D.S.", []string{"", direction("<segno/>", ""), "|" + words("D.S.")}, "| C | D | E || D | E |"},
		{"Dal Segno al Coda", []string{direction("<segno/>", ""), "|" + words("To Coda"), "|" + words("Dal Segno al Coda"), words("Coda")}, "| C | D | E || C | D || [Coda] | F |"},
		{"da coda", []string{"", "|" + words("Da Coda"), "|" + words("D.C. al Coda"), words("Coda")}, "| C | D | E || C | D || [Coda] | F |"},
		{"a sign in words", []string{words("𝄋"), "|" + words("To Coda 𝄌"), "|" + words("D.S. 𝄋 al Coda"), words("𝄌 Coda")}, "| C | D | E || C | D || [Coda] | F |"},
		{"coda signs without words", []string{"", "|" + direction("<coda/>", ""), "|" + words("D.C. al Coda"), direction("<coda/>", "")}, "| C | D | E || C | D || [Coda] | F |"},
		{"words and signs in directions of their own", []string{direction("<segno/>", ""), "|" + words("To Coda") + direction("<coda/>", ""), "|" + words("D.S.") + words("al Coda"), direction("<coda/>", "") + words("Coda")}, "| C | D | E || C | D || [Coda] | F |"},
		{"signs by their glyphs", []string{direction("<symbol>segno</symbol>", ""), "|" + words("To Coda"), "|" + words("D.S. al Coda"), words("Coda 1")}, "| C | D | E || C | D || [Coda] | F |"},
		{"a coda sign at its end alone", []string{"", "|" + words("To Coda") + direction("<coda/>", ""), "|" + words("D.C. al Coda"), words("CODA")}, "| C | D | E || C | D || [Coda] | F |"},
		{"to coda with its sign", []string{"", "|" + direction("<words>to</words></direction-type><direction-type><coda/>", ""), "|" + words("D.C. al Coda"), direction("<coda/>", "")}, "| C | D | E || C | D || [Coda] | F |"},
		{"three times", []string{"", words("(3x)") + "|" + barline("right", `<repeat direction="backward"/>`), ""}, "| C | D || C | D || C | D || E |"},
		{"three times in words", []string{words("Play 3 times.") + "|" + barline("right", `<repeat direction="backward"/>`), ""}, "| C || C || C || D |"},
		{"the number of the sign goes before words", []string{words("3x") + "|" + barline("right", `<repeat direction="backward" times="2"/>`), ""}, "| C :| D |"},
		{"three times nothing", []string{words("3x"), ""}, "| C | D |"},
		{"other words", []string{words("Dance, fine and slow"), words("D.J."), words("Da"), words("con fine")}, "| C | D | E | F |"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			d, err := Read(signed(tt.measures...))
			require.NoError(t, err)
			assert.Equal(t, tt.want, onOneLine(d.Chart()))
			assert.Empty(t, d.Chart().Warnings)
		})
	}
}

func TestSections(t *testing.T) {
	rehearsal := func(s string) string {
		return `<direction><direction-type><rehearsal>` + s + `</rehearsal></direction-type></direction>`
	}
	tests := []struct {
		name     string
		measures []string
		want     string
	}{
		{"rehearsal marks", []string{rehearsal("A"), "", rehearsal("B")}, "[A] | C | D | [B] | E |"},
		{"several words, over two lines", []string{rehearsal("Verse\n  one")}, "[Verse one] | C |"},
		{"two types in one direction", []string{`<direction><direction-type><rehearsal>A</rehearsal></direction-type><direction-type><words>Swing</words></direction-type></direction>`}, "[A] | C |"},
		{"two marks: the first", []string{rehearsal("A") + rehearsal("17")}, "[A] | C |"},
		{"a mark without text", []string{rehearsal(" ")}, "| C |"},
		{"a mark in brackets", []string{rehearsal("[A]")}, "[A] | C |"},
		{"brackets in a mark", []string{rehearsal("Solo [x2] on")}, "[Solo (x2) on] | C |"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			d, err := Read(signed(tt.measures...))
			require.NoError(t, err)
			assert.Equal(t, tt.want, onOneLine(d.Chart()))
		})
	}
}
