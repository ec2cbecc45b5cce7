package api

import (
	"bytes"
	"context"
	"encoding/json"
	"io"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"github.com/getkin/kin-openapi/openapi3"
	"github.com/getkin/kin-openapi/openapi3filter"
	"github.com/getkin/kin-openapi/routers"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fifthwise/openapi"
)

// What is no JSON is a string to the document.
func init() {
	for _, media := range append(sourceMedia(), formMedia()...) {
		if media != mediaJSON {
			openapi3filter.RegisterBodyDecoder(media, openapi3filter.FileBodyDecoder)
		}
	}
}

// strictDocument is the document that is served, but with answers that may hold
// no more than it says.
var strictDocument = sync.OnceValue(func() *openapi3.T {
	doc, err := openapi3.NewLoader().LoadFromData(openapi.Document)
	if err != nil {
		panic(err)
	}
	for _, schema := range doc.Components.Schemas {
		if len(schema.Value.Properties) > 0 {
			no := false
			schema.Value.AdditionalProperties.Has = &no
		}
	}
	return doc
})

// conform holds an answer against the document that the service sends: status,
// media type, every field. What the document does not have must be a problem.
func conform(t *testing.T, request *http.Request, response *httptest.ResponseRecorder) {
	t.Helper()
	body := response.Body.Bytes()
	input := inputOf(request)
	switch {
	case request.Method == http.MethodOptions:
		assert.Equal(t, http.StatusNoContent, response.Code)
	case input == nil && request.Method == http.MethodHead:
		assert.GreaterOrEqual(t, response.Code, 400)
		assert.Empty(t, body)
	case input == nil:
		assert.GreaterOrEqual(t, response.Code, 400, "%s %s is not in the document", request.Method, request.URL)
		conformProblem(t, response.Header(), body)
	case request.Method == http.MethodHead:
		answer := input.Route.Operation.Responses.Status(response.Code)
		require.NotNil(t, answer, "the document has no status %d", response.Code)
		assert.Contains(t, answer.Value.Content, response.Header().Get("Content-Type"))
		assert.Empty(t, body)
	case response.Header().Get("Content-Type") == mediaLines:
		conformLines(t, input.Route.Operation.Responses.Status(response.Code), body)
	default:
		assert.NoError(t, openapi3filter.ValidateResponse(context.Background(), &openapi3filter.ResponseValidationInput{
			RequestValidationInput: input,
			Status:                 response.Code,
			Header:                 response.Header(),
			Body:                   io.NopCloser(bytes.NewReader(body)),
			Options:                &openapi3filter.Options{IncludeResponseStatus: true, MultiError: true},
		}), "%s %s: %s", request.Method, request.URL, body)
	}
}

func conformProblem(t *testing.T, header http.Header, body []byte) {
	t.Helper()
	assert.Equal(t, mediaProblem, header.Get("Content-Type"))
	conformJSON(t, strictDocument().Components.Schemas["Problem"].Value, body)
}

func conformLines(t *testing.T, response *openapi3.ResponseRef, body []byte) {
	t.Helper()
	require.NotNil(t, response)
	for line := range bytes.Lines(body) {
		conformJSON(t, response.Value.Content[mediaLines].Schema.Value, line)
	}
}

func conformJSON(t *testing.T, schema *openapi3.Schema, text []byte) {
	t.Helper()
	var value any
	require.NoError(t, json.Unmarshal(text, &value), "%s", text)
	assert.NoError(t, schema.VisitJSON(value, openapi3.MultiErrors()), "%s", text)
}

// inputOf finds the operation of the document that a request asks for; nil if
// there is none. Unlike the routers at hand it leaves slashes to the last
// parameter of a path.
func inputOf(r *http.Request) *openapi3filter.RequestValidationInput {
	doc := strictDocument()
	for path, item := range doc.Paths.Map() {
		front, parameter, _ := strings.Cut(path, "{")
		value, ok := strings.CutPrefix(r.URL.Path, front)
		if !ok || (value == "") != (parameter == "") {
			continue
		}
		method := r.Method
		if method == http.MethodHead {
			method = http.MethodGet
		}
		if operation := item.GetOperation(method); operation != nil {
			return &openapi3filter.RequestValidationInput{
				Request:    r,
				PathParams: map[string]string{strings.TrimSuffix(parameter, "}"): value},
				Route:      &routers.Route{Spec: doc, Path: path, PathItem: item, Method: method, Operation: operation},
				Options:    &openapi3filter.Options{AuthenticationFunc: openapi3filter.NoopAuthenticationFunc}, // tokens have tests of their own
			}
		}
	}
	return nil
}

