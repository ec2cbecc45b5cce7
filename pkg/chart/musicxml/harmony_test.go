package musicxml

import (
	"fmt"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fifthwise/pkg/chord"
)

// leadSheet is a file of one part with measures in 4/4 in C.
func leadSheet(measures ...string) []byte {
	var b strings.Builder
	b.WriteString(`<?xml version="1.0" encoding="UTF-8"?>
<score-partwise version="4.0">
<part-list><score-part id="P1"><part-name>Lead</part-name></score-part></part-list>
<part id="P1">
`)
	for i, m := range measures {
		b.WriteString(`<measure number="` + string(rune('1'+i)) + `">`)
		if i == 0 {
			b.WriteString(`<attributes><divisions>4</divisions><key><fifths>0</fifths></key><time><beats>4</beats><beat-type>4</beat-type></time></attributes>`)
		}
		if !strings.Contains(m, "<note>") {
			m += `<note><rest/><duration>16</duration></note>`
		}
		b.WriteString(m + "</measure>\n")
	}
	b.WriteString("</part>\n</score-partwise>\n")
	return []byte(b.String())
}

// readChord is the first chord of a measure with a harmony.
func readChord(harmony string) (string, error) {
	d, err := Read(leadSheet(harmony))
	if err != nil {
		return "", err
	}
	return d.Chart().Bars[0].Chords[0].Chord.String(), nil
}

// h writes a harmony on C: its kind, then degrees such as "add 9 -1".
func h(kind string, degrees ...string) string {
	s := `<harmony><root><root-step>C</root-step></root><kind>` + kind + `</kind>`
	for _, d := range degrees {
		f := strings.Fields(d)
		s += `<degree><degree-value>` + f[1] + `</degree-value><degree-alter>` + f[2] + `</degree-alter><degree-type>` + f[0] + `</degree-type></degree>`
	}
	return s + `</harmony>`
}

