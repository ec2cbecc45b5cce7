package function_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"fifthwise/pkg/function"
)

// cadencesOf names the cadences with the chords they go over, "half: Dm G".
func cadencesOf(a *function.Analysis) string {
	var list []string
	for _, c := range a.Cadences {
		var symbols []string
		for _, i := range c.Chords {
			symbols = append(symbols, a.Chords[i].Event.Symbol)
		}
		list = append(list, fmt.Sprintf("%v: %s", c.Kind, strings.Join(symbols, " ")))
	}
	return strings.Join(list, ", ")
}

// The kinds of Hutchinson, Music Theory for the 21st-Century Classroom, ch. 7 §7.4,
// and two of jazz players (common practice, no source). Where they count is
// common practice, no source.
func TestCadences(t *testing.T) {
	tests := []struct{ name, chart, want string }{
		{"authentic", "C | F | G7 | C", "authentic: F G7 C"},
		{"authentic without what prepares it", "C | G7 | C | C", "authentic: G7 C"},
		{"authentic by the leading-tone chord", "C | F | Bdim | C", "authentic: F Bdim C"},
		{"authentic in minor", "Cm | Dm7b5 | G7 | Cm", "authentic: Dm7b5 G7 Cm"},
		{"none off the beat and unprepared", "C | G7 C | F | C", "plagal: F C"},
		{"prepared off the beat", "C | Dm G7 C C | F | F | G7 | C", "authentic: Dm G7 C, authentic: F G7 C"},
		{"half where a section ends", "C | Dm | G | G | [B] C | F | G7 | C", "half: Dm G, authentic: F G7 C"},
		{"half at the chart's end", "C | Am | F | G7", "half: F G7"},
		{"no half where I answers at once", "C | F | Dm | G7 | C | F | G7 | C", "authentic: Dm G7 C, authentic: F G7 C"},
		{"phrygian half", "Am | Dm/F | E | E | [B] Am | Dm/F | E | Am", "phrygian-half: Dm/F E, authentic: Dm/F E Am"},
		{"over another bass the half is plain", "Am | Dm | E | E | [B] Am | Dm | E | Am", "half: Dm E, authentic: Dm E Am"},
		{"plagal", "C | F | C | C | C | F | F | C", "plagal: F C"},
		{"minor plagal", "C | F | C | C | C | F | Fm | C", "minor-plagal: Fm C"},
		{"minor plagal with a sixth", "C | Fmaj7 Fm6 | C", "minor-plagal: Fm6 C"},
		{"minor plagal in minor", "Cm | Fm | Cm | Fm | Cm | Fm | Fm | Cm", "minor-plagal: Fm Cm"},
		{"deceptive to VI", "C | F | G7 | Am | F | F | G7 | C", "deceptive: F G7 Am, authentic: F G7 C"},
		{"deceptive to bVI", "C | F | G7 | Ab | Fm | F | G7 | C", "deceptive: F G7 Ab, authentic: F G7 C"},
		{"deceptive to III", "C | F | G7 | Em | F | F | G7 | C", "deceptive: F G7 Em, authentic: F G7 C"},
		{"deceptive in minor", "Am | E7 | F | Dm | E7 | Am", "deceptive: E7 F, authentic: Dm E7 Am"},
		{"backdoor", "Cmaj7 | Fm7 | Bb7 | Cmaj7", "backdoor: Fm7 Bb7 Cmaj7"},
		{"tritone substitute", "Cmaj7 | Dm7 | Db7 | Cmaj7", "tritone-substitute: Dm7 Db7 Cmaj7"},
		{"an applied dominant's goal is none", "Cmaj7 | A7 | Dm7 | Em7 | Dm7 | G7 | Cmaj7 | Cmaj7", "authentic: Dm7 G7 Cmaj7"},
		{"an optional chord closes nothing", "C | F | G7 (C)", ""},
		{"none from one key to the next", "Dm7 | / / / / | / / / / | / / / / | Ebm7 | / / / / | / / / / | / / / /", ""},
		{"one chord", "C", ""},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			a := analyze(t, tt.chart)
			assert.Equal(t, tt.want, cadencesOf(&a), numerals(&a))
			for _, c := range a.Cadences {
				assert.Equal(t, a.Chords[c.Chords[len(c.Chords)-1]].Key, c.Key)
			}
		})
	}
}

func TestCadenceKindNames(t *testing.T) {
	want := map[function.CadenceKind]string{
		function.Authentic: "authentic", function.Half: "half", function.PhrygianHalf: "phrygian-half", function.Plagal: "plagal",
		function.MinorPlagal: "minor-plagal", function.Deceptive: "deceptive", function.Backdoor: "backdoor",
		function.TritoneSubstituted: "tritone-substitute", 200: "invalid",
	}
	for k, name := range want {
		assert.Equal(t, name, k.String())
	}
}
