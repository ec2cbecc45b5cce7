package api

import (
	"fmt"
	"net/http"
	"net/http/httptest"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"golang.org/x/time/rate"
)

func TestRateLimit(t *testing.T) {
	h := New(Options{Rate: 0.1})
	ask := func(address, path string) *httptest.ResponseRecorder {
		r := httptest.NewRequest(http.MethodGet, path, nil)
		r.RemoteAddr = address
		w := httptest.NewRecorder()
		h.ServeHTTP(w, r)
		return w
	}
	assert.Equal(t, 200, ask("192.0.2.1:1000", "/v1/keys/C").Code)
	w := ask("192.0.2.1:1001", "/v1/keys/C")
	assert.Equal(t, 429, w.Code)
	assert.Equal(t, "10", w.Header().Get("Retry-After"))
	p := problemIn(t, w)
	assert.Equal(t, "Too Many Requests", p.Title)
	assert.Equal(t, "more than 0.1 requests a second came from this address", p.Detail)
	assert.Equal(t, 200, ask("192.0.2.2:1000", "/v1/keys/C").Code, "another client")
	assert.Equal(t, 200, ask("192.0.2.1:1000", "/healthz").Code, "health is asked for by machines")
}

func TestNoRateLimit(t *testing.T) {
	h := New(Options{})
	for range 100 {
		w := httptest.NewRecorder()
		h.ServeHTTP(w, httptest.NewRequest(http.MethodGet, "/v1/keys/C", nil))
		assert.Equal(t, 200, w.Code)
	}
}

func TestAllow(t *testing.T) {
	l := limit{perSecond: 2, clients: map[string]*rate.Limiter{}}
	start := time.Now()
	for _, step := range []struct {
		after, wait time.Duration
	}{
		{0, 0},
		{0, 0},
		{0, 500 * time.Millisecond},
		{0, 500 * time.Millisecond}, // a refusal costs nothing
		{500 * time.Millisecond, 0},
		{500 * time.Millisecond, 500 * time.Millisecond},
		{time.Minute, 0},
	} {
		assert.Equal(t, step.wait, l.allow("a", start.Add(step.after)))
	}
}

// The addresses known stay few, however many come.
func TestAllowForgets(t *testing.T) {
	l := limit{perSecond: 1, clients: map[string]*rate.Limiter{}}
	now := time.Now()
	for i := range 3 * maxClients {
		assert.Zero(t, l.allow(fmt.Sprint(i), now))
	}
	assert.LessOrEqual(t, len(l.clients), maxClients)
}
