package api

import (
	"net/http"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestOrigins(t *testing.T) {
	const page = "https://charts.example"
	tests := []struct {
		name   string
		allow  []string
		origin string
		method string
		asks   string // Access-Control-Request-Method
		status int
		want   map[string]string // "" is none
	}{
		{"off", nil, page, http.MethodGet, "", 200,
			map[string]string{"Access-Control-Allow-Origin": "", "Vary": ""}},
		{"off, preflight", nil, page, http.MethodOptions, "POST", 204,
			map[string]string{"Access-Control-Allow-Origin": "", "Access-Control-Allow-Methods": ""}},
		{"listed", []string{"http://localhost:3000", page}, page, http.MethodGet, "", 200,
			map[string]string{"Access-Control-Allow-Origin": page, "Vary": "Origin", "Access-Control-Allow-Credentials": "", "Access-Control-Expose-Headers": "Retry-After, X-Request-ID", "Access-Control-Allow-Methods": ""}},
		{"listed, preflight", []string{page}, page, http.MethodOptions, "POST", 204,
			map[string]string{"Access-Control-Allow-Origin": page, "Vary": "Origin", "Access-Control-Allow-Methods": "GET, HEAD, POST", "Access-Control-Allow-Headers": "Authorization, Content-Type, X-Request-ID", "Access-Control-Max-Age": "600"}},
		{"listed, plain OPTIONS", []string{page}, page, http.MethodOptions, "", 204,
			map[string]string{"Access-Control-Allow-Origin": page, "Access-Control-Allow-Methods": ""}},
		{"another", []string{page}, "https://charts.example.org", http.MethodGet, "", 200,
			map[string]string{"Access-Control-Allow-Origin": "", "Vary": "Origin"}},
		{"another, preflight", []string{page}, "http://charts.example", http.MethodOptions, "POST", 204,
			map[string]string{"Access-Control-Allow-Origin": "", "Vary": "Origin", "Access-Control-Allow-Methods": ""}},
		{"no browser", []string{page}, "", http.MethodGet, "", 200,
			map[string]string{"Access-Control-Allow-Origin": "", "Vary": "Origin"}},
		{"any", []string{"*"}, page, http.MethodGet, "", 200,
			map[string]string{"Access-Control-Allow-Origin": "*", "Vary": ""}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			var headers []string
			if tt.origin != "" {
				headers = append(headers, "Origin", tt.origin)
			}
			if tt.asks != "" {
				headers = append(headers, "Access-Control-Request-Method", tt.asks, "Access-Control-Request-Headers", "content-type")
			}
			w := askOf(t, New(Options{AllowOrigins: tt.allow}), tt.method, "/v1/keys/C", "", headers...)
			assert.Equal(t, tt.status, w.Code)
			for name, want := range tt.want {
				assert.Equal(t, want, w.Header().Get(name), name)
			}
		})
	}
}

// A page has to be able to read why its request was refused.
func TestOriginsSeeRefusals(t *testing.T) {
	h := New(Options{AllowOrigins: []string{"https://charts.example"}})
	for _, target := range []string{"/v1/keys/c", "/nowhere"} {
		w := askOf(t, h, http.MethodGet, target, "", "Origin", "https://charts.example")
		assert.GreaterOrEqual(t, w.Code, 400)
		assert.Equal(t, "https://charts.example", w.Header().Get("Access-Control-Allow-Origin"))
	}
}

func TestParseOrigins(t *testing.T) {
	got, err := ParseOrigins(" https://charts.example, http://localhost:3000 ,http://[::1]:80,*,")
	assert.NoError(t, err)
	assert.Equal(t, []string{"https://charts.example", "http://localhost:3000", "http://[::1]:80", "*"}, got)
	got, err = ParseOrigins("")
	assert.NoError(t, err)
	assert.Empty(t, got)
	bad := map[string]string{
		"https://charts.example/":   "a path, which browsers do not send",
		"https://Charts.example":    "upper case, which browsers do not send",
		"charts.example":            "no scheme",
		"null":                      "what browsers send for files: anyone's",
		"https://a@charts.example":  "a user",
		"https://*.charts.example":  "a pattern",
		"ftp://charts.example":      "no scheme of pages",
		"https://charts.example?x":  "a query",
		"https://charts.example b":  "two in one",
		"https://":                  "no host",
		"https://charts.example:x1": "no port",
	}
	for in, why := range bad {
		_, err := ParseOrigins(in)
		assert.ErrorContains(t, err, `is no origin: expected such as https://charts.example or http://localhost:3000`, "%s: %s", in, why)
	}
}