func TestHarmonies(t *testing.T) {
	const c = `<root><root-step>C</root-step></root>`
	tests := []struct{ name, in, want string }{
		// MusicXML 4.0, degree-alter: an added degree counts from a dominant
		// chord, another from the degree in the chord.
		{"added ninth", h("dominant", "add 9 -1"), "C7b9"},
		{"added seventh is minor", h("suspended-fourth", "add 7 0"), "C7sus4"},
		{"added seventh, raised", h("minor", "add 7 1"), "Cm(maj7)"},
		{"altered fifth", h("dominant", "alter 5 1"), "C7#5"},
		{"altered from what the kind has", h("half-diminished", "alter 5 1"), "Cm7"},
		{"altered ninth of a ninth", h("dominant-ninth", "alter 9 -1"), "C7b9"},
		{"altered, but not there", h("dominant", "alter 9 1"), "C7#9"},
		{"taken away", h("dominant", "add 4 0", "subtract 3 0"), "C7sus4"},
		{"taken away, but not there", h("major", "subtract 7 0"), "C"},
		{"an added altered fifth replaces", h("dominant", "add 5 1"), "C7#5"},
		{"two altered fifths", h("dominant", "add 5 1", "add 5 -1"), "C7b5#5"},
		{"an added second is a ninth", h("major", "add 2 0"), "Cadd9"},
		{"six-nine", h("major-sixth", "add 9 0"), "C6/9"},
		// A harmony of kind "other" can be spelled by added degrees (MusicXML
		// 4.0, degree).
		{"other, spelled", h("other", "add 3 0", "add 5 0", "add 7 0", "add 9 -1"), "C7b9"},
		// Common practice, no source.
		{"other, by its text with a bass", `<harmony>` + c + `<kind text="7b9/E">other</kind></harmony>`, "C7b9/E"},
		{"other, by a whole symbol", `<harmony>` + c + `<kind text="C7alt">other</kind></harmony>`, "C7alt"},
		{"other, silence", `<harmony><root><root-step text="">C</root-step></root><kind text="N.C.">other</kind></harmony>`, "N.C."},
		{"none, whatever its root", `<harmony>` + c + `<kind>none</kind></harmony>`, "N.C."},
		{"none, its text at the root", `<harmony><root><root-step text="NC">C</root-step></root><kind text="">none</kind></harmony>`, "N.C."},
		{"none, with the symbol as its text", `<harmony><root><root-step text="">C</root-step></root><kind text="Fm7/Eb">none</kind></harmony>`, "Fm7/Eb"},
		{"none, with the symbol as its function", `<harmony><function>Fm7</function><kind text="">none</kind></harmony>`, "Fm7"},
		{"other, by its text", `<harmony>` + c + `<kind text="7alt">other</kind></harmony>`, "C7alt"},
		{"a text says more than its kind", `<harmony>` + c + `<kind text="7alt">dominant</kind></harmony>`, "C7alt"},
		{"a text says less than its degrees", `<harmony>` + c + `<kind text="7">dominant</kind><degree><degree-value>9</degree-value><degree-alter>-1</degree-alter><degree-type>add</degree-type></degree></harmony>`, "C7b9"},
		{"a text with its degrees hidden", `<harmony>` + c + `<kind text="13sus">suspended-fourth</kind><degree print-object="no"><degree-value>7</degree-value><degree-alter>0</degree-alter><degree-type>add</degree-type></degree><degree print-object="no"><degree-value>13</degree-value><degree-alter>0</degree-alter><degree-type>add</degree-type></degree></harmony>`, "C13sus4"},
		{"no text says nothing", h("power"), "C5"},
		{"a text with a bass that nothing else tells", `<harmony>` + c + `<kind text="m7/G">minor-seventh</kind></harmony>`, "Cm7/G"},
		{"a text with another bass", `<harmony>` + c + `<kind text="m7/G">minor-seventh</kind><inversion>1</inversion></harmony>`, "Cm7/Eb"},
		{"a suspension that the kind does not say", `<harmony>` + c + `<kind text="7sus4">dominant</kind></harmony>`, "C7sus4"},
		{"a seventh lowered twice, against the text", `<harmony>` + c + `<kind text="7sus4">suspended-fourth</kind><degree><degree-value>7</degree-value><degree-alter>-1</degree-alter><degree-type>add</degree-type></degree></harmony>`, "C7sus4"},
		{"a text that is no symbol", `<harmony>` + c + `<kind text="dom.">dominant</kind></harmony>`, "C7"},
		{"a text of another chord", `<harmony>` + c + `<kind text="m7">dominant</kind></harmony>`, "C7"},
		{"the sign of a degree that is there", `<harmony>` + c + `<kind use-symbols="yes">major-minor</kind><degree><degree-value symbol="major">7</degree-value><degree-alter>0</degree-alter><degree-type>add</degree-type></degree></harmony>`, "Cm(maj7)"},
		{"bass", `<harmony>` + c + `<kind>major</kind><bass><bass-step>B</bass-step><bass-alter>-1</bass-alter></bass></harmony>`, "C/Bb"},
		{"inversions count up the chord", `<harmony>` + c + `<kind>dominant</kind><inversion>3</inversion></harmony>`, "C7/Bb"},
		{"root position", `<harmony>` + c + `<kind>dominant</kind><inversion>0</inversion></harmony>`, "C7"},
		{"a bass goes before the inversion", `<harmony>` + c + `<kind>major</kind><inversion>1</inversion><bass><bass-step>G</bass-step></bass></harmony>`, "C/G"},
		{"double flat", `<harmony><root><root-step>B</root-step><root-alter>-2</root-alter></root><kind>minor-seventh</kind></harmony>`, "Bbbm7"},
		{"silence", `<harmony><root><root-step text="">C</root-step></root><kind text="N.C.">none</kind></harmony>`, "N.C."},
		// MusicXML 4.0, numeral-mode: natural minor unless it says otherwise.
		{"numeral in the key of the signature", `<harmony><numeral><numeral-root>5</numeral-root></numeral><kind>dominant</kind></harmony>`, "G7"},
		{"numeral with its own key", numeral(6, -3, "minor") + `<kind>major-seventh</kind></harmony>`, "Abmaj7"},
		{"seventh of harmonic minor", numeral(7, -3, "harmonic minor") + `<kind>diminished-seventh</kind></harmony>`, "Bdim7"},
		{"sixth of melodic minor", numeral(6, -3, "melodic minor") + `<kind>half-diminished</kind></harmony>`, "Am7b5"},
		{"seventh of natural minor", numeral(7, -3, "natural minor") + `<kind>dominant</kind></harmony>`, "Bb7"},
		{"altered numeral", `<harmony><numeral><numeral-root>2</numeral-root><numeral-alter>-1</numeral-alter></numeral><kind>major-seventh</kind></harmony>`, "Dbmaj7"},
		{"function", `<harmony><function>bVI</function><kind>major</kind></harmony>`, "Ab"},
		// MusicXML 4.0, harmony-chord: V of II is a 5 before a 2.
		{"five of two", `<harmony><numeral><numeral-root>5</numeral-root></numeral><kind>dominant</kind><numeral><numeral-root>2</numeral-root></numeral><kind>minor</kind></harmony>`, "A7"},
		{"seven of five of two", `<harmony><function>VII</function><kind>diminished-seventh</kind><function>V</function><kind>major</kind><function>ii</function><kind>minor</kind></harmony>`, "G#dim7"},
		{"six of a minor two", `<harmony><function>VI</function><kind>major</kind><function>ii</function><kind>minor</kind></harmony>`, "Bb"},
		// Common practice, no source.
		{"a triad over a seventh chord", `<harmony arrangement="vertical"><root><root-step>D</root-step></root><kind>major</kind>` + c + `<kind>dominant</kind></harmony>`, "C13#11"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got, err := readChord(tt.in)
			require.NoError(t, err)
			assert.Equal(t, tt.want, got)
		})
	}
}

