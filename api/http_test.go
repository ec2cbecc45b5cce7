package api

import (
	"errors"
	"fmt"
	"io"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"

	"github.com/gin-gonic/gin"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What a request is refused for beside its content.
func TestRefusals(t *testing.T) {
	const good = `{"changes": "| C | G7 |"}`
	tests := []struct {
		name           string
		method, path   string
		header         string // lines of "Name: value"
		body           string
		status         int
		title, detail  string
		allow          string
		wantsNoMessage bool // of the body: HEAD
	}{
		{name: "no path", method: "GET", path: "/", status: 404, title: "Not Found", detail: "there is nothing at this path; /docs shows all that there is"},
		{name: "trailing slash", method: "POST", path: "/v1/analyses/", header: "Content-Type: application/json", body: good, status: 404, title: "Not Found", detail: "there is nothing at this path; did you mean /v1/analyses?"},
		{name: "no path, any Accept", method: "GET", path: "/v2", header: "Accept: text/html", status: 404, title: "Not Found", detail: "there is nothing at this path; /docs shows all that there is"},
		{name: "path with a slip", method: "POST", path: "/v1/analyze", status: 404, title: "Not Found", detail: "there is nothing at this path; did you mean /v1/analyses?"},
		{name: "path without version", method: "POST", path: "/charts", status: 404, title: "Not Found", detail: "there is nothing at this path; did you mean /v1/charts?"},
		{name: "path in upper case", method: "GET", path: "/Healthz", status: 404, title: "Not Found", detail: "there is nothing at this path; did you mean /healthz?"},
		{name: "parameter behind a slip", method: "GET", path: "/v1/chord/F%23m7b5", status: 404, title: "Not Found", detail: "there is nothing at this path; did you mean /v1/chords/{symbol}?"},
		{name: "no parameter", method: "GET", path: "/v1/keys", status: 404, title: "Not Found", detail: "there is nothing at this path; did you mean /v1/keys/{key}?"},
		{name: "below the page", method: "GET", path: "/docs/none.js", status: 404, title: "Not Found", detail: "there is nothing at this path; did you mean /docs?"},
		{name: "nothing near", method: "GET", path: "/v1/songs", status: 404, title: "Not Found", detail: "there is nothing at this path; /docs shows all that there is"},
		{name: "method", method: "GET", path: "/v1/analyses", status: 405, title: "Method Not Allowed", detail: "the methods of this path are POST, OPTIONS", allow: "POST, OPTIONS"},
		{name: "method of health", method: "DELETE", path: "/healthz", status: 405, title: "Method Not Allowed", detail: "the methods of this path are GET, HEAD, OPTIONS", allow: "GET, HEAD, OPTIONS"},
		{name: "HEAD where there is no GET", method: "HEAD", path: "/v1/analyses", status: 405, allow: "POST, OPTIONS", wantsNoMessage: true},
		{name: "Accept", method: "GET", path: "/healthz", header: "Accept: text/html", status: 406, title: "Not Acceptable", detail: "the answer is application/json"},
		{name: "Accept with quality 0", method: "GET", path: "/healthz", header: "Accept: */*, application/json;q=0", status: 406, title: "Not Acceptable", detail: "the answer is application/json"},
		{name: "Accept of a chart", method: "POST", path: "/v1/analyses", header: "Accept: application/xml\nContent-Type: application/json", body: good, status: 406, title: "Not Acceptable", detail: "the answer is application/json"},
		{name: "Accept of a stream", method: "POST", path: "/v1/analyses", header: "Accept: text/csv\nContent-Type: application/x-ndjson", body: good, status: 406, title: "Not Acceptable", detail: "the answer is application/x-ndjson"},
		{name: "no type", method: "POST", path: "/v1/analyses", body: good, status: 415, title: "Unsupported Media Type", detail: "the request has no Content-Type, or more than one; send application/json or application/x-ndjson"},
		{name: "form", method: "POST", path: "/v1/analyses", header: "Content-Type: application/x-www-form-urlencoded", body: good, status: 415, title: "Unsupported Media Type", detail: `the Content-Type "application/x-www-form-urlencoded" is not read; send application/json or application/x-ndjson; curl -d says so by itself, unless -H 'Content-Type: application/json' stands beside it`},
		{name: "no media type", method: "POST", path: "/v1/analyses", header: "Content-Type: json;", body: good, status: 415, title: "Unsupported Media Type", detail: `the Content-Type "json" is not read; send application/json or application/x-ndjson`},
		{name: "bad type", method: "POST", path: "/v1/analyses", header: "Content-Type: /", body: good, status: 415, title: "Unsupported Media Type", detail: "the Content-Type is not understood; send application/json or application/x-ndjson"},
		{name: "charset", method: "POST", path: "/v1/analyses", header: "Content-Type: application/json; charset=iso-8859-1", body: good, status: 415, title: "Unsupported Media Type", detail: `the charset "iso-8859-1" is not read; send UTF-8`},
		{name: "compressed", method: "POST", path: "/v1/analyses", header: "Content-Type: application/json\nContent-Encoding: gzip", body: good, status: 415, title: "Unsupported Media Type", detail: `the Content-Encoding "gzip" is not read; send the body as it is`},
		{name: "body too large", method: "POST", path: "/v1/analyses", header: "Content-Type: application/json", body: good + strings.Repeat(" ", maxBody), status: 413, title: "Content Too Large", detail: "the body has more than 1,048,576 bytes"},
		{name: "too many bars", method: "POST", path: "/v1/analyses", header: "Content-Type: application/json", body: bars(2001, 1), status: 413, title: "Content Too Large", detail: "the chart has more than 2,000 bars"},
		{name: "too many bars of text", method: "POST", path: "/v1/analyses", header: "Content-Type: application/json", body: `{"changes": "` + strings.Repeat("| C ", 2001) + `|"}`, status: 413, title: "Content Too Large", detail: "the chart has more than 2,000 bars"},
		{name: "too many bars whatever else", method: "POST", path: "/v1/analyses", header: "Content-Type: application/json", body: `{"changes": "` + strings.Repeat("| H ", 2001) + `|"}`, status: 413, title: "Content Too Large", detail: "the chart has more than 2,000 bars"},
		{name: "too many chords", method: "POST", path: "/v1/analyses", header: "Content-Type: application/json", body: bars(1251, 4), status: 413, title: "Content Too Large", detail: "the chart has more than 5,000 chords"},
		{name: "too many bars as played", method: "POST", path: "/v1/analyses", header: "Content-Type: application/json", body: `{"changes": "|:` + strings.Repeat(" C |", 1000) + ` C :|"}`, status: 413, title: "Content Too Large", detail: "the chart, played with its repeats, has more than 2,000 bars"},
		{name: "far too many bars as played", method: "POST", path: "/v1/analyses", header: "Content-Type: application/json", body: `{"changes": "` + endless() + `"}`, status: 413, title: "Content Too Large", detail: "the chart, played with its repeats, has more than 2,000 bars"},
	}
	h := New(Options{})
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			r := httptest.NewRequest(test.method, test.path, strings.NewReader(test.body))
			for line := range strings.Lines(test.header) {
				name, value, _ := strings.Cut(strings.TrimSpace(line), ": ")
				r.Header.Set(name, value)
			}
			w := httptest.NewRecorder()
			conforming(t, h).ServeHTTP(w, r)
			require.Equal(t, test.status, w.Code, "%s", w.Body)
			assert.Equal(t, test.allow, w.Header().Get("Allow"))
			if test.wantsNoMessage {
				assert.Empty(t, w.Body.String())
				return
			}
			p := problemIn(t, w)
			assert.Equal(t, test.title, p.Title)
			assert.Equal(t, test.detail, p.Detail)
			assert.Empty(t, p.Errors)
		})
	}
}

