package api

import (
	"archive/zip"
	"bytes"
	"encoding/json"
	"encoding/xml"
	"fmt"
	"io"
	"math/rand/v2"
	"net/http"
	"net/http/httptest"
	"regexp"
	"runtime"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fifthwise/api/wire"
	"fifthwise/pkg/chart"
	"fifthwise/pkg/chart/abc"
	"fifthwise/pkg/chart/musicxml"
)

// The same tune in every form that is read.
const (
	millText = `Title: Mill Road
Meter: 4/4
Key: F major

[A]
|: Gm7 C7 | Fmaj7 | 1. D7b9/F# :| 2. F6 ||
`
	millRequest = `{"title": "Mill Road", "key": "F major", "changes": "[A] |: Gm7 C7 | Fmaj7 | 1. D7b9/F# :| 2. F6 ||"}`
	millScore   = `<?xml version="1.0" encoding="UTF-8"?>
<score-partwise version="4.0">
  <work><work-title>Mill Road</work-title></work>
  <part-list><score-part id="P1"><part-name>Lead</part-name></score-part></part-list>
  <part id="P1">
    <measure number="1">
      <attributes><divisions>1</divisions><key><fifths>-1</fifths><mode>major</mode></key><time><beats>4</beats><beat-type>4</beat-type></time></attributes>
      <barline location="left"><repeat direction="forward"/></barline>
      <direction><direction-type><rehearsal>A</rehearsal></direction-type></direction>
      <harmony><root><root-step>G</root-step></root><kind>minor-seventh</kind></harmony>
      <note><pitch><step>B</step><alter>-1</alter><octave>4</octave></pitch><duration>2</duration><lyric><text>grind</text></lyric></note>
      <harmony><root><root-step>C</root-step></root><kind>dominant</kind></harmony>
      <note><pitch><step>E</step><octave>4</octave></pitch><duration>2</duration></note>
    </measure>
    <measure number="2">
      <harmony><root><root-step>F</root-step></root><kind>major-seventh</kind></harmony>
      <note><pitch><step>A</step><octave>4</octave></pitch><duration>4</duration></note>
    </measure>
    <measure number="3">
      <barline location="left"><ending number="1" type="start"/></barline>
      <harmony><root><root-step>D</root-step></root><kind>dominant</kind><bass><bass-step>F</bass-step><bass-alter>1</bass-alter></bass><degree><degree-value>9</degree-value><degree-alter>-1</degree-alter><degree-type>add</degree-type></degree></harmony>
      <note><rest/><duration>4</duration></note>
      <barline location="right"><ending number="1" type="stop"/><repeat direction="backward"/></barline>
    </measure>
    <measure number="4">
      <barline location="left"><ending number="2" type="start"/></barline>
      <harmony><root><root-step>F</root-step></root><kind>major-sixth</kind></harmony>
      <note><rest/><duration>4</duration></note>
      <barline location="right"><bar-style>light-light</bar-style><ending number="2" type="discontinue"/></barline>
    </measure>
  </part>
</score-partwise>
`
	millABC = `X:1
T:Mill Road
M:4/4
L:1/4
K:F
P:A
|:"Gm7"B2 "C7"e2|"Fmaj7"A4|1 "D7b9/F#"z4:|2 "F6"z4||
`
)

// mxl is a score as a compressed file, beside another file.
func mxl(score string) string {
	return archiveOf([][2]string{
		{"META-INF/container.xml", `<container><rootfiles><rootfile full-path="mill.xml"/></rootfiles></container>`},
		{"cover.xml", `<cover/>`},
		{"mill.xml", score},
	})
}

// archiveOf has a file of each name and content.
func archiveOf(files [][2]string) string {
	var out bytes.Buffer
	w := zip.NewWriter(&out)
	for _, f := range files {
		m, err := w.Create(f[0])
		if err == nil {
			_, err = io.WriteString(m, f[1])
		}
		if err != nil {
			panic(err) // the buffer grows
		}
	}
	if err := w.Close(); err != nil {
		panic(err)
	}
	return out.String()
}

// convert posts a chart; the answer is held against the document.
func convert(t *testing.T, query, media, accept, body string) *httptest.ResponseRecorder {
	t.Helper()
	return ask(t, http.MethodPost, "/v1/charts"+query, body, "Content-Type", media, "Accept", accept)
}

func granted(t *testing.T, w *httptest.ResponseRecorder) string {
	t.Helper()
	require.Equal(t, http.StatusOK, w.Code, "%s", w.Body)
	assert.Equal(t, "nosniff", w.Header().Get("X-Content-Type-Options"))
	assert.Equal(t, fmt.Sprint(w.Body.Len()), w.Header().Get("Content-Length"))
	return w.Body.String()
}

