package musicxml

import "fifthwise/pkg/chord"

// kinds are the kinds of chords (MusicXML 4.0, kind-value) with the quality
// that each stands for, written as a symbol has it. Where the standard's list
// of degrees and the symbol differ, players' use of the symbol is taken: the
// eleventh is left out of dominant-13th and major-13th. The standard gives no
// notes for the functional sixths, pedal and Tristan. The sixths sound as
// dominant sevenths on their lowest note, and charts write them so; a
// Neapolitan is a major triad; a pedal is its note alone; the notes of Tristan
// are from memory.
var kinds = []struct {
	kind, symbol string
}{
	{"major", ""},
	{"minor", "m"},
	{"augmented", "aug"},
	{"diminished", "dim"},
	{"dominant", "7"},
	{"major-seventh", "maj7"},
	{"minor-seventh", "m7"},
	{"diminished-seventh", "dim7"},
	{"augmented-seventh", "7#5"},
	{"half-diminished", "m7b5"},
	{"major-minor", "m(maj7)"},
	{"major-sixth", "6"},
	{"minor-sixth", "m6"},
	{"dominant-ninth", "9"},
	{"major-ninth", "maj9"},
	{"minor-ninth", "m9"},
	{"dominant-11th", "11"},
	{"major-11th", "maj11"},
	{"minor-11th", "m11"},
	{"dominant-13th", "13"},
	{"major-13th", "maj13"},
	{"minor-13th", "m13"},
	{"suspended-second", "sus2"},
	{"suspended-fourth", "sus4"},
	{"power", "5"},
	{"pedal", ":(1)"},
	{"Neapolitan", ""},
	{"Italian", ":(1,3,b7)"},
	{"French", "7b5"},
	{"German", "7"},
	{"Tristan", ":(1,#4,#6,#9)"},
	{"other", ":(1)"},
}

// Kinds with a meaning of their own: silence; a chord that its degrees or text
// spell; and the first in the table that is read and not written.
const (
	noneKind        = "none"
	otherKind       = "other"
	firstForReading = "Neapolitan"
)

// qualities are those of the kinds, by name.
var qualities = func() map[string]chord.Quality {
	m := map[string]chord.Quality{}
	for _, k := range kinds {
		q, err := chord.ParseQuality(k.symbol)
		if err != nil {
			panic("musicxml: " + err.Error())
		}
		m[k.kind] = q
	}
	return m
}()
