package evaluate

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fifthwise/pkg/function"
)

func TestWeights(t *testing.T) {
	w := function.Default()
	w[function.FitMajorI] = -1.23456
	w[function.FitV] = -.001
	w[function.FitV7] = 3
	var text strings.Builder
	require.NoError(t, WriteWeights(&text, w))
	assert.Contains(t, text.String(), "fit major i\t-1.23\n")
	assert.Contains(t, text.String(), "fit v\t0\n")
	assert.Contains(t, text.String(), "fit v7\t3\n")
	assert.Equal(t, len(function.Terms()), strings.Count(text.String(), "\n"))
	got, err := ReadWeights(strings.NewReader(text.String()))
	require.NoError(t, err)
	assert.Equal(t, Rounded(w), got)
	assert.False(t, math.Signbit(got[function.FitV]))

	got, err = ReadWeights(strings.NewReader("# a dear change\n\n change key \t 7.5 \r\n"))
	require.NoError(t, err)
	w = function.Default()
	w[function.ChangeKey] = 7.5
	assert.Equal(t, w, got, "the others keep their cost")
}

func TestReadWeightsErrors(t *testing.T) {
	tests := []struct{ name, in, want string }{
		{"no tab", "change key 3", `line 1: expected the name of a term, a tab and a cost, not "change key 3"`},
		{"unknown", "\nkey change\t3", `line 2: no term is called "key change"`},
		{"twice", "change key\t3\nchange key\t3", `line 2: "change key" has a cost already`},
		{"no number", "change key\tdear", `line 1: expected a number from -100 to 100, not "dear"`},
		{"not a number", "change key\tNaN", `line 1: expected a number from -100 to 100, not "NaN"`},
		{"too much", "change key\t101", `line 1: expected a number from -100 to 100, not "101"`},
		{"long line", strings.Repeat("x", 1<<17), `line 1: bufio.Scanner: token too long`},
	}
	for _, tt := range tests {
		_, err := ReadWeights(strings.NewReader(tt.in))
		assert.EqualError(t, err, tt.want, tt.name)
	}
}

func FuzzReadWeights(f *testing.F) {
	f.Add("change key\t7.5\n# x\n\nfit v\t-1e1")
	f.Add("fit v\t")
	f.Fuzz(func(t *testing.T, s string) {
		w, err := ReadWeights(strings.NewReader(s))
		if err != nil {
			return
		}
		var text strings.Builder
		require.NoError(t, WriteWeights(&text, w))
		again, err := ReadWeights(strings.NewReader(text.String()))
		require.NoError(t, err)
		require.Equal(t, Rounded(w), again)
	})
}
