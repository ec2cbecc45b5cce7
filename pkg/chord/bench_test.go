package chord

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"fifthwise/pkg/pitch"
)

// everyday are symbols in the mix of a lead sheet.
var everyday = []string{"C", "F#m7", "Bb7", "Ebmaj7", "Am7b5", "D7b9", "G7/B", "Abdim7", "E7sus4", "C6/9", "Dm", "F#m7(b5)", "B♭Δ7", "G13", "C:min7/b3", "N.C."}

func BenchmarkParse(b *testing.B) {
	i := 0
	for b.Loop() {
		if _, err := Parse(everyday[i%len(everyday)]); err != nil {
			b.Fatal(err)
		}
		i++
	}
}

func BenchmarkParseOne(b *testing.B) {
	for _, s := range append(everyday, "C7(b9,#11,b13)/E", "C:(1,b3,b5,bb7)/b3") {
		b.Run(s, func(b *testing.B) {
			for b.Loop() {
				Parse(s)
			}
		})
	}
}

func BenchmarkAppendTo(b *testing.B) {
	var chords []Chord
	for _, s := range everyday {
		chords = append(chords, MustParse(s))
	}
	buf := make([]byte, 0, 64)
	i := 0
	for b.Loop() {
		buf = chords[i%len(chords)].AppendTo(buf[:0], pitch.ASCII)
		i++
	}
}

func TestNoAllocs(t *testing.T) {
	buf := make([]byte, 0, 64)
	notes := make([]pitch.Note, 0, 16)
	for _, s := range everyday {
		c := MustParse(s)
		for name, f := range map[string]func(){
			"Parse":       func() { MustParse(s) },
			"AppendTo":    func() { buf = c.AppendTo(buf[:0], pitch.Unicode) },
			"AppendNotes": func() { notes = c.AppendNotes(notes[:0]) },
			"Classes":     func() { c.Classes() },
			"Family":      func() { c.Family() },
			"Transpose":   func() { c.Transpose(pitch.MajorThird) },
		} {
			assert.Zero(t, testing.AllocsPerRun(100, f), "%s of %s", name, s)
		}
	}
}