func numeral(root, fifths int, mode string) string {
	return fmt.Sprintf(`<harmony><numeral><numeral-root>%d</numeral-root><numeral-key><numeral-fifths>%d</numeral-fifths><numeral-mode>%s</numeral-mode></numeral-key></numeral>`, root, fifths, mode)
}

func TestFaultyHarmonies(t *testing.T) {
	const c = `<root><root-step>C</root-step></root>`
	tests := []struct{ name, in, want string }{
		{"no root", `<harmony><kind>major</kind></harmony>`, `part "Lead", measure 1, line 5: the harmony has no root (it starts with <root>, <numeral> or <function>)`},
		{"no kind", `<harmony>` + c + `</harmony>`, `part "Lead", measure 1, line 5, "C": the harmony has no kind (a <kind> stands behind its root)`},
		{"unknown kind", `<harmony>` + c + `<kind>dominantish</kind></harmony>`, `part "Lead", measure 1, line 5, "C": the kind "dominantish" is none of MusicXML's (such as major, minor, dominant, minor-seventh)`},
		{"other, and nothing more", `<harmony>` + c + `<kind>other</kind></harmony>`, `part "Lead", measure 1, line 5, "C": the kind other says nothing of the chord (its degrees or its text do)`},
		{"other with a text on another root", `<harmony>` + c + `<kind text="D7">other</kind></harmony>`, `part "Lead", measure 1, line 5, "CD7": expected an altered degree, maj7, add, no, sus, alt or a bracket (write a quality such as m7, maj7 or 7b9)`},
		{"other with a text that is no symbol", `<harmony>` + c + `<kind text="7foo">other</kind></harmony>`, `part "Lead", measure 1, line 5, "C7foo": expected an altered degree, maj7, add, no, sus, alt or a bracket (write a quality such as m7, maj7 or 7b9)`},
		{"root", `<harmony><root><root-step>H</root-step></root><kind>major</kind></harmony>`, `part "Lead", measure 1, line 5, "H": "H" is no root (a letter from A to G)`},
		{"quarter tones", `<harmony><root><root-step>C</root-step><root-alter>0.5</root-alter></root><kind>major</kind></harmony>`, `part "Lead", measure 1, line 5, "C": "0.5" is no alteration of a root (a whole number of semitones)`},
		{"bass", `<harmony>` + c + `<kind>major</kind><bass><bass-step/></bass></harmony>`, `part "Lead", measure 1, line 5, "C/": "" is no bass (a letter from A to G)`},
		{"inversion", `<harmony>` + c + `<kind>major</kind><inversion>3</inversion></harmony>`, `part "Lead", measure 1, line 5, "C": the chord has no inversion "3" (a number from 0 to 2)`},
		{"degree", h("major", "add 15 0"), `part "Lead", measure 1, line 5, "C": "15" is no degree of a chord (a number from 1 to 13)`},
		{"alteration", h("major", "add 9 3"), `part "Lead", measure 1, line 5, "C": degree 9 cannot be altered by 3 semitones (at most two)`},
		{"degree type", h("major", "replace 9 0"), `part "Lead", measure 1, line 5, "C": "replace" is nothing that is done to a degree (add, alter or subtract)`},
		{"numeral", `<harmony><numeral><numeral-root>8</numeral-root></numeral><kind>major</kind></harmony>`, `part "Lead", measure 1, line 5: "8" is no numeral (a number from 1 to 7)`},
		{"alteration of a bass", `<harmony>` + c + `<kind>major</kind><bass><bass-step>G</bass-step><bass-alter>x</bass-alter></bass></harmony>`, `part "Lead", measure 1, line 5, "C/G": "x" is no alteration of a bass (a whole number of semitones)`},
		{"alteration of a degree", h("major", "add 9 half"), `part "Lead", measure 1, line 5, "C": "half" is no alteration of a degree (a whole number of semitones)`},
		{"alteration of a root beyond all bounds", `<harmony><root><root-step>C</root-step><root-alter>-99999999999999999999</root-alter></root><kind>major</kind></harmony>`, `part "Lead", measure 1, line 5, "C": "-99999999999999999999" is no alteration of a root (a whole number of semitones)`},
		{"the lower of two chords without a kind", `<harmony>` + c + `<kind>major</kind>` + c + `</harmony>`, `part "Lead", measure 1, line 5, "C": the harmony has no kind (a <kind> stands behind its root)`},
		{"the lower of two chords unknown", `<harmony>` + c + `<kind>major</kind>` + c + `<kind>x</kind></harmony>`, `part "Lead", measure 1, line 5, "C": the kind "x" is none of MusicXML's (such as major, minor, dominant, minor-seventh)`},
		{"the upper of two chords unknown", `<harmony>` + c + `<kind>x</kind>` + c + `<kind>major</kind></harmony>`, `part "Lead", measure 1, line 5, "C": the kind "x" is none of MusicXML's (such as major, minor, dominant, minor-seventh)`},
		{"the second numeral without a kind", `<harmony><function>V</function><kind>major</kind><function>II</function></harmony>`, `part "Lead", measure 1, line 5: the harmony has no kind (a <kind> stands behind its numeral)`},
		{"alteration of a numeral", `<harmony><numeral><numeral-root>2</numeral-root><numeral-alter>3</numeral-alter></numeral><kind>major</kind></harmony>`, `part "Lead", measure 1, line 5: "3" is no alteration of a numeral (-2 to 2 semitones)`},
		{"key of a numeral", `<harmony><numeral><numeral-root>2</numeral-root><numeral-key><numeral-fifths>x</numeral-fifths></numeral-key></numeral><kind>major</kind></harmony>`, `part "Lead", measure 1, line 5: "x" is no key of a numeral (a number of fifths, as of a key signature)`},
		{"a numeral of a kind that is none", `<harmony><numeral><numeral-root>2</numeral-root></numeral><kind>x</kind></harmony>`, `part "Lead", measure 1, line 5: the kind "x" is none of MusicXML's (such as major, minor, dominant, minor-seventh)`},
		{"function", `<harmony><function>T</function><kind>major</kind></harmony>`, `part "Lead", measure 1, line 5: "T" is no function (a Roman numeral such as II, bVI)`},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			_, err := readChord(tt.in)
			assert.EqualError(t, err, tt.want)
		})
	}
}