// bars is a request of so many bars with so many chords each.
func bars(n, chords int) string {
	bar := `{"chords": [` + strings.TrimSuffix(strings.Repeat(`{"symbol": "C"}, `, chords), ", ") + `]}`
	return `{"bars": [` + strings.TrimSuffix(strings.Repeat(bar+",", n), ",") + `]}`
}

// endless is a short text that is long to play: an ending for many passes.
func endless() string {
	passes := make([]string, 99)
	for i := range passes {
		passes[i] = fmt.Sprint(i + 1)
	}
	return "|: " + strings.Repeat("C | ", 1500) + strings.Join(passes, ",") + ". C :|"
}

func TestAccepted(t *testing.T) {
	tests := []struct{ name, accept, contentType string }{
		{"neither", "", "application/json"},
		{"anything", "*/*", "application/json"},
		{"any application", "application/*", "application/json"},
		{"JSON among others", "text/html, application/json;q=0.5", "application/json"},
		{"in capitals", "Application/JSON", "Application/JSON"},
		{"charset", "application/json; charset=utf-8", "application/json; charset=UTF-8"},
		{"charset in quotes", "*/*;q=0.1", `application/json;charset="utf-8"`},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			r := httptest.NewRequest(http.MethodPost, "/v1/analyses", strings.NewReader(`{"changes": "| C | G7 |"}`))
			r.Header.Set("Content-Type", test.contentType)
			if test.accept != "" {
				r.Header.Set("Accept", test.accept)
			}
			w := httptest.NewRecorder()
			New(Options{}).ServeHTTP(w, r)
			assert.Equal(t, 200, w.Code, "%s", w.Body)
			assert.Equal(t, mediaJSON, w.Header().Get("Content-Type"))
			assert.Equal(t, "nosniff", w.Header().Get("X-Content-Type-Options"))
		})
	}
}

