package function_test

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"fifthwise/pkg/evaluate"
	"fifthwise/pkg/internal/corpora"
)

// eachCorpus reads the annotated files of a directory outside of the project, if
// the environment names one.
func eachCorpus(t *testing.T, do func(name string, pieces []evaluate.Piece)) {
	t.Helper()
	for _, file := range corpora.Files(t) {
		r, err := os.Open(file)
		require.NoError(t, err)
		pieces, err := evaluate.Read(r)
		require.NoError(t, err, file)
		require.NoError(t, r.Close())
		do(filepath.Base(file), pieces)
	}
}
