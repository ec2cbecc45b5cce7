package api

import (
	"encoding/json"
	"net/http"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fifthwise/api/wire"
	"fifthwise/openapi"
)

// row is the chart of these tests.
const row = `{"title": "Lantern Row", "changes": "| Fmaj7 | Am7b5 D7b9/F# | Gm7 | Gb7 | Fmaj7 | % |"}`

// reviewed posts an answer to a chart; what comes back is held against the document.
func reviewed(t *testing.T, analysis, answer string) wire.Review {
	t.Helper()
	w := ask(t, http.MethodPost, "/v1/reviews", `{"analysis": `+analysis+`, "answer": `+answer+`}`)
	var r wire.Review
	require.NoError(t, json.Unmarshal([]byte(granted(t, w)), &r))
	return r
}

func TestReview(t *testing.T) {
	w := ask(t, http.MethodPost, "/v1/reviews", `{"analysis": `+row+`, "answer": {
		"regions": [{"key": "F major", "bar": 1, "beat": 1}],
		"numerals": ["Imaj7", "iiø7/ii", "VI7", null, "bII7", "I", "ii7"]}}`)
	assert.JSONEq(t, `{"score": 0.6667, "margin": 0.05, "remark": "",
		"chords": [
			{"verdict": "agrees", "expected": "Imaj7", "reason": "Fmaj7 is the tonic: F major rests here.", "chord": 0},
			{"verdict": "agrees", "expected": "IIm7b5/II", "reason": "The two that goes with the next dominant: together a two-five to G; it goes to D7b9/F#.", "chord": 1},
			{"verdict": "defensible", "expected": "V7b9/II", "reason": "The bare degree is a correct name, if a less telling one. The dominant of II: F# is the leading tone to G; it goes to Gm7.", "chord": 2},
			{"verdict": "blank", "expected": "IIm7", "reason": "The two of F major: it prepares the dominant, C.", "chord": 3},
			{"verdict": "defensible", "expected": "subV7", "reason": "The bare degree says where the chord stands, not what it does. The tritone substitute of V7: it shares E and Bb with it, and Gb is a half step above F; it goes to Fmaj7.", "chord": 4},
			{"verdict": "agrees", "expected": "Imaj7", "reason": "Fmaj7 is the tonic: F major rests here.", "chord": 5},
			{"verdict": "contradicts", "expected": "Imaj7", "reason": "ii7 in F major spells Gm7; the chart has Fmaj7.", "chord": 6}],
		"regions": [{"verdict": "agrees", "expected": "F major", "reason": "F major is heard here.", "chord": 0}],
		"roles": [
			{"role": "diatonic", "chords": 4, "missed": 2, "advice": "Write out the seventh chords of the key first, and look for chords that are among them."},
			{"role": "secondary-dominant", "chords": 1, "missed": 0, "advice": ""},
			{"role": "related-two", "chords": 1, "missed": 0, "advice": ""},
			{"role": "tritone-substitute", "chords": 1, "missed": 0, "advice": ""}]}`, granted(t, w))
}

func TestReviewOfKeysAlone(t *testing.T) {
	r := reviewed(t, row, `{"regions": [{"key": "F", "bar": 1}, {"key": "Bb major", "bar": 3, "pass": 1}]}`)
	assert.Equal(t, 0.3333, r.Score)
	assert.Equal(t, []string{"defensible", "contradicts"}, []string{r.Regions[0].Verdict, r.Regions[1].Verdict})
	assert.Equal(t, 3, r.Regions[1].Chord)
	assert.NotNil(t, r.Chords)
	assert.Empty(t, r.Chords)
	assert.Empty(t, r.Roles)
}

func TestReviewWithoutKeys(t *testing.T) {
	r := reviewed(t, row, `{"regions": [], "numerals": ["1maj7", null, "5 7 of 2", "2-7", "sub5 7", "1", "1"]}`)
	assert.Equal(t, 0.9167, r.Score)
	assert.Empty(t, r.Regions)
}

