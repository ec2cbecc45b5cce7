package function

import (
	"cmp"
	"slices"
	"sync"

	"fifthwise/pkg/chord"
	"fifthwise/pkg/key"
	"fifthwise/pkg/pitch"
)

// A candidate is a label that a chord may bear, with its likeliest entry.
type candidate struct {
	key    int
	entry  *entry
	best   float32
	chance float32 // of the label
}

// candidateLists keep their room, since a chord may have a hundred candidates.
var candidateLists = sync.Pool{New: func() any { return new([]candidate) }}

// candidates are the labels of a column that have a chance, in the order of keys and
// vocabulary, in place of a list.
func (o *outcome) candidates(column int, list []candidate) []candidate {
	c := &o.columns[column]
	list = list[:0]
	for k := range c.keysHeard() {
		from := len(list)
	slots:
		for s, hi := c.in(k); s < hi; s++ {
			p := o.chance[s]
			if p == 0 {
				continue
			}
			e := c.slot(s).entry
			for i := from; i < len(list); i++ {
				if x := &list[i]; x.entry.label == e.label {
					x.chance += p
					if p > x.best {
						x.entry, x.best = e, p
					}
					continue slots
				}
			}
			list = append(list, candidate{k, e, p, p})
		}
	}
	return list
}

// likeliest takes the likeliest of a list that pass out of it until n are taken; of
// equal ones the first.
func likeliest(taken, list []candidate, n int, pass func(*candidate) bool) []candidate {
	for len(taken) < n {
		best, most := -1, float32(0)
		for i := range list {
			if c := &list[i]; c.chance > most && pass(c) {
				best, most = i, c.chance
			}
		}
		if best < 0 {
			break
		}
		taken = append(taken, list[best])
		list[best].chance = 0
	}
	return taken
}

// MaxAlternatives is the most alternatives that are told of a chord.
const MaxAlternatives = 5

// Alternatives are other readings of chord i, the likeliest first, at most n
// and at most [MaxAlternatives]. Half of the places are kept for other names in
// the key shown, such as the bare degree III7 of a V7/VI. None is likelier than
// the reading shown: where a label is, no whole reading of the chart bears
// it. Silence has none, nor has an index out of range.
func (a *Analysis) Alternatives(i, n int) []Alternative {
	if !a.sounds(i) {
		return nil
	}
	n = max(0, min(n, MaxAlternatives))
	shown := &a.Chords[i]
	column := int(a.outcome.events[i])
	home := int(a.outcome.chosen[column].key)
	room := candidateLists.Get().(*[]candidate)
	defer candidateLists.Put(room)
	list := a.outcome.candidates(column, *room)
	*room = list
	defensible := func(c *candidate) bool {
		return float64(c.chance) <= shown.Confidence && (c.key != home || c.entry.degree != shown.Degree || c.entry.target != shown.Target)
	}
	var taken [MaxAlternatives]candidate
	kept := likeliest(taken[:0], list, n/2, func(c *candidate) bool { return c.key == home && defensible(c) })
	kept = likeliest(kept, list, n, defensible)
	slices.SortStableFunc(kept, func(a, b candidate) int { return cmp.Compare(b.chance, a.chance) })
	out := make([]Alternative, len(kept))
	for j, c := range kept {
		out[j] = a.alternative(i, c)
	}
	return out
}

// As is the reading of chord i by a degree and target in a key, weighed as the
// search weighs it. It is false where the vocabulary has no such reading of the
// chord, and for silence. Keys are taken by their sound and as major or minor.
func (a *Analysis) As(i int, k key.Key, degree, target Degree) (Alternative, bool) {
	if !a.sounds(i) || !k.IsValid() {
		return Alternative{}, false
	}
	c, index := &a.outcome.columns[a.outcome.events[i]], indexOf(k)
	found := candidate{key: index, best: -1}
	for s, hi := c.in(index); s < hi; s++ {
		e, p := c.slot(s).entry, a.outcome.chance[s]
		if e.degree != degree || e.target != target {
			continue
		}
		found.chance += p
		if p > found.best {
			found.entry, found.best = e, p
		}
	}
	if found.entry == nil {
		return Alternative{}, false
	}
	return a.alternative(i, found), true
}

// KeyChance is the probability of a key at chord i, of all its readings
// together; 0 for silence. Keys are taken as by [Analysis.As].
func (a *Analysis) KeyChance(i int, k key.Key) float64 {
	if !a.sounds(i) || !k.IsValid() {
		return 0
	}
	c, index, sum := &a.outcome.columns[a.outcome.events[i]], indexOf(k), 0.0
	for s, hi := c.in(index); s < hi; s++ {
		sum += float64(a.outcome.chance[s])
	}
	return min(1, sum)
}

func (a *Analysis) alternative(i int, c candidate) Alternative {
	e, played := c.entry, a.Chords[i].Event.Chord
	k := a.keyNamed(c.key, e, played)
	return Alternative{
		Key: k, Numeral: e.numeral(played, k.Tonic()), Degree: e.degree, Target: e.target,
		Function: e.function, Role: e.role, Confidence: float64(c.chance),
		analysis: a, chord: i, entry: e,
	}
}

// keyNamed spells a key as a region spells it, or else so that the chord keeps
// its own spelling in it.
func (a *Analysis) keyNamed(index int, e *entry, c chord.Chord) key.Key {
	for _, r := range a.Regions {
		if indexOf(r.Key) == index {
			return r.Key
		}
	}
	class := pitch.Class(index / modeCount)
	root, _ := e.heard(c, pitch.Of(class))
	tonic := root.Sub(pitch.Degree(e.degree.Number(), e.degree.Alter()))
	if e.applied() {
		tonic = tonic.Sub(pitch.Degree(e.target.Number(), e.target.Alter()))
	}
	return key.New(tonic, modeOf(index)).Simplify()
}
