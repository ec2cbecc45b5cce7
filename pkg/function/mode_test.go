package function_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// A region of four bars or more without its dominant bears the church mode that
// its chords show; common practice, no source.
func TestModesOfPlateaus(t *testing.T) {
	tests := []struct {
		name, chart string
		want        string // the regions' keys
	}{
		{"a minor seventh alone", "Dm7 | / / / / | / / / / | / / / /", "D dorian"},
		{"three bars are no plateau", "Dm7 | / / / / | / / / /", "D minor"},
		{"bars of three beats count as bars", "Meter: 3/4\nDm7 | / / / | / / / | / / /", "D dorian"},
		{"Im with IV", "Em | A | Em | A | Em | A | Em | / / / /", "E dorian"},
		{"Im7 with IV7", "Cm7 | F7 | Cm7 | F7 | Cm7 | F7 | Cm7 | / / / /", "C dorian"},
		{"Im7 with IIm7", "Cm7 | Dm7 | Cm7 | Dm7 | Cm7 | Dm7 | Cm7 | / / / /", "C dorian"},
		{"Im with bII", "F#m | G | F#m | G | F#m | G | F#m | / / / /", "F# phrygian"},
		{"Im with bVII", "Cm | Bb | Cm | Bb | Cm | Bb | Cm | / / / /", "C minor"},
		{"Im with bVI and bVII", "Bbm | Gb | Ab | Bbm", "Bb minor"},
		{"Im with IVm", "Gm | Cm | Gm | Cm | Gm | Cm | Gm | / / / /", "G minor"},
		{"a minor triad alone", "Gm | / / / / | / / / / | / / / /", "G minor"},
		{"I with bVII", "G | F | G | F | G | F | G | G", "G mixolydian"},
		{"I with bVII and IV", "E | D | A | E | E | D | A | E", "E mixolydian"},
		{"a static seventh", "D7 | / / / / | / / / / | / / / /", "D mixolydian"},
		{"a static suspension", "D7sus4 | / / / / | / / / / | / / / /", "D mixolydian"},
		{"I with II over it", "A | B/A | A | B/A | A | B/A | A | A", "A lydian"},
		{"a major seventh alone", "Cmaj7 | / / / / | / / / / | / / / /", "C major"},
		{"bVII beside the dominant", "E | D | B7 | E", "E major"},
		{"a two-five that owes its tonic", "Gm7 | C7 | Gm7 | C7 | Gm7 | C7 | Gm7 | C7", "F major"},
		{"minor with its dominant", "Dm7 | / / / / | / / / / | Em7b5 A7 | Dm7 | / / / / | Em7b5 A7 | Dm7", "D minor"},
		{"two plateaus, each its own", "Dm7 | / / / / | / / / / | / / / / | Bmaj7 | / / / / | / / / / | / / / /", "D dorian, B major"},
		{"a plateau a half step higher", "[A] Dm7 | / / / / | / / / / | / / / / | [B] Ebm7 | / / / / | / / / / | / / / /", "D dorian, Eb dorian"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			a := analyze(t, tt.chart)
			var keys []string
			for _, r := range a.Regions {
				keys = append(keys, r.Key.String())
				for i := r.First; i <= r.Last; i++ {
					assert.Equal(t, r.Key, a.Chords[i].Key, "the chords' key is their region's")
				}
			}
			assert.Equal(t, tt.want, strings.Join(keys, ", "))
		})
	}
}
