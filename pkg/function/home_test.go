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
		{"a tune that ends where it began, round to its first chord, is not at home in its bridge", tuneInF + " | " + tuneInF + " | Bm7 | E7 | Amaj7 | Amaj7 | Am7 | D7 | Gm7 | (Gm7 C7)", "F major"},
		{"nor if it ends on the tonic without a cadence", tuneInF + " | Bm7 | E7 | Amaj7 | Amaj7 | Am7 | D7 | Gm7 | Fmaj7", "F major"},
		{"the bridge is last and the key is stated", "Key: F major\n" + tuneInF + " | Bm7 | E7 | Amaj7 | Amaj7 | Bm7 | E7 | Amaj7 | Amaj7", "F major"},
		{"the bridge is last and no key is stated", tuneInF + " | Bm7 | E7 | Amaj7 | Amaj7 | Bm7 | E7 | Amaj7 | Amaj7", "A major"},
		{"of a relative pair the final cadence decides", "[A] Cmaj7 | Dm7 G7 | Cmaj7 | Cmaj7 | Dm7 | G7 | Cmaj7 | Cmaj7 | [B] Bm7b5 | E7b9 | Am6 | Am6 | Bm7b5 | E7b9 | Am6 | Am6 | Dm7 | G7 | Em7 | A7 | Dm7 | G7", "A minor"},
		{"a key that its own chords do not spell is one that is written", "Gm7b5 | Db7 | Bb7 | Bb7 Am7b5 | Ebm7b5 Abm7 | Dbm7b5", "D major"},
		{"a stated key alone does not decide", "Key: Ab major\n" + verseInG, "G major"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			a := analyze(t, tt.chart)
			assert.Equal(t, tt.want, a.Home.String(), numerals(&a))
		})
	}
}

// tuneInF are eight invented bars.
const tuneInF = "Fmaj7 | Gm7 C7 | Fmaj7 | Bbmaj7 | Gm7 C7 | Fmaj7 | Am7 D7 | Gm7 C7"

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
