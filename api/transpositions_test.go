package api

import (
	"encoding/json"
	"fmt"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fifthwise/api/wire"
)

// transposed posts a chart; the answer is held against the document.
func transposed(t *testing.T, body string) *httptest.ResponseRecorder {
	t.Helper()
	return ask(t, http.MethodPost, "/v1/transpositions", body)
}

func changesIn(t *testing.T, w *httptest.ResponseRecorder) (answer wire.Transpositions) {
	t.Helper()
	require.NoError(t, json.Unmarshal([]byte(granted(t, w)), &answer))
	return answer
}

// The keys of parts and cycles and the spellings are common practice, no source.
func TestTranspositions(t *testing.T) {
	tests := []struct{ name, body, from, want string }{
		{"to keys", `{"changes": "Dm7 G7 | Cmaj7", "to": ["Gb major", "F#", "E♭ major"]}`, "C major",
			"Gb major: Abm7 Db7 | Gbmaj7\nF# major: G#m7 C#7 | F#maj7\nEb major: Fm7 Bb7 | Ebmaj7"},
		{"from the key that is stated", `{"changes": "Dm7 G7 | Cmaj7", "key": "F major", "to": ["G major"]}`, "F major", "G major: Em7 A7 | Dmaj7"},
		{"from the key of the text", `{"changes": "Key: F major\nDm7 G7 | Cmaj7", "to": ["G major"]}`, "F major", "G major: Em7 A7 | Dmaj7"},
		{"a request's field wins", `{"changes": "Key: F major\nDm7 G7 | Cmaj7", "key": "C major", "to": ["D major"]}`, "C major", "D major: Em7 A7 | Dmaj7"},
		{"bars", `{"bars": [{"chords": [{"symbol": "D:min7"}, {"symbol": "G7"}]}, {"chords": [{"symbol": "CΔ"}]}], "to": ["A major"]}`, "C major", "A major: Bm7 E7 | Amaj7"},
		{"a minor tune", `{"changes": "Bm7b5 E7b9 | Am6", "to": ["G# minor"]}`, "A minor", "G# minor: A#m7b5 D#7b9 | G#m6"},
		{"for an instrument in Bb", `{"changes": "Dm7 G7 | Cmaj7", "instrument": "Bb"}`, "C major", "D major: Em7 A7 | Dmaj7"},
		{"for an instrument in Eb", `{"changes": "Dm7 G7 | Cmaj7", "instrument": "Eb"}`, "C major", "A major: Bm7 E7 | Amaj7"},
		{"for an instrument in F", `{"changes": "Dm7 G7 | Cmaj7", "instrument": "F"}`, "C major", "G major: Am7 D7 | Gmaj7"},
		{"a key that players do not write", `{"changes": "C#m7 F#7 | Bmaj7", "instrument": "Eb"}`, "B major", "Ab major: Bbm7 Eb7 | Abmaj7"},
		{"a theoretical key", `{"changes": "Dm7 G7 | Cmaj7", "to": ["G# major"]}`, "C major", "Ab major: Bbm7 Eb7 | Abmaj7"},
		{"around by fourths", `{"changes": "Cm7 F7 | Bbmaj7", "cycle": "fourths"}`, "Bb major",
			"Bb major: Cm7 F7 | Bbmaj7\nEb major: Fm7 Bb7 | Ebmaj7\nAb major: Bbm7 Eb7 | Abmaj7\nDb major: Ebm7 Ab7 | Dbmaj7\nGb major: Abm7 Db7 | Gbmaj7\nB major: C#m7 F#7 | Bmaj7\n" +
				"E major: F#m7 B7 | Emaj7\nA major: Bm7 E7 | Amaj7\nD major: Em7 A7 | Dmaj7\nG major: Am7 D7 | Gmaj7\nC major: Dm7 G7 | Cmaj7\nF major: Gm7 C7 | Fmaj7"},
		{"a modulation", `{"changes": "Dm7 | G7 | Cmaj7 | % | F#m7 | B7 | Emaj7 | % | Dm7 | G7 | Cmaj7 | %", "to": ["B major"]}`, "C major",
			"B major: C#m7 | F#7 | Bmaj7 | Bmaj7 | Fm7 | Bb7 | Ebmaj7 | Ebmaj7 | C#m7 | F#7 | Bmaj7 | Bmaj7"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			answer := changesIn(t, transposed(t, tt.body))
			assert.Equal(t, tt.from, answer.From)
			var got []string
			for _, c := range answer.Charts {
				head, bars, ok := strings.Cut(c.Changes, "\n\n")
				require.True(t, ok)
				assert.Equal(t, "Meter: 4/4\nKey: "+c.Key, head)
				got = append(got, c.Key+": "+strings.TrimSuffix(strings.TrimPrefix(strings.ReplaceAll(bars, "|\n|", "|"), "| "), " |\n"))
			}
			assert.Equal(t, tt.want, strings.Join(got, "\n"))
		})
	}
}

