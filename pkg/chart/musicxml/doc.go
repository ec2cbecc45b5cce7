// Package musicxml reads lead sheets in MusicXML 4.0 and its predecessors, puts
// a reading's words into them and writes charts that have no file of their own.
//
//	d, err := musicxml.Read(data)     // .musicxml, .xml or compressed .mxl
//	c := d.Chart()                    // chords, bars, sections; jumps followed
//	out, err := d.Annotate(marks)     // the same file, words added
//	out = musicxml.Write(chart, nil)  // a file of slashes and chord symbols
//
// Read takes the chords of <harmony> in all its forms: kinds with degrees,
// basses and inversions, numerals and functions in the key of the signature,
// stacked functions, two chords stacked as one. Bars are those of the part with
// chords, with what any part says of repeats, jumps, meters and sections; a coda
// that is gone to is a section. All faults are told at once, each with its part
// and measure.
//
// Annotate never writes anew what it did not add: the words stand between
// comments that name this package, behind the chord symbols they belong to, and
// annotating again replaces them.
//
// # Conventions
//
// What words say of jumps and of times to play counts where no sound or sign says
// it, N.C. in words where no chord symbol stands. Chords are read as written, also
// in the part of a transposing instrument. The first key signature is the
// chart's key, a hint; where it names no mode, the last chord decides between
// major and the relative minor. A kind stands for the symbol that players write,
// so that dominant-13th is C13, without the eleventh; the text of a kind decides
// between chords of the same notes. Augmented sixth kinds are the dominant
// sevenths they sound like, as charts write them.
//
// Out of scope: melody, lyrics, layout and everything else that is not harmony;
// it is kept by Annotate, and not by Chart.
//
// Reference: MusicXML 4.0, W3C Music Notation Community Group, 2021.
package musicxml
