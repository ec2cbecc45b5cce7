package review

import (
	"fmt"
	"strings"

	"fifthwise/pkg/chart"
	"fifthwise/pkg/key"
	"fifthwise/pkg/pitch"
)

// regions marks the keys of an answer.
func (r *reading) regions(stated []Region) []Mark {
	marks := make([]Mark, len(stated))
	for n := range stated {
		first, last := r.starts[n], len(r.chords)-1
		if n+1 < len(r.starts) {
			last = r.starts[n+1] - 1
		}
		marks[n] = r.region(stated[n], first, last)
	}
	return marks
}

// region marks a key that is stated for the sounding chords from first to last.
func (r *reading) region(g Region, first, last int) Mark {
	k, heard := g.Key, r.heard(first, last)
	m := Mark{Chord: r.chords[first], Expected: r.KeyName(heard)}
	chance := r.chance(k, first, last)
	switch {
	case sameKey(heard, k):
		m.Expected = r.KeyName(k)
		m.Verdict, m.Reason = Agrees, fmt.Sprintf("%s is heard here.", m.Expected)
		if others := r.borders(k, first, last); others != "" {
			m.Verdict, m.Reason = Defensible, fmt.Sprintf("%s is heard here, but %s.", m.Expected, others)
		}
	case chance >= Margin:
		m.Verdict = Defensible
		m.Reason = fmt.Sprintf("%s can be heard here, with a probability of %s; %s is likelier.", r.KeyName(k), percent(chance), m.Expected)
	default:
		m.Verdict = Contradicts
		m.Reason = fmt.Sprintf("%s has a probability of %s here, and %s is the least that can be defended; %s is heard.", r.KeyName(k), percent(chance), percent(Margin), m.Expected)
	}
	if g.NoMode && k.Tonic().Sounds(heard.Tonic()) && heard.IsMinor() {
		m.Reason += fmt.Sprintf(" A key without m or a mode is taken as major: write %s if that is meant.", m.Expected)
	}
	return m
}

// leastRelative is the share of the numerals that must be right in the relative key
// for an answer to be counted in it.
const leastRelative = .75

// remark says of an answer as a whole that it is counted in the relative keys of
// those heard, stated or not; empty where it is not.
func (r *reading) remark() string {
	said, relative, first := 0, 0, -1
	for i := range r.stated {
		s, played := &r.stated[i], &r.Chords[r.chords[i]]
		if s.text == "" {
			continue
		}
		said++
		other := played.Key.Relative()
		if s.region >= 0 && !sameKey(s.key, other) {
			continue
		}
		_, _, fits := r.readIn(other, s, played)
		_, _, fitsHeard := r.readIn(played.Key, s, played)
		if !fits || fitsHeard {
			continue
		}
		relative++
		if first < 0 {
			first = i
		}
	}
	if relative == 0 || float64(relative) < leastRelative*float64(said) {
		return ""
	}
	heard := r.keyAt(first)
	return fmt.Sprintf("The degrees fit one another, but are counted in the relative key: in %s, where %s is heard.", r.KeyName(heard.Relative()), r.KeyName(heard))
}

// heard is the key that the reading hears in the most beats of some chords; of
// equals the first.
func (r *reading) heard(first, last int) (most key.Key) {
	beats, longest := map[sound]float64{}, 0.0
	for i := first; i <= last; i++ {
		beats[soundOf(r.keyAt(i))] += r.beats(i)
	}
	for i := first; i <= last; i++ {
		if k := r.keyAt(i); beats[soundOf(k)] > longest {
			most, longest = k, beats[soundOf(k)]
		}
	}
	return most
}

// chance is the mean probability of a key by beats.
func (r *reading) chance(k key.Key, first, last int) float64 {
	sum, beats := 0.0, 0.0
	for i := first; i <= last; i++ {
		sum += r.beats(i) * r.KeyChance(r.chords[i], k)
		beats += r.beats(i)
	}
	return sum / beats
}

// maxBorders is how many other keys are told of a region.
const maxBorders = 3

// borders says how the reading's own borders of a key that is heard differ from
// those stated; empty if they do not.
func (r *reading) borders(k key.Key, first, last int) string {
	var said []string
	for i := first; i <= last; i++ {
		other, from := r.keyAt(i), i
		if sameKey(other, k) {
			continue
		}
		for i < last && sameKey(r.keyAt(i+1), other) {
			i++
		}
		where := "at " + r.at(i)
		if from < i {
			where = fmt.Sprintf("from %s to %s", r.at(from), r.at(i))
		}
		said = append(said, fmt.Sprintf("%s %s", r.KeyName(other), where))
	}
	if first > 0 && r.keeps(k, first-1, first) && !r.states(k, first-1) {
		i := first
		for i > 0 && r.keeps(k, i-1, i) {
			i--
		}
		said = append(said, "it begins with "+r.at(i))
	}
	if next := last + 1; next < len(r.chords) && r.keeps(k, last, next) && !r.states(k, next) {
		i := last
		for i+1 < len(r.chords) && r.keeps(k, i, i+1) {
			i++
		}
		said = append(said, "it goes on to "+r.at(i))
	}
	if more := len(said) - maxBorders; more > 0 {
		said = append(said[:maxBorders], fmt.Sprintf("and %d more", more))
	}
	return strings.Join(said, ", ")
}

// keeps reports whether two neighbours lie in one region of the reading, in a
// key.
func (r *reading) keeps(k key.Key, i, j int) bool {
	return r.Chords[r.chords[i]].Region == r.Chords[r.chords[j]].Region && sameKey(r.keyAt(i), k)
}

// states reports whether the answer has a region of a key at sounding chord i.
func (r *reading) states(k key.Key, i int) bool {
	return r.stated[i].region >= 0 && sameKey(r.stated[i].key, k)
}

func (r *reading) keyAt(i int) key.Key { return r.Chords[r.chords[i]].Key }

func (r *reading) beats(i int) float64 { return r.Chords[r.chords[i]].Event.Len.Float64() }

// at names sounding chord i and its bar.
func (r *reading) at(i int) string {
	e := &r.Chords[r.chords[i]].Event
	said := fmt.Sprintf("%s in bar %d", e.Symbol, e.Bar)
	if e.Pass > 1 {
		said += " (" + chart.Ordinal(e.Pass) + " time)"
	}
	return said
}

// sound is what the search hears of a key: its tonic, and whether its third is
// minor.
type sound struct {
	tonic   pitch.Class
	isMinor bool
}

func soundOf(k key.Key) sound { return sound{k.Tonic().Class(), k.IsMinor()} }

// sameKey reports whether two keys are one to the search.
func sameKey(a, b key.Key) bool { return soundOf(a) == soundOf(b) }

// percent prints a probability, closely where it is near the margin.
func percent(chance float64) string {
	switch {
	case chance < .01:
		return "under 1%"
	case chance < 2*Margin && chance != Margin:
		return fmt.Sprintf("%.1f%%", 100*chance)
	}
	return fmt.Sprintf("%.0f%%", 100*chance)
}
