package wire

// KeyInfo is a key by its name.
type KeyInfo struct {
	// Tonic and mode.
	Key string `json:"key" example:"Eb major"`
	// The first degree.
	Tonic string `json:"tonic" example:"Eb"`
	// The mode. Minor is natural, harmonic and melodic minor together.
	Mode string `json:"mode" enums:"major,minor,dorian,phrygian,lydian,mixolydian" example:"major"`
	// The key signature.
	Signature Signature `json:"signature"`
	// The notes of the scale, from the tonic up; of minor the natural.
	Scale []string `json:"scale" example:"Eb,F,G,Ab,Bb,C,D"`
	// The triads on the degrees of the scale.
	DiatonicTriads []DiatonicChord `json:"diatonic_triads"`
	// The seventh chords on the degrees of the scale.
	DiatonicSevenths []DiatonicChord `json:"diatonic_sevenths"`
	// The key with the same signature: minor for a major key, major for any other.
	Relative string `json:"relative" example:"C minor"`
	// The key on the same tonic: minor for a mode with a major third, major for one with a minor third.
	Parallel string `json:"parallel" example:"Eb minor"`
	// The major and minor keys whose signatures differ by one sharp or flat at most.
	CloselyRelated []string `json:"closely_related" example:"C minor,Bb major,G minor,Ab major,F minor"`
	// The key that sounds alike and is written with at most seven sharps or flats; null where there is none.
	Enharmonic *string `json:"enharmonic" extensions:"x-nullable" example:"D# minor"`
}

// Signature is a key signature.
type Signature struct {
	// How many sharps it has. Beyond 7 no signature is printed: some notes are sharp twice.
	Sharps int `json:"sharps" example:"0"`
	// How many flats it has. Beyond 7 no signature is printed: some notes are flat twice.
	Flats int `json:"flats" example:"3"`
	// The notes that it alters, in the order in which they are written.
	Notes []string `json:"notes" example:"Bb,Eb,Ab"`
}

// DiatonicChord is a chord of a key's own scale.
type DiatonicChord struct {
	// Its name in the key, in the style asked for.
	Numeral string `json:"numeral" example:"IIm7"`
	// Its symbol.
	Symbol string `json:"symbol" example:"Fm7"`
	// Its notes, spelled from the root up.
	Notes []string `json:"notes" example:"F,Ab,C,Eb"`
}

// KeyOptions are the parameters of a question for a key.
type KeyOptions struct {
	// The style of the numerals.
	Numerals *string `json:"numerals" validate:"omitnil,oneof=upper cased arabic"`
	// The signs of accidentals in the answer: b and #, or ♭ and ♯.
	Accidentals *string `json:"accidentals" validate:"omitnil,oneof=ascii unicode"`
}
