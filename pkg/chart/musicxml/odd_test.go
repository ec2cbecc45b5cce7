package musicxml

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fifthwise/pkg/chart"
)

// scoreOf is a file of parts, each the text of its measures.
func scoreOf(parts ...string) string {
	var b strings.Builder
	b.WriteString(`<score-partwise version="4.0"><part-list>`)
	for i := range parts {
		b.WriteString(`<score-part id="P` + string(rune('1'+i)) + `"><part-name>` + []string{"One", "Two", "Three"}[i] + `</part-name></score-part>`)
	}
	b.WriteString("</part-list>")
	for i, p := range parts {
		b.WriteString(`<part id="P` + string(rune('1'+i)) + `">` + p + "</part>")
	}
	return b.String() + "</score-partwise>"
}

// on is a major triad as a harmony, with what else stands in it.
func on(root string, more ...string) string {
	return `<harmony><root><root-step>` + root + `</root-step></root><kind>major</kind>` + strings.Join(more, "") + `</harmony>`
}

func rest(divisions string) string {
	return "<note><rest/><duration>" + divisions + "</duration></note>"
}

func measure(number string, inner ...string) string {
	return `<measure number="` + number + `">` + strings.Join(inner, "") + "</measure>"
}

// Files that are sound and odd, or sloppy in a way that a musician would not
// notice on the page. Where no source is named: common practice, no source.
func TestOddScores(t *testing.T) {
	const (
		threeFour = "<attributes><time><beats>3</beats><beat-type>4</beat-type></time></attributes>"
		sixEight  = "<attributes><divisions>2</divisions><time><beats>6</beats><beat-type>8</beat-type></time></attributes>"
		forward   = `<barline location="left"><repeat direction="forward"/></barline>`
		backward  = `<barline location="right"><repeat direction="backward"/></barline>`
		again     = `<attributes><measure-style><measure-repeat type="start">1</measure-repeat></measure-style></attributes>`
		transpose = "<attributes><transpose><chromatic>-2</chromatic></transpose></attributes>"
		octave    = "<attributes><transpose><chromatic>0</chromatic><octave-change>-1</octave-change></transpose></attributes>"
	)
	one := []string{measure("1", on("C"), rest("4"))}
	words := func(s string) string {
		return "<direction><direction-type><words>" + s + "</words></direction-type></direction>"
	}
	tests := []struct {
		name     string
		parts    []string
		want     string
		warnings string
	}{
		{"no divisions and no meter", one, "| C |", ""},
		{"measures without notes", []string{measure("1", on("C")) + measure("2") + measure("3", on("F"))}, "| C | / / / / | F |", ""},
		{"a harmony before the attributes", []string{measure("1", on("C"), threeFour, rest("3"))}, "| C |", ""},
		{"attributes in mid-measure", []string{measure("1", on("C"), rest("2"), "<attributes><divisions>2</divisions></attributes>", on("F"), rest("4"))}, "| C F |", ""},
		{"a meter told at the end of the measure before", []string{measure("1", on("C"), rest("4"), threeFour) + measure("2", on("F"), rest("3"))}, "| C | 3/4 F |", ""},
		{"a meter told in the second part alone", []string{measure("1", on("C"), rest("3")), measure("1", threeFour, rest("3"))}, "| C |", ""},
		{"meters that are none", []string{measure("1", "<attributes><time><beats>x</beats><beat-type>4</beat-type></time><time><beats>3</beats><beat-type>0</beat-type></time><time><beats>99</beats><beat-type>4</beat-type></time></attributes>", on("C"))}, "| C |", ""},
		{"music without a meter", []string{measure("1", "<attributes><time><senza-misura/></time></attributes>", on("C"), rest("4")) + measure("2", on("F"), rest("3")) + measure("3", on("C"), rest("4"))}, "| C | 3/4 F | 4/4 C |", ""},
		{"numbers that count nothing", []string{measure("X1", on("C"), rest("4")) + measure("12a", on("F"), rest("4")) + measure("", on("G"), rest("4"))}, "| C | F | G |", ""},
		{"cue notes last, grace notes do not", []string{measure("1", on("C"), "<note><grace/><pitch/></note><note><cue/><rest/><duration>2</duration></note>", on("F"), rest("2"))}, "| C F |", ""},
		{"notes of a chord sound together", []string{measure("1", on("C"), rest("2"), "<note><chord/><duration>2</duration></note>", on("F"), rest("2"))}, "| C F |", ""},
		{"triplets", []string{measure("1", "<attributes><divisions>3</divisions></attributes>", on("C"), rest("2"), rest("2"), on("F"), rest("2"), rest("6"))}, "| C F@7/3 |", ""},
		{"two voices", []string{measure("1", on("C"), rest("4"), "<backup><duration>4</duration></backup>", rest("1"), on("F"), rest("3"))}, "| C F / / |", ""},
		{"a symbol on each staff of one chord", []string{measure("1", on("C", "<staff>1</staff>"), rest("4"), "<backup><duration>4</duration></backup>", on("C", "<staff>2</staff>"), rest("4"))}, "| C |", ""},
		{"an offset before the measure", []string{measure("1", on("C"), rest("4")) + measure("2", on("F", "<offset>-1</offset>"), rest("4"))}, "| C | F |", "2: F stands before its bar and is read at its start"},
		{"chords spread by forward alone", []string{measure("1", on("C"), "<forward><duration>2</duration></forward>", on("F")) + measure("2", on("G"))}, "| C F | G |", ""},
		{"three chords at one place", []string{measure("1", on("C"), on("F"), on("G"), rest("4"))}, "| C F G |", "1: 3 chords stand at one place and share its time evenly"},
		{"a chord behind the bar", []string{measure("1", on("C"), rest("4"), on("F")) + measure("2", on("G"), rest("4"))}, "| C | G |", "1: F stands behind the bar's end and is left out"},
		{"none with a text that is no symbol", []string{measure("1", on("C"), rest("2"), `<harmony><root><root-step text="">C</root-step></root><kind text="Fill">none</kind></harmony>`, rest("2"))}, "| C N.C. |", "1: Fill is read as N.C."},
		{"silence in words", []string{measure("1", on("C"), rest("4")) + measure("2", rest("1"), words("N.C."), words("N.C."), rest("3")) + measure("3", on("G"), rest("4"))}, "| C | / N.C. / / | G |", ""},
		{"silence in words, in many ways", []string{measure("1", words("n. c."), rest("1"), on("C"), rest("3")) + measure("2", words("No chord"), rest("4")) + measure("3", on("F"), rest("2"), words("NC"), rest("2"))}, "| N.C. C / / | N.C. | F N.C. |", ""},
		{"words of silence at a chord", []string{measure("1", words("N.C."), on("C"), rest("4"))}, "| C |", ""},
		{"words of silence in a part without chords", []string{measure("1", words("N.C."), rest("4")), measure("1", on("C"), rest("4"))}, "| C |", ""},
		{"other words that begin so", []string{measure("1", on("C"), words("N.C. on the repeat"), rest("4"))}, "| C |", ""},
		{"a pickup that is not said to be one", []string{measure("1", on("G"), rest("1")) + measure("2", on("C"), rest("4"))}, "| G | C |", ""},
		{"a bar of six eighths", []string{measure("1", sixEight, on("C"), rest("3"), on("F"), rest("3"))}, "| C F |", ""},

		// MusicXML 4.0, measure-repeat: the measures before are repeated.
		{"a measure repeat in the part with chords", []string{measure("1", on("C"), rest("2"), on("F"), rest("2")) + measure("2", again, rest("4"))}, "| C F | C F |", ""},
		{"a measure repeat in another part", []string{measure("1", on("C"), rest("2"), on("F"), rest("2")) + measure("2", rest("4")), measure("1", rest("4")) + measure("2", again, rest("4"))}, "| C F | / / / / |", ""},
		{"a measure repeat at the start", []string{measure("1", again, rest("4")) + measure("2", `<attributes><measure-style><measure-repeat type="stop"/></measure-style></attributes>`, on("C"), rest("4"))}, "| N.C. | C |", ""},

		{"repeats in the second part alone", []string{measure("1", on("C")) + measure("2", on("F")) + measure("3", on("G")), measure("1") + measure("2", forward) + measure("3", backward)}, "| C |: F | G :|", ""},
		{"repeats in every part are one", []string{measure("1", forward, on("C"), backward), measure("1", forward, backward)}, "|: C :|", ""},
		{"|: at the right of the bar before", []string{measure("1", on("C"), `<barline location="right"><repeat direction="forward"/></barline>`) + measure("2", on("F"), backward)}, "| C |: F :|", ""},
		{":| at the left of the next bar", []string{measure("1", on("C")) + measure("2", `<barline location="left"><repeat direction="backward"/></barline>`, on("F"))}, "| C :| F |", ""},
		{":| before the first bar", []string{measure("1", `<barline location="left"><repeat direction="backward"/></barline>`, on("C"))}, "| C |", ""},
		{":| in mid-measure", []string{measure("1", on("C"), rest("2"), `<barline location="middle"><repeat direction="backward"/></barline>`, rest("2")) + measure("2", on("F"))}, "| C :| F |", "1: the repeat sign in the midst of the measure is read as if it stood at the bar line"},
		{"a final |:", []string{measure("1", on("C")) + measure("2", forward, on("F"))}, "| C | F |", "2: the repeat that starts here is not closed; it is left out"},

		{"one part more than the other", []string{measure("1", on("C")), measure("1") + measure("2")}, "| C | / / / / |", ""},
		{"parts with other chords: the one with most", []string{measure("1", on("C")) + measure("2"), measure("1", on("C")) + measure("2", on("F"))}, "| C | F |", `1: part "One" has other chords than part "Two" and is not read`},
		{"as many: the first", []string{measure("1", on("C")), measure("1", on("F"))}, "| C |", `1: part "Two" has other chords than part "One" and is not read`},
		{"as many: the one at concert pitch", []string{measure("1", transpose, on("D")), measure("1", on("C"))}, "| C |", `1: part "One" has other chords than part "Two" and is not read`},
		{"a transposing part", []string{measure("1", transpose, on("D"))}, "| D |", `1: part "One" is for a transposing instrument; its chords are read as written`},
		{"a part that sounds an octave lower", []string{measure("1", octave, on("D"))}, "| D |", ""},
		{"a part twice", []string{measure("1", on("C")) + `</part><part id="P1">` + measure("1") + measure("2", on("F"))}, "| C | F |", ""},
		{"a hidden chord", []string{measure("1", strings.Replace(on("C"), "<harmony>", `<harmony print-object="no">`, 1))}, "| C |", ""},

		{"a bracket around a chord", []string{measure("1", `<harmony><root><root-step text="(G">G</root-step></root><kind text="7)">dominant</kind></harmony>`)}, "| (G7) |", ""},
		{"a bracket that opens alone", []string{measure("1", on("C")) + measure("2", `<harmony><root><root-step text="(G">G</root-step></root><kind text="7">dominant</kind></harmony>`) + measure("3", on("C"))}, "| C | G7 | C |", "2: a bracket opens and is not closed; it is left out"},
		{"a bracket that closes alone", []string{measure("1", `<harmony><root><root-step>G</root-step></root><kind text="7)">dominant</kind></harmony>`)}, "| G7 |", ""},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			d, err := Read([]byte(scoreOf(tt.parts...)))
			require.NoError(t, err)
			assert.Equal(t, tt.want, onOneLine(d.Chart()))
			var warnings []string
			for _, w := range d.Chart().Warnings {
				warnings = append(warnings, fmt.Sprintf("%d: %s", w.Bar, w.Message))
			}
			assert.Equal(t, tt.warnings, strings.Join(warnings, "\n"))
		})
	}
}

