// Package chart models a tune as a lead sheet writes it: bars with sections
// and repeats, and in them chords, each with an exact place and length in
// beats. [Parse] reads it from text, [FromEntries] from lists of chords, Go
// code fills a [Chart] itself and asks [Chart.Validate]. [Chart.Played] is the
// tune as it sounds, repeats unfolded:
//
//	c, err := chart.Parse("|: Dm7 | G7 | 1. Cmaj7 :| 2. C6 / / N.C. |")
//	for _, e := range c.Played() { … } // Dm7 G7 Cmaj7 Dm7 G7 C6 N.C.
//
// [Chart.TransposeTo] writes it in another key, spelled as players do.
//
// # Beats
//
// A beat is the lower number of the meter, but the dotted quarter in 6/8, 9/8
// and 12/8. Lengths are exact fractions.
//
// # Text notation
//
//	Title: Night Bus           headers, before the first bar;
//	Meter: 4/4                 the key is a hint, Pickup the beats of bar 0,
//	Key: F major               which are the last of a whole bar
//	Pickup: 1
//	# a line of comment
//	[A]                        a section, by any name; a line break is a space
//	| Fmaj7 | Dm7 G7 |         chords share their bar evenly
//	| C / F G | / / C7 / |     in a bar with / every word is a beat, / holds
//	| C F@3.5 | G D@7/3 |      beats are given with @, as decimals or fractions
//	| % | N.C. |               the bar before again; silence
//	|: C | 1. F :| 2. G ||     repeat, endings (1,2. for two passes), double bar
//	| 3/4 Am | (D7 G7 | C) |   the meter from here; an optional group
//
// Marks stand first in their bar or alone before it and make no bar of their
// own. Brackets inside a word belong to the chord symbol; where one at its edge
// has no partner, or the pair encloses the word, they are those of a group.
// Empty bars are errors; `:| |:` and `|| |:` are one sign.
//
// Out of scope: melody, and everything about chords on paper that does not
// sound. Jumps (da capo, coda) are unfolded by the readers of other formats.
package chart
