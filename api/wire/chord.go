package wire

// ChordInfo is a chord by its symbol.
type ChordInfo struct {
	// As asked for.
	Symbol string `json:"symbol" example:"F#ø/A"`
	// The symbol in the canonical form.
	Canonical string `json:"canonical" example:"F#m7b5/A"`
	// The note that the degrees count from; empty for silence.
	Root string `json:"root" example:"F#"`
	// The note in the bass, the root where no other is written; empty for silence.
	Bass string `json:"bass" example:"A"`
	// What stands behind the root in the canonical form; empty for the major triad and for silence.
	Quality string `json:"quality" example:"m7b5"`
	// The kind of chord, by which phrases are compared; none for silence.
	Family string `json:"family" enums:"none,major,minor,dominant,half-diminished,diminished,augmented,suspended,power" example:"half-diminished"`
	// The notes, spelled from the root up. A bass that is not of the chord is not among them.
	Notes []string `json:"notes" example:"F#,A,C,E"`
	// The same notes as degrees of the major scale on the root.
	Degrees []string `json:"degrees" example:"1,b3,b5,b7"`
	// The same notes as intervals above the root.
	Intervals []string `json:"intervals" example:"unison,minor third,diminished fifth,minor seventh"`
	// The chord in the syntax of Harte et al. (ISMIR 2005), in ASCII.
	Harte string `json:"harte" example:"F#:hdim7/b3"`
	// The chord on the other name of its root that players use; null where there is none.
	Enharmonic *string `json:"enharmonic" extensions:"x-nullable" example:"Gbm7b5/Bbb"`
	// Other symbols that are read as the same chord, in ASCII but for signs such as ø; behind them the enharmonic, if any.
	OtherSpellings []string `json:"other_spellings" example:"F#min7b5/A,F#-7b5/A,F#ø7/A"`
}

// ChordOptions are the parameters of a question for a chord.
type ChordOptions struct {
	// The signs of accidentals in the answer: b and #, or ♭ and ♯.
	Accidentals *string `json:"accidentals" validate:"omitnil,oneof=ascii unicode"`
}
