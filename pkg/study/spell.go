package study

import (
	"slices"

	"fifthwise/pkg/chord"
	"fifthwise/pkg/key"
	"fifthwise/pkg/pitch"
)

// Names that players read, common practice, no source.

// playable is a tone of a chord as players name it. A diminished chord of which a
// note would carry two accidentals is named plainly from its root up: Abdim7 is
// Ab B D F. Of other chords root, third, fifth and seventh are what they are, and a
// tension that would carry two accidentals is named plainly: E7#9 has G.
func playable(c chord.Chord, n pitch.Note) pitch.Note {
	switch number, _ := c.Root().To(n).Degree(); {
	case number == 1:
		return n
	case c.Family() == chord.Diminished:
		if slices.ContainsFunc(c.Notes()[1:], isDoubled) {
			return n.Simplify()
		}
	case isDoubled(n) && number != 3 && number != 5 && number != 7:
		return n.Simplify()
	}
	return n
}

// isDoubled reports whether a note carries two accidentals or more.
func isDoubled(n pitch.Note) bool { return n.Accidental() < -1 || n.Accidental() > 1 }

// tonesOf are the tones of a chord, from the root up.
func tonesOf(c chord.Chord) []pitch.Note {
	notes := c.Notes()
	for i, n := range notes {
		notes[i] = playable(c, n)
	}
	return notes
}

// scaleOver names the notes of a scale over the tones of a chord. One that would
// carry two accidentals is named as the tone that it sounds like, or plainly. The
// diminished scale of whole and half steps, which has more notes than there are
// letters, has the names of the tones, and a whole step above each: over Bdim7
// B C# D E F G Ab Bb.
func scaleOver(s key.Scale, tones []pitch.Note) (key.Scale, []pitch.Note) {
	notes := s.Notes()
	isDiminished := s.Kind() == key.DiminishedWholeHalfScale
	for i, n := range notes {
		tone := slices.IndexFunc(tones, n.Sounds)
		switch {
		case tone >= 0 && (isDiminished || isDoubled(n)):
			notes[i] = tones[tone]
			continue
		case isDiminished && i > 0 && notes[i-1].Add(pitch.MajorSecond).Sounds(n):
			n = notes[i-1].Add(pitch.MajorSecond)
		}
		if isDoubled(n) {
			n = n.Simplify()
		}
		notes[i] = n
	}
	if isDiminished {
		s = s.Kind().On(notes[0])
	}
	return s, notes
}
