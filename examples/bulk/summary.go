package main

import (
	"fmt"
	"strings"

	"fifthwise/examples/internal/corpus"
)

// summary tells the commonest forms and progressions, top of each length.
func (t *tally) summary(top int) *corpus.Summary {
	s := corpus.NewSummary()
	s.Charts, s.Bad = t.charts, t.bad
	short := func(of string, c *census) {
		if c.short > 0 {
			s.Short = append(s.Short, corpus.Short{Of: of, By: c.short})
		}
	}
	for _, e := range t.keys.commonest(t.keys.most) {
		s.Keys = append(s.Keys, corpus.KeyCount{Key: e.word, Charts: e.count})
	}
	for _, e := range t.forms.commonest(top) {
		s.Forms = append(s.Forms, corpus.FormCount{Form: e.word, Charts: e.count})
	}
	short("forms", &t.forms)
	for n := 2; n <= corpus.MaxRun; n++ {
		for _, e := range t.progressions[n].commonest(top) {
			s.Progressions = append(s.Progressions, corpus.Progression{Numerals: strings.Split(e.word, corpus.Then), Count: e.count})
		}
		short(fmt.Sprintf("progressions of %d", n), &t.progressions[n])
	}
	for _, e := range t.motions.commonest(t.motions.most) {
		s.Modulations = append(s.Modulations, corpus.Modulation{Motion: e.word, Count: e.count})
	}
	for _, e := range t.roles.commonest(t.roles.most) {
		s.Roles = append(s.Roles, corpus.RoleCount{Role: e.word, Chords: e.count})
	}
	s.AddUp()
	return s
}

// summaryText is the summary for people.
func summaryText(s *corpus.Summary) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%d charts, %d of them bad; %d chords\n", s.Charts, s.Bad, s.Chords)
	list(&b, "Home keys, in charts", s.Keys, func(k corpus.KeyCount) (string, string) { return k.Key, fmt.Sprint(k.Charts) })
	list(&b, "Commonest forms, in charts", s.Forms, func(f corpus.FormCount) (string, string) { return f.Form, fmt.Sprint(f.Charts) })
	list(&b, "Commonest progressions", s.Progressions, func(p corpus.Progression) (string, string) {
		return strings.Join(p.Numerals, " "), fmt.Sprint(p.Count)
	})
	list(&b, "Changes of key", s.Modulations, func(m corpus.Modulation) (string, string) { return m.Motion, fmt.Sprint(m.Count) })
	list(&b, "Roles, in a thousand chords", s.Roles, func(r corpus.RoleCount) (string, string) { return r.Role, fmt.Sprintf("%.1f", r.PerThousand) })
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
