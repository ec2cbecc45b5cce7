package evaluate

import (
	"math"

	"fifthwise/pkg/function"
	"fifthwise/pkg/key"
)

// Score counts how far readings agree with the analyst. The zero value is of no
// piece. The package comment defines the measures.
type Score struct {
	Pieces   int
	Chords   int     // that the analyst gave a key
	Key      int     // of these, with the analyst's key
	Tonic    int     // with the analyst's tonic
	Weighted float64 // sum of the MIREX scores of the keys
	Labeled  int     // key right, and the analyst's label is one that we could give
	Label    int     // of these, with the analyst's degree and target

	// Key changes: the analyst's, ours, and those that are both.
	Changes, Found, Matched int
	// Applied chords among those whose key is right, likewise.
	Applied, FoundApplied, MatchedApplied int
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

// KeyShare is the share of chords in the analyst's key, 0 to 1. It is NaN, as
// all that follow, where there is nothing to count.
func (s Score) KeyShare() float64 { return float64(s.Key) / float64(s.Chords) }

// TonicShare is the share of chords on the analyst's tonic.
func (s Score) TonicShare() float64 { return float64(s.Tonic) / float64(s.Chords) }

// WeightedShare is the mean MIREX score of the keys, chord by chord, 0 to 1.
func (s Score) WeightedShare() float64 { return s.Weighted / float64(s.Chords) }

// LabelShare is the share of chords with the analyst's degree and target, of
// those in the analyst's key.
func (s Score) LabelShare() float64 { return float64(s.Label) / float64(s.Labeled) }

// ChangesF1 is the harmonic mean of precision and recall of key changes, 0 to 1.
func (s Score) ChangesF1() float64 { return f1(s.Matched, s.Found, s.Changes) }

// AppliedF1 is the same of applied chords, among chords whose key is right.
func (s Score) AppliedF1() float64 { return f1(s.MatchedApplied, s.FoundApplied, s.Applied) }

func f1(matched, found, wanted int) float64 {
	if found+wanted == 0 {
		return math.NaN()
	}
	return 2 * float64(matched) / float64(found+wanted)
}

// Compare scores a reading, which must be of the piece's chart.
func Compare(p *Piece, a *function.Analysis) Score {
	s := Score{Pieces: 1}
	var wanted, found []keyChange
	for i := range p.Answers {
		want, got := &p.Answers[i], &a.Chords[i]
		if !want.Key.IsValid() {
			continue
		}
		wanted = p.addChange(wanted, s.Chords, want.Key)
		found = p.addChange(found, s.Chords, got.Key)
		s.addChord(p, want, got)
	}
	if s.Chords > 0 {
		s.addChanges(p, wanted[1:], found[1:])
	}
	return s
}

func (s *Score) addChord(p *Piece, want *Answer, got *function.Reading) {
	s.Chords++
	s.Weighted += p.mirex(want.Key, got.Key)
	if got.Key.Tonic().Sounds(want.Key.Tonic()) {
		s.Tonic++
	}
	if !p.same(want.Key, got.Key) {
		return
	}
	s.Key++
	if !want.Labeled {
		return
	}
	s.Labeled++
	if want.agrees(got) {
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

// agrees compares labels.
func (a *Answer) agrees(r *function.Reading) bool {
	return r.Degree == a.Degree && r.Target == a.Target
}

// mirex is the score of the MIREX audio key detection task for one chord. C.
// Raffel et al., "mir_eval: a transparent implementation of common MIR metrics",
// ISMIR 2014, counts a fifth one way: ours a fifth above the analyst's.
func (p *Piece) mirex(want, got key.Key) float64 {
	up := want.Tonic().To(got.Tonic()).Semitones()
	relative := 9
	if want.IsMinor() {
		relative = 3
	}
	same := p.TonicOnly || want.IsMinor() == got.IsMinor()
	switch {
	case up == 0 && same:
		return 1
	case up == 7 && same:
		return .5
	case up == relative && !same:
		return .3
	case up == 0:
		return .2
	}
	return 0
}

// keyChange is where a key begins, in counted chords.
type keyChange struct {
	at int
	to key.Key
}

func (p *Piece) addChange(list []keyChange, at int, k key.Key) []keyChange {
	if n := len(list); n > 0 && p.same(list[n-1].to, k) {
		return list
	}
	return append(list, keyChange{at, k})
}

// addChanges matches changes one to one, the earliest that fits first: where
// all reach equally far, no other way matches more.
func (s *Score) addChanges(p *Piece, wanted, found []keyChange) {
	s.Changes += len(wanted)
	s.Found += len(found)
	used := make([]bool, len(found))
	for _, w := range wanted {
		for i, f := range found {
			if !used[i] && max(f.at-w.at, w.at-f.at) <= 1 && p.same(w.to, f.to) {
				used[i] = true
				s.Matched++
				break
			}
		}
	}
}
