package study

import (
	"fifthwise/pkg/function"
	"fifthwise/pkg/key"
	"fifthwise/pkg/pitch"
)

// Practice is what to play over a tune, chord by chord as it is played.
type Practice struct {
	Chords []Material
	// Lines are the two guide-tone lines, one note a chord, without octaves:
	// thirds and sevenths, each going to the nearest of the next chord, so that
	// mostly the third becomes a seventh and the seventh a third. The first begins
	// on the third of the first chord, the second on its seventh.
	Lines [2][]Step
}

// Material is what there is to play over one chord. Silence has none. Notes are
// spelled by their degrees, but for names that players do not read: Abdim7 is
// Ab B D F, and no tension or step of a scale carries two accidentals.
type Material struct {
	Tones  []pitch.Note  // of the chord, from the root up
	Guides [2]pitch.Note // third and seventh, or what stands for them; see [Guides]
	Scale  key.Scale     // by what the chord does in its key; invalid where no scale has all its notes
	Notes  []pitch.Note  // of the scale, from its tonic up
}

// PracticeOf takes the material from a reading.
func PracticeOf(a *function.Analysis) Practice {
	p := Practice{Chords: make([]Material, len(a.Chords))}
	chords := make([]Chord, len(a.Chords))
	for i := range a.Chords {
		r := &a.Chords[i]
		chords[i] = Chord{r.Event.Start, r.Event.Len, r.Event.Chord}
		if r.Event.Chord.IsSilence() {
			continue
		}
		m := &p.Chords[i]
		m.Tones = tonesOf(r.Event.Chord)
		m.Scale, m.Notes = scaleOver(r.Scale, m.Tones)
		for v, step := range stepsOver(r.Event.Chord) {
			m.Guides[v] = step.Note
		}
	}
	p.Lines = lines(chords)
	return p
}
