package key_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"fifthwise/pkg/chord"
	"fifthwise/pkg/key"
	"fifthwise/pkg/pitch"
)

// Notes of the key are those of its scales after Hutchinson, Music Theory for the
// 21st-Century Classroom, §2.3 and §3.2; what players write of the rest is
// common practice, no source.
func TestSpell(t *testing.T) {
	tests := []struct{ key, in, want string }{
		{"Gb major", "Cbmaj7", "Cbmaj7"},
		{"Gb major", "Abb7", "G7"},
		{"Gb major", "Ebbmaj7", "Dmaj7"},
		{"Gb major", "Cbm/Ebb", "Cbm/D"},
		{"Gb major", "Db7/Cb", "Db7/Cb"},
		{"Gb major", "F#7", "F#7"},
		{"F# major", "E#m7b5", "E#m7b5"},
		{"F# major", "B#m7b5", "Cm7b5"},
		{"E major", "B#dim7", "Cdim7"},
		{"E major", "G#7/B#", "G#7/B#"},
		{"Db major", "Cb7", "B7"},
		{"Db major", "Fbmaj7/Ab", "Emaj7/G#"},
		{"G# minor", "F##dim7", "F##dim7"},
		{"G# minor", "C##dim7/B", "Ddim7/B"},
		{"C major", "Cb7/Bbb", "B7/A"},
		{"G# minor", "F##m", "Gm"},
		{"A minor", "F#m7", "F#m7"},
		{"C# minor", "B#7", "C7"},
		{"A# minor", "F##m7b5", "F##m7b5"},
		{"A# dorian", "F##m7b5", "F##m7b5"},
		{"G# dorian", "F##dim7", "Gdim7"},
		{"Eb minor", "Cbmaj7", "Cbmaj7"},
		{"Eb minor", "Fbmaj7", "Emaj7"},
		{"C major", "N.C.", "N.C."},
		{"G# major", "F##m7b5", "F##m7b5"},
	}
	for _, tt := range tests {
		t.Run(tt.key+" "+tt.in, func(t *testing.T) {
			assert.Equal(t, tt.want, key.MustParse(tt.key).Spell(chord.MustParse(tt.in)).String())
		})
	}
	assert.Equal(t, "B7", key.Key{}.Spell(chord.MustParse("Cb7")).String(), "an invalid key asks for no root")
}

// A key has the notes of its scale; minor those of three.
func TestHas(t *testing.T) {
	for mode := key.Major; mode <= key.Mixolydian; mode++ {
		for fifths := -7; fifths <= 7; fifths++ {
			k := key.New(pitch.At(fifths), mode)
			want := map[pitch.Note]bool{}
			for _, n := range k.Scale().Notes() {
				want[n] = true
			}
			if mode == key.Minor {
				for _, kind := range []key.ScaleKind{key.HarmonicMinorScale, key.MelodicMinorScale} {
					for _, n := range kind.On(k.Tonic()).Notes() {
						want[n] = true
					}
				}
			}
			for place := -20; place <= 20; place++ {
				assert.Equal(t, want[pitch.At(place)], k.Has(pitch.At(place)), "%v in %v", pitch.At(place), k)
			}
		}
	}
	assert.False(t, key.Key{}.Has(pitch.Note{}))
}
