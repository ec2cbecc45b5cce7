package musicxml

import (
	"bytes"
	"fmt"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"fifthwise/pkg/chart"
)

// Whatever is read is a chart that validates, each of its bars from a measure,
// with a text that is read back; annotated and taken back it is the same file.
// Whatever is not read has an error with words.
func FuzzRead(f *testing.F) {
	for _, file := range scores(f) {
		data, err := os.ReadFile(file)
		require.NoError(f, err)
		f.Add(data)
	}
	for _, tt := range written {
		c, err := chart.Parse(tt.text)
		require.NoError(f, err)
		f.Add(Write(c, marksOf(c)))
	}
	f.Add(packed(f, "tune.xml", string(leadSheet(h("dominant", "add 9 -1")))))
	f.Add([]byte("\xff\xfe<\x00?\x00"))
	f.Fuzz(func(t *testing.T, data []byte) { checkRead(t, data) })
}

// FuzzHarmony is FuzzRead with what stands in a harmony.
func FuzzHarmony(f *testing.F) {
	f.Add("C", "0", "dominant", "9(#11)", "9", "0", "add", "Bb")
	f.Add("B", "-1", "suspended-fourth", "13sus", "7", "0", "add", "")
	f.Add("E", "-2", "other", "7alt)", "5", "-1", "alter", "(D")
	f.Add("(F", "1", "none", "N.C.", "3", "", "subtract", "")
	f.Fuzz(func(t *testing.T, root, alter, kind, text, value, by, change, bass string) {
		var b bytes.Buffer
		in := func(s string) string {
			b.Reset()
			escape(&b, s)
			return b.String()
		}
		checkRead(t, leadSheet(fmt.Sprintf(`<harmony><root><root-step>%s</root-step><root-alter>%s</root-alter></root><kind text="%s">%s</kind><bass><bass-step>%s</bass-step></bass>`+
			`<degree><degree-value>%s</degree-value><degree-alter>%s</degree-alter><degree-type>%s</degree-type></degree></harmony>`,
			in(root), in(alter), in(text), in(kind), in(bass), in(value), in(by), in(change))))
	})
}

// pieces are what may stand in a measure, sound or not.
var pieces = []string{
	h("dominant"), h("minor", "add 9 0"), h("major"), h("other"), `<harmony type="alternate"><root><root-step>A</root-step></root><kind>major</kind></harmony>`,
	`<harmony><root><root-step text="(D">D</root-step></root><kind>minor</kind></harmony>`, `<harmony><root><root-step>G</root-step></root><kind text="7)">dominant</kind></harmony>`,
	`<harmony><root><root-step>E</root-step></root><kind>minor</kind><offset>3</offset></harmony>`, `<harmony><root><root-step>E</root-step></root><kind>minor</kind><offset>-3</offset></harmony>`,
	`<harmony><numeral><numeral-root>5</numeral-root></numeral><kind>dominant</kind></harmony>`, `<harmony><root><root-step text="">C</root-step></root><kind text="N.C.">none</kind></harmony>`,
	"<note><duration>4</duration></note>", "<note><duration>6</duration></note>", "<note><duration>16</duration></note>", "<note><chord/><duration>16</duration></note>", "<note><grace/></note>", "<note><duration>x</duration></note>",
	"<backup><duration>4</duration></backup>", "<backup><duration>99</duration></backup>", "<forward><duration>5</duration></forward>",
	"<attributes><divisions>3</divisions></attributes>", "<attributes><time><beats>3</beats><beat-type>4</beat-type></time></attributes>", "<attributes><time><beats>3+3</beats><beat-type>8</beat-type></time></attributes>",
	"<attributes><time><senza-misura/></time></attributes>", "<attributes><key><fifths>-3</fifths><mode>minor</mode></key></attributes>",
	`<attributes><measure-style><measure-repeat type="start">2</measure-repeat></measure-style></attributes>`, `<attributes><measure-style><measure-repeat type="stop"/></measure-style></attributes>`,
	barline("left", `<repeat direction="forward"/>`), barline("right", `<repeat direction="backward"/>`), barline("right", `<repeat direction="backward" times="3"/>`), barline("right", `<bar-style>light-light</bar-style>`),
	barline("left", `<ending number="1" type="start"/>`), barline("right", `<ending number="1" type="stop"/><repeat direction="backward"/>`), barline("left", `<ending number="2" type="start"/>`), barline("right", `<ending number="2" type="discontinue"/>`),
	`<sound segno="s"/>`, `<sound coda="c"/>`, `<sound tocoda="c"/>`, `<sound dalsegno="s"/>`, `<sound dacapo="yes"/>`, `<sound fine="yes"/>`, `<sound forward-repeat="yes"/>`,
	"<direction><direction-type><rehearsal>A</rehearsal></direction-type></direction>", "<direction><direction-type><coda/></direction-type></direction>", "<direction><direction-type><words>D.S. al Coda</words></direction-type></direction>", "<direction><direction-type><words>N.C.</words></direction-type></direction>",
}

// Scores of such pieces in any order.
func TestAnyScoreIsReadOrRefused(t *testing.T) {
	measure := rapid.SliceOfN(rapid.SampledFrom(pieces), 0, 8)
	rapid.Check(t, func(t *rapid.T) {
		var b strings.Builder
		b.WriteString(`<score-partwise><part-list><score-part id="P1"><part-name>Lead</part-name></score-part></part-list>`)
		for p := range rapid.IntRange(1, 2).Draw(t, "parts") {
			fmt.Fprintf(&b, `<part id="P%d">`, p+1)
			for i := range rapid.IntRange(1, 8).Draw(t, "measures") {
				implicit := rapid.SampledFrom([]string{"", "", ` implicit="yes"`}).Draw(t, "implicit")
				number := rapid.SampledFrom([]string{fmt.Sprint(i), fmt.Sprint(i), "X1", "12a", ""}).Draw(t, "number")
				fmt.Fprintf(&b, `<measure number="%s"%s>%s</measure>`, number, implicit, strings.Join(measure.Draw(t, "measure"), ""))
			}
			b.WriteString("</part>")
		}
		b.WriteString("</score-partwise>")
		checkRead(t, []byte(b.String()))
	})
}

// checkRead holds of any file.
func checkRead(t require.TestingT, data []byte) {
	d, err := Read(data)
	if err != nil {
		require.Nil(t, d)
		require.NotEmpty(t, err.Error())
		return
	}
	c := d.Chart()
	require.NoError(t, c.Validate())
	again, err := chart.Parse(c.String())
	require.NoError(t, err, c.String())
	require.Equal(t, c.String(), again.String())
	require.Len(t, d.Measures(), len(c.Bars))
	for _, m := range d.Measures() {
		require.True(t, m >= 0 && m < len(d.symbols))
	}
	source := d.Score(nil)
	read, err := Read(d.Score(marksOf(c)))
	require.NoError(t, err)
	require.True(t, c.Equal(read.Chart()))
	require.Equal(t, string(source), string(read.Score(nil)))
	written, err := Read(Write(again, marksOf(again)))
	require.NoError(t, err)
	again.Key = again.Key.Simplify() // as it is written
	if playsAll(again) {
		require.True(t, again.Equal(written.Chart()), "%s\n%s", again, written.Chart())
	}
}

// playsAll reports whether all bars of a chart are played. What its signs lead
// past, other signs of the same meaning may not.
func playsAll(c chart.Chart) bool {
	played := map[int]bool{}
	for _, i := range c.Order() {
		played[i] = true
	}
	return len(played) == len(c.Bars)
}
