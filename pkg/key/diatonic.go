package key

import (
	"fifthwise/pkg/chord"
	"fifthwise/pkg/pitch"
)

// Scale is the key's scale; for minor the natural one. The harmonic and the
// melodic are HarmonicMinorScale.On(k.Tonic()) and MelodicMinorScale.
func (k Key) Scale() Scale { return k.mode.Scale().On(k.tonic) }

// Triads are the triads on the degrees of the key's scale, from the tonic up;
// nil if the key is invalid.
func (k Key) Triads() []chord.Chord { return k.Scale().Triads() }

// Sevenths are the seventh chords on the degrees of the key's scale, from the
// tonic up; nil if the key is invalid.
func (k Key) Sevenths() []chord.Chord { return k.Scale().Sevenths() }

// Triads are the chords of three notes in thirds on each degree of a scale of
// seven notes, from the tonic up; nil for other scales.
func (s Scale) Triads() []chord.Chord { return s.stack(3) }

// Sevenths are the chords of four notes in thirds on each degree of a scale of
// seven notes, from the tonic up; nil for other scales.
func (s Scale) Sevenths() []chord.Chord { return s.stack(4) }

// stack builds chords of so many notes, each two steps of the scale apart. It
// does so on C: near the ends of the line of fifths notes are respelled.
func (s Scale) stack(size int) []chord.Chord {
	var c pitch.Note
	notes := s.kind.On(c).Notes()
	if len(notes) != 7 {
		return nil
	}
	chords := make([]chord.Chord, len(notes))
	for i, root := range notes {
		var q chord.Quality
		for n := 1; n < size; n++ {
			q = q.With(chord.D(root.To(notes[(i+2*n)%7]).Degree()))
		}
		chords[i] = chord.New(root, q).Transpose(c.To(s.tonic))
	}
	return chords
}
