package wire

// AnalysisRequest is a chart to be read.
type AnalysisRequest struct {
	Chart
	// How the reading is printed.
	Options AnalysisOptions `json:"options,omitempty"`
	// Passed over: what /v1/charts answers with a chart may be sent with it.
	Warnings []Warning `json:"warnings,omitempty"`
}

// Chart is a tune as it is written. Exactly one of changes and bars is given.
type Chart struct {
	// The tune's title.
	Title string `json:"title,omitempty" example:"Night Bus"`
	// The meter at the start; without it that of the text, or 4/4.
	Meter *string `json:"meter,omitempty" example:"4/4"`
	// A hint, as a tonic and a mode. The reading may disagree, and then warns.
	Key *string `json:"key,omitempty" example:"F major"`
	// The chords in the text notation, repeats and all.
	Changes *string `json:"changes,omitempty" example:"[A] | Fmaj7 | Am7 D7b9/F# | Gm7 C7 | Fmaj7 |"`
	// The chords bar by bar, one bar at least, repeats written out. At most 2,000 bars and 5,000 chords are read.
	Bars []Bar `json:"bars,omitempty"`
}

// Bar is a written bar.
type Bar struct {
	// The name of the section that starts with this bar.
	Section string `json:"section,omitempty" example:"A"`
	// The bar's number as printed. Without it bars count on from 1, or from 0 where the first is a pickup.
	Number *int `json:"number,omitempty" validate:"omitnil,min=0,max=99999" example:"1"`
	// The meter from this bar on.
	Meter *string `json:"meter,omitempty" example:"4/4"`
	// The chords in order. None: the chord before is held through the bar.
	Chords []Chord `json:"chords" validate:"required"`
	// A double bar line stands behind it, where a phrase may end.
	Double bool `json:"double,omitzero,omitempty" example:"false"`
}

// Chord is a chord in its bar. With a beat it starts there and lasts to the next chord or the bar's end; with beats it lasts so long; chords with neither share what is left evenly.
type Chord struct {
	// The chord as lead sheets write it, or in the syntax of Harte et al. (ISMIR 2005); N.C. is silence.
	Symbol string `json:"symbol" validate:"required" example:"D7b9/F#"`
	// The beat on which it starts, from 1.
	Beat *float64 `json:"beat,omitempty" validate:"omitnil,min=1" example:"3"`
	// How many beats it lasts.
	Beats *float64 `json:"beats,omitempty" validate:"omitnil,gt=0" example:"2"`
	// It may be left out, as a turnaround may.
	Optional bool `json:"optional,omitzero,omitempty" example:"false"`
}

// AnalysisOptions say how a reading is printed.
type AnalysisOptions struct {
	// The style of the numerals: IIm7 V7/VI, ii7 V7/vi, or 2m7 5 7/6.
	Numerals *string `json:"numerals,omitempty" validate:"omitnil,oneof=upper cased arabic" enums:"upper,cased,arabic" default:"upper" example:"upper"`
	// The signs of accidentals in keys, numerals, notes and scales: b and #, or ♭ and ♯.
	Accidentals *string `json:"accidentals,omitempty" validate:"omitnil,oneof=ascii unicode" enums:"ascii,unicode" default:"ascii" example:"ascii"`
	// How many other readings are told of each chord, at most.
	Alternatives *int `json:"alternatives,omitempty" validate:"omitnil,min=0,max=5" default:"2" example:"2"`
	// Whether the study has practice material: chord tones, guide-tone lines and scales.
	Practice *bool `json:"practice,omitempty" default:"false" example:"false"`
}