// Every form that is read gives the same chart in every form that is written.
func TestChartForms(t *testing.T) {
	const written = `{"title":"Mill Road","meter":"4/4","key":"F major","bars":[` +
		`{"section":"A","number":1,"chords":[{"symbol":"Gm7","beat":1,"beats":2},{"symbol":"C7","beat":3,"beats":2}]},` +
		`{"number":2,"chords":[{"symbol":"Fmaj7","beat":1,"beats":4}]},` +
		`{"number":3,"chords":[{"symbol":"D7b9/F#","beat":1,"beats":4}],"double":true},` +
		`{"section":"A","number":1,"chords":[{"symbol":"Gm7","beat":1,"beats":2},{"symbol":"C7","beat":3,"beats":2}]},` +
		`{"number":2,"chords":[{"symbol":"Fmaj7","beat":1,"beats":4}]},` +
		`{"number":4,"chords":[{"symbol":"F6","beat":1,"beats":4}],"double":true}],"warnings":[]}` + "\n"
	for _, from := range []struct{ media, body string }{
		{"application/json", millRequest},
		{"text/plain", millText},
		{"Text/Plain; charset=UTF-8", "\ufeff" + strings.ReplaceAll(millText, "\n", "\r\n")},
		{"application/vnd.recordare.musicxml+xml", millScore},
		{"application/xml; charset=utf-8", millScore},
		{"text/xml", millScore},
		{"application/vnd.recordare.musicxml", mxl(millScore)},
		{"application/vnd.recordare.musicxml+xml", mxl(millScore)}, // the file shows it
		{"application/vnd.recordare.musicxml", millScore},
		{"text/vnd.abc", millABC},
	} {
		t.Run(from.media, func(t *testing.T) {
			for _, accept := range []string{"", "*/*", "application/json", "application/*"} {
				w := convert(t, "", from.media, accept, from.body)
				assert.Equal(t, written, granted(t, w))
				assert.Equal(t, "application/json", w.Header().Get("Content-Type"))
			}
			w := convert(t, "", from.media, "text/plain", from.body)
			assert.Equal(t, millText, granted(t, w))
			assert.Equal(t, "text/plain; charset=utf-8", w.Header().Get("Content-Type"))

			score := convert(t, "", from.media, "application/vnd.recordare.musicxml+xml", from.body)
			assert.Equal(t, "application/vnd.recordare.musicxml+xml", score.Header().Get("Content-Type"))
			assert.Equal(t, millText, chartIn(t, granted(t, score)).String())
			assert.False(t, musicxml.IsCompressed(score.Body.Bytes()))

			packed := convert(t, "", from.media, "application/vnd.recordare.musicxml", from.body)
			assert.Equal(t, "application/vnd.recordare.musicxml", packed.Header().Get("Content-Type"))
			assert.Equal(t, millText, chartIn(t, granted(t, packed)).String())
			assert.True(t, musicxml.IsCompressed(packed.Body.Bytes()))

			tune := convert(t, "", from.media, "text/vnd.abc", from.body)
			assert.Equal(t, "text/vnd.abc; charset=utf-8", tune.Header().Get("Content-Type"))
			c, err := abc.Parse([]byte(granted(t, tune)))
			require.NoError(t, err)
			assert.Equal(t, millText, c.String())
		})
	}
}

func chartIn(t *testing.T, score string) chart.Chart {
	t.Helper()
	d, err := musicxml.Read([]byte(score))
	require.NoError(t, err)
	return d.Chart()
}

// A score that is not to be read comes back as it was sent, byte for byte.
func TestScoreIsLeftAlone(t *testing.T) {
	packed := mxl(millScore)
	assert.Equal(t, millScore, granted(t, convert(t, "", mediaScore, mediaScore, millScore)))
	assert.Equal(t, packed, granted(t, convert(t, "?analyze=false", mediaCompressed, mediaCompressed, packed)))
	assert.Equal(t, millScore, granted(t, convert(t, "", mediaCompressed, mediaScore, packed)))
	compressed := granted(t, convert(t, "", mediaScore, mediaCompressed, millScore))
	assert.Equal(t, millScore, granted(t, convert(t, "", mediaCompressed, mediaScore, compressed)))
}

// additions are what is added to a score, with the words.
var additions = regexp.MustCompile(`<!--fifthwise-->[^!]*<words>(.*?)</words>[^!]*<!--/fifthwise-->`)

// The words of a reading are all that it changes in a score.
func TestAnnotatedScore(t *testing.T) {
	check := func(annotated string) {
		t.Helper()
		var words []string
		for _, m := range additions.FindAllStringSubmatch(annotated, -1) {
			words = append(words, m[1])
		}
		assert.Equal(t, []string{"F major", "IIm7", "V7", "Imaj7", "V7b9/II", "I6"}, words)
		assert.Equal(t, millScore, additions.ReplaceAllString(annotated, ""))
	}
	annotated := granted(t, convert(t, "?analyze=true", mediaScore, mediaScore, millScore))
	check(annotated)
	assert.Equal(t, annotated, granted(t, convert(t, "?analyze=true", mediaScore, mediaScore, annotated)), "words are replaced, not doubled")
	check(granted(t, convert(t, "?analyze=true", mediaCompressed, mediaScore, mxl(millScore))))

	packed := granted(t, convert(t, "?analyze=true", mediaCompressed, mediaCompressed, mxl(millScore)))
	archive, err := zip.NewReader(strings.NewReader(packed), int64(len(packed)))
	require.NoError(t, err)
	require.Len(t, archive.File, 3)
	assert.Equal(t, "cover.xml", archive.File[1].Name)
	m, err := archive.Open("mill.xml")
	require.NoError(t, err)
	content, err := io.ReadAll(m)
	require.NoError(t, err)
	check(string(content))
}