// What is told and changes no verdict: figures, a key without its mode, and an answer
// in the relative key.
func TestReviewTellsHowItIsRead(t *testing.T) {
	r := reviewed(t, `{"changes": "| Fmaj7 | Gm7 | C7/E | F |"}`, `{"regions": [{"key": "F", "bar": 1}], "numerals": ["I7", "ii65", "V65", "I"]}`)
	assert.Equal(t, 1., r.Score)
	assert.Equal(t, "In figured bass 7 is the seventh of the key. Fmaj7 is the tonic: F major rests here.", r.Chords[0].Reason)
	assert.Equal(t, "65 puts the third in the bass; the chart has the root there. The two of F major: it prepares the dominant, C.", r.Chords[1].Reason)

	minor := `{"changes": "| Cm7 | Dm7b5 G7 | Cm7 | Fm7 | Dm7b5 | G7 | Cm6 | Cm6 |"}`
	r = reviewed(t, minor, `{"regions": [{"key": "C", "bar": 1}]}`)
	assert.Contains(t, r.Regions[0].Reason, "A key without m or a mode is taken as major: write C minor if that is meant.")
	r = reviewed(t, minor, `{"regions": [{"key": "Eb", "bar": 1}], "numerals": ["vi7", "viiø7", "III7", "vi7", "ii7", "viiø7", "III7", "vi6", "vi6"]}`)
	assert.Equal(t, "The degrees fit one another, but are counted in the relative key: in Eb major, where C minor is heard.", r.Remark)
}

// The options of the reading hold for what is expected and for the sentences.
func TestReviewOptions(t *testing.T) {
	chart := strings.TrimSuffix(row, "}") + `, "options": {"numerals": "arabic", "accidentals": "unicode"}}`
	r := reviewed(t, chart, `{"regions": [{"key": "Bb major", "bar": 1}], "numerals": [null, null, null, null, null, null, null]}`)
	assert.Equal(t, "5 7♭9/2", r.Chords[2].Expected)
	assert.Contains(t, r.Regions[0].Reason, "B♭ major")
}

// Chart and answer as lists, with repeats unfolded.
func TestReviewOfBars(t *testing.T) {
	bars := `{"bars": [{"number": 5, "chords": [{"symbol": "Dm7"}, {"symbol": "G7"}]}, {"chords": [{"symbol": "N.C."}]}, {"chords": [{"symbol": "Cmaj7"}]}]}`
	r := reviewed(t, bars, `{"regions": [{"key": "C major", "bar": 5}], "numerals": ["IIm7", "V7", "I"]}`)
	assert.Equal(t, 1., r.Score)
	assert.Equal(t, 3, r.Chords[2].Chord)

	repeated := `{"changes": "|: Dm7 G7 | Cmaj7 :|"}`
	r = reviewed(t, repeated, `{"regions": [{"key": "C major", "bar": 1}, {"key": "C major", "bar": 1, "beat": 1, "pass": 2}], "numerals": ["ii", "V", "I", "ii", "V", "I"]}`)
	assert.Equal(t, 1., r.Score)
}

