package function

import (
	"fmt"
	"sort"
	"strings"
)

// Evidence says in words what speaks for the key of region r: its cadences by
// kind, the earliest of each, or else how its tonic is placed. It is nil for an
// index out of range.
func (a *Analysis) Evidence(r int) []string {
	if a.outcome == nil || r < 0 || r >= len(a.Regions) {
		return nil
	}
	region := &a.Regions[r]
	var said []string
	seen := map[CadenceKind]bool{}
	end := func(c *Cadence) int { return c.Chords[len(c.Chords)-1] }
	from := sort.Search(len(a.Cadences), func(i int) bool { return end(&a.Cadences[i]) >= region.First })
	for i := from; i < len(a.Cadences) && end(&a.Cadences[i]) <= region.Last; i++ {
		c := &a.Cadences[i]
		if seen[c.Kind] || !c.closesHome() {
			continue
		}
		seen[c.Kind] = true
		said = append(said, a.cadenceInWords(c))
	}
	if len(said) == 0 {
		said = append(said, a.tonicInWords(region))
	}
	return said
}

func (a *Analysis) cadenceInWords(c *Cadence) string {
	var numerals []string
	for _, i := range c.Chords {
		numerals = append(numerals, a.NumeralOf(i))
	}
	first, last := a.Chords[c.Chords[0]].Event.Bar, a.Chords[c.Chords[len(c.Chords)-1]].Event.Bar
	return strings.Join(numerals, " ") + ", " + barsInWords(first, last)
}

func barsInWords(first, last int) string {
	if first == last {
		return fmt.Sprintf("bar %d", first)
	}
	return fmt.Sprintf("bars %d–%d", first, last)
}

// tonicInWords tells where a region without a cadence rests.
func (a *Analysis) tonicInWords(r *Region) string {
	longest := -1
	for i := r.First; i <= r.Last; i++ {
		c := &a.Chords[i]
		if c.Region < 0 || c.Degree != D(1, 0) || c.Target.IsValid() {
			continue
		}
		if longest < 0 || a.Chords[longest].Event.Len.Less(c.Event.Len) {
			longest = i
		}
	}
	if last := &a.Chords[r.Last]; longest < 0 && last.ResolvesTo >= 0 && last.ResolvesTo < r.First && !last.Target.IsValid() {
		first := last.ResolvesTo
		return fmt.Sprintf("%s goes round to %s, bar %d", a.NumeralOf(r.Last), a.NumeralOf(first), a.Chords[first].Event.Bar)
	}
	if longest < 0 {
		return fmt.Sprintf("%s is aimed at and not reached", a.written.note(r.Key.Tonic()))
	}
	tonic, bar := a.NumeralOf(longest), a.Chords[longest].Event.Bar
	if d := longest - 1; d >= r.First && a.Chords[d].ResolvesTo == longest && a.Chords[d].Function == Dominant {
		return fmt.Sprintf("%s leads to %s, %s", a.NumeralOf(d), tonic, barsInWords(a.Chords[d].Event.Bar, bar))
	}
	switch {
	case longest == r.First:
		return fmt.Sprintf("it begins on %s, bar %d", tonic, bar)
	case a.bars(longest, longest) >= 1:
		return fmt.Sprintf("it rests on %s, bar %d", tonic, bar)
	}
	return fmt.Sprintf("%s in bar %d", tonic, bar)
}