// A chart that was no score becomes one, or a tune, with the words of its
// reading.
func TestWrittenWithReading(t *testing.T) {
	for query, want := range map[string][]string{
		"?analyze=true":                                    {"IIm7", "V7b9/II", "F major"},
		"?analyze=true&numerals=arabic":                    {"2m7", "5 7b9/2", "F major"},
		"?analyze=true&numerals=cased&accidentals=unicode": {"ii7", "V7♭9/ii", "F major"},
	} {
		score := granted(t, convert(t, query, mediaText, mediaScore, millText))
		for _, words := range want {
			assert.Contains(t, score, ">"+words+"<", query)
		}
	}
	assert.NotContains(t, granted(t, convert(t, "", mediaText, mediaScore, millText)), "IIm7")
	tune := granted(t, convert(t, "?analyze=true", mediaText, mediaABC, millText))
	assert.Contains(t, tune, `"Gm7""^F major""_IIm7"`)
	assert.NotContains(t, granted(t, convert(t, "", mediaText, mediaABC, millText)), "IIm7")
}

// With the reading JSON has what /v1/analyses answers.
func TestChartWithAnalysis(t *testing.T) {
	for _, options := range []string{``, `, "options": {"numerals": "cased", "accidentals": "unicode", "alternatives": 5}`} {
		request := strings.TrimSuffix(millRequest, "}") + options + "}"
		var answer struct{ Analysis json.RawMessage }
		require.NoError(t, json.Unmarshal([]byte(granted(t, convert(t, "?analyze=true", mediaJSON, mediaJSON, request))), &answer))
		assert.JSONEq(t, post(New(Options{}), request).Body.String(), string(answer.Analysis))
	}
	// What the body says of the numerals stands above what the URL says.
	both := granted(t, convert(t, "?analyze=true&numerals=arabic&accidentals=unicode", mediaJSON, "", strings.TrimSuffix(millRequest, "}")+`, "options": {"numerals": "cased"}}`))
	assert.Contains(t, both, `"numeral":"V7♭9/ii"`)
	assert.NotContains(t, granted(t, convert(t, "?analyze=false", mediaText, "", millText)), "analysis")
}

// In the text notation the reading stands in comments, which are no part of it.
func TestTextWithReading(t *testing.T) {
	got := granted(t, convert(t, "?analyze=true", mediaText, mediaText, millText))
	assert.Equal(t, millText+`
# bar 1: F major: IIm7, V7
# bar 2: Imaj7
# bar 3: V7b9/II
# bar 4: I6
`, got)
	assert.Equal(t, millText, granted(t, convert(t, "", mediaText, mediaText, got)))
	assert.Equal(t, got, granted(t, convert(t, "?analyze=true", mediaScore, mediaText, millScore)))

	silent := "Meter: 4/4\n\n| N.C. |\n"
	assert.Equal(t, silent, granted(t, convert(t, "?analyze=true", mediaText, mediaText, silent)))
}

// A drawing shows the chart, and its reading where that is asked for.
func TestDrawing(t *testing.T) {
	for _, from := range [][2]string{{mediaText, millText}, {mediaScore, millScore}, {mediaABC, millABC}} {
		plain := convert(t, "", from[0], mediaDrawing, from[1])
		assert.Contains(t, granted(t, plain), "Mill Road")
		assert.Equal(t, "image/svg+xml", plain.Header().Get("Content-Type"))
		assert.NotContains(t, plain.Body.String(), "IIm7")
		assert.Contains(t, granted(t, convert(t, "?analyze=true", from[0], mediaDrawing, from[1])), ">IIm7<")
		assert.Contains(t, granted(t, convert(t, "?analyze=true&numerals=cased", from[0], mediaDrawing, from[1])), ">ii7<")
	}
}

func TestDrawingTellsSteps(t *testing.T) {
	const said = "What to remember"
	assert.NotContains(t, granted(t, convert(t, "?analyze=true", mediaText, mediaDrawing, "| Dm7 G7 | C6 |")), said)
	assert.Contains(t, granted(t, convert(t, "?analyze=true&steps=true", mediaText, mediaDrawing, "| Dm7 G7 | C6 |")), said)
	w := convert(t, "?steps=yes", mediaText, mediaDrawing, "| C |")
	assert.Equal(t, 422, w.Code)
}

func TestLongTitleIsDrawn(t *testing.T) {
	title := strings.Repeat("♭", 100_000)
	granted(t, convert(t, "", mediaText, mediaDrawing, "Title: "+title+"\n| C |"))
}

