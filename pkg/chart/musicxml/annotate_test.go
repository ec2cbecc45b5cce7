package musicxml

import (
	"archive/zip"
	"bytes"
	"encoding/binary"
	"io"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"
	"unicode/utf16"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fifthwise/pkg/chart"
)

// added are what Annotate adds, found without its code.
var added = regexp.MustCompile(`<!--fifthwise-->.*?<!--/fifthwise-->`)

// marksOf is a mark at every chord of a chart.
func marksOf(c chart.Chart) []chart.Mark {
	var marks []chart.Mark
	for i, b := range c.Bars {
		for k := range b.Chords {
			marks = append(marks, chart.Mark{Bar: i, Chord: k, Above: "Eb major & on", Below: "V7/♭II <sub>"})
		}
	}
	return marks
}

// An annotated file differs from its source by what was added and by nothing
// else: byte for byte the same with the additions taken out. It is read as the
// same chart, and annotating again adds nothing.
func TestAnnotateAddsAndKeeps(t *testing.T) {
	for _, file := range scores(t) {
		t.Run(filepath.Base(file), func(t *testing.T) {
			d := readFile(t, file)
			source := d.Score(nil)
			assert.Equal(t, string(d.text), string(source))

			out, err := d.Annotate(marksOf(d.Chart()))
			require.NoError(t, err)
			assert.Equal(t, string(source), string(added.ReplaceAll(out, nil)))
			read := bytes.Count(source, []byte("<harmony")) - bytes.Count(source, []byte(`type="alternate"`))
			assert.Len(t, added.FindAll(out, -1), 2*read, "words above and below every chord symbol")

			again, err := Read(out)
			require.NoError(t, err)
			assert.True(t, d.Chart().Equal(again.Chart()))
			twice, err := again.Annotate(marksOf(again.Chart()))
			require.NoError(t, err)
			assert.Equal(t, string(out), string(twice))
			bare, err := again.Annotate(nil)
			require.NoError(t, err)
			assert.Equal(t, string(source), string(bare))
		})
	}
}

// What is written for a mark: words above and below, where the chord symbol
// stands (MusicXML 4.0, direction: placement, words, offset, staff).
func TestWhatIsAdded(t *testing.T) {
	const c = `<harmony><root><root-step>C</root-step></root><kind>major</kind>`
	tests := []struct {
		name, harmony string
		mark          chart.Mark
		want          string
	}{
		{"above and below", c + `</harmony>`, chart.Mark{Above: "C major", Below: "I"},
			`<!--fifthwise--><direction placement="above"><direction-type><words>C major</words></direction-type></direction><!--/fifthwise-->` +
				`<!--fifthwise--><direction placement="below"><direction-type><words>I</words></direction-type></direction><!--/fifthwise-->`},
		{"at the chord's place", c + `<offset>-2</offset><staff>2</staff></harmony>`, chart.Mark{Below: "I"},
			`<!--fifthwise--><direction placement="below"><direction-type><words>I</words></direction-type><offset>-2</offset><staff>2</staff></direction><!--/fifthwise-->`},
		{"escaped", c + `</harmony>`, chart.Mark{Below: `V7/♭II <&"-->`},
			`<!--fifthwise--><direction placement="below"><direction-type><words>V7/♭II &lt;&amp;&#34;--&gt;</words></direction-type></direction><!--/fifthwise-->`},
		{"no words", c + `</harmony>`, chart.Mark{}, ""},
		{"no such chord", c + `</harmony>`, chart.Mark{Chord: 1, Below: "I"}, ""},
		{"no such bar", c + `</harmony>`, chart.Mark{Bar: -1, Below: "I"}, ""},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			d, err := Read(leadSheet(tt.harmony))
			require.NoError(t, err)
			want := strings.Replace(string(leadSheet(tt.harmony)), tt.harmony, tt.harmony+tt.want, 1)
			assert.Equal(t, want, string(d.Score([]chart.Mark{tt.mark})))
		})
	}
}

// A bar that is played more than once, by a jump or as a repeated measure, has
// its words once, and what differs with its time.
func TestMarksOfBarsPlayedAgain(t *testing.T) {
	const repeat = `<attributes><measure-style><measure-repeat type="start">1</measure-repeat></measure-style></attributes>`
	tests := []struct {
		name     string
		measures []string
	}{
		{"a jump", []string{h("major"), h("minor") + `<sound dacapo="yes"/>`}},
		{"a repeated measure", []string{h("major"), repeat}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			d, err := Read(leadSheet(tt.measures...))
			require.NoError(t, err)
			bars := d.Chart().Bars
			last := len(bars) - 1
			for i := range bars {
				if d.symbols[d.measures[i]][0].places[0].measure == 0 {
					last = i
				}
			}
			require.Positive(t, last)
			out := d.Score([]chart.Mark{{Bar: 0, Above: "C major", Below: "I"}, {Bar: last, Above: "C major", Below: "IV"}})
			assert.Equal(t, 2, bytes.Count(out, []byte("<!--fifthwise-->")))
			assert.Contains(t, string(out), "<words>C major</words>")
			assert.Contains(t, string(out), "<words>I (2nd: IV)</words>")
		})
	}
}

