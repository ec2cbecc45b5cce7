package api

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"net/netip"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestRequestID(t *testing.T) {
	for _, kept := range []string{"a", "7f3a-01.B_c", strings.Repeat("x", 64)} {
		assert.Equal(t, kept, requestID(kept))
	}
	seen := map[string]bool{}
	for _, refused := range []string{"", "a b", "a\"b", "a\nb", "a=b", "ä", "a\x00", strings.Repeat("x", 65)} {
		id := requestID(refused)
		assert.Regexp(t, `^[A-Z2-7]{26}$`, id)
		assert.False(t, seen[id])
		seen[id] = true
	}
}

// What a request holds is not in its line: no path, no parameter, no body, no
// token.
func TestRequestLog(t *testing.T) {
	var log bytes.Buffer
	h := New(Options{
		Requests: slog.New(slog.NewJSONHandler(&log, nil)),
		Admits:   func(token string) bool { return token == "sesame" },
		Proxies:  []netip.Prefix{netip.MustParsePrefix("192.0.2.1/32")}, // httptest's client
	})
	tests := []struct {
		method, target, body string
		want                 string // method, route, status
	}{
		{"GET", "/v1/chords/F%23m7b5?accidentals=unicode", "", "GET /v1/chords/*symbol 200"},
		{"GET", "/v1/keys/H%20major", "", "GET /v1/keys/:key 422"},
		{"HEAD", "/healthz", "", "HEAD /healthz 200"},
		{"POST", "/v1/analyses", `{"title": "F#m7b5", "changes": "| F#m7b5 |"}`, "POST /v1/analyses 200"},
		{"GET", "/secret", "", "GET other 404"},
		{"PUT", "/v1/keys/F%23m7b5", "", "PUT other 405"},
		{"SECRET", "/v1/keys/F%23m7b5", "", "other other 405"},
	}
	for _, test := range tests {
		log.Reset()
		w := askOf(t, h, test.method, test.target, test.body,
			"Authorization", "Bearer sesame", "X-Request-ID", "r-1", "X-Forwarded-For", "203.0.113.9")
		assert.Equal(t, "r-1", w.Header().Get("X-Request-ID"))
		var line struct {
			Level, Msg, ID, Method, Route, Client string
			Status, Bytes                         int
			MS                                    *float64
		}
		require.NoError(t, json.Unmarshal(log.Bytes(), &line), "%s is one line", log.String())
		assert.Equal(t, test.want, fmt.Sprint(line.Method, " ", line.Route, " ", line.Status), test.target)
		assert.Equal(t, "INFO request r-1 203.0.113.9", strings.Join([]string{line.Level, line.Msg, line.ID, line.Client}, " "))
		assert.Equal(t, w.Body.Len(), line.Bytes)
		assert.NotNil(t, line.MS)
		for _, secret := range []string{"F#m7b5", "m7b5", "unicode", "H major", "secret", "SECRET", "sesame"} {
			assert.NotContains(t, log.String(), secret)
		}
	}
}

// An answer that is cut off is in the log, and says so.
func TestCutOffIsLogged(t *testing.T) {
	var log bytes.Buffer
	s := newServer(Options{Requests: slog.New(slog.NewTextHandler(&log, nil)), Log: slog.New(slog.DiscardHandler)})
	server := streaming(t, s, func([]byte) ([]byte, error) { return nil, nil })
	answer := postLines(t, server.URL, strings.NewReader("a\n"))
	_, err := io.ReadAll(answer.Body)
	assert.Error(t, err)
	server.Close()
	assert.Contains(t, log.String(), `method=POST route=/v1/analyses status=200`)
	assert.Contains(t, log.String(), `cut_off=true`)
}

// Every answer has the headers that keep browsers careful; the page of the
// document may load its own files.
func TestSafeHeaders(t *testing.T) {
	const svg = "image/svg+xml"
	for _, test := range []struct{ method, target, accept, policy, cache string }{
		{"GET", "/healthz", "", answerPolicy, "no-store"},
		{"GET", "/v1/chords/C", "", answerPolicy, "no-store"},
		{"GET", "/nowhere", "", answerPolicy, "no-store"},
		{"PUT", "/healthz", "", answerPolicy, "no-store"},
		{"OPTIONS", "/healthz", "", answerPolicy, "no-store"},
		{"POST", "/v1/charts", svg, answerPolicy, "no-store"},
		{"GET", "/metrics", "", answerPolicy, "no-store"},
		{"GET", "/openapi.json", "", answerPolicy, "no-cache"},
		{"GET", "/docs", "", docsPolicy, "no-cache"},
	} {
		body := ""
		if test.method == http.MethodPost {
			body = `{"changes": "| C |"}`
		}
		r := httptest.NewRequest(test.method, test.target, strings.NewReader(body))
		r.Header.Set("Content-Type", mediaJSON)
		r.Header.Set("Accept", test.accept)
		w := httptest.NewRecorder()
		New(Options{}).ServeHTTP(w, r)
		header := w.Header()
		assert.Equal(t, test.policy, header.Get("Content-Security-Policy"), test.target)
		assert.Equal(t, test.cache, header.Get("Cache-Control"), test.target)
		assert.Equal(t, "nosniff", header.Get("X-Content-Type-Options"), test.target)
		assert.Equal(t, "no-referrer", header.Get("Referrer-Policy"), test.target)
		assert.Equal(t, "DENY", header.Get("X-Frame-Options"), test.target)
		assert.Empty(t, header.Get("Server"), test.target)
	}
}
