package key

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// Robert Hutchinson, Music Theory for the 21st-Century Classroom, ch. 3: the
// keys on the circle of fifths. Theoretical keys: common practice, no source.
func TestEnharmonic(t *testing.T) {
	tests := []struct{ in, want string }{
		{"F# major", "Gb major"},
		{"Gb major", "F# major"},
		{"B major", "Cb major"},
		{"Db major", "C# major"},
		{"G# minor", "Ab minor"},
		{"Eb minor", "D# minor"},
		{"D# dorian", "Eb dorian"},
		{"G# major", "Ab major"},
		{"Fb major", "E major"},
		{"C major", ""},
		{"E major", ""},
		{"Ab major", ""},
	}
	for _, tt := range tests {
		got, ok := MustParse(tt.in).Enharmonic()
		assert.Equal(t, tt.want != "", ok, tt.in)
		if ok {
			assert.Equal(t, tt.want, got.String())
			assert.True(t, got.Sounds(MustParse(tt.in)), tt.in)
		}
	}
	_, ok := Key{}.Enharmonic()
	assert.False(t, ok)
}
