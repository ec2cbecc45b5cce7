package wire

// TranspositionRequest is a chart and where it is to go. Exactly one of to,
// instrument and cycle is given.
type TranspositionRequest struct {
	Chart
	// The keys to write it in, each of the mode that the chart is in.
	To []string `json:"to,omitempty" validate:"omitnil,min=1,max=30" example:"Ab major,Gb major"`
	// The instrument whose part is to be written, named by the note that sounds where it reads C.
	Instrument *string `json:"instrument,omitempty" validate:"omitnil,oneof=Bb Eb F" enums:"Bb,Eb,F"`
	// The order in which the chart goes through all twelve keys: each a fourth, a fifth or a half step above the one before.
	Cycle *string `json:"cycle,omitempty" validate:"omitnil,oneof=fourths fifths chromatic" enums:"fourths,fifths,chromatic"`
	// Passed over: what /v1/charts answers with a chart may be sent with it.
	Warnings []Warning `json:"warnings,omitempty"`
}

// Transpositions are a chart in other keys.
type Transpositions struct {
	// The key that the chart was taken from.
	From string `json:"from" example:"F major"`
	// The chart in each key, in the order asked for.
	Charts []TransposedChart `json:"charts"`
}

// TransposedChart is the chart in a key.
type TransposedChart struct {
	// The key that it is written in.
	Key string `json:"key" example:"Ab major"`
	// The chart in the text notation, with its title, meter and key, symbols in the canonical form.
	Changes string `json:"changes" example:"Title: Night Bus\nMeter: 4/4\nKey: Ab major\n\n| Abmaj7 |\n"`
}
