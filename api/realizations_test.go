package api

import (
	"encoding/json"
	"net/http"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fifthwise/api/wire"
)

func chordsOf(t *testing.T, body string) []string {
	t.Helper()
	var answer wire.Realization
	require.NoError(t, json.Unmarshal([]byte(granted(t, ask(t, http.MethodPost, "/v1/realizations", body))), &answer))
	return answer.Chords
}

// V7/VI, V7/II, V7/V, V7 I in C major: R. Hutchinson, Music Theory for the
// 21st-Century Classroom, §31.8.2; the rest is common practice, no source.
func TestRealizations(t *testing.T) {
	tests := []struct{ name, body, want string }{
		{"a change of key", `{"key": "Eb major", "numerals": ["IIm7", "V7", "G major:", "Imaj7"]}`, "Fm7 Bb7 Gmaj7"},
		{"upper", `{"key": "C major", "numerals": ["V7/VI", "V7/II", "V7/V", "V7", "I"]}`, "E7 A7 D7 G7 C"},
		{"cased", `{"key": "C major", "numerals": ["V7/vi", "V7/ii", "V7/V", "V7", "I"]}`, "E7 A7 D7 G7 C"},
		{"arabic", `{"key": "C major", "numerals": ["5 7/6", "57/2", "5 7/5", "5 7", "1"]}`, "E7 A7 D7 G7 C"},
		{"minor", `{"key": "Cm", "numerals": ["IIm7b5", "V7b9", "i(maj7)", "bVImaj7"]}`, "Dm7b5 G7b9 Cm(maj7) Abmaj7"},
		{"substitutes", `{"key": "Eb major", "numerals": ["IIm7", "subV7", "sub5 7/5"]}`, "Fm7 E7 B7"},
		{"flats in accidentals", `{"key": "B♭", "numerals": ["♭VII7", "G♭ major:", "IVmaj7"]}`, "Ab7 Cbmaj7"},
		{"silence", `{"key": "C", "numerals": ["N.C.", "V7"]}`, "N.C. G7"},
		{"nothing", `{"key": "C", "numerals": []}`, ""},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			assert.Equal(t, tt.want, strings.Join(chordsOf(t, tt.body), " "))
		})
	}
}

// The numerals of a reading give its chords again, in all styles.
func TestRealizationInvertsAnalysis(t *testing.T) {
	for _, style := range []string{"upper", "cased", "arabic"} {
		var reading wire.Analysis
		require.NoError(t, json.Unmarshal(ask(t, http.MethodPost, "/v1/analyses", `{"changes": "Dm7 | G7 | Cmaj7 A7b9 | Dm7 Db7 | Cm7 | F7 | Bbmaj7 | Bdim7 | Cm7 F7 | Bb6 N.C.", "options": {"numerals": "`+style+`"}}`).Body.Bytes(), &reading))
		request := wire.RealizationRequest{Key: reading.HomeKey}
		var want []string
		for _, c := range reading.Chords {
			if c.Key != "" {
				request.Numerals = append(request.Numerals, c.Key+":")
			}
			request.Numerals = append(request.Numerals, c.Numeral)
			want = append(want, c.Symbol)
		}
		body, err := json.Marshal(request)
		require.NoError(t, err)
		assert.Equal(t, want, chordsOf(t, string(body)), style)
	}
}

