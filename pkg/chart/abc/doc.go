// Package abc reads and writes the chords of tunes in ABC notation: the chord
// symbols in quotes, placed by the notes and rests they stand before.
//
//	c, err := abc.Parse(file)   // the one tune of a file, as a chart.Chart
//	for t, err := range abc.Tunes(file) { … } // all tunes of a book
//	text := abc.Format(c, nil)  // "Dm7"x4 "G7"x4 | "Cmaj7"x8 |]
//
// # Conventions
//
// A chord lasts until the next, over rests and bar lines. Chords that stand
// before one note share its time, and those of a bar without notes the bar,
// each with a warning. Of lines in one symbol ("C7;B7") and of an alternate in
// brackets ("G(Em)") the first chord is taken, with a warning; brackets around
// other chords make them optional, from "(Em7" to "A7)" as well. N.C. is silence.
//
// Quoted text that begins like a chord symbol and is none is an error. Other
// text is passed over with a warning, annotations ("^text") without. D.C., D.S.,
// Fine and To Coda are followed as their decorations are, in quotes too.
//
// A :| without |: goes back to the last double bar, :| or part. The order of
// parts in the header is written out. Of several voices the one with the most
// chords is read. A file that is not in UTF-8 is taken for Latin-1.
//
// Out of scope: melody, lyrics, macros, included files and all of layout.
//
// Reference: The abc music standard 2.1 (December 2011), cited by its sections.
package abc
