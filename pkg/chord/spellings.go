package chord

import (
	"slices"
	"strings"
	"sync"
	"unicode"
)

// Spellings are the ways of writing the quality on lead sheets that
// [ParseQuality] reads, the canonical one first, the others in the order of its
// tables: "m7b5", "min7b5", "ø" …. Words that only differ in capitals, and signs
// that only differ in their code point, are told once; of alterations and
// additions only one at a time is written in its ways. What lead sheets have no
// name for has only its list of degrees.
func (q Quality) Spellings() []string {
	name := q.String()
	list := []string{name}
	for _, s := range spellings()[q] {
		if s != name {
			list = append(list, s)
		}
	}
	return list
}

// spellings files every kind with every number, and with at most one ending, by
// what it is read as.
var spellings = sync.OnceValue(func() map[Quality][]string {
	all := map[Quality][]string{}
	for _, k := range kinds {
		for _, word := range wordsOf(k.words) {
			for _, figures := range figures() {
				for _, ending := range endings() {
					q, err := ParseQuality(word + figures + ending)
					if err == nil && !isPadded(q, word, figures, ending) && !slices.Contains(all[q], word+figures+ending) {
						all[q] = append(all[q], word+figures+ending)
					}
				}
			}
		}
	}
	return all
})

// isPadded reports whether a spelling with an ending says no more than it would
// without one of its parts, as maj7sus2 says more than 7sus2 but ø7b5 no more
// than ø7; or whether its front would be taken for the root's accidental.
func isPadded(q Quality, word, figures, ending string) bool {
	if ending == "" {
		return false
	}
	if strings.HasPrefix(word+figures+ending, "#") || strings.HasPrefix(word+figures+ending, "b") {
		return true
	}
	for _, shorter := range []string{word + figures, word + ending, figures + ending} {
		less, err := ParseQuality(shorter)
		if err == nil && less == q && shorter != word+figures+ending {
			return true
		}
	}
	return false
}

func figures() []string {
	list := []string{""}
	for _, n := range numbers {
		list = append(list, wordsOf(n.words)...)
	}
	return list
}

// endings are the modifications that may stand behind a number.
func endings() []string {
	list := []string{""}
	for _, m := range modifiers {
		if m.degrees != "" {
			list = append(list, wordsOf(m.words)...)
		}
	}
	for _, d := range []string{"b5", "#5", "b9", "#9", "#11", "b13", "maj7", "add9"} {
		list = append(list, d, "("+d+")")
	}
	return list
}

// wordsOf are the words of a table cell without what only looks ahead, and of
// those beyond ASCII the first.
func wordsOf(cell string) []string {
	var list []string
	hasSign := false
	for _, w := range strings.Fields(cell) {
		word, _, _ := strings.Cut(w, "|")
		isSign := strings.IndexFunc(word, func(r rune) bool { return r > unicode.MaxASCII }) >= 0
		if slices.Contains(list, word) || isSign && hasSign {
			continue
		}
		hasSign = hasSign || isSign
		list = append(list, word)
	}
	return list
}