func TestBadRealizations(t *testing.T) {
	tests := []struct {
		name, body string
		status     int
		want       []string
	}{
		{"numerals", `{"key": "C major", "numerals": ["V7", "VIII", "Dm7"]}`, 422, []string{
			`/numerals/1: offset 0, in "VIII", expected a degree I to VII or 1 to 7 (VII is the highest)`,
			`/numerals/2: offset 0, in "Dm7", expected a degree I to VII or 1 to 7 (a chord symbol is no numeral)`,
		}},
		{"keys", `{"key": "c", "numerals": ["V7", "G majr:", "G major"]}`, 422, []string{
			`/key: offset 0, expected a note name A to G (write C major or C minor)`,
			`/numerals/1: offset 2, in "G majr:", expected a mode: major, minor, dorian, phrygian, lydian or mixolydian (write major)`,
			`/numerals/2: offset 0, in "G major", expected a degree I to VII or 1 to 7 (a key is followed by a colon, "G major:")`,
		}},
		{"nothing given", `{}`, 422, []string{`/key: the field is missing or empty`, `/numerals: the field is missing or empty`}},
		{"an unknown field", `{"key": "C", "numerals": ["I"], "chords": ["C"]}`, 422, []string{`/chords: unknown field (the fields are key and numerals)`}},
		{"a number", `{"key": "C", "numerals": [5]}`, 400, []string{`/numerals/0: expected a string, not a number`}},
		{"no list", `{"key": "C", "numerals": "V7"}`, 400, []string{`/numerals: expected a list, not a string`}},
		{"null", `{"key": "C", "numerals": [null]}`, 400, []string{`/numerals/0: expected a string, not null`}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			w := ask(t, http.MethodPost, "/v1/realizations", tt.body)
			assert.Equal(t, tt.status, w.Code, "%s", w.Body)
			var got []string
			for _, f := range problemIn(t, w).Errors {
				got = append(got, inLine(f))
			}
			assert.Equal(t, tt.want, got)
		})
	}
	many := `{"key": "C", "numerals": [` + strings.Repeat(`"V7",`, maxNumerals) + `"I"]}`
	assert.Equal(t, "the request has more than 5,000 numerals", problemIn(t, ask(t, http.MethodPost, "/v1/realizations", many)).Detail)
	faulty := `{"key": "C", "numerals": [` + strings.Repeat(`"X",`, 29) + `"X"]}`
	p := problemIn(t, ask(t, http.MethodPost, "/v1/realizations", faulty))
	assert.Len(t, p.Errors, maxFaults)
	assert.Equal(t, "the request has 30 faults; the first 20 are listed", p.Detail)
}

// Practice material comes where it is asked for, and only there.
func TestPracticeInAnalysis(t *testing.T) {
	const request = `{"changes": "Dm7 | G7 | N.C. | Cmaj7"%s}`
	study := func(options string) (fields struct{ Study map[string]json.RawMessage }) {
		w := ask(t, http.MethodPost, "/v1/analyses", strings.Replace(request, "%s", options, 1))
		require.NoError(t, json.Unmarshal([]byte(granted(t, w)), &fields))
		return fields
	}
	assert.NotContains(t, study("").Study, "practice")
	assert.NotContains(t, study(`, "options": {"practice": false}`).Study, "practice")
	// The guide tones of a two-five-one: common practice, no source.
	assert.JSONEq(t, `{
		"chords": [
			{"chord": 0, "tones": ["D", "F", "A", "C"], "guide_tones": ["F", "C"], "scale": "D dorian", "scale_notes": ["D", "E", "F", "G", "A", "B", "C"]},
			{"chord": 1, "tones": ["G", "B", "D", "F"], "guide_tones": ["B", "F"], "scale": "G mixolydian", "scale_notes": ["G", "A", "B", "C", "D", "E", "F"]},
			{"chord": 3, "tones": ["C", "E", "G", "B"], "guide_tones": ["E", "B"], "scale": "C major", "scale_notes": ["C", "D", "E", "F", "G", "A", "B"]}],
		"lines": [
			{"steps": [{"chord": 0, "note": "F", "degree": "b3", "motion": 0}, {"chord": 1, "note": "F", "degree": "b7", "motion": 0}, {"chord": 3, "note": "E", "degree": "3", "motion": -1}]},
			{"steps": [{"chord": 0, "note": "C", "degree": "b7", "motion": 0}, {"chord": 1, "note": "B", "degree": "3", "motion": -1}, {"chord": 3, "note": "B", "degree": "7", "motion": 0}]}]}`,
		string(study(`, "options": {"practice": true}`).Study["practice"]))
	assert.Contains(t, string(study(`, "options": {"practice": true, "accidentals": "unicode"}`).Study["practice"]), `"degree":"♭3"`)
	w := ask(t, http.MethodPost, "/v1/analyses", strings.Replace(request, "%s", `, "options": {"practice": "yes"}`, 1))
	assert.Equal(t, `/options/practice: expected true or false, not a string`, inLine(problemIn(t, w).Errors[0]))
	silent := ask(t, http.MethodPost, "/v1/analyses", `{"changes": "N.C.", "options": {"practice": true}}`)
	assert.Contains(t, granted(t, silent), `"practice":{"chords":[],"lines":[{"steps":[]},{"steps":[]}]}`)
}