func TestAllFaultsAreTold(t *testing.T) {
	measures := make([]string, 9)
	for i := range measures {
		measures[i] = h("major")
	}
	measures[3], measures[7] = h("majorish"), h("minorish")
	_, err := Read(leadSheet(measures...))
	assert.EqualError(t, err, `part "Lead", measure 4, line 8, "C": the kind "majorish" is none of MusicXML's (such as major, minor, dominant, minor-seventh)
part "Lead", measure 8, line 12, "C": the kind "minorish" is none of MusicXML's (such as major, minor, dominant, minor-seventh)`)
}

// The texts that verovio 6.3.0 prints for harmonies, recorded: where it prints a
// chord symbol, and that symbol has one meaning, it is the chord that is read.
func TestRecordedTexts(t *testing.T) {
	data, err := os.ReadFile("testdata/recorded.tsv")
	require.NoError(t, err)
	rows := 0
	for line := range strings.Lines(string(data)) {
		harmony, text, ok := strings.Cut(strings.TrimSpace(line), "\t")
		if !ok || strings.HasPrefix(line, "#") {
			continue
		}
		rows++
		want, err := chord.Parse(text)
		require.NoError(t, err, text)
		got, err := readChord(harmony)
		require.NoError(t, err, text)
		assert.Equal(t, want.String(), got, text)
	}
	assert.Greater(t, rows, 150)
}
