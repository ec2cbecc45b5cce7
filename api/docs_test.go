package api

import (
	"encoding/json"
	"io/fs"
	"net/http"
	"net/http/httptest"
	"net/url"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fifthwise/openapi"
)

func TestDocumentIsServed(t *testing.T) {
	w := ask(t, http.MethodGet, "/openapi.json", "")
	assert.Equal(t, http.StatusOK, w.Code)
	assert.Equal(t, openapi.Document, w.Body.Bytes())
}

// Who has the document gets nothing; whoever asks for a part of it gets the whole.
func TestDocumentIsKnown(t *testing.T) {
	tag := ask(t, http.MethodGet, "/openapi.json", "").Header().Get("ETag")
	for _, test := range []struct {
		name, value string
		status      int
	}{
		{"If-None-Match", tag, http.StatusNotModified},
		{"If-None-Match", `"another", W/` + tag, http.StatusNotModified},
		{"If-None-Match", "*", http.StatusNotModified},
		{"If-None-Match", `"another"`, http.StatusOK},
		{"If-None-Match", strings.Trim(tag, `"`), http.StatusOK},
		{"Range", "bytes=0-5", http.StatusOK},
		{"Range", "bytes=9-1", http.StatusOK},
		{"If-Match", `"another"`, http.StatusOK},
	} {
		w := ask(t, http.MethodGet, "/openapi.json", "", test.name, test.value)
		assert.Equal(t, test.status, w.Code, "%s: %s", test.name, test.value)
		assert.Equal(t, tag, w.Header().Get("ETag"))
		if test.status == http.StatusOK {
			assert.Equal(t, openapi.Document, w.Body.Bytes())
		}
	}
}

// Whatever the page names has to come from this service, as its own file.
func TestDocsPage(t *testing.T) {
	h := New(Options{})
	get := func(target string) *httptest.ResponseRecorder {
		w := httptest.NewRecorder()
		h.ServeHTTP(w, httptest.NewRequest(http.MethodGet, target, nil))
		assert.Equal(t, http.StatusOK, w.Code, target)
		assert.Equal(t, "nosniff", w.Header().Get("X-Content-Type-Options"), target)
		return w
	}
	page := get("/docs")
	assert.Equal(t, "text/html; charset=utf-8", page.Header().Get("Content-Type"))
	policy := page.Header().Get("Content-Security-Policy")
	assert.Contains(t, policy, "default-src 'none'; script-src 'self'; style-src 'self';")
	assert.NotContains(t, policy, "unsafe")
	assert.NotContains(t, policy, "http")
	text := page.Body.String()
	named := regexp.MustCompile(`(?:src|href)="([^"]*)"`).FindAllStringSubmatch(text, -1)
	require.NotEmpty(t, named)
	for _, m := range named {
		get("/" + m[1])
	}
	assert.NotRegexp(t, `<script>|<style|\son\w+=|style=|//`, text, "nothing inline, no other host")
	script := get("/docs/start.js").Body.String()
	assert.NotContains(t, script, "http")
	assert.Contains(t, script, `url: "openapi.json"`)
}

func TestDocsFilesAreThePages(t *testing.T) {
	names := map[string]bool{}
	for _, f := range docsFiles {
		names[f.name] = true
	}
	files, err := fs.ReadDir(page, "docs")
	require.NoError(t, err)
	for _, f := range files {
		assert.True(t, names["docs/"+f.Name()], "%s is not served", f.Name())
	}
}

// The examples of the document are requests that are answered.
func TestExamplesOfTheDocument(t *testing.T) {
	sent := 0
	for path, item := range strictDocument().Paths.Map() {
		for method, operation := range item.Operations() {
			target := path
			for _, p := range operation.Parameters {
				if p.Value.In == "path" {
					target = strings.ReplaceAll(path, "{"+p.Value.Name+"}", url.PathEscape(p.Value.Example.(string)))
				}
			}
			body := ""
			if operation.RequestBody != nil {
				example, err := json.Marshal(operation.RequestBody.Value.Content[mediaJSON].Example)
				require.NoError(t, err)
				body = string(example)
			}
			w := ask(t, method, target, body)
			assert.Equal(t, http.StatusOK, w.Code, "%s %s: %s", method, target, w.Body)
			sent++
		}
	}
	assert.NotZero(t, sent)
}

// A page asks for its files all at once, which a rate of requests would forbid.
func TestDocsPageUnderALimit(t *testing.T) {
	h := New(Options{Rate: 0.01})
	for _, f := range docsFiles {
		w := httptest.NewRecorder()
		h.ServeHTTP(w, httptest.NewRequest(http.MethodGet, f.path, nil))
		assert.Equal(t, http.StatusOK, w.Code, f.path)
	}
	assert.Equal(t, http.StatusOK, askOf(t, h, http.MethodGet, "/v1/keys/C", "").Code)
	assert.Equal(t, http.StatusTooManyRequests, askOf(t, h, http.MethodGet, "/v1/keys/C", "").Code)
}
