// Package chord models chords as they are spelled and reads and prints their
// symbols.
//
// A chord is a root, a [Quality] and perhaps another bass; a quality is the set
// of degrees above the root, each with its alteration. Nothing is rounded to a
// list of known chords, and names, families and notes are derived:
//
//	c, err := chord.Parse("B♭Δ7(#11)/F")
//	c.String() // Bbmaj7#11/F
//	c.Harte()  // Bb:(1,3,5,7,#11)/5
//	c.Notes()  // [Bb D F A E]
//	c.Family() // major
//
// [Parse] takes lead-sheet spellings and the syntax of Harte et al., told apart
// symbol by symbol. Where sources differ in what a symbol means, the reading
// taken stands beside the table it belongs to, in tables.go. Printing is
// canonical: one name for each chord, and Harte's list of degrees for what lead
// sheets have no name for, so that whatever [New], [Parse] or [Chord.Transpose]
// make is read back as the same value.
//
// Values are small and comparable; == means the same spelling. The zero Chord
// is silence, the zero Quality a root alone.
//
// Voicings, octaves and fingerings are out of scope, and so are polychords,
// figured bass and functions in a key.
//
// References: C. Harte, M. Sandler, S. Abdallah, E. Gómez, "Symbolic
// Representation of Musical Chords", ISMIR 2005. R. Hutchinson, Music Theory for
// the 21st-Century Classroom, ch. 6, 8, 31. MusicXML 4.0, kind-value.
package chord
