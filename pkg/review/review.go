package review

import (
	"fmt"

	"fifthwise/pkg/function"
	"fifthwise/pkg/pitch"
)

// Margin is the probability from which on a reading can be defended.
const Margin = .05

// Verdict is what is said of a part of an answer.
type Verdict uint8

// The verdicts.
const (
	Blank       Verdict = iota // nothing was stated
	Agrees                     // the reading shown, in whatever words
	Defensible                 // another sound reading
	Contradicts                // the chart says otherwise
)

var verdicts = [...]string{"blank", "agrees", "defensible", "contradicts"}

// String is the verdict in lower case.
func (v Verdict) String() string {
	if int(v) < len(verdicts) {
		return verdicts[v]
	}
	return fmt.Sprintf("Verdict(%d)", uint8(v))
}

// MarshalText prints as [Verdict.String] does.
func (v Verdict) MarshalText() ([]byte, error) { return []byte(v.String()), nil }

// UnmarshalText reads a verdict's name.
func (v *Verdict) UnmarshalText(text []byte) error {
	for i, name := range verdicts {
		if string(text) == name {
			*v = Verdict(i)
			return nil
		}
	}
	return &pitch.SyntaxError{Input: string(text), Msg: "expected a verdict: blank, agrees, defensible or contradicts"}
}

// isRight reports whether a verdict counts for the score.
func (v Verdict) isRight() bool { return v == Agrees || v == Defensible }

// Mark is what is said of a chord or a region of an answer.
type Mark struct {
	Verdict  Verdict
	Expected string // the numeral or key of the reading, as it is written
	Reason   string // what speaks for the verdict; of what simply agrees why it is so; Note first
	Note     string // what is to be said of a numeral though it is right: how its figures were read; mostly empty
	Chord    int    // the chord, or the region's first one, as an index into the reading's Chords
}

// Review is an answer marked.
type Review struct {
	// Score is the share of the beats whose chords agree or can be defended, from
	// 0 to 1. Where no numerals were asked for, a chord counts whose stated key
	// is heard or has a probability of [Margin] in its passage.
	Score   float64
	Remark  string // a sentence on the answer as a whole; empty: there is none
	Chords  []Mark // one for each numeral; none if there were none
	Regions []Mark // one for each region of the answer
	Roles   []Role // what was missed, by role, the most missed first
}

// Of marks an answer against a reading. The error is an [ErrorList] of all that
// is wrong with the answer's form; nothing is marked then.
func Of(a *function.Analysis, answer Answer) (Review, error) {
	r, err := read(a, answer)
	if err != nil {
		return Review{}, err
	}
	v := Review{Chords: []Mark{}, Regions: r.regions(answer.Regions)}
	right, all := 0.0, 0.0
	for i := range r.chords {
		isRight := false
		if answer.Numerals != nil {
			m := r.chord(i, v.Regions)
			v.Chords = append(v.Chords, m)
			isRight = m.Verdict.isRight()
		} else if n := r.stated[i].region; n >= 0 {
			isRight = v.Regions[n].Verdict.isRight() && r.isHeard(i)
		}
		all += r.beats(i)
		if isRight {
			right += r.beats(i)
		}
	}
	if all > 0 {
		v.Score = right / all
	}
	v.Remark, v.Roles = r.remark(), r.roles(v.Chords)
	return v, nil
}
