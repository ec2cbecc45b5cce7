package api

import (
	"context"
	"net/http"
	"net/http/httptest"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// metricsOf are the lines of the service's own metrics.
func metricsOf(t *testing.T, h http.Handler) []string {
	t.Helper()
	w := askOf(t, h, http.MethodGet, "/metrics", "")
	require.Equal(t, http.StatusOK, w.Code)
	assert.Equal(t, "text/plain; version=0.0.4; charset=utf-8", w.Header().Get("Content-Type"))
	return regexp.MustCompile(`(?m)^fifthwise_.*$`).FindAllString(w.Body.String(), -1)
}

func TestMetrics(t *testing.T) {
	h := New(Options{})
	assert.Equal(t, []string{
		"fifthwise_chords_read_total 0",
		"fifthwise_held_bytes 0",
		"fifthwise_readings_in_flight 0",
		"fifthwise_readings_waiting 0",
	}, metricsOf(t, h))

	const chart = `{"changes": "|: Dm7 | G7 :|"}`
	for range 2 {
		askOf(t, h, http.MethodPost, "/v1/analyses", chart)
	}
	askOf(t, h, http.MethodPost, "/v1/charts?analyze=true", chart)
	askOf(t, h, http.MethodPost, "/v1/charts", chart)
	askOf(t, h, http.MethodPost, "/v1/reviews", `{"analysis": `+chart+`, "answer": {"numerals": ["IIm7", "V7", "IIm7", "V7"]}}`)
	askOf(t, h, http.MethodPost, "/v1/analyses", `{"changes": "| H |"}`)
	askOf(t, h, http.MethodPost, "/v1/analyses", chart+"\nx\n{}\n", "Content-Type", mediaLines)
	askOf(t, h, http.MethodGet, "/v1/keys/A", "")
	askOf(t, h, http.MethodGet, "/v1/keys/B", "")
	askOf(t, h, http.MethodGet, "/nowhere", "")
	askOf(t, h, http.MethodGet, "/nowhere/else", "")
	askOf(t, h, "FETCH", "/v1/keys/B", "")
	told := metricsOf(t, h)
	for _, want := range []string{
		`fifthwise_chords_read_total 20`, // five times as played
		`fifthwise_requests_total{route="/v1/analyses",status="200"} 3`,
		`fifthwise_requests_total{route="/v1/analyses",status="422"} 1`,
		`fifthwise_requests_total{route="/v1/keys/:key",status="200"} 2`,
		`fifthwise_requests_total{route="other",status="404"} 2`,
		`fifthwise_requests_total{route="other",status="405"} 1`,
		`fifthwise_request_seconds_count{route="/v1/analyses"} 3`, // the stream is left out
		`fifthwise_request_seconds_count{route="other"} 3`,
		`fifthwise_refusals_total{reason="faults"} 2`,
		`fifthwise_refusals_total{reason="not_understood"} 1`,
		`fifthwise_refusals_total{reason="no_path"} 2`,
		`fifthwise_refusals_total{reason="method"} 1`,
	} {
		assert.Contains(t, told, want)
	}
}

// Whatever clients send, the metrics stay few.
func TestMetricsStayFew(t *testing.T) {
	h := New(Options{})
	count := func() int { return len(metricsOf(t, h)) }
	ask := func(i int) {
		name := strings.Repeat("x", i)
		for _, target := range []string{"/" + name, "/v1/keys/" + name, "/v1/chords/" + name + "/" + name} {
			r := httptest.NewRequest("M"+name, target, nil)
			h.ServeHTTP(httptest.NewRecorder(), r)
			r = httptest.NewRequest(http.MethodGet, target, nil)
			r.Header.Set(requestHeader, name)
			r.Header.Set("Accept", name)
			h.ServeHTTP(httptest.NewRecorder(), r)
		}
	}
	ask(1)
	count()
	before := count()
	for i := range 100 {
		ask(2 + i)
	}
	assert.Equal(t, before, count())
}

// Each refusal is counted under a reason that is named.
func TestReasons(t *testing.T) {
	s := newServer(Options{})
	for status := 400; status < 600; status++ {
		if _, known := reasons[status]; known {
			s.metrics.refused(refuse(status, "refused"))
		}
	}
	for _, p := range []*Problem{errBusy, errMemory, errStopping, errLineStopping, errGone, problemOf(context.Canceled)} {
		s.metrics.refused(p)
	}
	text, err := s.metrics.text()
	require.NoError(t, err)
	assert.NotContains(t, string(text), `reason=""`)
	for _, want := range []string{`{reason="busy"} 1`, `{reason="memory"} 1`, `{reason="stopping"} 2`, `{reason="gone"} 2`, `{reason="token"} 1`, `{reason="rate"} 1`} {
		assert.Contains(t, string(text), "fifthwise_refusals_total"+want)
	}
}