// conforming is a handler whose answers are held against the document, and the
// requests that it grants too.
func conforming(t *testing.T, h http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		t.Helper()
		sent, err := io.ReadAll(r.Body)
		require.NoError(t, err)
		r.Body = io.NopCloser(bytes.NewReader(sent))
		recorder := httptest.NewRecorder()
		h.ServeHTTP(recorder, r)
		conform(t, r, recorder)
		input := inputOf(r)
		if recorder.Code == http.StatusOK && input != nil && recorder.Header().Get("Content-Type") != mediaLines {
			r.Body = io.NopCloser(bytes.NewReader(sent))
			assert.NoError(t, openapi3filter.ValidateRequest(context.Background(), input), "the document refuses what was granted: %s", sent)
		}
		for name, values := range recorder.Header() {
			w.Header()[name] = values
		}
		w.WriteHeader(recorder.Code)
		_, _ = w.Write(recorder.Body.Bytes())
	})
}

// ask sends a request to the whole API and holds the answer against the
// document.
func ask(t *testing.T, method, target, body string, headers ...string) *httptest.ResponseRecorder {
	t.Helper()
	return askOf(t, New(Options{}), method, target, body, headers...)
}

func askOf(t *testing.T, h http.Handler, method, target, body string, headers ...string) *httptest.ResponseRecorder {
	t.Helper()
	r := httptest.NewRequest(method, target, strings.NewReader(body))
	if body != "" {
		r.Header.Set("Content-Type", mediaJSON)
	}
	for i := 0; i < len(headers); i += 2 {
		r.Header.Set(headers[i], headers[i+1])
	}
	w := httptest.NewRecorder()
	conforming(t, h).ServeHTTP(w, r)
	return w
}

// Every body of the tests is answered as the document says, the good ones and
// the bad ones, alone and as a line of a stream.
func TestAnswersConform(t *testing.T) {
	good, err := filepath.Glob("testdata/*.request.json")
	require.NoError(t, err)
	require.NotEmpty(t, good)
	var lines bytes.Buffer
	for _, file := range good {
		body, err := os.ReadFile(file)
		require.NoError(t, err)
		assert.Equal(t, http.StatusOK, ask(t, http.MethodPost, "/v1/analyses", string(body)).Code)
		require.NoError(t, json.Compact(&lines, body))
		lines.WriteByte('\n')
	}
	for _, bad := range badInput {
		t.Run(bad.name, func(t *testing.T) {
			assert.Equal(t, bad.status, ask(t, http.MethodPost, "/v1/analyses", bad.body, "Content-Type", mediaJSON).Code)
		})
		lines.WriteString(strings.ReplaceAll(bad.body, "\n", " ") + "\n")
	}
	w := ask(t, http.MethodPost, "/v1/analyses", lines.String(), "Content-Type", mediaLines)
	assert.Equal(t, mediaLines, w.Header().Get("Content-Type"))
	assert.Greater(t, bytes.Count(w.Body.Bytes(), []byte("\n")), len(good))
}

func TestDocumentIsSound(t *testing.T) {
	doc, err := openapi3.NewLoader().LoadFromData(openapi.Document)
	require.NoError(t, err)
	require.NoError(t, doc.Validate(context.Background()))
	for name, schema := range doc.Components.Schemas {
		for field, s := range schema.Value.Properties {
			if s.Ref == "" {
				assert.NotEmpty(t, s.Value.Description, "%s.%s is not described", name, field)
			}
		}
	}
}

// A check that finds nothing wrong with anything would be worth nothing.
func TestConformFindsFaults(t *testing.T) {
	tests := []struct{ name, target, media, body string }{
		{"another field", "/healthz", mediaJSON, `{"status": "ok", "more": 1}`},
		{"a field missing", "/healthz", mediaJSON, `{}`},
		{"null for a list", "/v1/chords/N.C.", mediaJSON, `{"symbol":"N.C.","canonical":"N.C.","root":"","bass":"","quality":"","family":"none","notes":null,"degrees":[],"intervals":[],"harte":"N","enharmonic":null,"other_spellings":[]}`},
		{"a word outside its list", "/healthz", mediaJSON, `{"status": "well"}`},
		{"another media type", "/healthz", "text/plain", `{"status": "ok"}`},
		{"an unknown path granted", "/nowhere", mediaJSON, `{}`},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			w := httptest.NewRecorder()
			w.Header().Set("Content-Type", tt.media)
			w.WriteHeader(http.StatusOK)
			_, _ = w.WriteString(tt.body)
			found := &testing.T{}
			done := make(chan struct{})
			go func() { // require ends the goroutine
				defer close(done)
				conform(found, httptest.NewRequest(http.MethodGet, tt.target, nil), w)
			}()
			<-done
			assert.True(t, found.Failed())
		})
	}
}
