package main

import (
	"cmp"
	"encoding/json"
	"math"
	"slices"
	"strings"
)

// Statistics is what a corpus has.
type Statistics struct {
	Charts       int           `json:"charts"`
	Bad          int           `json:"bad"`
	Chords       int           `json:"chords"` // that sound, as played
	Keys         []KeyCount    `json:"keys"`
	Forms        []FormCount   `json:"forms"`
	Progressions []Progression `json:"progressions"`
	Modulations  []Modulation  `json:"modulations"`
	Roles        []RoleCount   `json:"roles"`
	Short        []struct{}    `json:"short"` // always empty: every word is counted here, none forgotten
}

// KeyCount is how many charts are in a key.
type KeyCount struct {
	Key    string `json:"home_key"`
	Charts int    `json:"charts"`
}

// FormCount is how many charts have a form.
type FormCount struct {
	Form   string `json:"form"`
	Charts int    `json:"charts"`
}

// Progression is how often numerals follow each other in one key.
type Progression struct {
	Numerals []string `json:"numerals"`
	Count    int      `json:"count"`
}

// Modulation is how often the key moves by an interval.
type Modulation struct {
	Motion string `json:"motion"`
	Count  int    `json:"count"`
}

// RoleCount is how many chords play a role.
type RoleCount struct {
	Role        string  `json:"role"`
	Chords      int     `json:"chords"`
	PerThousand float64 `json:"per_thousand"`
}

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

// ExtractOutput is the statistics as JSON.
func (*statisticsFn) ExtractOutput(c Commonest) (string, error) {
	s := Statistics{
		Keys: []KeyCount{}, Forms: []FormCount{}, Progressions: []Progression{},
		Modulations: []Modulation{}, Roles: []RoleCount{}, Short: []struct{}{},
	}
	for _, w := range c.Words {
		s.add(w)
	}
	for i := range s.Roles {
		s.Roles[i].PerThousand = math.Round(1e4*float64(s.Roles[i].Chords)/float64(s.Chords)) / 10
	}
	text, err := json.MarshalIndent(s, "", "  ")
	return string(text), err
}

func (s *Statistics) add(w Counted) {
	switch text := w.Word.Text; w.Word.Of {
	case ofCharts:
		s.Charts = w.Count
	case ofBad:
		s.Bad = w.Count
	case ofKeys:
		s.Keys = append(s.Keys, KeyCount{text, w.Count})
	case ofForms:
		s.Forms = append(s.Forms, FormCount{text, w.Count})
	case ofMotions:
		s.Modulations = append(s.Modulations, Modulation{text, w.Count})
	case ofRoles:
		s.Roles = append(s.Roles, RoleCount{Role: text, Chords: w.Count})
		s.Chords += w.Count
	default:
		s.Progressions = append(s.Progressions, Progression{strings.Split(text, then), w.Count})
	}
}
