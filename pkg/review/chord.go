package review

import (
	"fmt"

	"fifthwise/pkg/chord"
	"fifthwise/pkg/function"
	"fifthwise/pkg/pitch"
)

// chord marks what is stated of sounding chord i.
func (r *reading) chord(i int, regions []Mark) Mark {
	s, c := &r.stated[i], r.chords[i]
	played := &r.Chords[c]
	m := Mark{Chord: c, Expected: r.NumeralOf(c)}
	if s.text == "" {
		m.Reason = r.Reason(c)
		return m
	}
	if flat, ok := inMinor(s.numeral); ok && s.key.IsMinor() && !r.fits(s.numeral.In(s.key), s, played) && r.fits(flat.In(s.key), s, played) {
		s.numeral = flat
	}
	n := s.numeral
	shown := sameKey(s.key, played.Key) && n.Degree() == played.Degree && n.Target() == played.Target
	spelled := n.In(s.key)
	other, known := r.As(c, s.key, n.Degree(), n.Target())
	switch {
	case s.region >= 0 && regions[s.region].Verdict == Contradicts && !sameKey(s.key, played.Key):
		m.Verdict, m.Reason = Contradicts, fmt.Sprintf("It is read in %s, which is not heard here.", r.KeyName(s.key))
	case !r.fits(spelled, s, played):
		m.Verdict = Contradicts
		m.Reason = fmt.Sprintf("%s in %s spells %s; the chart has %s.", s.text, r.KeyName(s.key), spelled, played.Event.Symbol)
	case shown && played.Numeral.IsSubstitute() && !n.IsSubstitute():
		m.Verdict = Defensible
		m.Reason = fmt.Sprintf("The bare degree says where the chord stands, not what it does. %s", r.Reason(c))
	case shown:
		m.Verdict, m.Reason = Agrees, r.Reason(c)
	case known && other.Confidence >= Margin:
		m.Verdict = Defensible
		m.Reason = fmt.Sprintf("It has a probability of %s. %s", percent(other.Confidence), other.Reason())
	case r.isPivotal(s, played):
		m.Verdict = Defensible
		m.Reason = fmt.Sprintf("The chord belongs to %s and to %s.", r.KeyName(played.Key), r.KeyName(s.key))
	case r.goes(i):
		m.Verdict = Defensible
		m.Reason = fmt.Sprintf("It goes to %v, the goal that it names. %s", r.goal(s), r.Reason(c))
	case !n.Target().IsValid() && !n.IsSubstitute() && (sameKey(s.key, played.Key) || r.KeyChance(c, s.key) >= Margin):
		m.Verdict = Defensible
		m.Reason = fmt.Sprintf("The bare degree is a correct name, if a less telling one. %s", r.Reason(c))
	case r.isDominantTwo(i):
		m.Verdict = Defensible
		m.Reason = fmt.Sprintf("It is also the dominant-quality two of the dominant that follows. %s", r.Reason(c))
	default:
		m.Verdict, m.Reason = Contradicts, r.unsound(i, known, other)
	}
	return m
}

// inMinor is a numeral in which III, VI and VII are counted from the minor scale,
// as handbooks do, in our counting: VI is bVI, #VI is VI. It is false if there is
// none of them.
func inMinor(n function.Numeral) (function.Numeral, bool) {
	d, t := n.Degree(), n.Target()
	flat := func(d function.Degree) (function.Degree, bool) {
		if n := d.Number(); d.Alter() == 0 && (n == 3 || n == 6 || n == 7) || d.Alter() == 1 && (n == 6 || n == 7) {
			return function.D(n, d.Alter()-1), true
		}
		return d, false
	}
	if t.IsValid() {
		t, ok := flat(t)
		return function.NewNumeral(d, n.Quality(), t, n.IsSubstitute()), ok
	}
	d, ok := flat(d)
	return function.NewNumeral(d, n.Quality(), t, n.IsSubstitute()), ok
}

