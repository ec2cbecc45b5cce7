package review

import (
	"cmp"
	"slices"

	"fifthwise/pkg/function"
)

// Role is how an answer did with the chords of one role.
type Role struct {
	Role   function.Role
	Chords int    // that have it
	Missed int    // of these, blank or contradicting
	Advice string // a sentence; empty if none was missed
}

// advice is a sentence for each role: what such a chord is and how to see it,
// whatever it was taken for (common practice, no source).
var advice = map[function.Role]string{
	function.Diatonic:             "Write out the seventh chords of the key first, and look for chords that are among them.",
	function.SecondaryDominant:    "A dominant seventh that is not the key's own usually aims a fifth down: look at the chord it goes to, and name it V7 of that.",
	function.SecondaryLeadingTone: "A diminished chord that rises a half step leads into the next chord: name it VII of that.",
	function.RelatedTwo:           "A minor or half-diminished seventh before a dominant a fourth up is its two: name both by the chord that they aim at.",
	function.TritoneSubstitute:    "A dominant seventh a half step above its goal stands for the dominant a tritone away.",
	function.Borrowed:             "A chord with notes that the key lacks, and no goal of its own, is borrowed: ask what it would be in the other mode on the same tonic.",
	function.BackdoorDominant:     "A dominant seventh a whole step below the tonic, bVII7, is the backdoor dominant: it goes up that step home, often from IVm7.",
	function.BluesDominant:        "In a blues I7 and IV7 are at rest; only on the way to IV is I7 its dominant.",
	function.PassingDiminished:    "A diminished chord between two neighbours fills the step: look where its bass goes.",
	function.CommonToneDiminished: "A diminished chord that keeps the root or notes of its neighbour embellishes it and leads nowhere.",
	function.Neapolitan:           "A major chord a half step above the tonic, before the dominant, is bII.",
	function.AugmentedSixth:       "A dominant seventh on bVI that falls to V is the augmented sixth of charts.",
	function.Chromatic:            "Where no device fits, the bare degree with its accidental is the right name.",
}

// keyAdvice is the sentence where the key is what was missed of most chords of a
// role (common practice, no source).
const keyAdvice = "Most of what was missed stands in another key than the one heard: look for the two-five-one of each key, and let the key begin with its first chord."

// roles counts what was missed.
func (r *reading) roles(marks []Mark) []Role {
	roles := []Role{}
	byKey := map[function.Role]int{}
	for n, m := range marks {
		role := r.Chords[m.Chord].Role
		i := slices.IndexFunc(roles, func(o Role) bool { return o.Role == role })
		if i < 0 {
			i = len(roles)
			roles = append(roles, Role{Role: role})
		}
		roles[i].Chords++
		if m.Verdict.isRight() {
			continue
		}
		roles[i].Missed++
		roles[i].Advice = advice[role]
		if r.isInOtherKey(n) {
			byKey[role]++
		}
		if 2*byKey[role] > roles[i].Missed {
			roles[i].Advice = keyAdvice
		}
	}
	slices.SortStableFunc(roles, func(a, b Role) int {
		return cmp.Or(cmp.Compare(b.Missed, a.Missed), cmp.Compare(a.Role, b.Role))
	})
	return roles
}

// isInOtherKey reports whether a numeral is read in another key than the reading's,
// or counted in another than it is read in.
func (r *reading) isInOtherKey(i int) bool {
	s, played := &r.stated[i], &r.Chords[r.chords[i]]
	return s.text != "" && (!sameKey(s.key, played.Key) || r.isCountedElsewhere(s, played))
}
