package function

import (
	"slices"
	"strings"

	"fifthwise/pkg/key"
)

// passing are the sections whose keys do not vote on the home key; common
// practice, no source.
var passing = []string{"intro", "interlude", "coda", "outro", "ending", "fade", "fadeout", "tag", "vamp", "link"}

// home is the key of the final cadence among the chords that vote. Without any
// cadence it is the key in which these end. Where they end in the key in which they
// began, round to their first chord, or the chart states that key, a cadence on the
// way is overruled, but not that of a relative key. Where the last region only lifts
// an earlier one, the earlier key is home.
func (a *Analysis) home(stated key.Key) key.Key {
	first, last := a.voting()
	region := last
	for i := len(a.Cadences) - 1; i >= 0; i-- {
		c := &a.Cadences[i]
		end := c.Chords[len(c.Chords)-1]
		if c.closesHome() && a.votes(end) {
			region = a.Chords[end].Region
			break
		}
	}
	final, began := a.Regions[region].Key, a.Regions[first].Key
	if !final.Sounds(began) && !final.Sounds(began.Relative()) && (began.Sounds(a.Regions[last].Key) || began.Sounds(stated)) {
		return began
	}
	if lifted := a.liftedFrom(region); lifted >= 0 {
		region = lifted
	}
	return a.Regions[region].Key
}

// voting are the regions of the first and the last chord that vote; of all chords
// where none does.
func (a *Analysis) voting() (first, last int) {
	first, last = -1, len(a.Regions)-1
	for i := range a.Chords {
		if !a.votes(i) {
			continue
		}
		if first < 0 {
			first = a.Chords[i].Region
		}
		last = a.Chords[i].Region
	}
	return max(0, first), last
}

// closesHome: the cadence ends on its tonic.
func (c *Cadence) closesHome() bool {
	return c.Kind != Half && c.Kind != PhrygianHalf && c.Kind != Deceptive
}

// votes: chord i counts for the home key.
func (a *Analysis) votes(i int) bool {
	r := &a.Chords[i]
	name := strings.TrimRight(r.Event.Section, " 0123456789")
	return r.Region >= 0 && !r.Event.Optional && !slices.ContainsFunc(passing, func(p string) bool { return strings.EqualFold(p, name) })
}

// liftedFrom is the earlier region whose numerals the last region repeats in
// another key of the same mode; -1 for none. Fewer than four chords repeat
// nothing.
func (a *Analysis) liftedFrom(region int) int {
	if region == 0 || region != len(a.Regions)-1 {
		return -1
	}
	tail := a.outcome.labels(&a.Regions[region])
	if len(tail) < 4 {
		return -1
	}
	for n := range region {
		r := &a.Regions[n]
		if r.Key.Mode() == a.Regions[region].Key.Mode() && !r.Key.Sounds(a.Regions[region].Key) && contains(a.outcome.labels(r), tail) {
			return n
		}
	}
	return -1
}

// labels are the labels of a region's columns.
func (o *outcome) labels(r *Region) (list []uint8) {
	for i := o.events[r.First]; i <= o.events[r.Last]; i++ {
		list = append(list, o.entry(int(i)).label)
	}
	return list
}

func contains(list, part []uint8) bool {
	for i := 0; i+len(part) <= len(list); i++ {
		if slices.Equal(list[i:i+len(part)], part) {
			return true
		}
	}
	return false
}
