package wire

// Analysis is the reading of a chart.
type Analysis struct {
	// As given, or as the text states it.
	Title string `json:"title" example:"Night Bus"`
	// At the start.
	Meter string `json:"meter" example:"4/4"`
	// The key that the tune is said to be in; empty if nothing sounds.
	HomeKey string `json:"home_key" example:"F major"`
	// The phrases in the order of play, one letter each. A section that is called by a letter keeps it.
	Form string `json:"form" example:"ABAC"`
	// The key regions in order. Every sounding chord lies in one.
	Regions []Region `json:"regions"`
	// The chords as played, repeats unfolded.
	Chords []ChordReading `json:"chords"`
	// The closes of phrases, in order.
	Cadences []Cadence `json:"cadences"`
	// The phrases that make up the tune.
	Phrases []Phrase `json:"phrases"`
	// What there is to remember of the tune.
	Study Study `json:"study"`
	// What was read as it stands but may not have been meant, and where the reading is doubtful.
	Warnings []Warning `json:"warnings"`
}

// Position is a beat of the tune as played.
type Position struct {
	// The number of the bar as printed.
	Bar int `json:"bar" example:"1"`
	// From 1.
	Beat float64 `json:"beat" example:"1"`
	// Which time through that bar it is, from 1.
	Pass int `json:"pass" example:"1"`
}

// Region is a stretch of chords in one key.
type Region struct {
	// Tonic and mode.
	Key string `json:"key" example:"F major"`
	// Index of its first chord.
	FirstChord int `json:"first_chord" example:"0"`
	// Index of its last chord.
	LastChord int `json:"last_chord" example:"7"`
	// Where the first chord starts.
	Start Position `json:"start"`
	// The beat in which the last chord ends.
	End Position `json:"end"`
	// How the tonic moves from the region before: up or down, by a tritone at most. Empty for the first region.
	Motion string `json:"motion" example:"up a major third"`
	// The mean probability of the key over the region's beats.
	Confidence float64 `json:"confidence" example:"0.97" minimum:"0" maximum:"1"`
	// What speaks for the key.
	Evidence []string `json:"evidence" example:"IIm7 V7 Imaj7, bars 2–3"`
}

// ChordReading is a chord as played, and what it does.
type ChordReading struct {
	// Its place in the list, from 0.
	Index int `json:"index" example:"3"`
	// The number of the bar it starts in, as printed.
	Bar int `json:"bar" example:"3"`
	// The beat it starts on, from 1.
	Beat float64 `json:"beat" example:"3"`
	// How long it lasts, in beats.
	Beats float64 `json:"beats" example:"2"`
	// Which time through its bar it is, from 1.
	Pass int `json:"pass" example:"1"`
	// The section it lies in; empty where none has begun.
	Section string `json:"section" example:"A"`
	// As written.
	Symbol string `json:"symbol" example:"D7b9/F#"`
	// The note in the bass, the root where no other is written; empty for silence.
	Bass string `json:"bass" example:"F#"`
	// Index of its region; null for silence.
	Region *int `json:"region" extensions:"x-nullable" example:"0"`
	// The key of its region; empty for silence.
	Key string `json:"key" example:"F major"`
	// Its name in the key, in the style asked for; N.C. for silence.
	Numeral string `json:"numeral" example:"V7/II"`
	// Upper-case Roman, counted from the major scale of the tonic; in the tonicised key where applied_to names one.
	Degree string `json:"degree" example:"V"`
	// The degree that is tonicised; empty for a chord of the key itself.
	AppliedTo string `json:"applied_to" example:"II"`
	// What it does: it rests, prepares or pulls. An applied chord does so in the tonicised key.
	Function string `json:"function" enums:"tonic,predominant,dominant,none" example:"dominant"`
	// The device by which it belongs to its key.
	Role string `json:"role" enums:"diatonic,secondary-dominant,secondary-leading-tone,related-two,tritone-substitute,borrowed,backdoor-dominant,blues-dominant,passing-diminished,common-tone-diminished,neapolitan,augmented-sixth,chromatic,silence" example:"secondary-dominant"`
	// Index of the chord that it resolves to; 0 from the last chord where the tune goes round; null for none.
	ResolvesTo *int `json:"resolves_to" extensions:"x-nullable" example:"4"`
	// The second reading of a chord in which one key opens into the next; null for none.
	Pivot *Pivot `json:"pivot" extensions:"x-nullable"`
	// The notes of the chord, spelled from its root up.
	Notes []string `json:"notes" example:"D,F#,A,C,Eb"`
	// The scale that goes with it here; empty for silence.
	Scale string `json:"scale" example:"D phrygian dominant"`
	// Why it is read so; empty for silence.
	Reason string `json:"reason" example:"The dominant of II: F# is the leading tone to G; it goes to Gm7."`
	// The probability of its key, degree and applied_to together.
	Confidence float64 `json:"confidence" example:"0.93" minimum:"0" maximum:"1"`
	// Other readings, the likeliest first. None is likelier than the one shown.
	Alternatives []Alternative `json:"alternatives"`
}

