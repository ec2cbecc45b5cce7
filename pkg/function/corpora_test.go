package function_test

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"fifthwise/pkg/evaluate"
)

// eachCorpus reads the annotated files of a directory outside of the project, if
// the environment names one.
func eachCorpus(t *testing.T, do func(name string, pieces []evaluate.Piece)) {
	t.Helper()
	dir := os.Getenv("FIFTHWISE_CORPORA")
	if dir == "" {
		t.Skip("FIFTHWISE_CORPORA names no directory of annotated pieces (*.jsonl)")
	}
	files, err := filepath.Glob(filepath.Join(dir, "*.jsonl"))
	require.NoError(t, err)
	require.NotEmpty(t, files, "no *.jsonl in %s", dir)
	for _, file := range files {
		r, err := os.Open(file)
		require.NoError(t, err)
		pieces, err := evaluate.Read(r)
		require.NoError(t, err, file)
		require.NoError(t, r.Close())
		do(filepath.Base(file), pieces)
	}
}
