package main

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"fifthwise/examples/internal/corpus"
)

// Counted is a word with its count.
type Counted struct {
	Word  Word
	Count int
}

// countedFn makes one value of a word and its count.
type countedFn struct{}

func (*countedFn) ProcessElement(w Word, count int) Counted { return Counted{w, count} }

// Commonest are words of each kind, the commonest first, those of one count in
// the order of the alphabet: of forms and of progressions of each length so many
// as are told, of the others all.
type Commonest struct {
	Words []Counted
}

// statisticsFn makes the statistics of counted words. What it makes does not
// depend on the order in which they come: no two words are alike, so that there
// is one order of them all.
type statisticsFn struct {
	Top int // how many forms, and progressions of each length, are told
}

func (*statisticsFn) CreateAccumulator() Commonest { return Commonest{} }

// AddInput puts a word in its place.
func (fn *statisticsFn) AddInput(c Commonest, w Counted) Commonest {
	i, _ := slices.BinarySearchFunc(c.Words, w, byKindAndCount)
	c.Words = slices.Insert(c.Words, i, w)
	return fn.cut(c)
}

// MergeAccumulators merges the words of two workers.
func (fn *statisticsFn) MergeAccumulators(a, b Commonest) Commonest {
	words := append(slices.Clone(a.Words), b.Words...)
	slices.SortFunc(words, byKindAndCount)
	return fn.cut(Commonest{words})
}

func byKindAndCount(a, b Counted) int {
	return cmp.Or(cmp.Compare(a.Word.Of, b.Word.Of), cmp.Compare(b.Count, a.Count), cmp.Compare(a.Word.Text, b.Word.Text))
}

// cut drops the words that are not told.
func (fn *statisticsFn) cut(c Commonest) Commonest {
	var told [kinds]int
	c.Words = slices.DeleteFunc(c.Words, func(w Counted) bool {
		told[w.Word.Of]++
		return told[w.Word.Of] > fn.most(w.Word.Of)
	})
	return c
}

func (fn *statisticsFn) most(of Of) int {
	if of == ofForms || of >= ofProgressions {
		return fn.Top
	}
	return math.MaxInt
}

// ExtractOutput is the statistics as JSON. Every word is counted, none forgotten, so
// that no count falls short.
func (*statisticsFn) ExtractOutput(c Commonest) string {
	s := corpus.NewSummary()
	for _, w := range c.Words {
		w.addTo(s)
	}
	s.AddUp()
	return string(s.JSON())
}

func (w Counted) addTo(s *corpus.Summary) {
	switch text := w.Word.Text; w.Word.Of {
	case ofCharts:
		s.Charts = w.Count
	case ofBad:
		s.Bad = w.Count
	case ofKeys:
		s.Keys = append(s.Keys, corpus.KeyCount{Key: text, Charts: w.Count})
	case ofForms:
		s.Forms = append(s.Forms, corpus.FormCount{Form: text, Charts: w.Count})
	case ofMotions:
		s.Modulations = append(s.Modulations, corpus.Modulation{Motion: text, Count: w.Count})
	case ofRoles:
		s.Roles = append(s.Roles, corpus.RoleCount{Role: text, Chords: w.Count})
	default:
		s.Progressions = append(s.Progressions, corpus.Progression{Numerals: strings.Split(text, corpus.Then), Count: w.Count})
	}
}
