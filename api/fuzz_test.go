package api

import (
	"bytes"
	"encoding/json"
	"mime"
	"net/http"
	"net/http/httptest"
	"net/url"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"fifthwise/api/wire"
)

// Any request at all is answered: never by a fault of the service's own, with the
// headers that every answer has, and a refusal is a problem.
func FuzzHandler(f *testing.F) {
	const (
		chart = `{"changes": "| Dm7 | G7 | C6 |"}`
		score = `<score-partwise version="4.0"><part-list/><part id="P1"><measure number="1"/></part></score-partwise>`
		tune  = "X:1\nT:Lantern Row\nM:4/4\nL:1/4\nK:F\n\"Fmaj7\"F4|\"C7\"C4|]\n"
	)
	for _, seed := range []struct{ method, target, headers, body string }{
		{"GET", "/healthz", "", ""},
		{"HEAD", "/readyz", "Accept: text/html", ""},
		{"OPTIONS", "/v1/analyses", "Origin: https://charts.example\nAccess-Control-Request-Method: POST", ""},
		{"GET", "/docs/start.js", "Range: bytes=5-1\nIf-None-Match: *", ""},
		{"GET", "/docs/../router.go", "", ""},
		{"GET", "/v1/chords/F%23m7b5/A?accidentals=unicode", "Authorization: Bearer known", ""},
		{"GET", "/v1/chords/..%2f..%2fetc%2fpasswd", "X-Request-ID: a b", ""},
		{"GET", "/v1/keys/Eb%20major?numerals=cased&numerals=%zz;", "Authorization: Bearer known", ""},
		{"TRACE", "*", "Forwarded: for=\"[2001:db8::1]\"", ""},
		{"POST", "/v1/analyses", "Content-Type: application/json\nX-Forwarded-For: 203.0.113.9, me", chart},
		{"POST", "/v1/analyses", "Content-Type: application/x-ndjson", chart + "\n\nx\n" + chart},
		{"POST", "/v1/analyses", "Content-Type: application/json\nContent-Encoding: gzip", "\x1f\x8b"},
		{"POST", "/v1/charts?analyze=true&to=Ab%20major", "Content-Type: text/plain\nAccept: image/svg+xml", "Title: \u202eRow\n\n| C | F |\n"},
		{"POST", "/v1/charts?instrument=Bb", "Content-Type: text/vnd.abc\nAccept: text/vnd.abc", tune},
		{"POST", "/v1/charts", "Content-Type: application/xml\nAccept: application/vnd.recordare.musicxml", score},
		{"POST", "/v1/charts", "Content-Type: application/vnd.recordare.musicxml", "PK\x03\x04"},
		{"POST", "/v1/realizations", "Content-Type: application/json", `{"key": "Eb major", "numerals": ["IIm7", "G major:", "V7"]}`},
		{"POST", "/v1/transpositions", "Content-Type: application/json; charset=utf-8", `{"changes": "| C |", "cycle": "fourths"}`},
		{"POST", "/v1/reviews", "Content-Type: application/json", `{"analysis": ` + chart + `, "answer": {"numerals": ["IIm7", null, "I"]}}`},
	} {
		f.Add(seed.method, seed.target, seed.headers, []byte(seed.body))
	}
	trusted, err := ParseProxies("192.0.2.0/24") // httptest's client
	if err != nil {
		f.Fatal(err)
	}
	h := New(Options{
		AllowOrigins: []string{"https://charts.example"},
		Proxies:      trusted,
		Admits:       func(token string) bool { return token != "unknown" },
	})
	f.Fuzz(func(t *testing.T, method, target, headers string, body []byte) {
		u, err := url.ParseRequestURI(target)
		if err != nil || method == "" || len(body) > 4<<10 {
			t.Skip("no server passes this on, or it takes long")
		}
		r := httptest.NewRequest(http.MethodGet, "/", bytes.NewReader(body))
		r.Method, r.URL, r.RequestURI = method, u, target
		r.Header.Set("Authorization", "Bearer known")
		for line := range strings.SplitSeq(headers, "\n") {
			name, value, _ := strings.Cut(line, ": ")
			r.Header.Set(name, value)
		}
		w := httptest.NewRecorder()
		h.ServeHTTP(w, r)
		assert.NotContains(t, []int{0, http.StatusInternalServerError, http.StatusServiceUnavailable}, w.Code)
		for name := range safeHeaders {
			assert.NotEmpty(t, w.Header().Get(name), name)
		}
		for name, values := range w.Header() {
			assert.NotContains(t, strings.Join(values, ""), "\n", name)
			assert.NotContains(t, strings.Join(values, ""), "\r", name)
		}
		assert.Regexp(t, `^[A-Za-z0-9._-]{1,64}$`, w.Header().Get(requestHeader))
		media, _, _ := mime.ParseMediaType(w.Header().Get("Content-Type"))
		if w.Code >= 400 && method != http.MethodHead {
			var p wire.Problem
			assert.NoError(t, json.Unmarshal(w.Body.Bytes(), &p), "%s", w.Body)
			assert.Equal(t, w.Code, p.Status)
			assert.Equal(t, mediaProblem, media)
		}
	})
}
