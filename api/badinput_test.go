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

// badInput are bodies of POST /v1/analyses, with the status and every fault
// that is told, as [inLine] prints them. The first fault of 400s is the only one.
var badInput = []struct {
	name   string
	body   string
	status int
	want   []string
}{
	// What is no JSON, or no such JSON.
	{"nothing", "", 400, []string{`: the body is empty (send a JSON object)`}},
	{"blanks", " \n\t", 400, []string{`: the body is empty (send a JSON object)`}},
	{"no JSON", "| C | F |", 400, []string{`: expected a JSON value, found |, line 1, column 1 of the JSON`}},
	{"cut off", `{"changes": "| C |"`, 400, []string{`: the JSON ends too early`}},
	{"cut off in a string", `{"changes": "| C |`, 400, []string{`/changes: the JSON ends too early`}},
	{"a word cut off", `nul`, 400, []string{`: the JSON ends too early`}},
	{"a word", "not json", 400, []string{`: expected a JSON value, found not, line 1, column 1 of the JSON`}},
	{"words of other languages", `{"changes": None}`, 400, []string{`/changes: expected a JSON value, found None, line 1, column 13 of the JSON (leave the field out)`}},
	{"almost a word of JSON", `{"bars": [{"double": trueish}]}`, 400, []string{`/bars/0: expected a comma or } behind the value, found ish, line 1, column 26 of the JSON`}},
	{"a word with a slip", `{"bars": [{"double": ture}]}`, 400, []string{`/bars/0/double: expected a JSON value, found ture, line 1, column 22 of the JSON`}},
	{"no comma in a list", "{\"bars\": [{}\n{}]}", 400, []string{`/bars: expected a comma or ] behind the value, found {, line 2, column 1 of the JSON`}},
	{"no comma behind a field", `{"title": "a" "changes": "| C |"}`, 400, []string{`: expected a comma or } behind the value, found ", line 1, column 15 of the JSON`}},
	{"comma behind the last chord", `{"bars": [{"chords": [], }]}`, 400, []string{`/bars/0: a comma with nothing behind it, line 1, column 24 of the JSON (leave it out)`}},
	{"number for a name", `{"title": "a", 1: 2}`, 400, []string{`: expected the name of a field in double quotes, found 1, line 1, column 16 of the JSON`}},
	{"zeros before a number", `{"options": {"alternatives": 01}}`, 400, []string{`/options: expected a comma or } behind the value, found 1, line 1, column 31 of the JSON`}},
	{"no digits", `{"options": {"alternatives": -}}`, 400, []string{`/options/alternatives: expected a digit of the number, found }, line 1, column 31 of the JSON`}},
	{"no such escape", `{"title": "\q"}`, 400, []string{`/title: no such escape in a string, line 1, column 12 of the JSON (a backslash is written \\)`}},
	{"brackets that differ", `{"bars": [}`, 400, []string{`/bars/0: expected a JSON value, found }, line 1, column 11 of the JSON`}},
	{"a word too long to tell", strings.Repeat("w", 21), 400, []string{`: expected a JSON value, found w, line 1, column 1 of the JSON`}},
	{"name without quotes", `{changes: "| C |"}`, 400, []string{`: expected the name of a field in double quotes, found changes, line 1, column 2 of the JSON`}},
	{"single quotes", "{\n  \"changes\": '| C |'}", 400, []string{`/changes: expected a JSON value, found ', line 2, column 14 of the JSON (names and strings stand in double quotes, ")`}},
	{"quotes of print", `{“changes”: "| C |"}`, 400, []string{`: expected the name of a field in double quotes, found “, line 1, column 2 of the JSON (names and strings stand in double quotes, ")`}},
	{"a space that does not break", "{\u00a0\"changes\": \"| C |\"}", 400, []string{`: expected the name of a field in double quotes, found U+00A0, line 1, column 2 of the JSON`}},
	{"comma behind the last field", `{"changes": "| C |",}`, 400, []string{`: a comma with nothing behind it, line 1, column 20 of the JSON (leave it out)`}},
	{"no colon", `{"changes" "| C |"}`, 400, []string{`/changes: expected a colon behind the name of the field, found ", line 1, column 12 of the JSON`}},
	{"line break in a string", "{\"changes\": \"| C |\n| F |\"}", 400, []string{`/changes: a control character in a string, line 1, column 19 of the JSON (a line break is written \n, a tab \t)`}},
	{"byte order mark", "\ufeff{\"changes\": \"| C |\"}", 400, []string{`: expected a JSON value, found U+FEFF, line 1, column 1 of the JSON (leave out the byte order mark)`}},
	{"another value behind", `{"changes": "| C |"} {}`, 400, []string{`: expected nothing behind the JSON value, found {, line 1, column 22 of the JSON (send one object, or with application/x-ndjson one a line; curl keeps line ends with --data-binary)`}},
	{"field twice", `{"changes": "| C |", "changes": "| F |"}`, 400, []string{`/changes: the field "changes" stands twice`}},
	{"field twice, deep", `{"bars": [{"chords": [{"symbol": "C", "symbol": "F"}]}]}`, 400, []string{`/bars/0/chords/0/symbol: the field "symbol" stands twice`}},
	{"unknown field twice", `{"x": 1, "x": 2, "changes": "| C |"}`, 400, []string{`/x: the field "x" stands twice`}},
	{"not UTF-8", "{\"title\": \"\xff\", \"changes\": \"| C |\"}", 400, []string{`/title: invalid UTF-8, line 1, column 12 of the JSON`}},
	{"half of a surrogate pair", `{"title": "\ud800", "changes": "| C |"}`, 400, []string{`/title: half of a surrogate pair in a string, line 1, column 12 of the JSON`}},
	{"nested too deeply", strings.Repeat(`{"changes": [`, 6000), 400, []string{`: lists and objects are nested too deeply, line 1, column 65001 of the JSON`}},
	{"a list", `[{"changes": "| C |"}]`, 400, []string{`: expected an object, not a list`}},
	{"a string", `"| C |"`, 400, []string{`: expected an object, not a string`}},
	{"null", `null`, 400, []string{`: expected an object, not null`}},
	{"null for a string", `{"title": null, "changes": "| C |"}`, 400, []string{`/title: expected a string, not null (leave the field out)`}},
	{"null for a list", `{"changes": "| C |", "bars": null}`, 400, []string{`/bars: expected a list, not null (leave the field out)`}},
	{"null for a bar", `{"bars": [{"chords": [{"symbol": "C"}]}, null]}`, 400, []string{`/bars/1: expected an object, not null`}},
	{"null behind an unknown field", `{"tempo": 120, "key": null, "changes": "| C |"}`, 400, []string{`/key: expected a string, not null (leave the field out)`}},
	{"number for a string", `{"changes": 7}`, 400, []string{`/changes: expected a string, not a number`}},
	{"string for a list", `{"bars": "| C |"}`, 400, []string{`/bars: expected a list, not a string`}},
	{"string for a chord", `{"bars": [{"chords": ["C"]}]}`, 400, []string{`/bars/0/chords/0: expected an object, not a string`}},
	{"string for a number", `{"bars": [{"chords": [{"symbol": "C", "beats": "4"}]}]}`, 400, []string{`/bars/0/chords/0/beats: expected a number, not a string`}},
	{"string for a truth", `{"bars": [{"chords": [{"symbol": "C", "optional": "yes"}]}]}`, 400, []string{`/bars/0/chords/0/optional: expected true or false, not a string`}},
	{"list for an object", `{"changes": "| C |", "options": []}`, 400, []string{`/options: expected an object, not a list`}},
	{"fraction for a whole number", `{"changes": "| C |", "options": {"alternatives": 2.5}}`, 400, []string{`/options/alternatives: expected a whole number, not one with a fraction or an exponent`}},
	{"type before unknown fields", `{"tempo": 120, "changes": true}`, 400, []string{`/changes: expected a string, not true`}},

	// Fields.
	{"no chart", `{}`, 422, []string{`: neither changes nor bars is given (send one of the two)`}},
	{"two charts, one empty", `{"changes": "| C |", "bars": []}`, 422, []string{`/bars: changes and bars exclude each other (send one of the two)`}},
	{"two charts", `{"changes": "| C |", "bars": [{"chords": [{"symbol": "C"}]}]}`, 422, []string{`/bars: changes and bars exclude each other (send one of the two)`}},
	{"unknown fields", `{"Changes": "| C |", "tempo": 120, "options": {"numeral": "upper"}}`, 422, []string{
		`/Changes: unknown field (write changes)`,
		`/tempo: unknown field (the fields are title, meter, key, changes, bars, options and warnings)`,
		`/options/numeral: unknown field (write numerals)`,
		`: neither changes nor bars is given (send one of the two)`,
	}},
	{"unknown fields in bars", `{"bars": [{"sections": "A", "chords": [{"symbol": "C", "beat s": 4}]}]}`, 422, []string{
		`/bars/0/sections: bar 1, unknown field (write section)`,
		`/bars/0/chords/0/beat s: bar 1, in "C", unknown field (write beats)`,
	}},
	{"unknown name with a slash", `{"a/b~c": 1, "changes": "| C |"}`, 422, []string{`/a~1b~0c: unknown field (the fields are title, meter, key, changes, bars, options and warnings)`}},
	{"values out of their lists", `{"changes": "| C |", "options": {"numerals": "Upper", "accidentals": "", "alternatives": 6}}`, 422, []string{
		`/options/numerals: expected upper, cased or arabic (write upper)`,
		`/options/accidentals: expected ascii or unicode`,
		`/options/alternatives: expected 5 or less`,
	}},
	{"negative number", `{"changes": "| C |", "options": {"alternatives": -1}}`, 422, []string{`/options/alternatives: expected 0 or more`}},
	{"a number beyond all numbers", `{"changes": "| C |", "options": {"alternatives": 99999999999999999999}}`, 422, []string{`/options/alternatives: the number is too large`}},
	{"a length beyond all lengths", `{"bars": [{"chords": [{"symbol": "C", "beats": 1e999}]}]}`, 422, []string{`/bars/0/chords/0/beats: the number is too large`}},
	{"no key", `{"key": "H major", "changes": "| C |"}`, 422, []string{`/key: offset 0, expected a note name A to G (the German H is B)`}},
	{"an empty key", `{"key": "", "changes": "| C |"}`, 422, []string{`/key: offset 0, expected a note name A to G`}},
	{"a key in lower case", `{"key": "c", "changes": "| C |"}`, 422, []string{`/key: offset 0, expected a note name A to G (write C major or C minor)`}},
	{"no meter", `{"meter": "3/5", "changes": "| C |"}`, 422, []string{`/meter: offset 2, expected 1, 2, 4, 8, 16 or 32 as the lower number of a meter`}},
	{"title of two lines", `{"title": "Slow\nFerry", "changes": "| C |"}`, 422, []string{`/title: the title holds a line break or another control character`}},

	// The text notation.
	{"empty text", `{"changes": ""}`, 422, []string{`/changes: line 1, column 1, offset 0, the chart has no bars (write chords between bar lines: | C | F G |)`}},
	{"root in lower case", `{"changes": "| Dm7 | b7 |"}`, 422, []string{`/changes: bar 2, line 1, column 9, offset 8, in "b7", expected the root in upper case (write B7 or Bm7)`}},
	{"behind signs of several bytes", `{"changes": "| CΔ B♭ø |\n| Hm |"}`, 422, []string{`/changes: bar 2, line 2, column 3, offset 17, in "Hm", expected a root A to G or N.C. (the German H is B)`}},
	{"numerals", `{"changes": "| ii7 bVII7 | I |"}`, 422, []string{
		`/changes: bar 1, line 1, column 3, offset 2, in "ii7", expected a root A to G or N.C. (this looks like a numeral, not like a chord symbol; /v1/realizations makes chords of numerals)`,
		`/changes: bar 1, line 1, column 7, offset 6, in "bVII7", expected a root A to G or N.C. (this looks like a numeral, not like a chord symbol; /v1/realizations makes chords of numerals)`,
		`/changes: bar 2, line 1, column 15, offset 14, in "I", expected a root A to G or N.C. (this looks like a numeral, not like a chord symbol; /v1/realizations makes chords of numerals)`,
	}},
	{"a numeral in a bar", `{"bars": [{"chords": [{"symbol": "V7/II"}]}]}`, 422, []string{`/bars/0/chords/0/symbol: bar 1, offset 0, in "V7/II", expected a root A to G or N.C. (this looks like a numeral, not like a chord symbol; /v1/realizations makes chords of numerals)`}},
	{"too few beats", `{"changes": "| C / F |"}`, 422, []string{`/changes: bar 1, line 1, column 3, offset 2, the bar has 3 of 4 beats (in a bar with / each chord and each / is one beat)`}},
	{"empty bar", `{"changes": "| C | | F |"}`, 422, []string{`/changes: bar 2, line 1, column 7, offset 6, in "| |", the bar is empty (% writes the bar before again, N.C. is silence; if two bars were joined, drop one of the lines)`}},
	{"unknown header value", `{"changes": "Key: X\nMeter: 4\n| C |"}`, 422, []string{
		`/changes: line 1, column 6, offset 5, in "X", expected a note name A to G`,
		`/changes: line 2, column 8, offset 14, in "4", expected a meter (for example 3/4)`,
	}},
	{"group not closed", `{"changes": "| C | (G7 |"}`, 422, []string{`/changes: bar 2, line 1, column 7, offset 6, in "(", the optional group is not closed (write ) behind its last chord)`}},
	{"all faults at once", `{"key": "Q", "changes": "| Cx | c | F |", "options": {"numerals": "roman"}}`, 422, []string{
		`/options/numerals: expected upper, cased or arabic`,
		`/key: offset 0, expected a note name A to G`,
		`/changes: bar 2, line 1, column 8, offset 7, in "c", expected the root in upper case (write C or Cm)`,
	}},
	{"beats under a meter not understood", `{"meter": "5", "changes": "| C / F | H |"}`, 422, []string{
		`/meter: offset 0, expected a meter (for example 3/4)`,
		`/changes: bar 2, line 1, column 11, offset 10, in "H", expected a root A to G or N.C. (the German H is B)`,
	}},

	// Bars as lists.
	{"no bars", `{"bars": []}`, 422, []string{`/bars: the chart has no bars (list one at least)`}},
	{"a bar without its list", `{"bars": [{}]}`, 422, []string{`/bars/0/chords: bar 1, the field is missing or empty`}},
	{"nothing to hold", `{"bars": [{"chords": []}]}`, 422, []string{`/bars/0/chords: bar 1, no chord stands before the bar that could be held through it (write N.C. for silence)`}},
	{"chord without a symbol", `{"bars": [{"chords": [{"symbol": "C"}, {"beat": 3}]}]}`, 422, []string{`/bars/0/chords/1/symbol: bar 1, the field is missing or empty`}},
	{"symbol not understood", `{"bars": [{"chords": [{"symbol": "C"}]}, {"number": 7, "chords": [{"symbol": "F"}, {"symbol": "G7q"}]}]}`, 422, []string{`/bars/1/chords/1/symbol: bar 7, offset 2, in "G7q", expected an altered degree, maj7, add, no, sus, alt, a bracket or a bass (write G7, or a quality such as m7, maj7 or 7b9)`}},
	{"beat before the bar", `{"bars": [{"chords": [{"symbol": "C", "beat": 0}]}]}`, 422, []string{`/bars/0/chords/0/beat: bar 1, in "C", expected 1 or more`}},
	{"beat behind the bar", `{"bars": [{"chords": [{"symbol": "C", "beat": 1}, {"symbol": "F", "beat": 5}]}]}`, 422, []string{`/bars/0/chords/1/beat: bar 1, in "F", beat 5 lies behind the bar (its last beat is 4)`}},
	{"beats out of order", `{"bars": [{"chords": [{"symbol": "C", "beat": 3}, {"symbol": "F", "beat": 2}]}]}`, 422, []string{`/bars/0/chords/1/beat: bar 1, in "F", beat 2 does not come after beat 3`}},
	{"overfull bar", `{"bars": [{"chords": [{"symbol": "C", "beats": 3}, {"symbol": "F", "beats": 2}]}]}`, 422, []string{`/bars/0/chords/1/beats: bar 1, in "F", the chord lasts 1 beat beyond the end of the bar (the bar has 4 beats)`}},
	{"underfull bar within", `{"bars": [{"chords": [{"symbol": "C"}]}, {"chords": [{"symbol": "F", "beats": 3}]}, {"chords": [{"symbol": "C"}]}]}`, 422, []string{`/bars/1/chords: bar 2, the bar has 3 of 4 beats (only the first and the last bar may be incomplete, the first as a pickup)`}},
	{"no time left", `{"bars": [{"chords": [{"symbol": "C", "beats": 4}, {"symbol": "F"}]}]}`, 422, []string{`/bars/0/chords/1: bar 1, in "F", no time is left for the chord before the end of the bar (the bar has 4 beats)`}},
	{"chord of no length", `{"bars": [{"chords": [{"symbol": "C", "beats": 0}]}]}`, 422, []string{`/bars/0/chords/0/beats: bar 1, in "C", expected more than 0`}},
	{"fraction that is none", `{"bars": [{"chords": [{"symbol": "C", "beats": 2.1234567}, {"symbol": "F"}]}]}`, 422, []string{`/bars/0/chords/0/beats: bar 1, in "C", these decimals stand for no simple fraction of a beat (give more decimals of it)`}},
	{"meter of a bar", `{"bars": [{"meter": "4 / 4", "chords": [{"symbol": "C"}]}, {"meter": "", "chords": [{"symbol": "C", "beats": 9}]}]}`, 422, []string{
		`/bars/0/meter: bar 1, offset 0, expected a meter (for example 3/4)`,
		`/bars/1/meter: bar 2, offset 0, expected a meter (for example 3/4)`,
	}},
	{"name of a section", `{"bars": [{"section": "A]", "chords": [{"symbol": "C"}]}]}`, 422, []string{`/bars/0/section: bar 1, in "A]", the name of the section holds ]`}},
	{"number of a bar", `{"bars": [{"number": -1, "chords": [{"symbol": "C"}]}]}`, 422, []string{`/bars/0/number: bar -1, expected 0 or more`}},
	{"several bars", `{"meter": "3/4", "bars": [{"chords": [{"symbol": "Z"}]}, {"chords": [{"symbol": "C", "beats": 4}]}, {"chords": [{"symbol": ""}]}]}`, 422, []string{
		`/bars/2/chords/0/symbol: bar 3, the field is missing or empty`,
		`/bars/0/chords/0/symbol: bar 1, offset 0, in "Z", expected a root A to G or N.C.`,
		`/bars/1/chords/0/beats: bar 2, in "C", the chord lasts 1 beat beyond the end of the bar (the bar has 3 beats)`,
	}},
}