// Pivot is the second reading of a chord in which one key opens into the next.
type Pivot struct {
	// The other key.
	Key string `json:"key" example:"D minor"`
	// The chord's name in it.
	Numeral string `json:"numeral" example:"IVm7"`
}

// Alternative is another defensible reading of a chord.
type Alternative struct {
	// The key it is read in.
	Key string `json:"key" example:"F major"`
	// Its name in that key.
	Numeral string `json:"numeral" example:"VI7"`
	// As of the reading shown.
	Degree string `json:"degree" example:"VI"`
	// As of the reading shown.
	AppliedTo string `json:"applied_to" example:""`
	// As of the reading shown.
	Role string `json:"role" enums:"diatonic,secondary-dominant,secondary-leading-tone,related-two,tritone-substitute,borrowed,backdoor-dominant,blues-dominant,passing-diminished,common-tone-diminished,neapolitan,augmented-sixth,chromatic,silence" example:"chromatic"`
	// What it makes of the chord.
	Reason string `json:"reason" example:"A dominant seventh on VI, named by its bare degree."`
	// Its probability.
	Confidence float64 `json:"confidence" example:"0.04" minimum:"0" maximum:"1"`
}

// Cadence is the close of a phrase.
type Cadence struct {
	// How it closes.
	Kind string `json:"kind" enums:"authentic,half,phrygian-half,plagal,minor-plagal,deceptive,backdoor,tritone-substitute" example:"authentic"`
	// The key it closes in.
	Key string `json:"key" example:"F major"`
	// Indexes of its chords.
	Chords []int `json:"chords" example:"1,2,3"`
}

// Phrase is a passage that the tune is made of, with all its occurrences.
type Phrase struct {
	// A letter, with a prime for a variant.
	Name string `json:"name" example:"A"`
	// Its length.
	Bars int `json:"bars" example:"8"`
	// Where it stands, in the order of play.
	Occurrences []Occurrence `json:"occurrences"`
}

// Occurrence is a place where a phrase stands.
type Occurrence struct {
	// Its first beat.
	Start Position `json:"start"`
	// The beat in which it ends.
	End Position `json:"end"`
	// How far it lies from the first occurrence; empty for the same pitch.
	Transposition string `json:"transposition" example:"up a perfect fourth"`
	// It has the same chords as the first occurrence.
	Exact bool `json:"exact" example:"true"`
	// The bars of the phrase, from 1, that are not those of the first occurrence; empty where at most ornaments differ.
	Differences []int `json:"differences" example:"7,8"`
}

// Study is what a player has to remember of the tune.
type Study struct {
	// How many chords the tune has as played.
	Chords int `json:"chords" example:"40"`
	// How many of them are left to remember, once what repeats is known.
	ToRemember int `json:"to_remember" example:"14"`
	// The tune told in steps.
	Steps []string `json:"steps" example:"A is eight bars in F major."`
	// Questions and answers.
	Cards []Card `json:"cards"`
	// What there is to play over the chords, where it was asked for.
	Practice *Practice `json:"practice,omitempty"`
}

// Card is a question about the tune with its answer.
type Card struct {
	// The question.
	Ask string `json:"ask" example:"Which key does the bridge open in?"`
	// The answer.
	Answer string `json:"answer" example:"A major, up a major third."`
}

// Warning is something to look at again.
type Warning struct {
	// The number of the bar, as printed.
	Bar int `json:"bar" example:"7"`
	// What it is.
	Message string `json:"message" example:"3 chords share 4 beats evenly, 4/3 beats each"`
}
