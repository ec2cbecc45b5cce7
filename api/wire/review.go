package wire

// ReviewRequest is a chart with somebody's analysis of it.
type ReviewRequest struct {
	// The chart, as for /v1/analyses. Its options hold for the numerals and sentences of the review.
	Analysis *AnalysisRequest `json:"analysis" validate:"required"`
	// The analysis to be marked. It has regions, numerals or both.
	Answer *ReviewAnswer `json:"answer" validate:"required"`
}

// ReviewAnswer is somebody's analysis.
type ReviewAnswer struct {
	// The keys in the order of play. Chords before the first are taken in the key of the reading.
	Regions []AnswerRegion `json:"regions,omitempty" validate:"omitnil,dive"`
	// One numeral for each sounding chord as played, repeats unfolded and silences left out, in any style; null: left blank.
	Numerals []*string `json:"numerals,omitempty" extensions:"x-nullable-items" example:"Imaj7,IIIm7,VI7,IIm7,V7,Imaj7"`
}

// AnswerRegion is a key from a chord on.
type AnswerRegion struct {
	// Tonic and mode; without a mode it is major.
	Key string `json:"key" validate:"required" example:"F major"`
	// The number of the bar it begins in, as printed.
	Bar *int `json:"bar" validate:"required,min=0,max=99999" example:"1"`
	// The beat it begins on, from 1: the first chord on it or later in the bar opens the region. Without it that is the first of the bar.
	Beat *float64 `json:"beat,omitempty" validate:"omitnil,min=1" example:"1"`
	// Which time through the bar it is.
	Pass *int `json:"pass,omitempty" validate:"omitnil,min=1,max=99999" default:"1" example:"1"`
}

// Review is an analysis marked.
type Review struct {
	// The share of the beats whose chords agree or can be defended. Without numerals a chord counts whose stated key can.
	Score float64 `json:"score" example:"0.85" minimum:"0" maximum:"1"`
	// The probability from which on a reading can be defended.
	Margin float64 `json:"margin" example:"0.05" minimum:"0" maximum:"1"`
	// A sentence on the answer as a whole, such as that it is counted in the relative key; mostly empty.
	Remark string `json:"remark" example:"The degrees fit one another, but are counted in the relative key: in D minor, where F major is heard."`
	// A mark for each numeral, in their order; none without numerals.
	Chords []Mark `json:"chords"`
	// A mark for each region of the answer, in their order.
	Regions []Mark `json:"regions"`
	// What was missed by role, the most missed first; none without numerals.
	Roles []RoleReview `json:"roles"`
}

// Mark is what is said of a numeral or a region.
type Mark struct {
	// Whether it is the reading in whatever words, another that can be defended, one that the chart speaks against, or none.
	Verdict string `json:"verdict" enums:"agrees,defensible,contradicts,blank" example:"defensible"`
	// The numeral or the key of the reading.
	Expected string `json:"expected" example:"V7b9/II"`
	// What speaks for the verdict.
	Reason string `json:"reason" example:"The bare degree is a correct name, if a less telling one. The dominant of II: F# is the leading tone to G; it goes to Gm7."`
	// The chord, or the region's first one, as an index into the chords of /v1/analyses.
	Chord int `json:"chord" example:"2"`
}

// RoleReview is how an answer did with the chords of one role.
type RoleReview struct {
	// The role in the reading.
	Role string `json:"role" enums:"diatonic,secondary-dominant,secondary-leading-tone,related-two,tritone-substitute,borrowed,backdoor-dominant,blues-dominant,passing-diminished,common-tone-diminished,neapolitan,augmented-sixth,chromatic" example:"secondary-dominant"`
	// How many chords have it.
	Chords int `json:"chords" example:"3"`
	// How many of them are blank or contradict.
	Missed int `json:"missed" example:"1"`
	// What to look at; empty where none was missed.
	Advice string `json:"advice" example:"A dominant seventh that is not the key's own usually aims a fifth down: look at the chord it goes to, and name it V7 of that."`
}
