package api

import (
	"bytes"
	"encoding/json"
	"math/rand/v2"
	"net/http"
	"net/http/httptest"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fifthwise/api/wire"
)

// goodInput are requests that noise is made of, beside [badInput].
var goodInput = []string{
	`{"title": "Slow Ferry", "changes": "[A] |: Dm7 | G7 | 1. Cmaj7 :| 2. C6 / / N.C. || 3/4 Am | (D7 G7 | C) |"}`,
	`{"key": "F major", "meter": "3/4", "changes": "# a waltz\n| Fmaj7 | C F@3.5 |", "options": {"numerals": "cased", "accidentals": "unicode", "alternatives": 5}}`,
	`{"bars": [{"section": "A", "number": 9, "chords": [{"symbol": "Bb:min7", "beat": 1}, {"symbol": "Eb7b9", "beat": 3.5, "optional": true}]}, {"meter": "6/8", "chords": []}, {"chords": [{"symbol": "Abmaj7/C", "beats": 1.333}, {"symbol": "N.C."}]}]}`,
}

// Whatever is posted is answered, and a refusal is a problem, never the
// service's fault.
func TestNoise(t *testing.T) {
	posts := 10_000
	if testing.Short() {
		posts = 500
	}
	h := New(Options{})
	random := rand.New(rand.NewPCG(1, 2))
	statuses := map[int]int{}
	for range posts {
		body := noise(random)
		w := post(h, body)
		checkAnswer(t, body, w)
		statuses[w.Code]++
		if t.Failed() {
			t.Fatalf("posted %q", body)
		}
	}
	t.Log(statuses)
	assert.NotZero(t, statuses[200])
	assert.NotZero(t, statuses[400])
	assert.NotZero(t, statuses[422])
}

// noise is a request with some mistakes in it.
func noise(r *rand.Rand) string {
	seeds := len(goodInput) + len(badInput)
	n := r.IntN(seeds + 100) // good ones more often, since they let mistakes go deeper
	b := []byte(goodInput[n%len(goodInput)])
	if n < len(badInput) {
		b = []byte(badInput[n].body)
	}
	for range r.IntN(4) {
		b = mistake(r, b)
	}
	return string(b)
}

// crumbs are what mistakes put in.
var crumbs = []string{`"`, `{`, `}`, `[`, `]`, `,`, `:`, `\`, `null`, `true`, `-1`, `1e9`, `0.1`, `|`, `||`, `|:`, `:|`, `/`, `%`, `(`, `)`, `@`, `1.`, `N.C.`, "#", "♭", "\u0000", "\xff", "\n", ` `, `C`, `maj7`, `"beat": 2,`, `"section": "B",`}

func mistake(r *rand.Rand, b []byte) []byte {
	at := r.IntN(len(b) + 1)
	to := min(len(b), at+1+r.IntN(8))
	switch r.IntN(4) {
	case 0:
		return slices.Delete(b, at, to)
	case 1:
		return slices.Insert(b, at, b[at:to]...)
	case 2:
		return slices.Insert(b, at, []byte(crumbs[r.IntN(len(crumbs))])...)
	}
	if at < len(b) {
		b[at] = byte(r.Uint32())
	}
	return b
}

// checkAnswer checks that an answer to a post is one that the contract has.
func checkAnswer(t *testing.T, body string, w *httptest.ResponseRecorder) {
	t.Helper()
	if w.Code == http.StatusOK {
		var a wire.Analysis
		d := json.NewDecoder(w.Body)
		d.DisallowUnknownFields()
		require.NoError(t, d.Decode(&a))
		assert.NotEmpty(t, a.Chords)
		return
	}
	assert.Contains(t, []int{400, 413, 422}, w.Code)
	assert.Equal(t, mediaProblem, w.Header().Get("Content-Type"))
	var p wire.Problem
	require.NoError(t, json.Unmarshal(w.Body.Bytes(), &p))
	var sent any
	sound := json.Unmarshal([]byte(body), &sent) == nil
	for _, f := range p.Errors {
		assert.NotEmpty(t, f.Detail)
		parent := f.Pointer[:max(0, strings.LastIndexByte(f.Pointer, '/'))]
		if w.Code == 422 && sound {
			assert.True(t, exists(sent, parent), "%q points nowhere", f.Pointer)
		}
		if f.Pointer == "/changes" && f.Offset != nil {
			changes := sent.(map[string]any)["changes"].(string)
			require.LessOrEqual(t, *f.Offset, len(changes))
			before := changes[:*f.Offset]
			assert.Equal(t, 1+strings.Count(before, "\n"), f.Line)
			assert.Equal(t, 1+len([]rune(before[strings.LastIndexByte(before, '\n')+1:])), f.Column)
		}
		if strings.HasSuffix(f.Pointer, "/symbol") && f.Offset != nil {
			assert.LessOrEqual(t, *f.Offset, len(f.Symbol))
		}
	}
	assert.LessOrEqual(t, len(p.Errors), maxFaults)
}

// exists reports whether a JSON Pointer leads to a value.
func exists(value any, pointer string) bool {
	if pointer == "" {
		return true
	}
	for _, part := range strings.Split(pointer, "/")[1:] {
		part = strings.NewReplacer("~1", "/", "~0", "~").Replace(part)
		switch v := value.(type) {
		case map[string]any:
			if value = v[part]; value == nil {
				return false
			}
		case []any:
			var i int
			if json.Unmarshal([]byte(part), &i) != nil || i < 0 || i >= len(v) {
				return false
			}
			value = v[i]
		default:
			return false
		}
	}
	return true
}

func FuzzAnalyses(f *testing.F) {
	for _, body := range goodInput {
		f.Add([]byte(body))
	}
	for _, test := range badInput {
		f.Add([]byte(test.body))
	}
	h := New(Options{})
	f.Fuzz(func(t *testing.T, body []byte) {
		w := post(h, string(body))
		checkAnswer(t, string(body), w)
	})
}

// A stream answers every line that is not blank, whatever it holds.
func FuzzLines(f *testing.F) {
	f.Add([]byte(strings.Join(goodInput, "\n")))
	f.Add([]byte("\n\r\n{}\n\n{}"))
	h := New(Options{})
	f.Fuzz(func(t *testing.T, body []byte) {
		r := httptest.NewRequest(http.MethodPost, "/v1/analyses", bytes.NewReader(body))
		r.Header.Set("Content-Type", mediaLines)
		w := httptest.NewRecorder()
		h.ServeHTTP(w, r)
		lines := 0
		for line := range bytes.Lines(body) {
			if len(bytes.TrimSpace(line)) > 0 {
				lines++
			}
		}
		assert.Equal(t, 200, w.Code)
		assert.Equal(t, lines, bytes.Count(w.Body.Bytes(), []byte("\n")))
		assert.NotContains(t, w.Body.String(), `"status":500`)
	})
}
