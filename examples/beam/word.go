package main

import (
	"strings"

	"fifthwise/examples/internal/corpus"
)

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
	kinds          = ofProgressions + corpus.MaxRun - 1
)

// words gives what is to be counted of a chart, each as often as it is there.
func words(f *corpus.Facts, count func(Word)) {
	count(Word{Of: ofCharts})
	if f.Bad {
		count(Word{Of: ofBad})
		return
	}
	if f.Home != "" {
		count(Word{ofKeys, f.Home})
	}
	if f.Form != "" {
		count(Word{ofForms, f.Form})
	}
	for _, m := range f.Motions {
		count(Word{ofMotions, m})
	}
	for _, r := range f.Roles {
		for range r.Chords {
			count(Word{ofRoles, r.Role})
		}
	}
	for _, text := range f.Runs {
		run := strings.Split(text, corpus.Then)
		for n := 2; n <= corpus.MaxRun; n++ {
			for from := range len(run) - n + 1 {
				count(Word{ofProgressions + Of(n-2), strings.Join(run[from:from+n], corpus.Then)})
			}
		}
	}
}