// Charts of all kinds, written out as a request, are read as before.
var unfoldings = []struct{ name, text, bars string }{
	{"no title and no key", "| C |", `[{"number":1,"chords":[{"symbol":"C","beat":1,"beats":4}]}]`},
	{"symbols made canonical", "| CΔ | B♭ø |", `[{"number":1,"chords":[{"symbol":"Cmaj7","beat":1,"beats":4}]},{"number":2,"chords":[{"symbol":"Bbm7b5","beat":1,"beats":4}]}]`},
	{"a held bar", "| C | / / / / |", `[{"number":1,"chords":[{"symbol":"C","beat":1,"beats":4}]},{"number":2,"chords":[]}]`},
	{"held into a bar", "| C | / / G7 / |", `[{"number":1,"chords":[{"symbol":"C","beat":1,"beats":4}]},{"number":2,"chords":[{"symbol":"G7","beat":3,"beats":2}]}]`},
	{"thirds", "| C F G |", `[{"number":1,"chords":[{"symbol":"C","beat":1,"beats":1.3333333333333333},{"symbol":"F","beat":2.3333333333333335,"beats":1.3333333333333333},{"symbol":"G","beat":3.6666666666666665,"beats":1.3333333333333333}]}]`},
	{"a pickup", "Pickup: 1\n| G7 | C | F |", `[{"number":0,"chords":[{"symbol":"G7","beat":4,"beats":1}]},{"number":1,"chords":[{"symbol":"C","beat":1,"beats":4}]},{"number":2,"chords":[{"symbol":"F","beat":1,"beats":4}]}]`},
	{"meters", "Meter: 3/4\n| C | 6/8 F G | 6/8 C | 3/4 C |", `[{"number":1,"chords":[{"symbol":"C","beat":1,"beats":3}]},{"number":2,"meter":"6/8","chords":[{"symbol":"F","beat":1,"beats":1},{"symbol":"G","beat":2,"beats":1}]},{"number":3,"chords":[{"symbol":"C","beat":1,"beats":2}]},{"number":4,"meter":"3/4","chords":[{"symbol":"C","beat":1,"beats":3}]}]`},
	{"another meter at once", "| 3/4 C |", `[{"number":1,"chords":[{"symbol":"C","beat":1,"beats":3}]}]`},
	{"an optional group", "| C | (Em7 A7) |", `[{"number":1,"chords":[{"symbol":"C","beat":1,"beats":4}]},{"number":2,"chords":[{"symbol":"Em7","beat":1,"beats":2,"optional":true},{"symbol":"A7","beat":3,"beats":2,"optional":true}]}]`},
	{"a double bar", "| C || F |", `[{"number":1,"chords":[{"symbol":"C","beat":1,"beats":4}],"double":true},{"number":2,"chords":[{"symbol":"F","beat":1,"beats":4}]}]`},
	{"silence", "| N.C. | C |", `[{"number":1,"chords":[{"symbol":"N.C.","beat":1,"beats":4}]},{"number":2,"chords":[{"symbol":"C","beat":1,"beats":4}]}]`},
	{"an incomplete end", "| C | F@1 N.C.@3 |", `[{"number":1,"chords":[{"symbol":"C","beat":1,"beats":4}]},{"number":2,"chords":[{"symbol":"F","beat":1,"beats":2},{"symbol":"N.C.","beat":3,"beats":2}]}]`},
}

func TestBarsWrittenOut(t *testing.T) {
	for _, test := range unfoldings {
		t.Run(test.name, func(t *testing.T) {
			answer := granted(t, convert(t, "", mediaText, mediaJSON, test.text))
			var got struct{ Bars json.RawMessage }
			require.NoError(t, json.Unmarshal([]byte(answer), &got))
			assert.Equal(t, test.bars, string(got.Bars))
			assert.NotContains(t, answer, `"title"`)
			assert.NotContains(t, answer, `"key"`)
			assertSameReading(t, test.text, answer)
		})
	}
}

// assertSameReading checks that an answer, sent as it is, is read like the text
// that it was made of.
func assertSameReading(t *testing.T, text, answer string) {
	t.Helper()
	request, err := json.Marshal(map[string]string{"changes": text})
	require.NoError(t, err)
	want, got := reading(t, string(request)), reading(t, answer)
	require.Len(t, got.Chords, len(want.Chords))
	assert.Equal(t, want.HomeKey, got.HomeKey)
	for i, c := range want.Chords {
		g := got.Chords[i]
		assert.Equal(t, []any{c.Bar, c.Beat, c.Beats, c.Section, c.Numeral, c.Key, c.Role}, []any{g.Bar, g.Beat, g.Beats, g.Section, g.Numeral, g.Key, g.Role}, "chord %d", i)
		assert.InDelta(t, c.Confidence, g.Confidence, 0.001)
	}
}

// An answer is a request for its reading, what was warned of and all.
func TestAnswerIsRequest(t *testing.T) {
	text := "Title: Night Bus\nKey: F major\n[A] |: Fmaj7 | Am7 D7b9/F# | 1. Gm7 A C7 :| 2. Gm7 C7 || [B] Ebm7 Ab7 | Dbmaj7 | (C7) |"
	answer := granted(t, convert(t, "", mediaText, mediaJSON, text))
	assert.Contains(t, answer, `"warnings":[{"bar":3,"message":"3 chords share 4 beats evenly, 4/3 beats each"}]`)
	assertSameReading(t, text, answer)
	again := granted(t, convert(t, "", mediaJSON, mediaJSON, answer))
	assert.Equal(t, answer[:strings.Index(answer, `"warnings"`)], again[:strings.Index(again, `"warnings"`)])
}

