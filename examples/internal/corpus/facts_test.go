package corpus

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestRuns(t *testing.T) {
	one, two := 0, 1
	tests := []struct {
		name   string
		chords []Chord
		want   []string
	}{
		{"none", nil, nil},
		{"silence", []Chord{{Numeral: "N.C."}}, nil},
		{"again at once", []Chord{{Region: &one, Numeral: "I"}, {Region: &one, Numeral: "I"}, {Region: &one, Numeral: "V7"}}, []string{"I-V7"}},
		{"silence parts", []Chord{{Region: &one, Numeral: "I"}, {Numeral: "N.C."}, {Region: &one, Numeral: "I"}}, []string{"I", "I"}},
		{"a key parts", []Chord{{Region: &one, Numeral: "I"}, {Region: &two, Numeral: "I"}, {Region: &two, Numeral: "IV"}}, []string{"I", "I-IV"}},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			r := Row{Reading: &Reading{Regions: make([]Region, 2), Chords: test.chords}}
			assert.Equal(t, test.want, r.Facts().Runs)
		})
	}
}
