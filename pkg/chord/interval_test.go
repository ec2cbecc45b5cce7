package chord

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// R. Hutchinson, Music Theory for the 21st-Century Classroom, ch. 5: from
// memory.
func TestIntervalName(t *testing.T) {
	tests := []struct{ degree, want string }{
		{"1", "unison"},
		{"2", "major second"},
		{"b3", "minor third"},
		{"3", "major third"},
		{"bb3", "diminished third"},
		{"4", "perfect fourth"},
		{"#4", "augmented fourth"},
		{"b5", "diminished fifth"},
		{"5", "perfect fifth"},
		{"#5", "augmented fifth"},
		{"bb5", "doubly diminished fifth"},
		{"6", "major sixth"},
		{"bb7", "diminished seventh"},
		{"b7", "minor seventh"},
		{"7", "major seventh"},
		{"8", "perfect octave"},
		{"b9", "minor ninth"},
		{"#9", "augmented ninth"},
		{"b10", "minor tenth"},
		{"11", "perfect eleventh"},
		{"#11", "augmented eleventh"},
		{"12", "perfect twelfth"},
		{"b13", "minor thirteenth"},
		{"##13", "doubly augmented thirteenth"},
	}
	for _, tt := range tests {
		d, err := ParseDegree(tt.degree)
		assert.NoError(t, err)
		assert.Equal(t, tt.want, d.IntervalName(), tt.degree)
	}
}