// A pickup that is not numbered 0 is read as one again.
func TestPickupWithNumber(t *testing.T) {
	request := `{"meter": "3/4", "bars": [{"number": 5, "chords": [{"symbol": "G7", "beats": 1}]}, {"chords": [{"symbol": "C"}]}, {"chords": [{"symbol": "F"}]}]}`
	answer := granted(t, convert(t, "", mediaJSON, mediaJSON, request))
	assert.Contains(t, answer, `{"number":5,"chords":[{"symbol":"G7","beats":1}]}`)
	assert.Equal(t, reading(t, request), reading(t, answer))
	assert.Equal(t, answer, granted(t, convert(t, "", mediaJSON, mediaJSON, answer)))
}

// Of the forms that a client takes it gets the one that it likes best.
func TestChartPreferences(t *testing.T) {
	for _, test := range []struct{ accept, want string }{
		{"text/plain, application/json;q=0.9", mediaText},
		{"text/plain;q=0.2, application/json;q=0.1", mediaText},
		{"application/json, text/plain, */*", mediaJSON},
		{"text/plain, */*", mediaText},
		{"*/*, application/json;q=0", mediaText},
		{"text/*", mediaText},
		{"text/html, application/xhtml+xml, */*;q=0.1", mediaJSON},
		{"application/vnd.recordare.musicxml;q=0.3, application/*;q=0.2", mediaCompressed},
		{"Application/Vnd.Recordare.MusicXML+XML ; q=1.0", mediaScore},
		{"image/svg+xml, text/plain;q=0.5", mediaDrawing},
		{"image/*", mediaDrawing},
		{"image/svg+xml;q=0.4, text/plain;q=0.5", mediaText},
	} {
		w := convert(t, "", mediaText, test.accept, millText)
		granted(t, w)
		media, _, _ := strings.Cut(w.Header().Get("Content-Type"), ";")
		assert.Equal(t, test.want, media, test.accept)
	}
}

// What a chart is refused for beside its content.
func TestChartRefusals(t *testing.T) {
	const (
		answers = "the answer is application/json, text/plain, application/vnd.recordare.musicxml+xml, application/vnd.recordare.musicxml, text/vnd.abc or image/svg+xml"
		bodies  = "send application/json, application/vnd.recordare.musicxml+xml, application/vnd.recordare.musicxml, application/xml, text/xml, text/vnd.abc or text/plain"
	)
	pad := func(front string, size int) string { return front + strings.Repeat(" ", size-len(front)) }
	tests := []struct {
		name, media, accept, body string
		status                    int
		detail                    string
	}{
		{"a picture", mediaText, "image/png", millText, 406, answers},
		{"a page", mediaText, "text/html", millText, 406, answers},
		{"nothing", mediaText, "*/*;q=0", millText, 406, answers},
		{"a form", "application/x-www-form-urlencoded", "", millText, 415, `the Content-Type "application/x-www-form-urlencoded" is not read; ` + bodies + `; curl -d says so by itself, unless -H 'Content-Type: application/json' stands beside it`},
		{"lines", mediaLines, "", millRequest, 415, `the Content-Type "application/x-ndjson" is not read; ` + bodies},
		{"a charset", "text/plain; charset=iso-8859-1", "", millText, 415, `the charset "iso-8859-1" is not read; send UTF-8`},
		{"8 MiB and a byte", mediaText, "", pad(millText, maxChart+1), 413, "the body has more than 8,388,608 bytes"},
		{"8 MiB and a byte of a score", mediaScore, "", pad(millScore, maxChart+1), 413, "the body has more than 8,388,608 bytes"},
		{"bars", mediaJSON, "", bars(2001, 1), 413, "the chart has more than 2,000 bars"},
		{"chords", mediaJSON, "", bars(1251, 4), 413, "the chart has more than 5,000 chords"},
		{"bars of a text", mediaText, "", strings.Repeat("| C ", 2001), 413, "the chart has more than 2,000 bars"},
		{"bars as played", mediaText, "", "|:" + strings.Repeat(" C |", 1000) + " C :|", 413, "the chart, played with its repeats, has more than 2,000 bars"},
		{"endless", mediaText, "", endless(), 413, "the chart, played with its repeats, has more than 2,000 bars"},
		{"bars of a tune", mediaABC, "", "X:1\nL:1/4\nM:4/4\nK:C\n" + strings.Repeat(`"C"c4|`, 2001), 413, "the chart has more than 2,000 bars"},
		{"bars of a tune as played", mediaABC, "", "X:1\nL:1/4\nM:4/4\nK:C\n|:" + strings.Repeat(`"C"c4|`, 1000) + `"C"c4:|`, 413, "the chart, played with its repeats, has more than 2,000 bars"},
		{"bars of a score", mediaScore, "", longScore(2001, ""), 413, "the chart has more than 2,000 bars"},
		{"bars of a score as played", mediaScore, "", longScore(1001, ` times="2"`), 413, "the chart, played with its repeats, has more than 2,000 bars"},
		{"bars of a score whose repeats are written out", mediaScore, "", longScore(500, ` times="5"`), 413, "the chart has more than 2,000 bars"},
		{"a score endless as played", mediaScore, "", longScore(1500, ` times="99"`), 413, "the chart, played with its repeats, has more than 2,000 bars"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			w := convert(t, "", test.media, test.accept, test.body)
			require.Equal(t, test.status, w.Code, "%s", w.Body)
			p := problemIn(t, w)
			assert.Equal(t, test.detail, p.Detail)
			assert.Empty(t, p.Errors)
		})
	}
	assert.Equal(t, 200, convert(t, "", mediaText, "", pad(millText, maxChart)).Code)
	assert.Equal(t, 405, ask(t, http.MethodGet, "/v1/charts", "").Code)
	assert.Equal(t, "POST, OPTIONS", ask(t, http.MethodOptions, "/v1/charts", "").Header().Get("Allow"))
	limited := New(Options{Rate: 1})
	assert.Equal(t, 200, askOf(t, limited, http.MethodPost, "/v1/charts", millRequest).Code)
	assert.Equal(t, 429, askOf(t, limited, http.MethodPost, "/v1/charts", millRequest).Code)
}

