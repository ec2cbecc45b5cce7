package main

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func Example() {
	main()
	// Output:
	// C major
	//   Dm7 IIm7
	//   G7 V7
	//   Cmaj7 Imaj7
	//   Cmaj7 Imaj7
	// Eb major
	//   Fm7 IIm7
	//   Bb7 V7
	//   Ebmaj7 Imaj7
	//   Ebmaj7 Imaj7
}

// TestReadme holds that README.md shows this program and what it prints.
func TestReadme(t *testing.T) {
	readme := read(t, "../../README.md")
	_, program, _ := strings.Cut(read(t, "main.go"), "package main\n")
	assert.Contains(t, readme, "```go\npackage main\n"+program+"```\n")

	_, output, found := strings.Cut(read(t, "main_test.go"), "// Output:\n")
	require.True(t, found)
	output, _, _ = strings.Cut(output, "}\n")
	assert.Contains(t, readme, "```text\n"+strings.ReplaceAll(output, "\t// ", "")+"```\n")
}

func read(t *testing.T, file string) string {
	text, err := os.ReadFile(file)
	require.NoError(t, err)
	return string(text)
}
