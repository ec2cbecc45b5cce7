package main

import "strings"

// Word is something that is counted.
type Word struct {
	Of   Of
	Text string
}

// Of is what kind of thing is counted.
type Of int

// Kinds. Those of progressions follow each other, by the number of numerals.
const (
	ofCharts Of = iota // without a text
	ofBad              // charts, without a text
	ofKeys
	ofForms
	ofMotions
	ofRoles
	ofProgressions // of two; then of three, of four
	kinds          = ofProgressions + maxRun - 1
)

// maxRun is how many chords the longest progressions have.
const maxRun = 4

// words gives what is to be counted in a row, each as often as it is there.
func (r *Row) words(count func(Word)) {
	count(Word{Of: ofCharts})
	if r.Reading == nil {
		count(Word{Of: ofBad})
		return
	}
	if r.HomeKey != "" {
		count(Word{ofKeys, r.HomeKey})
	}
	if r.Form != "" {
		count(Word{ofForms, r.Form})
	}
	for i, g := range r.Regions {
		switch {
		case i == 0:
		case g.Motion == "":
			count(Word{ofMotions, "same tonic"})
		default:
			count(Word{ofMotions, g.Motion})
		}
	}
	for i := range r.Chords {
		if r.Chords[i].Region != nil {
			count(Word{ofRoles, r.Chords[i].Role})
		}
	}
	for _, run := range r.runs() {
		for n := 2; n <= maxRun; n++ {
			for from := range len(run) - n + 1 {
				count(Word{ofProgressions + Of(n-2), strings.Join(run[from:from+n], then)})
			}
		}
	}
}

// then stands between numerals that follow each other; none has it in itself.
const then = "-"

// runs are the numerals of each region, silence parting them. A numeral that
// comes again at once stands once.
func (r *Reading) runs() (runs [][]string) {
	before := -1 // the region of the chord before, -1 for silence
	for i := range r.Chords {
		c, region := &r.Chords[i], -1
		if c.Region != nil {
			region = *c.Region
		}
		last := len(runs) - 1
		switch {
		case region < 0:
		case region != before:
			runs = append(runs, []string{c.Numeral})
		case c.Numeral != r.Chords[i-1].Numeral:
			runs[last] = append(runs[last], c.Numeral)
		}
		before = region
	}
	return runs
}