// inLine prints a fault in a line: pointer, place, what is wrong, what is right.
func inLine(f wire.Fault) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s:", f.Pointer)
	if f.Bar != nil {
		fmt.Fprintf(&b, " bar %d,", *f.Bar)
	}
	if f.Line > 0 {
		fmt.Fprintf(&b, " line %d,", f.Line)
	}
	if f.Column > 0 {
		fmt.Fprintf(&b, " column %d,", f.Column)
	}
	if f.Offset != nil {
		fmt.Fprintf(&b, " offset %d,", *f.Offset)
	}
	if f.Symbol != "" {
		fmt.Fprintf(&b, " in %q,", f.Symbol)
	}
	fmt.Fprintf(&b, " %s", f.Detail)
	if f.Hint != "" {
		fmt.Fprintf(&b, " (%s)", f.Hint)
	}
	return b.String()
}

func post(h http.Handler, body string) *httptest.ResponseRecorder {
	r := httptest.NewRequest(http.MethodPost, "/v1/analyses", strings.NewReader(body))
	r.Header.Set("Content-Type", mediaJSON)
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	return w
}

// problemIn is the problem that an answer has to be.
func problemIn(t *testing.T, w *httptest.ResponseRecorder) wire.Problem {
	t.Helper()
	assert.Equal(t, mediaProblem, w.Header().Get("Content-Type"))
	var p wire.Problem
	require.NoError(t, json.Unmarshal(w.Body.Bytes(), &p), "%s", w.Body)
	assert.Equal(t, w.Code, p.Status)
	assert.Equal(t, "about:blank", p.Type)
	assert.NotEmpty(t, p.Title)
	assert.NotEmpty(t, p.Detail)
	assertOwnWords(t, w.Body.String())
	return p
}

// assertOwnWords checks that nothing of the program shows.
func assertOwnWords(t *testing.T, text string) {
	t.Helper()
	for _, word := range []string{"wire.", "json:", "jsontext", "invalid character", "validator", "Key:", "goroutine", ".go:", "EOF", "interface {}", "strconv", "reflect", "AnalysisRequest", "nil"} {
		assert.NotContains(t, text, word)
	}
}

func TestBadInput(t *testing.T) {
	h := New(Options{})
	for _, test := range badInput {
		t.Run(test.name, func(t *testing.T) {
			w := post(h, test.body)
			assert.Equal(t, test.status, w.Code, "%s", w.Body)
			var got []string
			for _, f := range problemIn(t, w).Errors {
				got = append(got, inLine(f))
			}
			assert.Equal(t, test.want, got)
		})
	}
}
