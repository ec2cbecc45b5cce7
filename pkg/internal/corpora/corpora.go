// Package corpora finds annotated pieces outside of the project, for tests.
package corpora

import (
	"os"
	"path/filepath"
	"testing"
)

// Files are the *.jsonl of the directory that FIFTHWISE_CORPORA names. The test is
// skipped where it names none.
func Files(t testing.TB) []string {
	t.Helper()
	dir := os.Getenv("FIFTHWISE_CORPORA")
	if dir == "" {
		t.Skip("FIFTHWISE_CORPORA names no directory of annotated pieces (*.jsonl)")
	}
	files, err := filepath.Glob(filepath.Join(dir, "*.jsonl"))
	if err != nil || len(files) == 0 {
		t.Fatalf("no *.jsonl in %s", dir)
	}
	return files
}