// longScore has so many measures of C, and repeats them where that is said.
func longScore(measures int, times string) string {
	const measure = `<measure><harmony><root><root-step>C</root-step></root><kind>major</kind></harmony><note><rest/><duration>4</duration></note>%s</measure>`
	end := ""
	if times != "" {
		end = `<barline location="right"><repeat direction="backward"` + times + `/></barline>`
	}
	return `<score-partwise><part-list><score-part id="P1"><part-name>Lead</part-name></score-part></part-list><part id="P1">` +
		`<measure><attributes><divisions>1</divisions><time><beats>4</beats><beat-type>4</beat-type></time></attributes><harmony><root><root-step>C</root-step></root><kind>major</kind></harmony><note><rest/><duration>4</duration></note></measure>` +
		strings.Repeat(fmt.Sprintf(measure, ""), measures-2) + fmt.Sprintf(measure, end) + `</part></score-partwise>`
}

// An archive that unpacks to far more than a score may have is not unpacked.
func TestArchiveBomb(t *testing.T) {
	const size = 512 << 20
	var bomb bytes.Buffer
	w := zip.NewWriter(&bomb)
	m, err := w.Create("mill.xml")
	require.NoError(t, err)
	_, err = io.WriteString(m, "<score-partwise>")
	require.NoError(t, err)
	blank := bytes.Repeat([]byte(" "), 1<<20)
	for range size / len(blank) {
		_, err = m.Write(blank)
		require.NoError(t, err)
	}
	require.NoError(t, w.Close())
	require.Less(t, bomb.Len(), maxBody)

	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	answer := convert(t, "", mediaCompressed, "", bomb.String())
	runtime.ReadMemStats(&after)
	require.Equal(t, 413, answer.Code)
	assert.Equal(t, `the score is too large: "mill.xml", unpacked, has more than 32 MiB`, problemIn(t, answer).Detail)
	assert.Less(t, after.TotalAlloc-before.TotalAlloc, uint64(size))
}