func TestReviewRefusals(t *testing.T) {
	const chart = `{"changes": "|: Dm7 G7 | Cmaj7 :|"}`
	tests := []struct {
		name, body string
		status     int
		want       []string
	}{
		{"nothing", ``, 400, []string{`: the body is empty (send a JSON object)`}},
		{"no fields", `{}`, 422, []string{`/analysis: the field is missing or empty`, `/answer: the field is missing or empty`}},
		{"null for the chart", `{"analysis": null, "answer": {"numerals": []}}`, 400, []string{`/analysis: expected an object, not null (leave the field out)`}},
		{"null for the numerals", `{"analysis": ` + chart + `, "answer": {"numerals": null}}`, 400, []string{`/answer/numerals: expected a list, not null (leave the field out)`}},
		{"null for a region", `{"analysis": ` + chart + `, "answer": {"regions": [null]}}`, 400, []string{`/answer/regions/0: expected an object, not null`}},
		{"null for a key", `{"analysis": ` + chart + `, "answer": {"regions": [{"key": null, "bar": 1}]}}`, 400, []string{`/answer/regions/0/key: expected a string, not null (leave the field out)`}},
		{"a number for a numeral", `{"analysis": ` + chart + `, "answer": {"numerals": [1]}}`, 400, []string{`/answer/numerals/0: expected a string, not a number`}},
		{"a fraction for a bar", `{"analysis": ` + chart + `, "answer": {"regions": [{"key": "C", "bar": 1.5}]}}`, 400, []string{`/answer/regions/0/bar: expected a whole number, not one with a fraction or an exponent`}},
		{"an empty answer", `{"analysis": ` + chart + `, "answer": {}}`, 422, []string{`/answer: neither regions nor numerals are given (send one of the two or both)`}},
		{"too few numerals", `{"analysis": ` + chart + `, "answer": {"numerals": ["IIm7", "H"]}}`, 422, []string{
			`/answer/numerals: 2 numerals for 6 sounding chords (one for each chord as played, repeats unfolded, silences left out, blanks included)`,
			`/answer/numerals/1: offset 0, in "H", expected a degree I to VII or 1 to 7`,
		}},
		{"numerals not understood", `{"analysis": ` + chart + `, "answer": {"numerals": ["IIm7", "V7", "Cmaj7", "V65/x", null, "♭♭VII/"]}}`, 422, []string{
			`/answer/numerals/2: offset 0, in "Cmaj7", expected a degree I to VII or 1 to 7 (a chord symbol is no numeral)`,
			`/answer/numerals/3: offset 4, in "V65/x", expected the tonicised degree, I to VII or 1 to 7`,
			`/answer/numerals/5: offset 10, in "♭♭VII/", expected the tonicised degree, I to VII or 1 to 7`,
		}},
		{"regions that are none", `{"analysis": ` + chart + `, "answer": {"regions": [{"key": "H", "bar": 1}, {"bar": 1}, {"key": "C"}, {"key": "", "bar": -1, "beat": 0, "pass": 0}, {"key": "C major", "bar": 2, "beat": 1.2345}]}}`, 422, []string{
			`/answer/regions/1/key: the field is missing or empty`,
			`/answer/regions/2/bar: the field is missing or empty`,
			`/answer/regions/3/key: the field is missing or empty`,
			`/answer/regions/3/bar: expected 0 or more`,
			`/answer/regions/3/beat: expected 1 or more`,
			`/answer/regions/3/pass: expected 1 or more`,
			`/answer/regions/0/key: offset 0, expected a note name A to G (the German H is B)`,
			`/answer/regions/4/beat: these decimals stand for no simple fraction of a beat (give more decimals of it)`,
		}},
		{"regions that lie nowhere", `{"analysis": ` + chart + `, "answer": {"regions": [{"key": "C major", "bar": 3}, {"key": "C major", "bar": 2, "pass": 3}, {"key": "C major", "bar": 2, "beat": 4}, {"key": "C major", "bar": 2}, {"key": "C major", "bar": 1}]}}`, 422, []string{
			`/answer/regions/0/bar: no chord starts in bar 3 (a region begins with a chord)`,
			`/answer/regions/1/pass: bar 2 is not played 3 times`,
			`/answer/regions/2/beat: no chord of bar 2 starts on beat 4 or later (a region begins with a chord)`,
			`/answer/regions/4: the region does not begin after the one before (regions stand in the order of play)`,
		}},
		{"unknown fields", `{"analyses": 1, "analysis": {"changes": "| C |", "option": {}}, "answer": {"numeral": [], "regions": [{"key": "C", "bar": 1, "bars": 2}]}}`, 422, []string{
			`/analysis/option: unknown field (write options)`,
			`/analyses: unknown field (write analysis)`,
			`/answer/numeral: unknown field (write numerals)`,
			`/answer/regions/0/bars: unknown field (write bar)`,
		}},
		{"a chart with faults", `{"analysis": {"changes": "| Dm7 | b7 |", "key": "X", "options": {"numerals": "roman"}}, "answer": {"regions": [{"key": "Y", "bar": 1}], "numerals": ["I", "V65/x", null, "V6"]}}`, 422, []string{
			`/analysis/options/numerals: expected upper, cased or arabic`,
			`/analysis/key: offset 0, expected a note name A to G`,
			`/analysis/changes: bar 2, line 1, column 9, offset 8, in "b7", expected the root in upper case (write B7 or Bm7)`,
			`/answer/regions/0/key: offset 0, expected a note name A to G`,
			`/answer/numerals/1: offset 4, in "V65/x", expected the tonicised degree, I to VII or 1 to 7`,
		}},
		{"bars with faults", `{"analysis": {"bars": [{"chords": [{"symbol": "C", "beat s": 1}, {"symbol": "Q"}]}]}, "answer": {"numerals": []}}`, 422, []string{
			`/analysis/bars/0/chords/0/beat s: bar 1, in "C", unknown field (write beats)`,
			`/analysis/bars/0/chords/1/symbol: bar 1, offset 0, in "Q", expected a root A to G or N.C.`,
		}},
		{"no chart", `{"analysis": {"title": "Mill Road"}, "answer": {"numerals": []}}`, 422, []string{`/analysis: neither changes nor bars is given (send one of the two)`}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			w := ask(t, http.MethodPost, "/v1/reviews", tt.body, "Content-Type", mediaJSON)
			require.Equal(t, tt.status, w.Code, "%s", w.Body)
			var got []string
			for _, f := range problemIn(t, w).Errors {
				got = append(got, inLine(f))
			}
			assert.Equal(t, tt.want, got)
		})
	}
}