// What no chart can hold is told with part and measure.
func TestScoresThatAreNoCharts(t *testing.T) {
	tests := []struct{ name, in, want string }{
		{"a section's name beyond bounds", measure("1", on("C")) + measure("17", `<direction><direction-type><rehearsal>`+strings.Repeat("la ", 70)+`</rehearsal></direction-type></direction>`),
			`part "One", measure 17, "` + strings.TrimSpace(strings.Repeat("la ", 70)) + `": the name of the section has more than 200 bytes`},
		{"too long as played", strings.Repeat(measure("1", on("C")), 9000) + measure("9001", `<barline><repeat direction="backward"/></barline>`),
			`part "One": played with its repeats the chart has more than 10000 bars or 50000 chords`},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			_, err := Read([]byte(scoreOf(tt.in)))
			assert.EqualError(t, err, tt.want)
			var e *chart.Error
			assert.ErrorAs(t, err, &e)
		})
	}
}

// One score in the ways that XML can write it.
func TestWaysOfXML(t *testing.T) {
	plain := scoreOf(measure("1", on("C"), rest("2"), on("F"), rest("2")))
	in := func(old, now string) string {
		require.Contains(t, plain, old)
		return strings.ReplaceAll(plain, old, now)
	}
	tests := []struct{ name, in string }{
		{"plain", plain},
		{"a default namespace", in("<score-partwise ", `<score-partwise xmlns="urn:x" `)},
		{"a prefix", strings.NewReplacer("</", "</m:", "<", "<m:").Replace(plain)},
		{"comments", in("<root-step>C", "<!-- a <b> --><root-step>C<!-- D -->")},
		{"CDATA", in("<root-step>C", "<root-step><![CDATA[C]]>")},
		{"processing instructions", in("<root>", "<?layout a > b?><root>")},
		{"character references", in("<root-step>C", "<root-step>&#x43;")},
		{"space in values", in("<duration>2", "<duration>\n 2\t")},
		{"a document type with a subset", `<!DOCTYPE score-partwise PUBLIC "-//Recordare//DTD MusicXML 4.0 Partwise//EN" "partwise.dtd" [<!ENTITY % a "b"> <!ELEMENT c (d)>]>` + plain},
		{"> in an attribute", in(`number="1"`, `number="1" x=">"`)},
		{"single quotes", strings.ReplaceAll(plain, `"`, "'")},
		{"elements of another kind", in("<measure", "<other><measure/></other><measure")},
		{"unknown elements in a harmony", in("<kind>", "<frame><first-fret>1</first-fret></frame><kind>")},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			d, err := Read([]byte(tt.in))
			require.NoError(t, err)
			assert.Equal(t, "| C F |", onOneLine(d.Chart()))
			out := d.Score(marksOf(d.Chart()))
			assert.Equal(t, tt.in, string(added.ReplaceAll(out, nil)))
			again, err := Read(out)
			require.NoError(t, err)
			assert.Equal(t, "| C F |", onOneLine(again.Chart()))
		})
	}
}

