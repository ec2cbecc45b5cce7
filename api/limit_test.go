package api

import (
	"net/http"
	"net/http/httptest"
	"net/netip"
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
	l := limit{perSecond: 2, clients: map[netip.Prefix]*rate.Limiter{}}
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
		assert.Equal(t, step.wait, l.allow(netip.Prefix{}, start.Add(step.after)))
	}
}

// The addresses known stay few, however many come.
func TestAllowForgets(t *testing.T) {
	l := limit{perSecond: 1, clients: map[netip.Prefix]*rate.Limiter{}}
	now := time.Now()
	for i := range 3 * maxClients {
		client := netip.AddrFrom4([4]byte{10, byte(i >> 16), byte(i >> 8), byte(i)})
		assert.Zero(t, l.allow(networkOf(client), now))
	}
	assert.LessOrEqual(t, len(l.clients), maxClients)
}

// A client of IPv6 may choose among the addresses of its network.
func TestNetworkOf(t *testing.T) {
	for client, want := range map[string]string{
		"192.0.2.1":        "192.0.2.1/32",
		"2001:db8:1:2::1":  "2001:db8:1:2::/64",
		"2001:db8:1:2:3::": "2001:db8:1:2::/64",
		"::1":              "::/64",
	} {
		assert.Equal(t, want, networkOf(netip.MustParseAddr(client)).String())
	}
	assert.Zero(t, networkOf(netip.Addr{}))
}

// Behind a proxy that is trusted each client has a rate of its own; others may
// say who they are as they like.
func TestRateLimitBehindAProxy(t *testing.T) {
	h := New(Options{Rate: 0.1, Proxies: []netip.Prefix{netip.MustParsePrefix("192.0.2.0/24")}})
	for _, step := range []struct {
		peer, forwarded string
		status          int
	}{
		{"192.0.2.1:1", "203.0.113.1", 200},
		{"192.0.2.1:1", "203.0.113.2", 200},
		{"192.0.2.9:1", "203.0.113.1", 429},
		{"192.0.2.1:1", "198.51.100.1, 203.0.113.1", 429},
		{"198.51.100.7:1", "203.0.113.3", 200},
		{"198.51.100.7:1", "203.0.113.4", 429},
	} {
		r := httptest.NewRequest(http.MethodGet, "/v1/keys/C", nil)
		r.RemoteAddr = step.peer
		r.Header.Set("X-Forwarded-For", step.forwarded)
		w := httptest.NewRecorder()
		h.ServeHTTP(w, r)
		assert.Equal(t, step.status, w.Code, "%v", step)
	}
}