func TestTranspositionKeepsTheChart(t *testing.T) {
	const body = `{"title": "Slow Ferry", "meter": "3/4", "changes": "Pickup: 1\nG7 | [A] |: C | Am@2.5 | 1. Dm7 G7 / :| 2. C / N.C. || (Dm7 G7) /", "to": ["Ab major"]}`
	answer := changesIn(t, transposed(t, body))
	assert.Equal(t, []wire.TransposedChart{{Key: "Ab major", Changes: "Title: Slow Ferry\nMeter: 3/4\nKey: Ab major\nPickup: 1\n\n| Eb7 |\n\n[A]\n|: Ab | Fm@2.5 | 1. Bbm7 Eb7 / :| 2. Ab / N.C. ||\n| (Bbm7 Eb7) / |\n"}}, answer.Charts)
}

// Around and home again the chart is the same.
func TestCyclesComeHome(t *testing.T) {
	const changes = "Title: Slow Ferry\nMeter: 4/4\nKey: F major\n\n[A]\n|: Gm7 C7 | Fmaj7 D7b9/F# | 1. Bbm7 Eb7 :| 2. F6 Gb7 ||\n| Abdim7 Gm7 |\n"
	for _, cycle := range []string{"fourths", "fifths", "chromatic"} {
		body, err := json.Marshal(map[string]string{"changes": changes, "cycle": cycle})
		require.NoError(t, err)
		charts := changesIn(t, transposed(t, string(body))).Charts
		require.Len(t, charts, 12)
		assert.Equal(t, changes, charts[0].Changes)
		for _, c := range charts {
			body, err := json.Marshal(map[string]any{"changes": c.Changes, "to": []string{"F major"}})
			require.NoError(t, err)
			assert.Equal(t, changes, changesIn(t, transposed(t, string(body))).Charts[0].Changes, "from %s", c.Key)
		}
	}
}