func TestHeadAndOptions(t *testing.T) {
	h := New(Options{})
	ask := func(method, path string) *httptest.ResponseRecorder {
		w := httptest.NewRecorder()
		h.ServeHTTP(w, httptest.NewRequest(method, path, nil))
		return w
	}
	get, head := ask(http.MethodGet, "/healthz"), ask(http.MethodHead, "/healthz")
	assert.Equal(t, 200, head.Code)
	assert.Equal(t, "{\"status\":\"ok\"}\n", get.Body.String())
	assert.Empty(t, head.Body.String())
	get.Header().Del(requestHeader)
	head.Header().Del(requestHeader)
	assert.Equal(t, get.Header(), head.Header())

	for path, allow := range map[string]string{"/healthz": "GET, HEAD, OPTIONS", "/v1/analyses": "POST, OPTIONS"} {
		w := ask(http.MethodOptions, path)
		assert.Equal(t, http.StatusNoContent, w.Code)
		assert.Equal(t, allow, w.Header().Get("Allow"))
		assert.Empty(t, w.Body.String())
	}
	assert.Equal(t, 404, ask(http.MethodOptions, "/nothing").Code)
}

// The first faults are listed, and the number of all is told.
func TestManyFaults(t *testing.T) {
	w := post(New(Options{}), `{"changes": "`+strings.Repeat("| H ", 30)+`|"}`)
	p := problemIn(t, w)
	assert.Equal(t, 422, w.Code)
	assert.Equal(t, "the request has 30 faults; the first 20 are listed", p.Detail)
	require.Len(t, p.Errors, 20)
	assert.Equal(t, `/changes: bar 20, line 1, column 79, offset 78, in "H", expected a root A to G or N.C. (the German H is B)`, inLine(p.Errors[19]))
}

// loggingTo is a server whose failures can be read.
func loggingTo(log io.Writer) *Server {
	return newServer(Options{Log: slog.New(slog.NewTextHandler(log, nil))})
}

// failing serves handlers that fail, and gives what was logged of it.
func failing(t *testing.T, h handler) (answer *httptest.ResponseRecorder, logged string) {
	var log strings.Builder
	s := loggingTo(&log)
	r := gin.New()
	r.Use(s.observe, s.recover)
	r.GET("/", s.answer(h))
	w := httptest.NewRecorder()
	r.ServeHTTP(w, httptest.NewRequest(http.MethodGet, "/", nil))
	return w, log.String()
}

// The cause of a failure is logged, and the client not told.
func TestFailure(t *testing.T) {
	for name, h := range map[string]handler{
		"error":      func(*gin.Context) (any, error) { return nil, errors.New("secret") },
		"panic":      func(*gin.Context) (any, error) { panic("secret") },
		"no JSON":    func(*gin.Context) (any, error) { return map[string]any{"secret": make(chan int)}, nil },
		"nil caught": func(*gin.Context) (any, error) { var p *Problem; return p.Detail, nil },
	} {
		t.Run(name, func(t *testing.T) {
			w, logged := failing(t, h)
			assert.Equal(t, 500, w.Code)
			p := problemIn(t, w)
			assert.Equal(t, "the request could not be answered; the fault is not in it", p.Detail)
			assert.NotContains(t, w.Body.String(), "secret")
			assert.Contains(t, logged, "level=ERROR")
			assert.Contains(t, logged, "route=/ ")
		})
	}
}

// An answer that has begun when its handler panics does not pass for whole.
func TestPanicBehindTheBeginning(t *testing.T) {
	s := loggingTo(io.Discard)
	r := gin.New()
	r.Use(s.observe, s.recover)
	r.GET("/", func(c *gin.Context) {
		_, _ = io.WriteString(c.Writer, "half of ")
		c.Writer.Flush()
		panic("secret")
	})
	server := httptest.NewServer(r)
	defer server.Close()
	answer, err := http.Get(server.URL)
	require.NoError(t, err)
	defer answer.Body.Close()
	body, err := io.ReadAll(answer.Body)
	assert.ErrorIs(t, err, io.ErrUnexpectedEOF)
	assert.Equal(t, "half of ", string(body))
}

// A client that sends all before it reads hears of a body that is too large.
func TestTooLargeIsHeard(t *testing.T) {
	server := httptest.NewServer(New(Options{}))
	defer server.Close()
	answer, err := http.Post(server.URL+"/v1/analyses", mediaJSON, strings.NewReader(strings.Repeat(" ", 8*maxBody)))
	require.NoError(t, err)
	defer answer.Body.Close()
	assert.Equal(t, 413, answer.StatusCode)
	exact := `{"changes": "| C | G7 |"}`
	answer, err = http.Post(server.URL+"/v1/analyses", mediaJSON, strings.NewReader(exact+strings.Repeat(" ", maxBody-len(exact))))
	require.NoError(t, err)
	defer answer.Body.Close()
	assert.Equal(t, 200, answer.StatusCode)
}
