package review

import (
	"fmt"
	"strings"

	"fifthwise/pkg/chord"
	"fifthwise/pkg/function"
	"fifthwise/pkg/key"
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
	numeral, ofKey, fits := r.readIn(s.key, s, played)
	s.numeral = numeral
	switch {
	case s.region >= 0 && regions[s.region].Verdict == Contradicts && !sameKey(s.key, played.Key):
		m.Verdict, m.Reason = Contradicts, fmt.Sprintf("It is read in %s, which is not heard here; %s is.", r.KeyName(s.key), r.KeyName(played.Key))
	case r.isCadential(i):
		m.Verdict, m.Reason = Defensible, fmt.Sprintf("Handbooks name a tonic over its fifth by the dominant that follows. %s", r.Reason(c))
	case !fits:
		m.Verdict, m.Reason = Contradicts, r.misspelt(s, played)
	default:
		m.Verdict, m.Reason = r.weigh(i)
		if m.Verdict.isRight() {
			m.Note = r.inBass(i)
			if ofKey {
				m.Note = strings.TrimSpace(s.sevenOfKey() + " " + m.Note)
			}
			m.Reason = strings.TrimSpace(m.Note + " " + m.Reason)
		}
	}
	return m
}

// weigh marks a numeral that spells its chord.
func (r *reading) weigh(i int) (Verdict, string) {
	s, c := &r.stated[i], r.chords[i]
	played, n := &r.Chords[c], s.numeral
	other, known := r.As(c, s.key, n.Degree(), n.Target())
	isBare := !n.Target().IsValid() && !n.IsSubstitute()
	switch {
	case isShown(s, played) && played.Numeral.IsSubstitute() && !n.IsSubstitute():
		return Defensible, fmt.Sprintf("The bare degree says where the chord stands, not what it does. %s", r.Reason(c))
	case isShown(s, played):
		return Agrees, r.Reason(c)
	case known && other.Confidence >= Margin && other.Role != function.Chromatic:
		return Defensible, fmt.Sprintf("%s has a probability of %s. %s %s has %s. %s",
			s.text, percent(other.Confidence), other.Reason(), r.shown(c, s.key), percent(played.Confidence), r.Reason(c))
	case r.isPivotal(s, played):
		return Defensible, fmt.Sprintf("The chord belongs to %s and to %s. %s", r.KeyName(played.Key), r.KeyName(s.key), r.Reason(c))
	case r.goes(i):
		return Defensible, fmt.Sprintf("It goes to %s%s, the goal that it names. %s", r.note(r.goal(s)), r.byWay(i), r.Reason(c))
	case known && other.Role != function.Chromatic && s.chance >= Margin && other.Confidence >= Margin*r.KeyChance(c, s.key):
		return Defensible, fmt.Sprintf("%s can be heard in this passage, with a probability of %s. %s %s is likelier. %s",
			r.KeyName(s.key), percent(s.chance), other.Reason(), r.shown(c, s.key), r.Reason(c))
	case isAugmentedSixth(s.text) && r.isHeard(i):
		return Defensible, fmt.Sprintf("Handbooks name it so: an augmented sixth. %s", r.Reason(c))
	case isBare && r.isHeard(i) && !r.standsOn(i):
		return Defensible, fmt.Sprintf("It sounds the same: a diminished seventh can be named from any of its notes. %s", r.Reason(c))
	case isBare && r.isHeard(i) && !sameKey(s.key, played.Key):
		return Defensible, fmt.Sprintf("The bare degree is a correct name in %s, which can be heard in this passage; %s is likelier. %s", r.KeyName(s.key), r.shown(c, s.key), r.Reason(c))
	case isBare && r.isHeard(i):
		return Defensible, fmt.Sprintf("The bare degree is a correct name, if a less telling one. %s", r.Reason(c))
	case r.isDominantTwo(i):
		return Defensible, fmt.Sprintf("It is also the dominant-quality two of the dominant that follows. %s", r.Reason(c))
	}
	return Contradicts, r.unsound(i, known, other)
}

// isShown reports whether a numeral has the degree and target of the reading, by
// sound, in its key.
func isShown(s *stated, played *function.Reading) bool {
	return sameKey(s.key, played.Key) && same(s.numeral.Degree(), played.Degree) && same(s.numeral.Target(), played.Target)
}

// same reports whether two degrees are one by sound, or both none.
func same(a, b function.Degree) bool {
	if !a.IsValid() || !b.IsValid() {
		return a == b
	}
	return a.Above(pitch.Note{}).Sounds(b.Above(pitch.Note{}))
}

// shown is the numeral of the reading, with its key if that is another.
func (r *reading) shown(chord int, k key.Key) string {
	n, in := r.NumeralOf(chord), r.Chords[chord].Key
	if sameKey(in, k) {
		return n
	}
	return n + " of " + r.KeyName(in)
}

