package main

import (
	"encoding/json"
	"fmt"
	"math"
	"strings"
)

// Summary is what a run found.
type Summary struct {
	Charts       int           `json:"charts"`
	Bad          int           `json:"bad"`
	Chords       int           `json:"chords"` // that sound, as played
	Keys         []KeyCount    `json:"keys"`
	Forms        []FormCount   `json:"forms"`
	Progressions []Progression `json:"progressions"`
	Modulations  []Modulation  `json:"modulations"`
	Roles        []RoleCount   `json:"roles"`
	Short        []Short       `json:"short"`
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

// Short is by how much the counts of a list may be too low, where there were
// too many different things to count.
type Short struct {
	Of string `json:"of"`
	By int    `json:"by"`
}

// summary tells the commonest forms and progressions, top of each length.
func (t *tally) summary(top int) *Summary {
	s := &Summary{
		Charts: t.charts, Bad: t.bad, Chords: t.chords,
		Keys: []KeyCount{}, Forms: []FormCount{}, Progressions: []Progression{},
		Modulations: []Modulation{}, Roles: []RoleCount{}, Short: []Short{},
	}
	for _, e := range t.keys.commonest(t.keys.most) {
		s.Keys = append(s.Keys, KeyCount{e.word, e.count})
	}
	for _, e := range t.forms.commonest(top) {
		s.Forms = append(s.Forms, FormCount{e.word, e.count})
	}
	s.short("forms", &t.forms)
	for n := 2; n <= maxRun; n++ {
		for _, e := range t.progressions[n].commonest(top) {
			s.Progressions = append(s.Progressions, Progression{strings.Split(e.word, then), e.count})
		}
		s.short(fmt.Sprintf("progressions of %d", n), &t.progressions[n])
	}
	for _, e := range t.motions.commonest(t.motions.most) {
		s.Modulations = append(s.Modulations, Modulation{e.word, e.count})
	}
	for _, e := range t.roles.commonest(t.roles.most) {
		perThousand := math.Round(1e4*float64(e.count)/float64(t.chords)) / 10
		s.Roles = append(s.Roles, RoleCount{e.word, e.count, perThousand})
	}
	return s
}

func (s *Summary) short(of string, c *census) {
	if c.short > 0 {
		s.Short = append(s.Short, Short{of, c.short})
	}
}

func (s *Summary) json() []byte {
	text, _ := json.MarshalIndent(s, "", "  ") // of strings and finite numbers
	return append(text, '\n')
}

func (s *Summary) text() string {
	var b strings.Builder
	fmt.Fprintf(&b, "%d charts, %d of them bad; %d chords\n", s.Charts, s.Bad, s.Chords)
	list(&b, "Home keys, in charts", s.Keys, func(k KeyCount) (string, string) { return k.Key, fmt.Sprint(k.Charts) })
	list(&b, "Commonest forms, in charts", s.Forms, func(f FormCount) (string, string) { return f.Form, fmt.Sprint(f.Charts) })
	list(&b, "Commonest progressions", s.Progressions, func(p Progression) (string, string) {
		return strings.Join(p.Numerals, " "), fmt.Sprint(p.Count)
	})
	list(&b, "Changes of key", s.Modulations, func(m Modulation) (string, string) { return m.Motion, fmt.Sprint(m.Count) })
	list(&b, "Roles, in a thousand chords", s.Roles, func(r RoleCount) (string, string) { return r.Role, fmt.Sprintf("%.1f", r.PerThousand) })
	for _, c := range s.Short {
		fmt.Fprintf(&b, "\nToo many %s to count them all: a count may be short by %d.\n", c.Of, c.By)
	}
	return b.String()
}

// list writes a table of counts, if there are any.
func list[T any](b *strings.Builder, title string, items []T, cells func(T) (name, count string)) {
	if len(items) == 0 {
		return
	}
	fmt.Fprintf(b, "\n%s\n", title)
	for _, item := range items {
		name, count := cells(item)
		fmt.Fprintf(b, "%10s  %s\n", count, name)
	}
}
