// Package study makes of a reading what a player keeps: the phrases once each,
// where they return and in which key, the path of the keys, the few odd chords,
// and cards to practise recall.
//
//	a := function.Analyze(c)
//	p := study.Of(&a)
//	p.Form.Letters // "AABA"
//	p.Steps()      // "Bars 1–8: A, in F major: Imaj7 VIm7 …"
//
// [PracticeOf] makes of it what to play over the chords: guide-tone lines, chord
// tones, scales.
package study

import (
	"slices"

	"fifthwise/pkg/chart"
	"fifthwise/pkg/chord"
	"fifthwise/pkg/function"
	"fifthwise/pkg/phrase"
	"fifthwise/pkg/pitch"
)

// Plan is a tune as a player remembers it. The zero value is the plan of a
// chart without chords.
type Plan struct {
	Form       phrase.Form
	Chords     int     // sounding chords as played
	ToRemember int     // chords left to remember; see [phrase.Form.Remember]
	Pickup     []Chord // before bar 1
	Parts      []Part  // the phrases in the order of play

	analysis *function.Analysis
}

// A Part is one occurrence of a phrase, told by the first one of it.
type Part struct {
	Phrase     int            // index into Form.Phrases
	Occurrence int            // index into its Occurrences
	Start      chart.Beats    // of its first bar, from the first beat of bar 1
	By         pitch.Interval // by which the first occurrence is transposed
	// Chords are all that is played for the first occurrence; for others those
	// that are not the first occurrence's, transposed, in their place.
	Chords []Chord
	// Kept are the places of the first occurrence's chords that are kept, as
	// indexes into its Chords.
	Kept []int
}

// A Chord is a chord in its place within a part.
type Chord struct {
	At, Len chart.Beats // from the part's first beat
	Chord   chord.Chord
}

// Of makes the plan of a reading.
func Of(a *function.Analysis) Plan {
	events := make([]chart.Event, len(a.Chords))
	p := Plan{analysis: a}
	for i := range a.Chords {
		events[i] = a.Chords[i].Event
		if a.Chords[i].Region >= 0 {
			p.Chords++
		}
	}
	p.Form = phrase.FormOf(events)
	p.ToRemember = min(p.Chords, p.Form.Remember())
	p.addParts(events)
	return p
}

// addParts divides the tune among the phrases in the order of play.
func (p *Plan) addParts(events []chart.Event) {
	for i := range p.Form.Phrases {
		for k := range p.Form.Phrases[i].Occurrences {
			p.Parts = append(p.Parts, Part{Phrase: i, Occurrence: k})
		}
	}
	slices.SortFunc(p.Parts, func(a, b Part) int { return p.at(&a).First - p.at(&b).First })
	chords := make([]Chord, 0, len(events)) // of all parts
	next := 0
	for next < len(events) && events[next].Measure < 0 {
		p.Pickup = append(p.Pickup, Chord{events[next].Start, events[next].Len, events[next].Chord})
		next++
	}
	for i := range p.Parts {
		end := len(events)
		if i+1 < len(p.Parts) {
			end = next
			for end < len(events) && events[end].Measure < p.at(&p.Parts[i+1]).First {
				end++
			}
		}
		p.Parts[i].Start = p.at(&p.Parts[i]).Start
		from := len(chords)
		for next < end {
			e := &events[next]
			chords = append(chords, Chord{e.Start.Sub(p.Parts[i].Start), e.Len, e.Chord})
			next++
		}
		p.Parts[i].Chords = slices.Clip(chords[from:])
	}
	for i := range p.Parts {
		if p.Parts[i].Occurrence > 0 {
			p.Parts[i].tellBy(p.firstOf(i))
		}
	}
}

// at is a part's occurrence.
func (p *Plan) at(part *Part) *phrase.Occurrence {
	return &p.Form.Phrases[part.Phrase].Occurrences[part.Occurrence]
}

// firstOf is the part that plays a part's phrase first.
func (p *Plan) firstOf(i int) *Part {
	for k := range p.Parts {
		if p.Parts[k].Phrase == p.Parts[i].Phrase && p.Parts[k].Occurrence == 0 {
			return &p.Parts[k]
		}
	}
	panic("study: a phrase without a first occurrence")
}

// tellBy tells a part by the first occurrence of its phrase: it keeps what is
// the same, transposed, and lists the rest.
func (part *Part) tellBy(first *Part) {
	part.By = part.interval(first)
	var rest []Chord
	for i := range part.Chords {
		c := &part.Chords[i]
		same := slices.IndexFunc(first.Chords, func(f Chord) bool {
			return f.At == c.At && f.Len == c.Len && f.Chord.Transpose(part.By) == c.Chord
		})
		if same >= 0 {
			part.Kept = append(part.Kept, same)
		} else {
			rest = append(rest, *c)
		}
	}
	part.Chords = rest
}

// interval is that by which most roots have moved.
func (part *Part) interval(first *Part) (most pitch.Interval) {
	votes := map[pitch.Interval]int{}
	for i := range part.Chords {
		c := &part.Chords[i]
		if i >= len(first.Chords) || c.Chord.IsSilence() || first.Chords[i].Chord.IsSilence() {
			continue
		}
		by := first.Chords[i].Chord.Root().To(c.Chord.Root())
		if votes[by]++; votes[by] > votes[most] {
			most = by
		}
	}
	return most
}

// Played is the tune again, rebuilt from pickup and parts alone: its chords in
// order, At counted from the first beat of bar 1.
func (p *Plan) Played() (list []Chord) {
	list = append(list, p.Pickup...)
	for i := range p.Parts {
		part := &p.Parts[i]
		all := slices.Clone(part.Chords)
		if part.Occurrence > 0 {
			first := p.firstOf(i)
			for _, k := range part.Kept {
				c := first.Chords[k]
				c.Chord = c.Chord.Transpose(part.By)
				all = append(all, c)
			}
			slices.SortFunc(all, func(a, b Chord) int { return a.At.Cmp(b.At) })
		}
		for _, c := range all {
			c.At = c.At.Add(part.Start)
			list = append(list, c)
		}
	}
	return list
}
