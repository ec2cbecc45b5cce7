package main

import (
	"cmp"
	"fmt"
	"strings"

	"fifthwise/examples/internal/plain"
	"fifthwise/pkg/chart"
	"fifthwise/pkg/review"
)

// marks are those of the numerals or, where the answer has none, of the keys.
func (s *student) marks() []review.Mark {
	if len(s.review.Chords) > 0 {
		return s.review.Chords
	}
	return s.review.Regions
}

// counts are how many marks have each verdict.
func (s *student) counts() (n [review.Contradicts + 1]int) {
	for _, m := range s.marks() {
		n[m.Verdict]++
	}
	return n
}

// weakest is the role of which the most was missed, empty if nothing was.
func (s *student) weakest() string {
	if len(s.review.Roles) == 0 || s.review.Roles[0].Missed == 0 {
		return ""
	}
	r := s.review.Roles[0]
	return fmt.Sprintf("%v %d/%d", r.Role, r.Missed, r.Chords)
}

// table has a line for each student.
func (t *task) table(list []*student) string {
	rows := [][]string{{"name", "score", "agrees", "defensible", "contradicts", "blank", "most missed"}}
	for _, s := range list {
		if s.answer == nil {
			rows = append(rows, []string{s.name, "-", "-", "-", "-", "-", "has faults"})
			continue
		}
		n := s.counts()
		rows = append(rows, []string{s.name, percent(s.review.Score), fmt.Sprint(n[review.Agrees]), fmt.Sprint(n[review.Defensible]),
			fmt.Sprint(n[review.Contradicts]), fmt.Sprint(n[review.Blank]), s.weakest()})
	}
	return strings.Join(plain.Columns("<>>>>><", rows), "\n") + "\n"
}

func percent(share float64) string { return fmt.Sprintf("%.0f%%", 100*share) }

// page tells a student what was marked and why.
func (t *task) page(s *student) string {
	var b strings.Builder
	n := s.counts()
	fmt.Fprintf(&b, "%s: %s\n", cmp.Or(t.chart.Title, "Chart"), s.name)
	fmt.Fprintf(&b, "Score %s: %d agree, %d can be defended, %d contradict the chart, %d blank\n",
		percent(s.review.Score), n[review.Agrees], n[review.Defensible], n[review.Contradicts], n[review.Blank])
	for _, line := range plain.Wrap(s.review.Remark, pageWidth) {
		fmt.Fprintln(&b, line)
	}
	if len(s.review.Regions) > 0 {
		fmt.Fprintln(&b, "\nKeys")
		for i, m := range s.review.Regions {
			g := s.answer.Regions[i]
			fmt.Fprintf(&b, "  bar %d%s, %s: %v\n", g.Bar, timeThrough(g.Pass), t.analysis.KeyName(g.Key), m.Verdict)
			if m.Verdict != review.Agrees {
				b.WriteString(wrapped(m.Reason))
			}
		}
	}
	if len(s.review.Chords) > 0 {
		fmt.Fprintln(&b, "\nChords")
		t.chords(&b, s)
	}
	title := "\nTo look at\n"
	for i, r := range s.review.Roles {
		if r.Missed == 0 {
			continue
		}
		fmt.Fprintf(&b, "%s  %v, %d of %d missed\n", title, r.Role, r.Missed, r.Chords)
		title = ""
		if i+1 == len(s.review.Roles) || s.review.Roles[i+1].Advice != r.Advice {
			b.WriteString(wrapped(r.Advice))
		}
	}
	return b.String()
}

// chords lists the numerals, below each what is to be said of it.
func (t *task) chords(b *strings.Builder, s *student) {
	rows := [][]string{{"  bar", "chord", "answer", "verdict", "expected"}}
	for i, m := range s.review.Chords {
		e := t.event(i)
		expected := m.Expected
		if m.Verdict == review.Agrees {
			expected = ""
		}
		rows = append(rows, []string{fmt.Sprintf("%5d%s", e.Bar, timeThrough(e.Pass)), e.Symbol, cmp.Or(s.answer.Numerals[i], "?"), m.Verdict.String(), expected})
	}
	lines := plain.Columns("<<<<<", rows)
	fmt.Fprintln(b, lines[0])
	for i, m := range s.review.Chords {
		fmt.Fprintln(b, lines[i+1])
		if m.Verdict != review.Agrees {
			b.WriteString(wrapped(m.Reason))
		} else {
			b.WriteString(wrapped(m.Note))
		}
	}
}

// timeThrough says that a bar is not played for the first time.
func timeThrough(pass int) string {
	if pass <= 1 {
		return ""
	}
	return " (" + chart.Ordinal(pass) + " time)"
}

// pageWidth is that of a page, in characters.
const pageWidth = 80

const indent = "       "

// wrapped sets a text below what it is about.
func wrapped(text string) string {
	var b strings.Builder
	for _, line := range plain.Wrap(text, pageWidth-len(indent)) {
		fmt.Fprintln(&b, indent+line)
	}
	return b.String()
}