// Comments of the same words that do not enclose what Annotate adds are the
// file's own.
func TestCommentsThatAreNotOurs(t *testing.T) {
	for _, name := range []string{"<!--fifthwise-->", "<!--/fifthwise-->"} {
		source := leadSheet("<!--fifthwise-->"+h("dominant")+"<!--/fifthwise-->"+name, name+h("minor"))
		d, err := Read(source)
		require.NoError(t, err)
		assert.Equal(t, string(source), string(d.Score(nil)))
		out := d.Score(marksOf(d.Chart()))
		again, err := Read(out)
		require.NoError(t, err)
		assert.Equal(t, string(source), string(again.Score(nil)))
	}
}

// Chords that have no place in their bar do not shift the words of others.
func TestMarksBesideChordsLeftOut(t *testing.T) {
	const half = `<note><rest/><duration>2</duration></note>`
	d, err := Read([]byte(scoreOf(measure("1", on("C"), half+half) + measure("2", on("F"), half, on("G", "<offset>2</offset>")) + measure("X1", on("A"), half))))
	require.NoError(t, err)
	require.Equal(t, "| C | F A |", onOneLine(d.Chart()))
	out := string(d.Score([]chart.Mark{{Bar: 1, Chord: 1, Below: "VI"}}))
	assert.Contains(t, out, on("A")+additionStart)
	assert.Equal(t, 1, strings.Count(out, additionStart))
}

// Two parts that share the chords both get the words.
func TestMarksInAllPartsThatShareChords(t *testing.T) {
	d := readFile(t, filepath.Join("testdata", "two_desks.musicxml"))
	out := d.Score([]chart.Mark{{Bar: 1, Chord: 1, Below: "V7"}})
	assert.Equal(t, 2, bytes.Count(out, []byte("<words>V7</words>")))
}

// A written chart with marks is the written chart annotated.
func TestWriteWithMarksIsAnnotated(t *testing.T) {
	for _, tt := range written {
		c, err := chart.Parse(tt.text)
		require.NoError(t, err)
		d, err := Read(Write(c, nil))
		require.NoError(t, err)
		assert.Equal(t, string(Write(c, marksOf(c))), string(d.Score(marksOf(c))), tt.name)
	}
}

// transcoded is a file in UTF-8 in another encoding.
func transcoded(data []byte, order binary.AppendByteOrder, mark bool) []byte {
	text := strings.Replace(string(data), `encoding="UTF-8"`, `encoding="UTF-16"`, 1)
	var out []byte
	if mark {
		out = order.AppendUint16(out, 0xfeff)
	}
	for _, u := range utf16.Encode([]rune(text)) {
		out = order.AppendUint16(out, u)
	}
	return out
}

func inLatin1(data []byte, name string) []byte {
	var out []byte
	for _, r := range strings.Replace(string(data), `encoding="UTF-8"`, `encoding="`+name+`"`, 1) {
		out = append(out, byte(r))
	}
	return out
}

// A file in any encoding is read as in UTF-8 and annotated in its own, all other
// bytes left as they were.
func TestEncodingsAreKept(t *testing.T) {
	source := bytes.Replace(leadSheet(h("dominant"), h("minor")), []byte(`<part-name>Lead`), []byte(`<part-name>Flügelhorn`), 1)
	tests := []struct {
		name string
		data []byte
		want []byte // of the words V7/♭II
	}{
		{"UTF-8", source, []byte("V7/♭II")},
		{"UTF-8 with a byte order mark", append([]byte("\xef\xbb\xbf"), source...), []byte("V7/♭II")},
		{"UTF-8 with CRLF", bytes.ReplaceAll(source, []byte("\n"), []byte("\r\n")), []byte("V7/♭II")},
		{"no declaration", source[bytes.IndexByte(source, '\n')+1:], []byte("V7/♭II")},
		{"UTF-16, big end first", transcoded(source, binary.BigEndian, true), []byte("\x00V\x007\x00/\x26\x6d\x00I\x00I")},
		{"UTF-16, little end first", transcoded(source, binary.LittleEndian, true), []byte("V\x007\x00/\x00\x6d\x26I\x00I\x00")},
		{"UTF-16 without a byte order mark", transcoded(source, binary.LittleEndian, false), []byte("V\x007\x00/\x00\x6d\x26I\x00I\x00")},
		{"Latin-1", inLatin1(source, "ISO-8859-1"), []byte("V7/&#9837;II")},
		{"Latin-1 in lower case", inLatin1(source, "iso-8859-1"), []byte("V7/&#9837;II")},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			d, err := Read(tt.data)
			require.NoError(t, err)
			assert.Equal(t, "Meter: 4/4\nKey: C major\n\n| C7 | Cm |\n", d.Chart().String())
			assert.Equal(t, tt.data, d.Score(nil))

			out, err := d.Annotate([]chart.Mark{{Below: "V7/♭II"}})
			require.NoError(t, err)
			at := bytes.Index(out, tt.want)
			require.Positive(t, at)
			again, err := Read(out)
			require.NoError(t, err)
			assert.Equal(t, tt.data, again.Score(nil))
		})
	}
}

