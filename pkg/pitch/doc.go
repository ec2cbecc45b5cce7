// Package pitch models notes and intervals as they are spelled.
//
// A note is its place on the line of fifths, an interval the distance between
// two places, so that spelling, transposing and key signatures are additions
// and nothing that was written C# comes back as Db:
//
//	fs := pitch.MustParse("D").Add(pitch.MajorThird)   // F#
//	gb := pitch.MustParse("Ebb").Add(pitch.MajorThird) // Gb
//	fs == gb      // false: two spellings
//	fs.Sounds(gb) // true: one pitch class
//
// Values are small and comparable. Octaves, tunings and durations are out of
// scope: harmony on a lead sheet needs none of them. The line of fifths as a
// measure of spelling follows David Temperley, "The Line of Fifths", Music
// Analysis 19/3 (2000), 289–319.
package pitch
