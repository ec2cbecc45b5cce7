package wire

// WrittenChart is a chart with its repeats written out. But for the analysis it
// is a request for its reading.
type WrittenChart struct {
	// The tune's title; left out where none is stated.
	Title string `json:"title,omitempty" example:"Night Bus"`
	// The meter at the start.
	Meter string `json:"meter" example:"4/4"`
	// The key that the chart states, left out where it states none.
	Key string `json:"key,omitempty" example:"F major"`
	// The bars in the order of play, numbered as printed, symbols in the canonical form. Every chord has its beat and its beats, but no beat in a pickup that has another number than 0.
	Bars []Bar `json:"bars"`
	// What was read as it stands but may not have been meant.
	Warnings []Warning `json:"warnings"`
	// The reading, where it was asked for: the answer of /v1/analyses to the chart with its repeats.
	Analysis *Analysis `json:"analysis,omitempty"`
}

// ChartOptions are the parameters of a question for a chart in another form.
type ChartOptions struct {
	// Whether the chart is to be read.
	Analyze *string `json:"analyze" validate:"omitnil,oneof=true false"`
	// Whether a drawing tells the steps of the study plan below.
	Steps *string `json:"steps" validate:"omitnil,oneof=true false"`
	// The style of the numerals, where the body does not say it.
	Numerals *string `json:"numerals" validate:"omitnil,oneof=upper cased arabic"`
	// The signs of accidentals in the reading, where the body does not say them.
	Accidentals *string `json:"accidentals" validate:"omitnil,oneof=ascii unicode"`
	// A key to transpose the chart to.
	To *string `json:"to"`
	// The instrument whose part is to be written.
	Instrument *string `json:"instrument" validate:"omitnil,oneof=Bb Eb F"`
}
