package musicxml

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fifthwise/pkg/chart"
)

var update = flag.Bool("update", false, "write the charts under testdata anew")

// scores are the files under testdata: invented tunes as notation programs
// export them.
func scores(t testing.TB) []string {
	t.Helper()
	files, err := filepath.Glob(filepath.Join("testdata", "*.musicxml"))
	require.NoError(t, err)
	require.NotEmpty(t, files)
	return files
}

func readFile(t testing.TB, file string) *Document {
	t.Helper()
	data, err := os.ReadFile(file)
	require.NoError(t, err)
	d, err := Read(data)
	require.NoError(t, err, file)
	return d
}

// Each score is read as the chart beside it: what the page says, in the text
// notation, with the measures that the bars come from and what was warned of as
// comments.
func TestScoresAreReadAsTheirCharts(t *testing.T) {
	for _, file := range scores(t) {
		t.Run(filepath.Base(file), func(t *testing.T) {
			d := readFile(t, file)
			got := described(d)
			golden := strings.TrimSuffix(file, ".musicxml") + ".txt"
			if *update {
				require.NoError(t, os.WriteFile(golden, []byte(got), 0o644))
			}
			want, err := os.ReadFile(golden)
			require.NoError(t, err)
			assert.Equal(t, string(want), got)
			c, err := chart.Parse(got)
			require.NoError(t, err)
			assert.Equal(t, d.Chart().String(), c.String(), "the text loses something")
		})
	}
}

// described is the chart of a document with comments on its origin.
func described(d *Document) string {
	var b strings.Builder
	fmt.Fprintf(&b, "# measures %v\n", d.Measures())
	for _, w := range d.Chart().Warnings {
		fmt.Fprintf(&b, "# bar %d: %s\n", w.Bar, w.Message)
	}
	return b.String() + d.Chart().String()
}

// MusicXML to text to MusicXML keeps every chord, bar and repeat.
func TestScoresSurviveTheTextNotation(t *testing.T) {
	for _, file := range scores(t) {
		d := readFile(t, file)
		c, err := chart.Parse(d.Chart().String())
		require.NoError(t, err)
		again, err := Read(Write(c, nil))
		require.NoError(t, err)
		assert.Equal(t, d.Chart().String(), again.Chart().String(), file)
		assert.True(t, again.Chart().Equal(c), file)
	}
}

// Symbols are kept as they stand on the page.
func TestSymbolsAsWritten(t *testing.T) {
	d := readFile(t, filepath.Join("testdata", "quay_lamps.musicxml"))
	var got []string
	for _, b := range d.Chart().Bars {
		for _, s := range b.Chords {
			got = append(got, s.Symbol)
		}
	}
	assert.Equal(t, strings.Fields("Cmaj7 Am7 D9(#11) Dm7 G7b9 C6/9 Fm7 Bb13 Ebmaj7 Ab7#11 N.C. Dm7b5 G7sus4 G7alt C/E Cmaj7"), got)
}