// isAugmentedSixth reports whether a numeral is a handbook's It+6, Ger+6 or Fr+6.
func isAugmentedSixth(text string) bool {
	return strings.HasPrefix(text, "It") || strings.HasPrefix(strings.TrimPrefix(text, "En"), "Ger") || strings.HasPrefix(text, "Fr")
}

// isHeard reports whether the key stated for sounding chord i is that of the
// reading, that of a pivot's second numeral, or can be defended there.
func (r *reading) isHeard(i int) bool {
	k, pivot := r.stated[i].key, r.Chords[r.chords[i]].Pivot.Key
	return sameKey(k, r.keyAt(i)) || r.stated[i].chance >= Margin || pivot.IsValid() && sameKey(k, pivot)
}

// misspelt says what a numeral spells that does not fit its chord, and in which
// key it would fit where the numerals around it do too.
func (r *reading) misspelt(s *stated, played *function.Reading) string {
	spelled := s.numeral.In(s.key).AppendTo(nil, r.signs())
	said := fmt.Sprintf("%s in %s spells %s; the chart has %s", s.text, r.KeyName(s.key), spelled, played.Event.Symbol)
	if r.isCountedElsewhere(s, played) {
		said += fmt.Sprintf(", which it is in %s", r.KeyName(s.counted))
	}
	return said + "."
}

// isCountedElsewhere reports whether a numeral spells its chord in the key in which
// its passage seems to be counted.
func (r *reading) isCountedElsewhere(s *stated, played *function.Reading) bool {
	if !s.counted.IsValid() {
		return false
	}
	_, _, fits := r.readIn(s.counted, s, played)
	return fits
}

// standsOn reports whether a numeral stands on the root of its chord, as written
// or as heard.
func (r *reading) standsOn(i int) bool {
	s, played := &r.stated[i], &r.Chords[r.chords[i]]
	root := s.numeral.In(s.key).Root()
	return root.Sounds(played.Event.Chord.Root()) || root.Sounds(played.Numeral.In(played.Key).Root())
}

// signs are those in which the reading is written.
func (r *reading) signs() pitch.Accidentals {
	flat := key.New(pitch.MustParse("Bb"), key.Major)
	if r.KeyName(flat) == flat.String() {
		return pitch.ASCII
	}
	return pitch.Unicode
}

func (r *reading) note(n pitch.Note) string { return string(n.AppendTo(nil, r.signs())) }

// inMinor is a numeral in which III, VI and VII are counted from the minor scale,
// as handbooks do, in our counting: VI is bVI, #vi is VI; but vi and vii, with a
// minor third, stand on the raised degree. It is false if there is none of them.
func inMinor(n function.Numeral) (function.Numeral, bool) {
	d, t := n.Degree(), n.Target()
	third, _ := n.Quality().Third()
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
	if third < 0 && d.Alter() == 0 {
		return n, false
	}
	d, ok := flat(d)
	return function.NewNumeral(d, n.Quality(), t, n.IsSubstitute()), ok
}

// unsound says why a numeral that spells the chord is no reading of it.
func (r *reading) unsound(i int, known bool, other function.Alternative) string {
	s, c := &r.stated[i], r.chords[i]
	if !r.isHeard(i) {
		return fmt.Sprintf("It is read in %s, and the passage is heard in %s. %s", r.KeyName(s.key), r.KeyName(r.keyAt(i)), r.Reason(c))
	}
	if s.numeral.Target().IsValid() && !r.comes(i) {
		return fmt.Sprintf("%s aims at %s%s. %s", s.text, r.note(r.goal(s)), r.instead(i), r.Reason(c))
	}
	if known {
		return fmt.Sprintf("%s has a probability of %s, and %s is the least that can be defended. %s", s.text, percent(other.Confidence), percent(Margin), r.Reason(c))
	}
	return fmt.Sprintf("%s is no reading of %s in %s. %s", s.text, r.Chords[c].Event.Symbol, r.KeyName(s.key), r.Reason(c))
}

// goal is the root of the tonicised chord.
func (r *reading) goal(s *stated) pitch.Note { return s.numeral.Target().Above(s.key.Tonic()) }

// behind is the chord that comes n after sounding chord i; a tune goes round.
func (r *reading) behind(i, n int) *function.Reading {
	return &r.Chords[r.chords[(i+n)%len(r.chords)]]
}

// steps is how far behind an applied chord its goal is due: a chord that prepares
// a dominant has it between.
func (r *reading) steps(i int) int {
	next := r.behind(i, 1).Event.Chord
	if prepares(r.stated[i].numeral.Degree()) && next.Root().Sounds(r.goal(&r.stated[i]).Add(pitch.PerfectFifth)) && mayBeDominant(next.Quality()) {
		return 2
	}
	return 1
}

// mayBeDominant reports whether a chord has no minor third and no major seventh.
func mayBeDominant(q chord.Quality) bool {
	third, hasThird := q.Third()
	seventh, hasSeventh := q.Seventh()
	return !(hasThird && third != 0) && !(hasSeventh && seventh == 0)
}

