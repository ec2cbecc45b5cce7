package main

import (
	"cmp"
	"maps"
	"slices"
	"strings"

	"fifthwise/examples/internal/corpus"
)

// tally counts what rows tell, in bounded memory.
type tally struct {
	charts, bad    int
	keys, forms    census
	motions, roles census
	progressions   [corpus.MaxRun + 1]census // by the number of chords, from 2
}

func newTally() *tally {
	t := &tally{keys: census{}.of(1000), forms: census{}.of(20_000), motions: census{}.of(100), roles: census{}.of(100)}
	for n := 2; n <= corpus.MaxRun; n++ {
		t.progressions[n] = census{}.of(50_000)
	}
	return t
}

func (t *tally) add(f *corpus.Facts) {
	t.charts++
	if f.Bad {
		t.bad++
		return
	}
	if f.Home != "" {
		t.keys.add(f.Home, 1)
	}
	if f.Form != "" {
		t.forms.add(f.Form, 1)
	}
	for _, m := range f.Motions {
		t.motions.add(m, 1)
	}
	for _, r := range f.Roles {
		t.roles.add(r.Role, r.Chords)
	}
	for _, run := range f.Runs {
		t.follow(run)
	}
}

// follow counts the progressions of a run.
func (t *tally) follow(run string) {
	var starts [corpus.MaxRun]int // of the last numerals, in a ring
	for n, from := 1, 0; ; n++ {
		starts[n%corpus.MaxRun] = from
		length := strings.Index(run[from:], corpus.Then)
		end := from + length
		if length < 0 {
			end = len(run)
		}
		for k := 2; k <= min(n, corpus.MaxRun); k++ {
			t.progressions[k].add(run[starts[(n-k+1)%corpus.MaxRun]:end], 1)
		}
		if length < 0 {
			return
		}
		from = end + len(corpus.Then)
	}
}

// census counts words. Where there are more than its bound, the rarest are
// forgotten; short is by how much a count may then be too low.
type census struct {
	counts map[string]*int
	most   int
	short  int
}

func (census) of(most int) census { return census{counts: map[string]*int{}, most: most} }

func (c *census) add(word string, n int) {
	if count := c.counts[word]; count != nil {
		*count += n
		return
	}
	if len(c.counts) >= c.most {
		c.forget()
	}
	first := n // n itself would be kept for every word
	c.counts[strings.Clone(word)] = &first
}

// forget drops the rarer half.
func (c *census) forget() {
	counts := make([]int, 0, len(c.counts))
	for _, n := range c.counts {
		counts = append(counts, *n)
	}
	slices.Sort(counts)
	median := counts[len(counts)/2]
	c.short += median
	maps.DeleteFunc(c.counts, func(_ string, n *int) bool { return *n <= median })
}

// entry is a word with its count.
type entry struct {
	word  string
	count int
}

// commonest are at most n words, the commonest first; those of one count in
// the order of the alphabet.
func (c *census) commonest(n int) []entry {
	list := make([]entry, 0, len(c.counts))
	for word, count := range c.counts {
		list = append(list, entry{word, *count})
	}
	slices.SortFunc(list, func(a, b entry) int {
		return cmp.Or(cmp.Compare(b.count, a.count), cmp.Compare(a.word, b.word))
	})
	return list[:min(n, len(list))]
}
