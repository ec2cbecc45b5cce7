package musicxml

import (
	"archive/zip"
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fifthwise/pkg/chart"
)

func TestFilesThatCannotBeRead(t *testing.T) {
	const head = `<?xml version="1.0"?>` + "\n"
	sheet := string(leadSheet(h("major"), h("minor")))
	tests := []struct{ name, in, want string }{
		{"nothing", "", "the file holds no score (MusicXML starts with <score-partwise> or <score-timewise>)"},
		{"space", " \n\n", "the file holds no score (MusicXML starts with <score-partwise> or <score-timewise>)"},
		{"no XML", "Dm7 | G7", "the file holds no score (MusicXML starts with <score-partwise> or <score-timewise>)"},
		{"another kind of XML", head + "<html><body/></html>", `line 2: the file is <html>, no score of MusicXML (a score is <score-partwise> or <score-timewise>)`},
		{"an opus", head + "<opus/>", `line 2: the file is <opus>, no score of MusicXML (a score is <score-partwise> or <score-timewise>)`},
		{"cut off in a tag", sheet[:strings.Index(sheet, `<measure number="2"`)+9], `part "Lead", measure 1, line 6: the file is no sound XML: unexpected EOF (export it again)`},
		{"cut off between tags", sheet[:strings.Index(sheet, `<measure number="2"`)], `part "Lead", measure 1, line 6: the file is no sound XML: unexpected EOF (export it again)`},
		{"tags that do not match", strings.Replace(sheet, "</harmony>", "</note>", 1), `part "Lead", measure 1, line 5: the file is no sound XML: element <harmony> closed by </note> (export it again)`},
		{"no chord symbols", string(leadSheet("", "")), "the file has no chord symbols (they are <harmony> elements; notes alone are not read)"},
		{"no measures", `<score-partwise><part-list/></score-partwise>`, "the file has no chord symbols (they are <harmony> elements; notes alone are not read)"},
		{"an entity of a document type", head + `<!DOCTYPE score-partwise [<!ENTITY c "C">]>` + strings.Replace(sheet[strings.Index(sheet, "\n")+1:], "<root-step>C", "<root-step>&c;", 1),
			`part "Lead", measure 1, line 5: the file is no sound XML: invalid character entity &c; (entities of a document type are not read; write the characters themselves)`},
		{"divisions of nothing", strings.Replace(sheet, "<divisions>4", "<divisions>0", 1), `part "Lead", measure 1, line 5: "0" divisions of a quarter note (a whole number from 1 to 1048576)`},
		{"an encoding that is not known", `<?xml version="1.0" encoding="EBCDIC-US"?>` + "\n<score-partwise/>", `line 1: the encoding "EBCDIC-US" is not known (save the file as UTF-8)`},
		{"UTF-16 in name only", `<?xml version="1.0" encoding="UTF-16"?>` + "\n<score-partwise/>", `line 1: the file says that it is UTF-16 but is not (save it as UTF-8)`},
		{"Latin-1 that says it is UTF-8", strings.Replace(sheet, "Lead", "Fl\xfcgel", 1), `line 3: byte 0xfc is no UTF-8 (save the file as UTF-8, or state its encoding in its first line)`},
		{"half a character of UTF-16", "\xff\xfe<\x00?", "the file is no sound UTF-16 (save it as UTF-8)"},
		{"half a surrogate pair", "\xff\xfe<\x00?\x00\x34\xd8", "the file is no sound UTF-16 (save it as UTF-8)"},
		{"a later version of XML", strings.Replace(sheet, `version="1.0"`, `version="1.1"`, 1), `line 1: the file is no sound XML: unsupported version "1.1"; only version 1.0 is supported (export it again)`},
		{"a control character", strings.Replace(sheet, "Lead", "Le\x01ad", 1), `line 3: the file is no sound XML: illegal character code U+0001 (export it again)`},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			d, err := Read([]byte(tt.in))
			assert.EqualError(t, err, tt.want)
			assert.Nil(t, d)
		})
	}
}

