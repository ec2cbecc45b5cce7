package function_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
)

// Tunes in G major, all invented. Home is the key of the final cadence among the
// chords that vote; common practice, no source.
const (
	verseInG = "Gmaj7 | Em7 | Am7 | D7 | Gmaj7 | Em7 | Am7 D7 | Gmaj7"
	awayInAb = "Bbm7 | Eb7 | Abmaj7 | / / / /"
)

func TestHome(t *testing.T) {
	tests := []struct{ name, chart, want string }{
		{"one key", verseInG, "G major"},
		{"the final cadence decides", awayInAb + " | " + verseInG, "G major"},
		{"and not the first", verseInG + " || " + awayInAb + " | " + awayInAb, "Ab major"},
		{"an end on IV", "D | A7 | D | G | D | A7 | D | G", "D major"},
		{"an end on V", "B | E | B | F#7 | B | E | B | F#7", "B major"},
		{"an optional turnaround elsewhere", "Bbm7 | Eb7 | Abmaj7 | / / / / | Bbm7 | Eb7 | Abmaj7 | (F7)", "Ab major"},
		{"without a cadence, the key in which it ends", "Dm7 | / / / / | / / / / | / / / / | Bm7 | / / / / | / / / / | / / / /", "B dorian"},
		{"a tonic owed at the end", "Gm7 | C7 | Gm7 | C7", "F major"},
		{"where all sections are passing ones, the key in which it ends", "[Intro] " + verseInG + " | [Coda] " + awayInAb, "Ab major"},
		{"a stated key alone does not decide", "Key: Ab major\n" + verseInG, "G major"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			a := analyze(t, tt.chart)
			assert.Equal(t, tt.want, a.Home.String(), numerals(&a))
		})
	}
}

func TestPassingSectionsDoNotVote(t *testing.T) {
	for _, name := range []string{"Coda", "coda", "Coda 2", "CODA", "Outro", "Ending", "Fade", "Fadeout", "Tag", "Vamp", "Interlude", "Link 12", "Intro"} {
		a := analyze(t, fmt.Sprintf("[A] %s | [%s] %s", verseInG, name, awayInAb))
		assert.Equal(t, "G major", a.Home.String(), name)
		a = analyze(t, fmt.Sprintf("[%s] %s | [A] %s", name, awayInAb, verseInG))
		assert.Equal(t, "G major", a.Home.String(), name)
	}
	for _, name := range []string{"B", "Bridge", "Chorus", "Codas", "The Coda"} {
		a := analyze(t, fmt.Sprintf("[A] %s | [%s] %s", verseInG, name, awayInAb))
		assert.Equal(t, "Ab major", a.Home.String(), name)
	}
}

// A last section that repeats an earlier one in another key leaves home where
// that was.
func TestLiftedEnds(t *testing.T) {
	tests := []struct{ name, chart, want string }{
		{"a half step up", "[A] F | Dm7 | Gm7 | C7 | F | Dm7 | Gm7 C7 | F | [A] Gb | Ebm7 | Abm7 | Db7 | Gb | Ebm7 | Abm7 Db7 | Gb", "F major"},
		{"a whole step up", "[A] Gm | Cm | Am7b5 D7 | Gm | Gm | Cm | Am7b5 D7 | Gm | [B] Am | Dm | Bm7b5 E7 | Am | Am | Dm | Bm7b5 E7 | Am", "G minor"},
		{"other chords are no lift", "[A] F | Dm7 | Gm7 | C7 | F | Dm7 | Gm7 C7 | F | [B] Gb | Cb | Gb | Cb | Gb | Cb | Abm7 Db7 | Gb", "Gb major"},
		{"nor is the other mode", "[A] Am | Dm | E7 | Am | Am | Dm | E7 | Am | [B] Bb | Eb | F7 | Bb | Bb | Eb | F7 | Bb", "Bb major"},
		{"two lifts", "[A] F | Dm7 | Gm7 C7 | F | F | Dm7 | Gm7 C7 | F | [A] Gb | Ebm7 | Abm7 Db7 | Gb | Gb | Ebm7 | Abm7 Db7 | Gb | [A] G | Em7 | Am7 D7 | G | G | Em7 | Am7 D7 | G", "F major"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			a := analyze(t, tt.chart)
			assert.Equal(t, tt.want, a.Home.String(), numerals(&a))
		})
	}
}