func TestReviewRefusedWhateverItSays(t *testing.T) {
	body := `{"analysis": ` + row + `, "answer": {"numerals": []}}`
	long := `{"analysis": {"changes": "` + strings.Repeat("| C ", 2001) + `|"}, "answer": {"numerals": []}}`
	assert.Equal(t, http.StatusMethodNotAllowed, ask(t, http.MethodGet, "/v1/reviews", "").Code)
	assert.Equal(t, http.StatusUnsupportedMediaType, ask(t, http.MethodPost, "/v1/reviews", body, "Content-Type", "text/plain").Code)
	assert.Equal(t, http.StatusUnsupportedMediaType, ask(t, http.MethodPost, "/v1/reviews", body, "Content-Type", mediaLines).Code)
	assert.Equal(t, http.StatusNotAcceptable, ask(t, http.MethodPost, "/v1/reviews", body, "Accept", "text/html").Code)
	assert.Equal(t, http.StatusRequestEntityTooLarge, ask(t, http.MethodPost, "/v1/reviews", long).Code)
	assert.Equal(t, http.StatusRequestEntityTooLarge, ask(t, http.MethodPost, "/v1/reviews", body+strings.Repeat(" ", maxBody)).Code)
}

// The example that the document shows is marked.
func TestReviewExampleOfDocument(t *testing.T) {
	var doc struct {
		Paths map[string]map[string]struct {
			RequestBody struct {
				Content map[string]struct{ Example json.RawMessage }
			}
		}
	}
	require.NoError(t, json.Unmarshal(openapi.Document, &doc))
	example := doc.Paths["/v1/reviews"]["post"].RequestBody.Content[mediaJSON].Example
	var r wire.Review
	require.NoError(t, json.Unmarshal([]byte(granted(t, ask(t, http.MethodPost, "/v1/reviews", string(example)))), &r))
	assert.Equal(t, 1., r.Score)
}
