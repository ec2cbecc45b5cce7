package evaluate

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fifthwise/pkg/function"
)

func TestAnalyzeKeepsTheOrder(t *testing.T) {
	var lines strings.Builder
	for i := range 40 {
		fmt.Fprintf(&lines, `{"id": "%d", "meter": "4/4", "chords": [{"bar": 1, "beat": 1, "symbol": "G7", "key": "C"}, {"bar": %d, "beat": 1, "symbol": "C"}]}`+"\n", i, i+2)
	}
	pieces, err := Read(strings.NewReader(lines.String()))
	require.NoError(t, err)
	readings := Analyze(pieces)
	require.Len(t, readings, len(pieces))
	for i := range pieces {
		assert.Equal(t, function.Analyze(pieces[i].Chart).Chords, readings[i].Chords)
		assert.Equal(t, i+2, readings[i].Chords[1].Event.Bar)
	}
	assert.Empty(t, Analyze(nil))
}

func ExampleCompare() {
	const line = `{"id": "Quay", "meter": "4/4", "chords": [` +
		`{"bar": 1, "beat": 1, "symbol": "Cmaj7", "key": "C major", "numeral": "I"},` +
		`{"bar": 2, "beat": 1, "symbol": "A7", "key": "D minor", "numeral": "V"},` + // an odd analyst
		`{"bar": 3, "beat": 1, "symbol": "Dm7", "key": "C major", "numeral": "II"},` +
		`{"bar": 3, "beat": 3, "symbol": "G7", "key": "C major", "numeral": "V"},` +
		`{"bar": 4, "beat": 1, "symbol": "Cmaj7", "key": "C major", "numeral": "I"}]}`
	pieces, err := Read(strings.NewReader(line))
	if err != nil {
		panic(err)
	}
	readings := Analyze(pieces)
	s := Compare(&pieces[0], &readings[0])
	fmt.Println(s.KeyShare(), s.LabelShare())
	// Output: 0.8 1
}
