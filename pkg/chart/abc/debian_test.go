package abc

import (
	"errors"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The example files of Debian's packages abcm2ps 8.14.14 and abcmidi 20230208: written by
// many hands, with much that is no part of the standard.
func TestExampleFilesOfDebian(t *testing.T) {
	var files []string
	for _, dir := range []string{"/usr/share/doc/abcm2ps/examples", "/usr/share/doc/abcmidi/examples"} {
		found, err := filepath.Glob(filepath.Join(dir, "*.abc"))
		require.NoError(t, err)
		files = append(files, found...)
	}
	if len(files) == 0 {
		t.Skip("the example files of Debian's packages abcm2ps and abcmidi are not installed")
	}
	tunes, withChords := 0, 0
	for _, file := range files {
		data, err := os.ReadFile(file)
		require.NoError(t, err)
		for tune, err := range Tunes(data) {
			if tune.Number == 0 { // a file of definitions only
				assert.ErrorContains(t, err, "the file holds no tune", file)
				continue
			}
			tunes++
			if errors.Is(err, ErrNoChords) {
				continue
			}
			withChords++
			if assert.NoError(t, err, file) {
				again, err := Parse(Format(tune.Chart, nil))
				require.NoError(t, err, file)
				assert.Equal(t, sounds(tune.Chart), sounds(again), "%s: %d", file, tune.Number)
			}
		}
	}
	t.Logf("%d files, %d tunes, %d with chords", len(files), tunes, withChords)
	assert.Positive(t, withChords)
}