// prepares reports whether chords on a degree go to the dominant: the two, the
// Neapolitan, the subdominant and the augmented sixth.
func prepares(d function.Degree) bool {
	return d == function.D(2, 0) || d == function.D(2, -1) || d == function.D(4, 0) || d == function.D(6, -1)
}

// comes reports whether the goal that a numeral names comes when it is due.
func (r *reading) comes(i int) bool {
	n := r.steps(i)
	return n < len(r.chords) && r.behind(i, n).Event.Chord.Root().Sounds(r.goal(&r.stated[i]))
}

// instead tells what comes where a goal is due.
func (r *reading) instead(i int) string {
	n := r.steps(i)
	if n >= len(r.chords) {
		return ", and nothing follows"
	}
	said := fmt.Sprintf("%s, and %s follows", r.byWay(i), r.behind(i, n).Event.Symbol)
	if i+n >= len(r.chords) {
		said += " at the top"
	}
	return said
}

// byWay names the dominant that comes between an applied chord and its goal.
func (r *reading) byWay(i int) string {
	if r.steps(i) == 1 {
		return ""
	}
	return " by way of " + r.behind(i, 1).Event.Symbol
}

// goes reports whether an applied chord is followed by the goal that its numeral
// names: a dominant or leading-tone chord at once, one that prepares a dominant by
// way of it. A triad on IV that is foreign to its key may go at once too: IV/IV IV I.
func (r *reading) goes(i int) bool {
	n := r.stated[i].numeral
	if !n.Target().IsValid() || !r.comes(i) {
		return false
	}
	played := &r.Chords[r.chords[i]]
	family := played.Event.Chord.Family()
	isMinor, isDiminished := family == chord.Minor, family == chord.Diminished || family == chord.HalfDiminished
	switch n.Degree() {
	case function.D(5, 0), function.D(2, -1):
		return !isMinor && !isDiminished
	case function.D(7, 0):
		return isDiminished
	case function.D(2, 0):
		return r.steps(i) == 2 && (isMinor || family == chord.HalfDiminished)
	case function.D(4, 0):
		return !isDiminished && r.steps(i) == 2 || (isMinor || family == chord.Major) && played.Role != function.Diatonic
	case function.D(6, -1):
		return r.steps(i) == 2 && !isMinor && !isDiminished
	}
	return false
}

// isPivotal reports whether a numeral is the second one of a pivot.
func (r *reading) isPivotal(s *stated, played *function.Reading) bool {
	p := played.Pivot
	return p.Key.IsValid() && sameKey(p.Key, s.key) && p.Numeral.Degree() == s.numeral.Degree() && p.Numeral.Target() == s.numeral.Target()
}

// isDominantTwo reports whether a numeral names a dominant as the two of the
// dominant after it: II7/VI before V7/VI.
func (r *reading) isDominantTwo(i int) bool {
	n, next := r.stated[i].numeral, r.behind(i, 1)
	return n.Degree() == function.D(2, 0) && n.Target().IsValid() && r.Chords[r.chords[i]].Event.Chord.Family() == chord.Dominant &&
		next.Degree == function.D(5, 0) && next.Target == n.Target()
}

// isCadential reports whether a numeral is the V64 of handbooks: the tonic over
// its fifth before the dominant, named by the dominant.
func (r *reading) isCadential(i int) bool {
	s, c := &r.stated[i], r.Chords[r.chords[i]].Event.Chord
	root := s.numeral.In(s.key).Root()
	return pair(s.figures) == "64" && s.numeral.Degree() == function.D(5, 0) && c.Bass().Sounds(root) && c.Root().Sounds(root.Add(pitch.PerfectFourth)) &&
		r.behind(i, 1).Event.Chord.Root().Sounds(root)
}

// fits reports whether a chord that a numeral spells is the one played, as far
// as the numeral says what it is.
func (r *reading) fits(spelled chord.Chord, s *stated, played *function.Reading) bool {
	c := over(played.Event.Chord)
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

// over is a chord with the seventh that stands in its bass: E/D is E7.
func over(c chord.Chord) chord.Chord {
	_, has := c.Quality().Seventh()
	step := c.Bass().Class().Plus(-int(c.Root().Class()))
	if has || step != 10 && step != 11 {
		return c
	}
	return chord.New(c.Root(), c.Quality().With(chord.D(7, int(step)-11)))
}

func isDiminishedSeventh(q chord.Quality) bool {
	seventh, ok := q.Seventh()
	return ok && seventh == -2
}

// agrees reports whether what a quality says holds for the one played: the same
// third and fifth, and the same seventh where both have one. The fifth of a
// dominant is altered as players like. A seventh left out, or a sixth for it, is no
// fault, nor is the third of a suspended chord; but a minor seventh makes a dominant
// of what is none.
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
