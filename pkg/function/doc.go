// Package function reads a chart as a practised player does: where its key
// centres are, what each chord does in them and why, and how sure that is.
//
//	c, err := chart.Parse("| Dm7 | G7 | Cmaj7 | A7 | Dm7 | G7 | C6 |")
//	a := function.Analyze(c)
//	a.Regions[0].Key      // C major
//	a.Chords[3].Numeral   // V7/II
//	a.Reason(3)           // "The dominant of II: C# is the leading tone to D; it goes to Dm7."
//
// [Analyze] runs one search. A vocabulary of idioms (vocabulary.go)
// says what a chord may be in a key and what it then owes; a table of costs
// ([Weights]) says how usual each idiom, step and change of key is. Forward and
// backward sums give every reading its probability, and the path shown is the
// one whose labels are together the likeliest; lattice.go tells the algorithm.
// A reader who disagrees edits a row of the vocabulary or a cost and watches
// pkg/evaluate.
//
// Degrees count from the major scale of the tonic in both modes, so that Eb in C
// minor is bIII. An applied chord is degree/target, V7/II; a tritone substitute
// prints as subV7. [Numeral] prints and reads three styles and spells its chord
// in any key. Keys are major and minor in the search; a region of four bars or
// more without its dominant is then given the church mode that it shows.
//
// Sentences are made on demand by the methods of [Analysis]; Analyze itself
// makes none but warnings. A reading is a pure function of its chart: no state
// is kept, and any number may run at once.
//
// Out of scope: melody, voicing and voice leading, which chord symbols do not
// tell.
package function
