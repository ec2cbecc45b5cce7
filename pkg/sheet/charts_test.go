package sheet

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fifthwise/pkg/chart"
	"fifthwise/pkg/function"
)

// sample is a chart under testdata, all of them invented, as it is drawn with
// all that may be drawn.
type sample struct {
	name     string
	chart    chart.Chart
	analysis function.Analysis
	svg      []byte
}

// sampleOf is the sample of a name.
func sampleOf(t testing.TB, name string) sample {
	for _, s := range samples(t) {
		if s.name == name {
			return s
		}
	}
	require.Fail(t, "no sample", name)
	return sample{}
}

func samples(t testing.TB) (all []sample) {
	files, err := filepath.Glob("testdata/*.txt")
	require.NoError(t, err)
	require.GreaterOrEqual(t, len(files), 10)
	for _, f := range files {
		text, err := os.ReadFile(f)
		require.NoError(t, err)
		c, err := chart.Parse(string(text))
		require.NoError(t, err, f)
		s := sample{name: strings.TrimSuffix(filepath.Base(f), ".txt"), chart: c, analysis: function.Analyze(c)}
		s.svg = SVG(c, &s.analysis, Style{Steps: true})
		all = append(all, s)
	}
	return all
}
