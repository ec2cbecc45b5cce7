package review

import (
	"fmt"
	"regexp"
	"strings"

	"fifthwise/pkg/chord"
	"fifthwise/pkg/function"
	"fifthwise/pkg/key"
	"fifthwise/pkg/pitch"
)

// inversion finds the figures of thoroughbass behind a degree and its quality
// sign, as handbooks set them, and the place in the chord of its bass: V65,
// viio4/2, I64, I/3rd.
var inversion = regexp.MustCompile(`^([^/]*?[IVivN])((?:o|ø|°|\+|dim|maj|M)*)(6/?5|4/?3|4/?2|6/?4|6/?3|5/?3|6|2)(/.*| of .*)?$|^(.+)(/(?:3rd|5th|7th))$`)

// withoutInversion is a numeral without what says which note is in the bass, and
// the figures that may say it: those of a seventh chord stand for its 7. A 6 alone
// is left where it stands but in a diminished chord or in one over its third: else
// it is the added sixth of players.
func withoutInversion(s string, overThird bool) (plain, figures string) {
	m := inversion.FindStringSubmatch(strings.TrimRight(s, " "))
	if m == nil {
		return s, ""
	}
	head, sign, figures, target := m[1], m[2], m[3], m[4]
	switch {
	case m[5] != "":
		return m[5], m[6]
	case figures == "2" && head != "V", // an added second
		figures == "6" && strings.HasPrefix(target, "/9"):
		return s, ""
	case figures == "6" && !(overThird && sign == "") && sign != "o" && sign != "°":
		return s, figures
	case strings.HasSuffix(head, "N"):
		return head + sign + target, figures
	}
	switch pair(figures) {
	case "65", "43", "42", "2":
		return head + sign + "7" + target, figures
	}
	return head + sign + target, figures
}

// pair are two figures without the stroke between them.
func pair(figures string) string { return strings.ReplaceAll(figures, "/", "") }

// inFigures reports whether the figures of numeral i can be nothing but those of
// thoroughbass: two of them, or the 6 of a plain triad that stands over its third.
func (r *reading) inFigures(i int, figures string) bool {
	return len(pair(figures)) == 2 || figures == "6" && r.isOverThird(i) && isTriad(r.Chords[r.chords[i]].Event.Chord.Quality())
}

// members are what figures put in the bass.
var members = map[string]string{
	"53": "root",
	"6":  "third", "63": "third", "65": "third", "3rd": "third",
	"64": "fifth", "43": "fifth", "5th": "fifth",
	"42": "seventh", "2": "seventh", "7th": "seventh",
}

// isOverThird reports whether sounding chord i stands over its third.
func (r *reading) isOverThird(i int) bool {
	if i >= len(r.chords) {
		return false
	}
	c := r.Chords[r.chords[i]].Event.Chord
	return memberOf(c.Root(), c) == "third"
}

// memberOf names the bass of a chord as a member of one on a root; empty: it is
// none.
func memberOf(root pitch.Note, c chord.Chord) string {
	switch c.Bass().Class().Plus(-int(root.Class())) {
	case 0:
		return "root"
	case 3, 4:
		return "third"
	case 6, 7, 8:
		return "fifth"
	case 9:
		if isDiminishedSeventh(c.Quality()) {
			return "seventh"
		}
		return "sixth"
	case 10, 11:
		return "seventh"
	}
	return ""
}

// inBass tells where the figures of a numeral put another note in the bass than the
// chart has; empty where they do not, or may be no figures. A 6 is one beside a plain
// triad, in an answer that has figures elsewhere.
func (r *reading) inBass(i int) string {
	s, c := &r.stated[i], r.Chords[r.chords[i]].Event.Chord
	said := members[pair(s.figures)]
	if said == "" || s.figures == "6" && !(r.hasFigures && isTriad(c.Quality())) {
		return ""
	}
	has := memberOf(s.numeral.In(s.key).Root(), c)
	if has == said {
		return ""
	}
	if has == "" {
		has = r.note(c.Bass())
	} else {
		has = "the " + has
	}
	return fmt.Sprintf("%s puts the %s in the bass; the chart has %s there.", s.figures, said, has)
}

// isTriad reports whether a chord is a third and a fifth and nothing more.
func isTriad(q chord.Quality) bool {
	_, hasThird := q.Third()
	_, hasFifth := q.Fifth()
	return hasThird && hasFifth && len(q.Degrees()) == 3
}

// seventh finds a numeral that is a degree and its seventh, and says nothing of
// what seventh it is.
var seventh = regexp.MustCompile(`^[b#♭♯]*(?:[IV]+|[iv]+)\s*7$`)

// ofKey is a stated seventh chord as thoroughbass has it, where figures count in the
// scale of the key: I7 is Imaj7 (common practice, no source). It is false where the
// answer has no figures, the numeral says what its seventh is, or its case tells
// another third.
func (r *reading) ofKey(n function.Numeral, s *stated, k key.Key) (function.Numeral, bool) {
	if !r.hasFigures || !s.isSeventh {
		return n, false
	}
	root := n.In(k).Root()
	third, _ := n.Quality().Third()
	for _, c := range k.Sevenths() {
		its, _ := c.Quality().Third()
		if c.Root() == root && (its == third || !r.caseTells) {
			return function.NewNumeral(n.Degree(), c.Quality(), function.Degree{}, false), true
		}
	}
	return n, false
}

// readIn is a stated numeral as it is read in a key beside the chord played, and
// whether it fits that: as it stands, else in minor by the handbooks' counting, else
// with the seventh of the key.
func (r *reading) readIn(k key.Key, s *stated, played *function.Reading) (n function.Numeral, ofKey, fits bool) {
	countings := []function.Numeral{s.numeral}
	if flat, ok := inMinor(s.numeral); ok && k.IsMinor() {
		countings = append(countings, flat)
	}
	for _, n := range countings {
		if r.fits(n.In(k), s, played) {
			return n, false, true
		}
	}
	if _, has := played.Event.Chord.Quality().Seventh(); has {
		for _, n := range countings {
			if n, ok := r.ofKey(n, s, k); ok && r.fits(n.In(k), s, played) {
				return n, true, true
			}
		}
	}
	return s.numeral, false, false
}

// sevenOfKey tells how the seventh of a numeral was read.
func (s *stated) sevenOfKey() string {
	if s.figures == "" {
		return "In figured bass 7 is the seventh of the key."
	}
	return fmt.Sprintf("In figured bass %s has the seventh of the key.", s.figures)
}