func TestKeyHints(t *testing.T) {
	signature := func(fifths, mode string) string {
		return "<attributes><key><fifths>" + fifths + "</fifths>" + mode + "</key></attributes>"
	}
	minor := `<harmony><root><root-step>A</root-step></root><kind>minor</kind></harmony>`
	tests := []struct{ name, in, want string }{
		{"none", measure("1", on("C")), ""},
		{"major", measure("1", signature("-3", "<mode>major</mode>"), on("C")), "Eb major"},
		{"minor", measure("1", signature("-3", "<mode>minor</mode>"), on("C")), "C minor"},
		{"dorian", measure("1", signature("0", "<mode>dorian</mode>"), on("C")), "D dorian"},
		{"aeolian", measure("1", signature("0", "<mode>aeolian</mode>"), on("C")), "A minor"},
		{"no mode", measure("1", signature("0", ""), on("C")), "C major"},
		{"no mode, an end on the relative minor", measure("1", signature("0", ""), on("C")) + measure("2", minor), "A minor"},
		{"mode none", measure("1", signature("0", "<mode>none</mode>"), minor), "A minor"},
		{"a mode that is none of a chart's", measure("1", signature("0", "<mode>locrian</mode>"), on("C")), "C major"},
		{"a change of key", measure("1", signature("1", "<mode>major</mode>"), on("C")) + measure("2", signature("3", "<mode>major</mode>")), "G major"},
		{"single notes altered", measure("1", "<attributes><key><key-step>F</key-step><key-alter>1</key-alter></key></attributes>", on("C")), ""},
		{"capitals", measure("1", signature("1", "<mode>Major</mode>"), on("C")), "G major"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			d, err := Read([]byte(scoreOf(tt.in)))
			require.NoError(t, err)
			got := ""
			if k := d.Chart().Key; k.IsValid() {
				got = k.String()
			}
			assert.Equal(t, tt.want, got)
		})
	}
}