// A symbol that is none is told with its part and measure, as they are printed.
func TestUnknownSymbolInMeasure17(t *testing.T) {
	var b strings.Builder
	b.WriteString(`<score-partwise><part-list><score-part id="P1"><part-name>Lead</part-name></score-part><score-part id="P2"><part-name>Bass</part-name></score-part></part-list>`)
	for _, id := range []string{"P1", "P2"} {
		fmt.Fprintf(&b, "\n<part id=%q>", id)
		for i := range 32 {
			kind := "<kind>major</kind>"
			if i == 16 && id == "P1" {
				kind = `<kind text="maj7foo">other</kind>`
			}
			harmony := ""
			if id == "P1" {
				harmony = `<harmony><root><root-step>B</root-step><root-alter>-1</root-alter></root>` + kind + `</harmony>`
			}
			fmt.Fprintf(&b, "\n<measure number=\"%d\">%s<note><rest/><duration>4</duration></note></measure>", i+1, harmony)
		}
		b.WriteString("\n</part>")
	}
	b.WriteString("\n</score-partwise>")
	_, err := Read([]byte(b.String()))
	require.EqualError(t, err, `part "Lead", measure 17, line 19, "Bbmaj7foo": expected an altered degree, maj7, add, no, sus, alt or a bracket (write a quality such as m7, maj7 or 7b9)`)
	var e *Error
	require.ErrorAs(t, err, &e)
	assert.Equal(t, "Lead", e.Part)
	assert.Equal(t, "17", e.Measure)
	assert.Equal(t, 19, e.Line)
	assert.Equal(t, "Bbmaj7foo", e.Symbol)
}

func TestCompressedFilesThatCannotBeRead(t *testing.T) {
	sheet := string(leadSheet(h("major")))
	whole := packed(t, "META-INF/container.xml", container("tune.xml"), "tune.xml", sheet)
	tests := []struct {
		name string
		in   []byte
		want string
	}{
		{"cut off", whole[:len(whole)-30], "the compressed file is damaged (export it again)"},
		{"the start alone", []byte("PK\x03\x04"), "the compressed file is damaged (export it again)"},
		{"no score named", packed(t, "META-INF/container.xml", "<container/>", "tune.xml", sheet), "META-INF/container.xml names no score (export the file again)"},
		{"a score named that is not there", packed(t, "META-INF/container.xml", container("other.xml"), "tune.xml", sheet), `the compressed file has no "other.xml", which its container names as the score`},
		{"a container that is no XML", packed(t, "META-INF/container.xml", "<container", "tune.xml", sheet), "META-INF/container.xml is no XML that can be read"},
		{"no score", packed(t, "notes.txt", "Dm7"), "the compressed file holds no score (compressed MusicXML holds a .musicxml file and META-INF/container.xml)"},
		{"two scores and no container", packed(t, "a.xml", sheet, "b.musicxml", sheet), `the compressed file has no container, and both "a.xml" and "b.musicxml" may be the score`},
		{"a score that is none", packed(t, "META-INF/container.xml", container("tune.xml"), "tune.xml", "Dm7"), "the file holds no score (MusicXML starts with <score-partwise> or <score-timewise>)"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			_, err := Read(tt.in)
			assert.EqualError(t, err, tt.want)
		})
	}
	for _, members := range [][]string{
		{"mimetype", containerType, "META-INF/container.xml", container("tune.xml"), "tune.xml", sheet},
		{"tune.xml", sheet},
		{"readme.txt", "no score", "tune.musicxml", sheet},
	} {
		_, err := Read(packed(t, members...))
		assert.NoError(t, err, members[0])
	}
}

