// Package review marks somebody's own analysis of a chart: it says of each
// numeral and each key whether it agrees with the reading, can be defended, or
// contradicts the chart, and why.
//
//	a := function.Analyze(c) // | Dm7 | G7 | Cmaj7 | A7 |
//	r, err := review.Of(&a, review.Answer{
//		Regions:  []review.Region{{Key: key.MustParse("C major"), Bar: 1}},
//		Numerals: []string{"ii7", "V7", "vi7", ""},
//	})
//	r.Score               // 0.5
//	r.Chords[2].Verdict   // contradicts
//	r.Chords[2].Reason    // "vi7 in C major spells Am7; the chart has Cmaj7."
//
// Verdicts come from the search, not from comparing strings: an answer is a
// label, a degree and target in a key, and the search knows how probable every
// label of a chord is.
//
// # Rules
//
// A numeral is read in the answer's own key at its chord. It agrees if it is the
// label shown, in whatever words. It is defensible if its probability reaches
// [Margin], or if it is a name that handbooks give beside the one shown: the bare
// degree of an applied chord or substitute, the augmented sixth of one, the
// dominant-quality two of the dominant that follows, the second numeral of a pivot,
// V64 for a tonic over its fifth; or if the goal that it names comes. Else it
// contradicts: it spells another chord, or aims at a goal that does not come, or lies
// in a key that the chart does not support. Where the numerals of a passage are
// counted in another of the reading's keys, the reason names it.
//
// Leaving out the seventh or tensions is no fault, nor is naming a sixth chord
// by its seventh; in an answer all in capitals or figures a bare degree states no
// quality. In minor III, VI and VII may be counted from the scale, as handbooks do.
// In an answer that has figures of thoroughbass, such as 65, a bare 7 is the seventh
// of the key where the chart has that. Diminished sevenths compare by sound, suspended
// dominants by the bass they stand on. All of this is common practice, no source, but
// that the margin is the project's own.
//
// A region agrees if its key is the one that the reading hears there, between the
// same borders. It is defensible if the key is heard there in the most beats, or if
// its mean probability reaches the margin.
//
// Out of scope: spelling within a chord. Figures of inversion are read and change no
// verdict; where they put another note in the bass than the chart has, the reason says
// so. A 6 alone is one where the chord stands over its third, and else the added sixth
// of players.
package review