// badCharts are bodies that are no chart, with every fault that is told, as
// [inLine] prints them.
var badCharts = []struct {
	name, query, media, body string
	status                   int
	want                     []string
}{
	// What is none of its media type.
	{"empty text", "", mediaText, " \n", 400, []string{`: the body is empty (send a chart)`}},
	{"empty score", "", mediaScore, "", 400, []string{`: the body is empty (send a chart)`}},
	{"empty JSON", "", mediaJSON, "", 400, []string{`: the body is empty (send a chart)`}},
	{"no JSON", "", mediaJSON, millText, 400, []string{`: expected a JSON value, found Title, line 1, column 1 of the JSON`}},
	{"ABC sent as text", "", mediaText, "X:1\nK:C\n\"C\"c4|\n", 422, []string{`: the body is ABC, not the text notation (send it with Content-Type: text/vnd.abc)`}},
	{"MusicXML sent as text", "", mediaText, millScore, 422, []string{`: the body is XML, not the text notation (send MusicXML with Content-Type: application/vnd.recordare.musicxml+xml)`}},
	{"no UTF-8", "", mediaText, "| C |\n| B\xe9 |", 400, []string{`: line 2, column 4, offset 9, byte 0xe9 is no UTF-8 (save the text as UTF-8)`}},
	{"a score cut off", "", mediaScore, millScore[:len(millScore)/2], 400, []string{`: bar 2, line 16, part "Lead", measure 2: the XML ends too early (export it again)`}},
	{"no tune", "", mediaABC, millText, 400, []string{`: the file holds no tune, expected a line X:1 where one begins (a tune begins with X:1, then T: with its title, M:4/4 and K:C)`}},
	{"a tune in UTF-16", "", mediaABC, "\xff\xfeX\x00:\x001\x00", 400, []string{`: the file is in UTF-16, expected UTF-8 (save it in UTF-8)`}},
	{"no archive", "", mediaCompressed, "PK\x03\x04 and no more", 400, []string{`: the compressed file is damaged (export it again)`}},

	// What is understood.
	{"no chord", "", mediaText, "| C |\n| CΔ x7 | b7 |", 422, []string{
		`: bar 2, line 2, column 6, offset 12, in "x7", expected a root A to G or N.C.`,
		`: bar 3, line 2, column 11, offset 17, in "b7", expected the root in upper case (write B7 or Bm7)`,
	}},
	{"a header", "", mediaText, "Key: H\n| C |", 422, []string{`: line 1, column 6, offset 5, in "H", expected a note name A to G (the German H is B)`}},
	{"no bars", "", mediaText, "Title: Mill Road", 422, []string{`: line 1, column 17, offset 16, the chart has no bars (write chords between bar lines: | C | F G |)`}},
	{"a request", "", mediaJSON, `{"changes": "| b7 |", "tempo": 120}`, 422, []string{
		`/tempo: unknown field (the fields are title, meter, key, changes, bars, options and warnings)`,
		`/changes: bar 1, line 1, column 3, offset 2, in "b7", expected the root in upper case (write B7 or Bm7)`,
	}},
	{"a page", "", mediaScore, "<html><body/></html>", 422, []string{`: line 1, the file is <html>, no score of MusicXML (a score is <score-partwise> or <score-timewise>)`}},
	{"melody alone", "", mediaScore, strings.ReplaceAll(millScore, "harmony", "harmonics"), 422, []string{`: the file has no chord symbols (they are <harmony> elements; notes alone are not read)`}},
	{"kinds", "", mediaScore, strings.NewReplacer(">dominant<", ">dominating<", ">major-sixth<", ">sixth<").Replace(millScore), 422, []string{
		`: bar 1, line 12, in "C", part "Lead", measure 1: the kind "dominating" is none of MusicXML's (such as major, minor, dominant, minor-seventh)`,
		`: bar 3, line 21, in "D/F#", part "Lead", measure 3: the kind "dominating" is none of MusicXML's (such as major, minor, dominant, minor-seventh)`,
		`: bar 4, line 27, in "F", part "Lead", measure 4: the kind "sixth" is none of MusicXML's (such as major, minor, dominant, minor-seventh)`,
	}},
	{"an archive without a score", "", mediaCompressed, archiveOf([][2]string{{"cover.png", ""}}), 422, []string{`: the compressed file holds no score (compressed MusicXML holds a .musicxml file and META-INF/container.xml)`}},
	{"two tunes", "", mediaABC, millABC + "\nX:2\nT:Low Tide\nK:C\n\"C\"c8|]\n", 422, []string{`: expected one tune, the file holds 2: X:1 "Mill Road", X:2 "Low Tide" (leave one of them, or choose one by its number)`}},
	{"chords of a tune", "", mediaABC, strings.NewReplacer(`"C7"`, `"H7"`, `"F6"`, `"F6q"`).Replace(millABC), 422, []string{
		`: bar 1, line 7, column 12, in "H7", expected a root A to G or N.C. (the German H is B)`,
		`: bar 4, line 7, column 48, in "F6q", expected an altered degree, maj7, add, no, sus, alt, a bracket or a bass (write F6, or a quality such as m7, maj7 or 7b9)`,
	}},
	{"a tune without chords", "", mediaABC, "X:1\nK:C\nCDEF|", 422, []string{`: line 1, column 1, the tune holds no chord symbols (write them in quotes before the notes, as "C"C2)`}},

	// Parameters.
	{"analyze", "?analyze=yes", mediaText, millText, 422, []string{`/analyze: expected true or false`}},
	{"analyze in capitals", "?analyze=True", mediaText, millText, 422, []string{`/analyze: expected true or false (write true)`}},
	{"analyze without a value", "?analyze", mediaText, millText, 422, []string{`/analyze: expected true or false`}},
	{"analyze twice", "?analyze=true&analyze=true", mediaText, millText, 422, []string{`/analyze: the parameter stands more than once`}},
	{"a slip", "?analyse=true", mediaText, millText, 422, []string{`/analyse: unknown parameter (write analyze)`}},
	{"an unknown parameter", "?meter=3/4", mediaText, "| C / / F@2 |", 422, []string{
		`: bar 1, line 1, column 9, offset 8, in "F", @ and / stand in one bar (give the place of every chord with @, or count all beats with /)`,
		`/meter: unknown parameter (the parameters are analyze, steps, numerals, accidentals, to and instrument)`,
	}},
	{"no query", "?analyze=%zz", mediaText, millText, 400, []string{`: the query is not as a URL demands (write % as %25, ; as %3B)`}},
	{"body and parameters", "?numerals=roman&accidentals=", mediaText, "| b7 |", 422, []string{
		`: bar 1, line 1, column 3, offset 2, in "b7", expected the root in upper case (write B7 or Bm7)`,
		`/numerals: expected upper, cased or arabic`,
		`/accidentals: expected ascii or unicode`,
	}},
}

