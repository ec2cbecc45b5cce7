package function

import (
	"fifthwise/pkg/chart"
	"fifthwise/pkg/key"
	"fifthwise/pkg/pitch"
)

// Analysis is the reading of a chart. Its slices are for reading: methods look
// chords up by the indexes they were made with. The zero value is the reading of
// a chart without chords.
type Analysis struct {
	Home     key.Key   // the key the tune is said to be in; invalid if nothing sounds
	Regions  []Region  // key regions in order; every sounding chord lies in one
	Chords   []Reading // one for every chord as played, silences included
	Cadences []Cadence
	Warnings []chart.Warning

	outcome *outcome
	written writing
}

// sounds: i is a chord that was read.
func (a *Analysis) sounds(i int) bool {
	return a.outcome != nil && i >= 0 && i < min(len(a.Chords), len(a.outcome.events)) && a.outcome.events[i] >= 0
}

// Region is a stretch of chords in one key.
type Region struct {
	Key         key.Key
	First, Last int          // indexes of chords, both included
	Motion      pitch.Motion // from the region before; 0 for the first
	Confidence  float64      // beat-weighted mean probability of the key, 0 to 1
}

// Move says how the key moves into region r, from the one before: "up a major third",
// "on the same tonic"; "" for the first and for an index out of range.
func (a *Analysis) Move(r int) string {
	switch {
	case r <= 0 || r >= len(a.Regions):
		return ""
	case a.Regions[r].Motion == 0:
		return "on the same tonic"
	}
	return a.Regions[r].Motion.String()
}

// Reading is what one chord of the chart does.
type Reading struct {
	Event      chart.Event // the chord as played
	Region     int         // index into Regions; -1 for silence
	Key        key.Key     // the region's key; invalid for silence
	Numeral    Numeral
	Degree     Degree // in the key, or in the tonicised key where Target is valid
	Target     Degree // the tonicised degree; none if not applied
	Function   Function
	Role       Role
	ResolvesTo int   // index of the chord that pays this one's debt; -1 for none
	Pivot      Pivot // a second reading in the key before; its key is invalid for none
	Scale      key.Scale
	Confidence float64 // probability of key, degree and target; 1 for silence
}

// Pivot is the second numeral of a chord that belongs to two neighbouring
// regions.
type Pivot struct {
	Key     key.Key
	Numeral Numeral
}

// Alternative is another defensible reading of a chord.
type Alternative struct {
	Key            key.Key
	Numeral        Numeral
	Degree, Target Degree
	Function       Function
	Role           Role
	Confidence     float64 // at most that of the reading shown

	analysis *Analysis
	chord    int
	entry    *entry
}

// Cadence is a phrase's close.
type Cadence struct {
	Kind   CadenceKind
	Key    key.Key
	Chords []int // indexes into Chords, in order
}

// NumeralOf is chord i's numeral as sentences write it ([Written]); "N.C." for
// silence.
func (a *Analysis) NumeralOf(i int) string {
	var room [48]byte
	return string(a.AppendNumeral(room[:0], i))
}

// AppendNumeral appends what [Analysis.NumeralOf] gives to dst.
func (a *Analysis) AppendNumeral(dst []byte, i int) []byte {
	r := &a.Chords[i]
	return r.Numeral.AppendText(dst, a.written.style, r.Key.Mode(), a.written.accidentals)
}

// KeyName is a key's name as sentences write it.
func (a *Analysis) KeyName(k key.Key) string {
	return a.written.key(k)
}
