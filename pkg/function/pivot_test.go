package function_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// A chord of two neighbouring regions carries its second numeral; Hutchinson,
// Music Theory for the 21st-Century Classroom, ch. 22 §22.4 tells of common chords;
// which of two counts is common practice, no source.
func TestPivots(t *testing.T) {
	tests := []struct{ name, chart, want string }{
		{"one key has none", "C | Am | Dm G7 | C", ""},
		{"the new region's two in the old key", "[A] Abmaj7 | Fm7 | Bbm7 | Eb7 | Abmaj7 | Dbmaj7 | Bbm7 Eb7 | Abmaj7 " +
			"| [B] Fm7 | Bb7 | Ebmaj7 | Cm7 | Fm7 | Bb7 | Ebmaj7 | Ebmaj7", "Fm7 as VIm7 of Ab major"},
		{"the old region's last chord in the new", "D | Bm7 | Em7 A7 | D | A | B7 | E | / / / / | F#m7 | B7 | E | / / / /", "A as IV of E major"},
		{"keys without a common chord there", "Cmaj7 | Dm7 G7 | Cmaj7 | C#7 | F#maj7 | / / / / | G#m7 C#7 | F#maj7", ""},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			a := analyze(t, tt.chart)
			var got []string
			for i, r := range a.Chords {
				if !r.Pivot.Key.IsValid() {
					continue
				}
				said := fmt.Sprintf("as %v of %v", r.Pivot.Numeral, r.Pivot.Key)
				got = append(got, r.Event.Symbol+" "+said)
				assert.True(t, strings.HasSuffix(a.Reason(i), said+" it joins the two keys."), a.Reason(i))
			}
			assert.Equal(t, tt.want, strings.Join(got, ", "), numerals(&a))
		})
	}
}
