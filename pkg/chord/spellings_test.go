package chord

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// Each is read in the tables' tests, where its source stands.
func TestQualitySpellings(t *testing.T) {
	tests := []struct {
		in   string
		want []string
	}{
		{"m7", []string{"m7", "min7", "mi7", "-7", "−7"}},
		{"7", []string{"7", "dom", "dom7", "x", "x7"}},
	}
	for _, tt := range tests {
		q, err := ParseQuality(tt.in)
		assert.NoError(t, err)
		assert.Equal(t, tt.want, q.Spellings(), tt.in)
	}
}

func TestEverySpellingIsRead(t *testing.T) {
	for q, list := range spellings() {
		seen := map[string]bool{}
		for _, s := range q.Spellings() {
			got, err := ParseQuality(s)
			assert.NoError(t, err, s)
			assert.Equal(t, q, got, s)
			assert.Equal(t, q, MustParse("C"+s).Quality(), s)
			assert.False(t, seen[s], "%s twice", s)
			seen[s] = true
		}
		assert.NotEmpty(t, list)
	}
}

// A list of degrees has no other spelling, and stays the only one.
func TestUnnamedQualityHasOneSpelling(t *testing.T) {
	q, err := ParseQuality(":(1,b3,b7)")
	assert.NoError(t, err)
	assert.Equal(t, []string{q.String()}, q.Spellings())
}
