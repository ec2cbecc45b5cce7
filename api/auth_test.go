package api

import (
	"net/http"
	"net/http/httptest"
	"testing"

	"github.com/stretchr/testify/assert"
)

// The challenges are those of RFC 6750, section 3.
func TestTokens(t *testing.T) {
	const asked = `Bearer realm="fifthwise"`
	const unknown = asked + `, error="invalid_token"`
	tests := []struct {
		name, method, target string
		header               string // Authorization
		status               int
		challenge            string
	}{
		{"none", "GET", "/v1/keys/C", "", 401, asked},
		{"known", "GET", "/v1/keys/C", "Bearer good", 200, ""},
		{"scheme in lower case", "GET", "/v1/keys/C", "bearer  good", 200, ""},
		{"unknown", "GET", "/v1/keys/C", "Bearer goo", 401, unknown},
		{"empty", "GET", "/v1/keys/C", "Bearer ", 401, unknown},
		{"scheme alone", "GET", "/v1/keys/C", "Bearer", 401, unknown},
		{"another scheme", "GET", "/v1/keys/C", "Basic good", 401, asked},
		{"token alone", "GET", "/v1/keys/C", "good", 401, asked},
		{"in the URL", "GET", "/v1/keys/C?access_token=good", "", 401, asked},
		{"HEAD", "HEAD", "/v1/keys/C", "", 401, asked},
		{"a chart", "POST", "/v1/analyses", "", 401, asked},
		{"what there is nobody learns", "GET", "/nowhere", "", 401, asked},
		{"methods neither", "DELETE", "/v1/keys/C", "", 401, asked},
		{"metrics", "GET", "/metrics", "", 401, asked},
		{"metrics with a token", "GET", "/metrics", "Bearer good", 200, ""},
		{"health", "GET", "/healthz", "", 200, ""},
		{"readiness", "GET", "/readyz", "", 200, ""},
		{"document", "GET", "/openapi.json", "", 200, ""},
		{"preflight", "OPTIONS", "/v1/keys/C", "", 204, ""},
	}
	h := New(Options{Admits: func(token string) bool { return token == "good" }})
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			var headers []string
			if test.header != "" {
				headers = []string{"Authorization", test.header}
			}
			w := askOf(t, h, test.method, test.target, "", headers...)
			assert.Equal(t, test.status, w.Code)
			assert.Equal(t, test.challenge, w.Header().Get("WWW-Authenticate"))
			if test.status == http.StatusUnauthorized && test.method != http.MethodHead {
				assert.Equal(t, "a bearer token is asked for; send Authorization: Bearer and a token that the service knows", problemIn(t, w).Detail)
			}
		})
	}
	for _, f := range docsFiles {
		w := httptest.NewRecorder()
		h.ServeHTTP(w, httptest.NewRequest(http.MethodGet, f.path, nil))
		assert.Equal(t, http.StatusOK, w.Code, f.path)
	}
}

// Of two tokens nobody can say which counts.
func TestTwoTokens(t *testing.T) {
	r := httptest.NewRequest(http.MethodGet, "/v1/keys/C", nil)
	r.Header["Authorization"] = []string{"Bearer good", "Bearer bad"}
	_, ok := bearer(r)
	assert.False(t, ok)
}