// unsound says why a numeral that spells the chord is no reading of it.
func (r *reading) unsound(i int, known bool, other function.Alternative) string {
	s, c := &r.stated[i], r.chords[i]
	if t := s.numeral.Target(); t.IsValid() {
		next := "nothing follows"
		if i+1 < len(r.chords) {
			next = r.Chords[r.chords[i+1]].Event.Symbol + " follows"
		}
		return fmt.Sprintf("%s aims at %v, and %s. %s", s.text, r.goal(s), next, r.Reason(c))
	}
	if known {
		return fmt.Sprintf("It has a probability of %s, under the %s that can be defended. %s", percent(other.Confidence), percent(Margin), r.Reason(c))
	}
	return fmt.Sprintf("It is no reading of %s in %s. %s", r.Chords[c].Event.Symbol, r.KeyName(s.key), r.Reason(c))
}

// goal is the root of the tonicised chord.
func (r *reading) goal(s *stated) pitch.Note { return s.numeral.Target().Above(s.key.Tonic()) }

// goes reports whether an applied dominant or leading-tone chord is followed by
// the goal that its numeral names.
func (r *reading) goes(i int) bool {
	s := &r.stated[i]
	d := s.numeral.Degree()
	if !s.numeral.Target().IsValid() || i+1 == len(r.chords) || d != function.D(5, 0) && d != function.D(7, 0) && !s.numeral.IsSubstitute() {
		return false
	}
	return r.Chords[r.chords[i+1]].Event.Chord.Root().Sounds(r.goal(s))
}

// isPivotal reports whether a numeral is the second one of a pivot.
func (r *reading) isPivotal(s *stated, played *function.Reading) bool {
	p := played.Pivot
	return p.Key.IsValid() && sameKey(p.Key, s.key) && p.Numeral.Degree() == s.numeral.Degree() && p.Numeral.Target() == s.numeral.Target()
}

// isDominantTwo reports whether a numeral names a dominant as the two of the
// dominant after it: II7/VI before V7/VI.
func (r *reading) isDominantTwo(i int) bool {
	n := r.stated[i].numeral
	if i+1 == len(r.chords) || n.Degree() != function.D(2, 0) || !n.Target().IsValid() {
		return false
	}
	next := &r.Chords[r.chords[i+1]]
	return r.Chords[r.chords[i]].Event.Chord.Family() == chord.Dominant && next.Degree == function.D(5, 0) && next.Target == n.Target()
}

// fits reports whether a chord that a numeral spells is the one played, as far
// as the numeral says what it is.
func (r *reading) fits(spelled chord.Chord, s *stated, played *function.Reading) bool {
	c := played.Event.Chord
	if isDiminishedSeventh(spelled.Quality()) && isDiminishedSeventh(c.Quality()) {
		return spelled.Classes() == c.Classes()
	}
	if spelled.Root().Sounds(c.Root()) {
		return s.bare || agrees(spelled.Quality(), c.Quality())
	}
	// A chord that is heard from another root than it is written on, such as a
	// suspended dominant on its bass.
	heard := played.Numeral.In(played.Key)
	return spelled.Root().Sounds(heard.Root()) && (s.bare || agrees(spelled.Quality(), heard.Quality()))
}

func isDiminishedSeventh(q chord.Quality) bool {
	seventh, ok := q.Seventh()
	return ok && seventh == -2
}

// agrees reports whether what a quality says holds for the one played: the same
// third and fifth, and the same seventh where both have one. The fifth of
// a dominant is altered as players like. Left out, or a sixth
// for it, is no fault, nor is the third of a suspended chord; but a minor
// seventh makes a dominant of what is none.
func agrees(said, played chord.Quality) bool {
	third, hasThird := said.Third()
	playedThird, hasPlayedThird := played.Third()
	if hasThird && hasPlayedThird && third != playedThird {
		return false
	}
	if said.Family() == chord.Suspended && hasPlayedThird {
		return false
	}
	fifth, ok := said.Fifth()
	playedFifth, playedOK := played.Fifth()
	if ok && playedOK && fifth != playedFifth && !(played.Family() == chord.Dominant && third == 0) {
		return false
	}
	seventh, ok := said.Seventh()
	playedSeventh, playedOK := played.Seventh()
	switch {
	case !ok:
		return true
	case playedOK:
		return seventh == playedSeventh
	}
	return !(seventh == -1 && hasThird && third == 0)
}
