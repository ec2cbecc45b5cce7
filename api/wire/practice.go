package wire

// Practice is what there is to play over a tune.
type Practice struct {
	// The material over each sounding chord, as played.
	Chords []PracticeChord `json:"chords"`
	// Two guide-tone lines through the changes: thirds and sevenths, each going to the nearest of the next chord.
	Lines []GuideLine `json:"lines"`
}

// PracticeChord is the material over a chord.
type PracticeChord struct {
	// Index of the chord.
	Chord int `json:"chord" example:"3"`
	// The notes of the chord, spelled from the root up.
	Tones []string `json:"tones" example:"D,F#,A,C,Eb"`
	// Its third and its seventh. The fourth or second of a suspended chord stands for the third; the sixth, an altered fifth or else the root for the seventh.
	GuideTones []string `json:"guide_tones" example:"F#,C"`
	// The scale by what the chord does in its key; empty where none has all its notes.
	Scale string `json:"scale" example:"D phrygian dominant"`
	// The notes of the scale, spelled from its tonic up.
	ScaleNotes []string `json:"scale_notes" example:"D,Eb,F#,G,A,Bb,C"`
}

// GuideLine is a line of guide tones, without octaves.
type GuideLine struct {
	// A note over each sounding chord.
	Steps []GuideStep `json:"steps"`
}

// GuideStep is a note of a guide-tone line.
type GuideStep struct {
	// Index of the chord.
	Chord int `json:"chord" example:"3"`
	// The note.
	Note string `json:"note" example:"F#"`
	// What it is in the chord.
	Degree string `json:"degree" example:"3"`
	// How it moves from the note before, in semitones, up where positive; 0 for the first.
	Motion int `json:"motion" example:"-1" minimum:"-5" maximum:"6"`
}
