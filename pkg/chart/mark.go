package chart

import (
	"cmp"
	"fmt"
	"slices"
)

// Mark is a remark on a chord of a written bar, as a reading makes them: words
// above and below it.
type Mark struct {
	Bar, Chord   int // places in Chart.Bars and in the bar's Chords
	Above, Below string
}

// MergeMarks joins the marks of each chord, given in the order of play, and
// sorts them in the order of the chart. Words that do not change from one time
// through to the next are said once, others with their time:
// "IIm7 (2nd: VIm7)". Times without words are passed over.
func MergeMarks(marks []Mark) []Mark {
	sorted := slices.Clone(marks)
	slices.SortStableFunc(sorted, func(a, b Mark) int {
		return cmp.Or(cmp.Compare(a.Bar, b.Bar), cmp.Compare(a.Chord, b.Chord))
	})
	var merged []Mark
	for i := 0; i < len(sorted); {
		m := sorted[i]
		n := i + 1
		for n < len(sorted) && sorted[n].Bar == m.Bar && sorted[n].Chord == m.Chord {
			n++
		}
		m.Above = mergeWords(sorted[i:n], func(m Mark) string { return m.Above })
		m.Below = mergeWords(sorted[i:n], func(m Mark) string { return m.Below })
		merged = append(merged, m)
		i = n
	}
	return merged
}

func mergeWords(passes []Mark, words func(Mark) string) string {
	all, last := "", ""
	for i, m := range passes {
		switch w := words(m); {
		case w == "" || w == last:
		case i == 0:
			all, last = w, w
		default:
			if all != "" {
				all += " "
			}
			all, last = all+fmt.Sprintf("(%s: %s)", Ordinal(i+1), w), w
		}
	}
	return all
}

// Ordinal names a time through, from 1: "1st", "2nd".
func Ordinal(n int) string {
	ending := "th"
	if n/10%10 != 1 && n%10 < 4 {
		ending = []string{"th", "st", "nd", "rd"}[n%10]
	}
	return fmt.Sprint(n) + ending
}
