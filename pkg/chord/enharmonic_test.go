package chord

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// Common practice, no source.
func TestEnharmonic(t *testing.T) {
	tests := []struct{ in, want string }{
		{"F#7", "Gb7"},
		{"Gb7", "F#7"},
		{"Ebm", "D#m"},
		{"A#m7b5/E", "Bbm7b5/Fb"},
		{"Fbm7/Ab", "Em7/G#"},
		{"B#", "C"},
		{"Ebb6", "D6"},
		{"Abmaj7/C", "G#maj7/B#"},
		{"Db/Cb", "C#/B"},
		{"Db/Ebb", "C#/D"},
		{"Gb/Bbb", "F#/A"},
		{"C7alt", ""},
		{"B", ""},
		{"N.C.", ""},
	}
	for _, tt := range tests {
		got, ok := MustParse(tt.in).Enharmonic()
		assert.Equal(t, tt.want != "", ok, tt.in)
		if ok {
			assert.Equal(t, tt.want, got.String(), tt.in)
			assert.Equal(t, MustParse(tt.in).Classes(), got.Classes(), tt.in)
		}
	}
}
