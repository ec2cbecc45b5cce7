package main

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/require"

	"fifthwise/examples/internal/corpus"
	"fifthwise/examples/internal/request"
	"fifthwise/pkg/chart"
)

// Whatever a line holds gives a row, and the row gives its facts again.
func FuzzRequest(f *testing.F) {
	f.Add([]byte(requestOf(0)))
	f.Add([]byte(`{"title":"T","meter":"3/4","key":"A minor","bars":[{"section":"A","number":0,"chords":[{"symbol":"Am","beat":1,"beats":1.5},{"symbol":"N.C."}],"double":true}]}`))
	f.Add([]byte(`{"bars":[{"chords":null}],"options":{"numerals":"cased"}}`))
	o, err := parse(nil)
	require.NoError(f, err)
	f.Fuzz(func(t *testing.T, line []byte) {
		w := writer{options: &o}
		c, err := request.Chart(line)
		r := w.work(source{corpus.Origin{Number: 1, File: "-", Place: "line 1"}, func() (chart.Chart, error) { return c, err }})
		require.NoError(t, r.err)
		var again *corpus.Facts
		back := reread{each: func(f *corpus.Facts) { again = f }}
		require.NoError(t, back.lines(bytes.NewReader(r.text)))
		require.Equal(t, int64(len(r.text)), back.end)
		require.Equal(t, &r.facts, again)
	})
}