// packed is a compressed file with members in the order given, name by content.
func packed(t testing.TB, members ...string) []byte {
	t.Helper()
	var out bytes.Buffer
	w := zip.NewWriter(&out)
	require.NoError(t, w.SetComment("a comment"))
	for i := 0; i < len(members); i += 2 {
		method := zip.Deflate
		if i == 0 {
			method = zip.Store
		}
		f, err := w.CreateHeader(&zip.FileHeader{Name: members[i], Method: method, Modified: time.Date(2024, 5, 1, 12, 0, 0, 0, time.UTC)})
		require.NoError(t, err)
		_, err = io.WriteString(f, members[i+1])
		require.NoError(t, err)
	}
	require.NoError(t, w.Close())
	return out.Bytes()
}

func container(path string) string {
	return `<?xml version="1.0"?><container><rootfiles><rootfile full-path="` + path + `"/><rootfile full-path="sheet.pdf" media-type="application/pdf"/></rootfiles></container>`
}

// The members of a compressed file but the score are copied as they are packed:
// bytes, order, times and comments.
func TestAnnotateCompressed(t *testing.T) {
	score := string(leadSheet(h("dominant")))
	data := packed(t, "mimetype", containerType, "META-INF/container.xml", container("scores/tune.xml"),
		"scores/tune.xml", score, "sheet.pdf", "%PDF-1.4 and so on", "images/", "", "images/page.png", "\x89PNG")
	d, err := Read(data)
	require.NoError(t, err)
	assert.Equal(t, "Meter: 4/4\nKey: C major\n\n| C7 |\n", d.Chart().String())
	out, err := d.Annotate([]chart.Mark{{Below: "V7"}})
	require.NoError(t, err)
	require.True(t, IsCompressed(out))

	before, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	require.NoError(t, err)
	after, err := zip.NewReader(bytes.NewReader(out), int64(len(out)))
	require.NoError(t, err)
	assert.Equal(t, before.Comment, after.Comment)
	require.Len(t, after.File, len(before.File))
	for i, f := range before.File {
		g := after.File[i]
		require.Equal(t, f.Name, g.Name)
		assert.True(t, f.Modified.Equal(g.Modified), f.Name)
		if f.Name == "scores/tune.xml" {
			assert.Equal(t, score, string(added.ReplaceAll(content(t, g), nil)))
			continue
		}
		assert.Equal(t, f.FileHeader, g.FileHeader)
		assert.Equal(t, raw(t, f), raw(t, g), f.Name)
	}
	again, err := Read(out)
	require.NoError(t, err)
	assert.Equal(t, score, string(again.Score(nil)))
}

func content(t *testing.T, f *zip.File) []byte {
	r, err := f.Open()
	require.NoError(t, err)
	data, err := io.ReadAll(r)
	require.NoError(t, err)
	return data
}

func raw(t *testing.T, f *zip.File) []byte {
	r, err := f.OpenRaw()
	require.NoError(t, err)
	data, err := io.ReadAll(r)
	require.NoError(t, err)
	return data
}

// A member that is damaged is told by its name.
func TestDamagedMember(t *testing.T) {
	data := packed(t, "tune.xml", string(leadSheet(h("dominant")))) // the first is stored as it is
	at := bytes.Index(data, []byte("dominant"))
	require.Positive(t, at)
	data[at] = 'D'
	_, err := Read(data)
	assert.EqualError(t, err, `"tune.xml" cannot be unpacked (export the file again)`)
	assert.ErrorIs(t, err, zip.ErrChecksum)
}

func TestCompress(t *testing.T) {
	score := leadSheet(h("dominant"))
	data, err := Compress(score)
	require.NoError(t, err)
	d, err := Read(data)
	require.NoError(t, err)
	assert.Equal(t, string(score), string(d.Score(nil)))
	files, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	require.NoError(t, err)
	assert.Equal(t, "mimetype", files.File[0].Name, "the first member, not compressed")
	assert.Equal(t, zip.Store, files.File[0].Method)
}
