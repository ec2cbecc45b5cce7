package wire

// RealizationRequest is a list of numerals and the key that they are counted in.
type RealizationRequest struct {
	// Tonic and mode.
	Key string `json:"key" validate:"required" example:"Eb major"`
	// The numerals, in any style; one that ends with a colon is a key in which the numerals behind it are counted. At most 5,000 are read.
	Numerals []string `json:"numerals" validate:"required" example:"IIm7,V7,G major:,Imaj7"`
}

// Realization is the chords that numerals spell.
type Realization struct {
	// A chord for each numeral, in the canonical form; keys give none.
	Chords []string `json:"chords" example:"Fm7,Bb7,Gmaj7"`
}
