package wire

// ChordInfo is a chord by its name.
type ChordInfo struct {
	// As asked for.
	Symbol string `json:"symbol" example:"F/A"`
	// The same in the canonical form.
	Canonical string `json:"canonical" example:"F/A"`
	// The same in the syntax of Harte et al. (ISMIR 2005).
	Harte string `json:"harte" example:"F:maj/3"`
	// Empty for silence.
	Root string `json:"root" example:"F"`
	// The note in the bass, the root where no other is written; empty for silence.
	Bass string `json:"bass" example:"A"`
	// What stands behind the root; empty for the major triad and silence.
	Quality string `json:"quality" example:"m7b5"`
	// The kind of chord.
	Family string `json:"family" enums:"major,minor,dominant,half-diminished,diminished,augmented,suspended,power,none" example:"major"`
	// Spelled from the root up; a bass that is not of the chord is not among them.
	Notes []string `json:"notes" example:"F,A,C"`
	// The notes as degrees of the major scale on the root.
	Intervals []string `json:"intervals" example:"1,3,5"`
	// The chord on another name of its root.
	OtherSpellings []string `json:"other_spellings" example:"E#/G##"`
}

// KeyInfo is a key by its name.
type KeyInfo struct {
	// Tonic and mode.
	Key string `json:"key" example:"Eb major"`
	// The first degree.
	Tonic string `json:"tonic" example:"Eb"`
	// Minor is natural, harmonic and melodic minor together.
	Mode string `json:"mode" enums:"major,minor,dorian,phrygian,lydian,mixolydian" example:"major"`
	// Sharps; flats are negative. Beyond 7 either way no signature is printed.
	Signature int `json:"signature" example:"-3"`
	// The notes that the signature alters, in the order in which it is written.
	SignatureNotes []string `json:"signature_notes" example:"Bb,Eb,Ab"`
	// From the tonic up; of minor the natural.
	Scale []string `json:"scale" example:"Eb,F,G,Ab,Bb,C,D"`
	// The seventh chords on the degrees of the scale.
	Sevenths []DiatonicChord `json:"sevenths"`
	// The key with the same signature: minor for a major key, major for others.
	Relative string `json:"relative" example:"C minor"`
	// The key on the same tonic: minor for a mode with a major third, major for others.
	Parallel string `json:"parallel" example:"Eb minor"`
	// The keys whose signatures differ by one sharp or flat at most.
	Related []string `json:"related" example:"C minor,Bb major,G minor,Ab major,F minor"`
	// The key that is written instead where the signature lies beyond 7; else the key itself.
	Written string `json:"written" example:"Eb major"`
}

// DiatonicChord is a chord of a key's own scale.
type DiatonicChord struct {
	// Its name in the key.
	Numeral string `json:"numeral" example:"IIm7"`
	// The chord.
	Symbol string `json:"symbol" example:"Fm7"`
	// Spelled from the root up.
	Notes []string `json:"notes" example:"F,Ab,C,Eb"`
}

// Health tells that the service runs.
type Health struct {
	// Always ok: a service that is not well does not answer.
	Status string `json:"status" enums:"ok" example:"ok"`
}