// bombs are files that are small or shallow to look at and would take much
// memory or time.
func bombs(t testing.TB) []struct {
	name, want string
	data       []byte
} {
	sheet := string(leadSheet(h("major")))
	laughs := `<!DOCTYPE score-partwise [<!ENTITY a "ha">`
	for c := 'b'; c <= 'k'; c++ {
		laughs += fmt.Sprintf(`<!ENTITY %c "%s">`, c, strings.Repeat(fmt.Sprintf("&%c;", c-1), 10))
	}
	in := func(doctype, text string) []byte {
		return []byte(doctype + "]>\n<score-partwise><work><work-title>" + text + "</work-title></work></score-partwise>")
	}
	return []struct {
		name, want string
		data       []byte
	}{
		{"a zip bomb", `"tune.xml", unpacked, has more than 32 MiB (export the lead sheet alone)`,
			packed(t, "META-INF/container.xml", container("tune.xml"), "tune.xml", strings.Repeat(" ", 64<<20))},
		{"a directory of empty files", "the compressed file holds no score (compressed MusicXML holds a .musicxml file and META-INF/container.xml)", emptyFiles(t, 300_000)},
		{"a container that is a bomb", `"META-INF/container.xml", unpacked, has more than 64 KiB (export the lead sheet alone)`,
			packed(t, "META-INF/container.xml", strings.Repeat(" ", 1<<20), "tune.xml", sheet)},
		{"50 MB", "the file has more than 32 MiB (export the lead sheet alone)", bytes.Repeat([]byte(" "), 50_000_000)},
		{"deep nesting", "line 1: elements stand in each other 101 deep, which no score does", []byte(strings.Repeat("<a>", 5_000_000))},
		{"deep nesting in a harmony", "line 5: elements stand in each other 101 deep, which no score does", leadSheet("<harmony>" + strings.Repeat("<a>", 1_000_000))},
		{"an element with a million attributes", "line 1: an element has 1000000 attributes, which none of a score does",
			[]byte("<score-partwise " + strings.Repeat(`a="" `, 1_000_000) + "/>")},
		{"millions of elements", "line 1: the file has more than 2097152 elements", []byte("<score-partwise>" + strings.Repeat("<a/>", 8_000_000))},
		{"a harmony with a million elements", `part "Lead", measure 1, line 5: an element holds more than 10000 others, which none of a score does`, leadSheet("<harmony>" + strings.Repeat("<degree/>", 1_000_000) + "</harmony>")},
		{"a title with a million elements", "line 1: an element holds more than 10000 others, which none of a score does", []byte("<score-partwise><work>" + strings.Repeat("<a/>", 1_000_000))},
		{"a title in a million pieces", "the file has no chord symbols (they are <harmony> elements; notes alone are not read)",
			[]byte("<score-partwise><movement-title>" + strings.Repeat("a<!---->", 1_000_000) + "</movement-title></score-partwise>")},
		{"half a million names of parts", "the file has no chord symbols (they are <harmony> elements; notes alone are not read)",
			[]byte("<score-partwise><part-list>" + strings.Repeat(`<score-part id="P"/>`, 500_000) + "</part-list></score-partwise>")},
		{"billion laughs", "line 2: the file is no sound XML: invalid character entity &k; (entities of a document type are not read; write the characters themselves)", in(laughs, "&k;")},
		{"an external entity", "line 2: the file is no sound XML: invalid character entity &x; (entities of a document type are not read; write the characters themselves)",
			in(`<!DOCTYPE score-partwise [<!ENTITY x SYSTEM "file:///etc/passwd">`, "&x;")},
		{"a million parts", `line 1: the score has more than 1000 parts (export the lead sheet alone)`, []byte("<score-partwise>" + manyParts(1_000_000) + "</score-partwise>")},
		{"a million measures", `part "P1", line 1: the score has more than 10000 measures`, []byte(`<score-partwise><part id="P1">` + strings.Repeat("<measure/>", 1_000_000) + "</part></score-partwise>")},
		{"two million chords in forty parts", `part "2", measure 1, line 1: the score has more than 100000 chord symbols (export the lead sheet alone)`, manyChords(40, 50_000)},
		{"wrong divisions all along", strings.Repeat(`part "One", measure 1, line 1: "" divisions of a quarter note (a whole number from 1 to 1048576)`+"\n", 10) + "and 990 more", manyDivisions(200_000)},
		{"a million chords", `part "P1", measure 1, line 1: the part has more than 50000 chord symbols`, []byte(`<score-partwise><part id="P1"><measure>` + strings.Repeat("<harmony/>", 1_000_000) + "</measure></part></score-partwise>")},
	}
}

func manyChords(parts, chords int) []byte {
	var b bytes.Buffer
	b.WriteString("<score-partwise>")
	for i := range parts {
		fmt.Fprintf(&b, `<part id="%d"><measure>%s</measure></part>`, i, strings.Repeat("<harmony/>", chords))
	}
	b.WriteString("</score-partwise>")
	return b.Bytes()
}

func manyDivisions(n int) []byte {
	return []byte(scoreOf(measure("1", on("C"), strings.Repeat("<attributes><divisions/></attributes>", n))))
}

func emptyFiles(t testing.TB, n int) []byte {
	var out bytes.Buffer
	w := zip.NewWriter(&out)
	for range n {
		_, err := w.CreateRaw(&zip.FileHeader{Name: "a"})
		require.NoError(t, err)
	}
	require.NoError(t, w.Close())
	return out.Bytes()
}

func manyParts(n int) string {
	var b strings.Builder
	for i := range n {
		fmt.Fprintf(&b, `<part id="%d"/>`, i)
	}
	return b.String()
}

func TestBombs(t *testing.T) {
	for _, tt := range bombs(t) {
		t.Run(tt.name, func(t *testing.T) {
			var before, after runtime.MemStats
			runtime.ReadMemStats(&before)
			_, err := Read(tt.data)
			runtime.ReadMemStats(&after)
			assert.EqualError(t, err, tt.want)
			allocated := int64(after.TotalAlloc - before.TotalAlloc)
			assert.Less(t, allocated, int64(256<<20), "bytes allocated in all")
		})
	}
}

