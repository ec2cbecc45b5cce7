package main

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fifthwise/examples/internal/request"
	"fifthwise/pkg/chart"
)

func TestFaultyRequests(t *testing.T) {
	tests := []struct{ in, want string }{
		{`{"changes":"| C |"`, "the JSON ends too early (a chart stands on one line)"},
		{`{"changes":"| C |"}}`, "byte 19 of the line is no sound JSON: invalid character '}' after top-level value"},
		{`{"changes":"| C |","changes":"| F |"}`, "byte 19 of the line is no sound JSON: duplicate object member name"},
		{`{"changes":7}`, "/changes: the value is of another type than expected"},
		{`{"chords":[]}`, "/chords: unknown field (a chart has title, meter, key and either changes or bars)"},
		{`{"changes":"| C |","bars":[{"chords":[]}]}`, "expected either changes or bars"},
		{`{"bars":[]}`, "expected either changes or bars"},
		{`{"changes":"| C |","meter":"5"}`, `/meter: expected a meter at offset 0 of "5" (for example 3/4)`},
		{`{"bars":[{}]}`, "bar 1: chords is missing ([] holds the chord before)"},
		{`{"bars":[{"number":9,"chords":[{"symbol":"C","beats":0}]}]}`, `bar 9: "C": beats: expected more than 0`},
		{`{"bars":[{"chords":[{"symbol":"C"}]},{"chords":[{"symbol":"b7"}]}]}`, `bar 2: "b7": expected the root in upper case (write B7 or Bm7)`},
	}
	for _, test := range tests {
		t.Run(test.in, func(t *testing.T) {
			_, err := request.Chart([]byte(test.in))
			require.Error(t, err)
			assert.Equal(t, test.want, request.FaultsOf(err)[0].String())
		})
	}
}

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
		r := w.work(source{Origin{1, "-", "line 1"}, func() (chart.Chart, error) { return c, err }})
		require.NoError(t, r.err)
		var again *facts
		back := reread{each: func(f *facts) { again = f }}
		require.NoError(t, back.lines(bytes.NewReader(r.text)))
		require.Equal(t, int64(len(r.text)), back.end)
		require.Equal(t, &r.facts, again)
	})
}