// Numerals follow the key signature where they stand.
func TestNumeralsInChangingKeys(t *testing.T) {
	five := `<harmony><numeral><numeral-root>5</numeral-root></numeral><kind>dominant</kind></harmony>`
	in := func(fifths string) string {
		return "<attributes><key><fifths>" + fifths + "</fifths></key></attributes>"
	}
	d, err := Read([]byte(scoreOf(measure("1", in("0"), five) + measure("2", in("-2"), five))))
	require.NoError(t, err)
	assert.Equal(t, "| G7 | F7 |", onOneLine(d.Chart()))
	_, err = Read([]byte(scoreOf(measure("1", five))))
	assert.EqualError(t, err, `part "One", measure 1, line 1: the numeral stands in no key (write a key signature, or <numeral-key>)`)
}

// The title is that of the work, or of the movement, or what is credited as one.
func TestTitles(t *testing.T) {
	const (
		work     = "<work><work-title>Low \n Tide</work-title></work>"
		movement = "<movement-title>One</movement-title>"
		credit   = "<credit><credit-type>title</credit-type><credit-words>Page</credit-words></credit>"
		composer = "<credit><credit-type>composer</credit-type><credit-words>Invented</credit-words></credit>"
	)
	for in, want := range map[string]string{"": "", work + movement + credit: "Low Tide", movement + credit: "One", composer + credit: "Page", composer: "", "<work/>" + movement: "One", "<movement-title>It\u0092s &#x9; on</movement-title>": "It s on"} {
		d, err := Read([]byte(strings.Replace(scoreOf(measure("1", on("C"))), "<part-list>", in+"<part-list>", 1)))
		require.NoError(t, err)
		assert.Equal(t, want, d.Chart().Title, in)
	}
}
