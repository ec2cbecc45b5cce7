package request

import (
	"errors"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fifthwise/pkg/chart"
	"fifthwise/pkg/chart/musicxml"
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
			_, err := Chart([]byte(test.in))
			require.Error(t, err)
			assert.Equal(t, test.want, FaultsOf(err)[0].String())
		})
	}
}

func TestFaultsAreBounded(t *testing.T) {
	_, err := chart.Parse(strings.Repeat("| H ", 30))
	faults := FaultsOf(err)
	assert.Len(t, faults, MaxFaults+1)
	assert.Equal(t, "bar 20: line 1, column 79: \"H\": expected a root A to G or N.C. (the German H is B)", faults[MaxFaults-1].String())
	assert.Equal(t, Fault{Message: "and 10 more"}, faults[MaxFaults])
	assert.Equal(t, []Fault{{Message: "no"}}, FaultsOf(errors.New("no")))
	assert.Equal(t, "bar 3: line 9: \"x\": no", FaultOf(&musicxml.Error{Measure: "3", Line: 9, Symbol: "x", Msg: "no"}).String())
	assert.Equal(t, "measure X1: no", FaultOf(&musicxml.Error{Measure: "X1", Msg: "no"}).String())
}