var badTranspositions = []struct {
	name, body string
	status     int
	want       []string
}{
	{"nothing to do", `{"changes": "C"}`, 422, []string{`: none of to, instrument and cycle is given (send one of them)`}},
	{"too much to do", `{"changes": "C", "to": ["D"], "instrument": "Bb", "cycle": "fifths"}`, 422, []string{
		`/instrument: to and instrument exclude each other (send one of to, instrument and cycle)`,
		`/cycle: to and cycle exclude each other (send one of to, instrument and cycle)`,
	}},
	{"no chart", `{"to": ["D"]}`, 422, []string{`: neither changes nor bars is given (send one of the two)`}},
	{"no keys", `{"changes": "C", "to": []}`, 422, []string{`/to: expected a list of 1 or more`}},
	{"too many keys", `{"changes": "C", "to": [` + strings.Repeat(`"C", `, 30) + `"C"]}`, 422, []string{`/to: expected a list of 30 or less`}},
	{"other modes", `{"changes": "Dm7 G7 | Cmaj7", "to": ["F minor", "F", "D dorian"]}`, 422, []string{
		`/to/0: the chart is in C major: expected a key in major, not F minor (write F major)`,
		`/to/2: the chart is in C major: expected a key in major, not D dorian (write D major)`,
	}},
	{"no key of the list", `{"changes": "C | b7", "to": ["D", "H", "e"]}`, 422, []string{
		`/changes: bar 2, line 1, column 5, offset 4, in "b7", expected the root in upper case (write B7 or Bm7)`,
		`/to/1: offset 0, expected a note name A to G (the German H is B)`,
		`/to/2: offset 0, expected a note name A to G (write E major or E minor)`,
	}},
	{"an instrument", `{"changes": "C", "instrument": "bb"}`, 422, []string{`/instrument: expected Bb, Eb or F (write Bb)`}},
	{"a cycle", `{"changes": "C", "cycle": "Fourth"}`, 422, []string{`/cycle: expected fourths, fifths or chromatic (write fourths)`}},
	{"nothing sounds", `{"changes": "N.C.", "to": ["D"]}`, 422, []string{`/key: no key is stated, and none can be read from a chart in which nothing sounds (state the key)`}},
	{"an unknown field", `{"changes": "C", "keys": ["D"]}`, 422, []string{
		`/keys: unknown field (write key)`,
		`: none of to, instrument and cycle is given (send one of them)`,
	}},
	{"a key for keys", `{"changes": "C", "to": "D"}`, 400, []string{`/to: expected a list, not a string`}},
	{"null", `{"changes": "C", "to": null}`, 400, []string{`/to: expected a list, not null (leave the field out)`}},
	{"nothing", ` `, 400, []string{`: the body is empty (send a JSON object)`}},
}

func TestBadTranspositions(t *testing.T) {
	for _, tt := range badTranspositions {
		t.Run(tt.name, func(t *testing.T) {
			w := transposed(t, tt.body)
			assert.Equal(t, tt.status, w.Code, "%s", w.Body)
			var got []string
			for _, f := range problemIn(t, w).Errors {
				got = append(got, inLine(f))
			}
			assert.Equal(t, tt.want, got)
		})
	}
	assert.Equal(t, 405, ask(t, http.MethodGet, "/v1/transpositions", "").Code)
	assert.Equal(t, 415, ask(t, http.MethodPost, "/v1/transpositions", `{}`, "Content-Type", mediaText).Code)
	assert.Equal(t, 406, ask(t, http.MethodPost, "/v1/transpositions", `{}`, "Accept", mediaText).Code)
	assert.Equal(t, 413, transposed(t, `{"changes": "C`+strings.Repeat(" |\\nC", maxBars)+`", "cycle": "fifths"}`).Code)
}

// What comes back as JSON may be sent again.
func TestTranspositionOfAnAnswer(t *testing.T) {
	written := granted(t, convert(t, "", mediaText, "", millText))
	answer := changesIn(t, transposed(t, strings.Replace(written, `"bars"`, `"instrument":"F","bars"`, 1)))
	assert.Equal(t, "C major", answer.Charts[0].Key)
}

// A chart of each form goes to another key on its way to each form.
func TestChartsTransposed(t *testing.T) {
	const want = "Title: Mill Road\nMeter: 4/4\nKey: Db major\n\n[A]\n|: Ebm7 Ab7 | Dbmaj7 | 1. Bb7b9/D :| 2. Db6 ||\n"
	for _, from := range []struct{ media, body string }{
		{mediaJSON, millRequest}, {mediaText, millText}, {mediaScore, millScore}, {mediaCompressed, mxl(millScore)}, {mediaABC, millABC},
	} {
		for _, form := range formMedia() {
			w := convert(t, "?to=Db%20major", from.media, form, from.body)
			written := granted(t, w)
			switch form {
			case mediaText:
				assert.Equal(t, want, written, from.media)
			case mediaDrawing:
				assert.Contains(t, written, "D♭", from.media)
			default:
				again := granted(t, convert(t, "", form, mediaText, written))
				if form == mediaJSON {
					assert.Contains(t, again, "Key: Db major", from.media)
					continue
				}
				assert.Equal(t, want, again, "%s as %s", from.media, form)
			}
		}
	}
	part := granted(t, convert(t, "?instrument=Eb&analyze=true", mediaScore, mediaScore, millScore))
	assert.Contains(t, part, "<fifths>2</fifths>", "F major for an instrument in Eb is D major")
	assert.NotContains(t, part, "grind", "the melody cannot come along")
	assert.Contains(t, part, "D major")
}