// What is told of long words is short.
func TestFaultsAreBrief(t *testing.T) {
	long := strings.Repeat("♭9", 1_000_000)
	sheet := strings.ReplaceAll(string(leadSheet(`<harmony><root><root-step>C</root-step></root><kind text="`+long+`">`+long+`</kind></harmony>`)), "Lead", long)
	sheet = strings.Replace(sheet, `<measure number="1"`, `<measure number="`+long+`"`, 1)
	_, err := Read([]byte(sheet))
	require.Error(t, err)
	assert.Less(t, len(err.Error()), 2000)
}

func TestTooLargeIsSaid(t *testing.T) {
	for _, data := range [][]byte{make([]byte, MaxBytes+1), []byte(strings.Repeat("<a>", 200)), packed(t, "a.xml", strings.Repeat(" ", MaxBytes+1))} {
		_, err := Read(data)
		assert.ErrorIs(t, err, ErrTooLarge)
	}
	_, err := Read([]byte(`<score-partwise><part id="P1">` + strings.Repeat("<measure/>", chart.MaxPlayedBars+1) + "</part></score-partwise>"))
	assert.ErrorIs(t, err, chart.ErrTooLong)
}

// largeScore is an orchestra's score of about so many bytes with a part of chords.
func largeScore(size int) []byte {
	var notes strings.Builder
	for range 8 {
		notes.WriteString("        <note default-x=\"83.12\">\n          <pitch>\n            <step>E</step>\n            <octave>4</octave>\n          </pitch>\n          <duration>2</duration>\n          <voice>1</voice>\n          <type>eighth</type>\n          <stem>up</stem>\n          <beam number=\"1\">begin</beam>\n        </note>\n")
	}
	var b strings.Builder
	b.WriteString(`<?xml version="1.0" encoding="UTF-8"?><score-partwise version="4.0"><part-list/>`)
	const measures = 200
	for p := 0; b.Len() < size; p++ {
		fmt.Fprintf(&b, "<part id=\"P%d\">\n", p)
		for m := range measures {
			fmt.Fprintf(&b, "<measure number=\"%d\">\n", m+1)
			if m == 0 {
				b.WriteString("<attributes><divisions>4</divisions><time><beats>4</beats><beat-type>4</beat-type></time></attributes>\n")
			}
			if p == 0 {
				b.WriteString(h("dominant", "add 9 -1") + "\n")
			}
			b.WriteString(notes.String() + "</measure>\n")
		}
		b.WriteString("</part>\n")
	}
	b.WriteString("</score-partwise>\n")
	return []byte(b.String())
}

func TestLargeScore(t *testing.T) {
	if testing.Short() {
		t.Skip("reads 8 MB, which takes a second")
	}
	d, err := Read(largeScore(8_000_000))
	require.NoError(t, err)
	assert.Len(t, d.Chart().Bars, 200)
}

func BenchmarkRead(b *testing.B) {
	sheet, err := os.ReadFile(filepath.Join("testdata", "quay_lamps.musicxml"))
	require.NoError(b, err)
	var bars []string
	for range 8 {
		bars = append(bars, "| Dm7 G7b9 | Cmaj7 A7alt | F#m7b5 B7 | Em7 Eb7 |")
	}
	c, err := chart.Parse(strings.Join(bars, "\n"))
	require.NoError(b, err)
	for _, bb := range []struct {
		name string
		data []byte
	}{{"12 bars with melody", sheet}, {"32 bars", Write(c, nil)}, {"8 MB", largeScore(8_000_000)}, {"32 MiB", largeScore(MaxBytes - 1_000_000)}} {
		b.Run(bb.name, func(b *testing.B) {
			b.SetBytes(int64(len(bb.data)))
			b.ReportAllocs()
			for b.Loop() {
				if _, err := Read(bb.data); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// What is allocated in all until a file is refused that is made to take much memory.
func BenchmarkBombs(b *testing.B) {
	for _, bb := range bombs(b) {
		b.Run(bb.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := Read(bb.data); err == nil {
					b.Fatal("it is read")
				}
			}
		})
	}
}

func BenchmarkWrite(b *testing.B) {
	c, err := chart.Parse(strings.Repeat("| Dm7 G7b9 | Cmaj7 A7alt | F#m7b5 B7 | Em7 Eb7 |\n", 8))
	require.NoError(b, err)
	for b.Loop() {
		Write(c, nil)
	}
}

func BenchmarkAnnotate(b *testing.B) {
	d := readFile(b, filepath.Join("testdata", "quay_lamps.musicxml"))
	marks := marksOf(d.Chart())
	for b.Loop() {
		d.Score(marks)
	}
}
