package corpus

import (
	"encoding/json"
	"math"
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

// NewSummary is that of no charts.
func NewSummary() *Summary {
	return &Summary{
		Keys: []KeyCount{}, Forms: []FormCount{}, Progressions: []Progression{},
		Modulations: []Modulation{}, Roles: []RoleCount{}, Short: []Short{},
	}
}

// AddUp counts the chords by their roles, and says how many of a thousand play
// each.
func (s *Summary) AddUp() {
	s.Chords = 0
	for _, r := range s.Roles {
		s.Chords += r.Chords
	}
	for i := range s.Roles {
		r := &s.Roles[i]
		r.PerThousand = math.Round(1e4*float64(r.Chords)/float64(s.Chords)) / 10
	}
}

// JSON is the summary for programs, without a line break at its end.
func (s *Summary) JSON() []byte {
	text, _ := json.MarshalIndent(s, "", "  ") // of strings and finite numbers
	return text
}
