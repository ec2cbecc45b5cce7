package main

import (
	"net/http/httptest"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fifthwise/api"
)

// The documents are what the code gives, byte by byte.
func TestDocumentsAreUpToDate(t *testing.T) {
	root, err := moduleRoot()
	require.NoError(t, err)
	noteSources(t, root)
	files, err := documents(root)
	require.NoError(t, err)
	for name, want := range files {
		got, err := os.ReadFile(filepath.Join(root, "openapi", name))
		require.NoError(t, err)
		assert.True(t, string(want) == string(got), "openapi/%s is not what the code gives; run go generate ./openapi", name)
	}
}

// A client generated from the document compiles and reads a chart.
func TestGeneratedClient(t *testing.T) {
	root, err := moduleRoot()
	require.NoError(t, err)
	client := filepath.Join(t.TempDir(), "client.go")
	tool(t, root, "tool", "-modfile=tools/go.mod", "oapi-codegen", "-generate", "types,client", "-package", "main", "-o", client, "openapi/openapi.json")
	server := httptest.NewServer(api.New(api.Options{}))
	defer server.Close()
	// Copied, since the files of a program lie in one directory.
	source, err := os.ReadFile("testdata/reader.go")
	require.NoError(t, err)
	reader := filepath.Join(filepath.Dir(client), "reader.go")
	require.NoError(t, os.WriteFile(reader, source, 0o600))
	said := tool(t, root, "run", "-modfile=tools/go.mod", client, reader, server.URL)
	assert.Equal(t, `C major
Dm7 IIm7 diatonic true true
G7 V7 diatonic true true
Cmaj7 Imaj7 diatonic true true
N.C. N.C. silence false true
422 /changes expected the root in upper case 2
F♯7/A♯ [F♯ A♯ C♯ E] G♭7/B♭
`, said)
}

// tool runs go at the root of the module and gives what it prints. What goes
// to the standard error may be about modules being fetched, and is no fault.
func tool(t *testing.T, root string, args ...string) string {
	t.Helper()
	var errors strings.Builder
	cmd := exec.Command("go", args...)
	cmd.Dir = root
	cmd.Stderr = &errors
	said, err := cmd.Output()
	require.NoError(t, err, "%s%s", said, errors.String())
	return string(said)
}

// noteSources reads the files whose comments swag reads. Go sees only what the
// test itself reads, and would otherwise take an old result for the new one.
func noteSources(t *testing.T, root string) {
	t.Helper()
	sources := []string{filepath.Join(root, "tools", "go.mod")}
	for _, dir := range []string{"api", "api/wire"} {
		found, err := filepath.Glob(filepath.Join(root, dir, "*.go"))
		require.NoError(t, err)
		require.NotEmpty(t, found)
		sources = append(sources, found...)
	}
	for _, file := range sources {
		_, err := os.ReadFile(file)
		require.NoError(t, err)
	}
}
