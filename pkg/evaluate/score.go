package evaluate

import (
	"fifthwise/pkg/function"
	"fifthwise/pkg/key"
)

// Score counts how far a reading agrees with the analyst. Shares are of chords,
// not of time.
type Score struct {
	Pieces   int
	Chords   int     // that the analyst gave a key
	Key      int     // of these, with the analyst's tonic and mode
	Tonic    int     // with the analyst's tonic
	Weighted float64 // sum of the MIREX scores of the keys
	Labeled  int     // key right, and the analyst's label is one that we could give
	Label    int     // of these, with the analyst's degree and target

	Changes, Found, Matched               int // key changes: the analyst's, ours, within one chord of each other
	Applied, FoundApplied, MatchedApplied int // applied chords where the key is right
}

// Add adds up two scores.
func (s Score) Add(t Score) Score {
	s.Pieces += t.Pieces
	s.Chords += t.Chords
	s.Key += t.Key
	s.Tonic += t.Tonic
	s.Weighted += t.Weighted
	s.Labeled += t.Labeled
	s.Label += t.Label
	s.Changes += t.Changes
	s.Found += t.Found
	s.Matched += t.Matched
	s.Applied += t.Applied
	s.FoundApplied += t.FoundApplied
	s.MatchedApplied += t.MatchedApplied
	return s
}

// ChangesF1 is the harmonic mean of precision and recall of key changes.
func (s Score) ChangesF1() float64 { return f1(s.Matched, s.Found, s.Changes) }

// AppliedF1 is the same of applied chords, among chords whose key is right.
func (s Score) AppliedF1() float64 { return f1(s.MatchedApplied, s.FoundApplied, s.Applied) }

func f1(matched, found, wanted int) float64 {
	if found+wanted == 0 {
		return 1
	}
	return 2 * float64(matched) / float64(found+wanted)
}

// Compare scores a reading of the piece.
func Compare(p *Piece, a *function.Analysis) Score {
	s := Score{Pieces: 1}
	for i, want := range p.Answers {
		if !want.Key.IsValid() {
			continue
		}
		s.addChord(&want, &a.Chords[i])
	}
	s.addChanges(p, a)
	return s
}

func (s *Score) addChord(want *Answer, got *function.Reading) {
	s.Chords++
	s.Weighted += mirex(want.Key, got.Key)
	if got.Key.Tonic().Sounds(want.Key.Tonic()) {
		s.Tonic++
	}
	if !sameKey(want.Key, got.Key) {
		return
	}
	s.Key++
	if !want.Labeled {
		return
	}
	s.Labeled++
	if got.Degree == want.Degree && got.Target == want.Target {
		s.Label++
	}
	wanted, found := want.Target.IsValid(), got.Target.IsValid()
	if wanted {
		s.Applied++
	}
	if found {
		s.FoundApplied++
	}
	if wanted && found && got.Target == want.Target {
		s.MatchedApplied++
	}
}

// sameKey compares sounding tonics and modes; church modes count as the major
// or minor that their third makes them, since annotations know only those.
func sameKey(a, b key.Key) bool {
	return a.Tonic().Sounds(b.Tonic()) && a.IsMinor() == b.IsMinor()
}

// mirex is the score of the MIREX audio key detection task for one chord: 1 for
// the same key, .5 for a perfect fifth (mir_eval counts it one way: the
// estimate a fifth above), .3 for the relative, .2 for the parallel key. C.
// Raffel et al., "mir_eval: a transparent implementation of common MIR metrics",
// ISMIR 2014.
func mirex(want, got key.Key) float64 {
	up := want.Tonic().To(got.Tonic()).Semitones()
	same := want.IsMinor() == got.IsMinor()
	switch {
	case up == 0 && same:
		return 1
	case up == 7 && same:
		return .5
	case !same && (want.IsMinor() && up == 3 || !want.IsMinor() && up == 9):
		return .3
	case up == 0:
		return .2
	}
	return 0
}

// addChanges matches key changes one to one, in order, where they are at most
// one chord apart and lead to the same key.
func (s *Score) addChanges(p *Piece, a *function.Analysis) {
	var wanted, found []change
	for i, want := range p.Answers {
		if want.Key.IsValid() {
			wanted = addChange(wanted, i, want.Key)
			found = addChange(found, i, a.Chords[i].Key)
		}
	}
	wanted, found = wanted[min(1, len(wanted)):], found[min(1, len(found)):]
	s.Changes += len(wanted)
	s.Found += len(found)
	used := make([]bool, len(found))
	for _, w := range wanted {
		for i, f := range found {
			if !used[i] && abs(f.at-w.at) <= 1 && sameKey(f.to, w.to) {
				used[i] = true
				s.Matched++
				break
			}
		}
	}
}

type change struct {
	at int
	to key.Key
}

func addChange(list []change, at int, k key.Key) []change {
	if n := len(list); n > 0 && sameKey(list[n-1].to, k) {
		return list
	}
	return append(list, change{at, k})
}

func abs(n int) int { return max(n, -n) }