func TestBadCharts(t *testing.T) {
	for _, test := range badCharts {
		t.Run(test.name, func(t *testing.T) {
			w := convert(t, test.query, test.media, "image/svg+xml, */*;q=0.1", test.body)
			assert.Equal(t, test.status, w.Code, "%s", w.Body)
			var got []string
			for _, f := range problemIn(t, w).Errors {
				got = append(got, inLine(f))
			}
			assert.Equal(t, test.want, got)
		})
	}
}

// An archive may be damaged beside the score, which shows when it is copied.
func TestDamagedBesideScore(t *testing.T) {
	const header = "PK\x03\x04"
	parts := strings.Split(mxl(millScore), header)
	damaged := header + parts[1] + "PK\x03\x05" + strings.Join(parts[2:], header)
	granted(t, convert(t, "?analyze=true", mediaCompressed, mediaScore, damaged))
	w := convert(t, "?analyze=true", mediaCompressed, mediaCompressed, damaged)
	require.Equal(t, 400, w.Code)
	assert.Equal(t, `: "cover.xml" cannot be copied`, inLine(problemIn(t, w).Errors[0]))
}

// The contract's names in the answer.
func TestChartContract(t *testing.T) {
	var answer map[string]any
	require.NoError(t, json.Unmarshal([]byte(granted(t, convert(t, "?analyze=true", mediaText, "", millText))), &answer))
	for _, name := range []string{"title", "meter", "key", "bars", "warnings", "analysis"} {
		assert.Contains(t, answer, name)
	}
	assertNoNullLists(t, answer)
}

// chartSeeds are bodies that noise is made of, good and bad, with their media
// types.
func chartSeeds() (seeds [][2]string) {
	seeds = append(seeds, [][2]string{{mediaText, millText}, {mediaABC, millABC}, {mediaScore, millScore}, {mediaCompressed, mxl(millScore)}}...)
	for _, test := range unfoldings {
		seeds = append(seeds, [2]string{mediaText, test.text})
	}
	for _, test := range badCharts {
		seeds = append(seeds, [2]string{test.media, test.body})
	}
	for _, body := range goodInput {
		seeds = append(seeds, [2]string{mediaJSON, body})
	}
	return seeds
}

// checkChart checks that a body is answered, and that a chart which is granted
// in one form is granted in every form, and from there again.
func checkChart(t *testing.T, h http.Handler, media string, body []byte) (status int) {
	t.Helper()
	for _, form := range forms {
		w := quietly(h, "/v1/charts?analyze=true", media, form.media, body)
		if w.Code != http.StatusOK {
			assert.Contains(t, []int{400, 413, 422}, w.Code)
			assert.Equal(t, mediaProblem, w.Header().Get("Content-Type"))
			damaged := form.media == mediaCompressed && media == mediaCompressed // beside the score
			assert.True(t, status == 0 || damaged, "%s is not granted", form.media)
			return w.Code
		}
		status = w.Code
		written := w.Body.Bytes()
		if form.media == mediaJSON {
			written = withoutAnalysis(t, written)
			again := quietly(h, "/v1/analyses", mediaJSON, mediaJSON, written)
			assert.Equal(t, http.StatusOK, again.Code, "%s\n%s", written, again.Body)
		}
		if form.media == mediaDrawing {
			assert.NoError(t, xml.Unmarshal(written, new(struct{})))
			continue
		}
		again := quietly(h, "/v1/charts", form.media, mediaText, written)
		assert.Equal(t, http.StatusOK, again.Code, "%s\n%s", written, again.Body)
	}
	return status
}

// quietly posts without holding the answer against the document.
func quietly(h http.Handler, target, media, accept string, body []byte) *httptest.ResponseRecorder {
	r := httptest.NewRequest(http.MethodPost, target, bytes.NewReader(body))
	r.Header.Set("Content-Type", media)
	r.Header.Set("Accept", accept)
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	return w
}

func withoutAnalysis(t *testing.T, answer []byte) []byte {
	t.Helper()
	var w wire.WrittenChart
	require.NoError(t, json.Unmarshal(answer, &w))
	w.Analysis = nil
	body, err := json.Marshal(w)
	require.NoError(t, err)
	return body
}

func TestChartNoise(t *testing.T) {
	posts := 3000
	if testing.Short() {
		posts = 300
	}
	h, random, seeds := New(Options{}), rand.New(rand.NewPCG(3, 4)), chartSeeds()
	statuses := map[int]int{}
	for range posts {
		seed := seeds[random.IntN(len(seeds))]
		body := []byte(seed[1])
		for range random.IntN(4) {
			body = mistake(random, body)
		}
		statuses[checkChart(t, h, seed[0], body)]++
		if t.Failed() {
			t.Fatalf("posted as %s: %q", seed[0], body)
		}
	}
	t.Log(statuses)
	assert.NotZero(t, statuses[200])
	assert.NotZero(t, statuses[400])
	assert.NotZero(t, statuses[422])
}

func FuzzCharts(f *testing.F) {
	for _, seed := range chartSeeds() {
		f.Add(seed[0], []byte(seed[1]))
	}
	h := New(Options{})
	f.Fuzz(func(t *testing.T, media string, body []byte) {
		if slices.Contains(sourceMedia(), media) {
			checkChart(t, h, media, body)
		}
	})
}