func TestBadChartsTransposed(t *testing.T) {
	tests := []struct{ query, media, body, want string }{
		{"?to=D%20minor", mediaText, millText, `/to: the chart is in F major: expected a key in major, not D minor (write D major)`},
		{"?to=H", mediaText, millText, `/to: offset 0, expected a note name A to G (the German H is B)`},
		{"?to=", mediaText, millText, `/to: offset 0, expected a note name A to G`},
		{"?instrument=G", mediaScore, millScore, `/instrument: expected Bb, Eb or F`},
		{"?instrument=Bb&to=D", mediaABC, millABC, `/instrument: to and instrument exclude each other (send one of the two)`},
	}
	for _, tt := range tests {
		t.Run(tt.query, func(t *testing.T) {
			w := convert(t, tt.query, tt.media, "", tt.body)
			assert.Equal(t, 422, w.Code, "%s", w.Body)
			errors := problemIn(t, w).Errors
			require.Len(t, errors, 1)
			assert.Equal(t, tt.want, inLine(errors[0]))
		})
	}
}

// Whatever is sent is answered, and a refusal is a problem.
func FuzzTranspositions(f *testing.F) {
	for _, body := range goodInput {
		f.Add(`{"cycle": "fifths", ` + body[1:])
		f.Add(`{"to": ["F major", "D minor"], ` + body[1:])
	}
	for _, test := range badTranspositions {
		f.Add(test.body)
	}
	h := New(Options{})
	f.Fuzz(func(t *testing.T, body string) {
		r := httptest.NewRequest(http.MethodPost, "/v1/transpositions", strings.NewReader(body))
		r.Header.Set("Content-Type", mediaJSON)
		w := httptest.NewRecorder()
		h.ServeHTTP(w, r)
		if w.Code != http.StatusOK {
			assert.Contains(t, []int{400, 413, 422}, w.Code)
			problemIn(t, w)
			return
		}
		for _, c := range changesIn(t, w).Charts {
			again := transposed(t, fmt.Sprintf(`{"changes": %s, "instrument": "Bb"}`, quoted(t, c.Changes)))
			assert.Equal(t, http.StatusOK, again.Code, "%s", again.Body)
		}
	})
}

func quoted(t *testing.T, text string) string {
	t.Helper()
	body, err := json.Marshal(text)
	require.NoError(t, err)
	return string(body)
}

// The longest chart around all keys is answered before a client gives up.
func TestLongestCycle(t *testing.T) {
	var bars strings.Builder
	for i := range maxBars {
		fmt.Fprintf(&bars, "| %s ", strings.Fields("Dm7 G7 Cmaj7 A7b9 Fm7 Bb7 Em7 Ebdim7")[i%8])
	}
	body, err := json.Marshal(map[string]string{"changes": bars.String(), "cycle": "chromatic"})
	require.NoError(t, err)
	answer := changesIn(t, transposed(t, string(body)))
	assert.Len(t, answer.Charts, 12)
}

func BenchmarkTranspositions(b *testing.B) {
	h := New(Options{})
	body := `{"changes": "` + strings.Repeat("Dm7 | G7 | Cmaj7 | A7b9 | ", 8) + `C6", "cycle": "fourths"}`
	b.ReportAllocs()
	for b.Loop() {
		r := httptest.NewRequest(http.MethodPost, "/v1/transpositions", strings.NewReader(body))
		r.Header.Set("Content-Type", mediaJSON)
		w := httptest.NewRecorder()
		h.ServeHTTP(w, r)
		require.Equal(b, http.StatusOK, w.Code)
	}
}
