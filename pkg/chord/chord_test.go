package chord

import "testing"

func TestTry(t *testing.T) {
	for _, s := range []string{"C", "Cm", "Cdim", "Caug", "Csus4", "Csus2", "C5", "C6", "Cm6", "C6/9", "Cm6/9", "Cmaj7", "C7", "Cm7", "Cm7b5", "Cdim7", "Cm(maj7)", "C7#5", "C7b5", "Cmaj7#5", "Cmaj7#11", "C7sus4", "C9", "Cmaj9", "Cm9", "C9sus4", "C11", "Cm11", "C13", "Cadd9", "C7alt", "C7b9#11", "C(b9)", "C/E", "N.C.", "C6/9/E", "Cø", "CΔ", "C13sus(b9)", "C7(b9,#5)", "C:(1,b3,bb5,bb7)/bb7", "C:7(*5)", "CmM9", "Comit5", "Cmadd9", "CMadd9", "C+7", "C-7-5", "C7+9"} {
		c, err := Parse(s)
		if err != nil {
			t.Error(err)
			continue
		}
		if again, err := Parse(c.String()); err != nil || again != c {
			t.Error(s, again, c, err)
		}
	}
}
