package function

import (
	"slices"

	"fifthwise/pkg/chord"
	"fifthwise/pkg/key"
)

// scaleRow says which scale a player takes over a chord. The first row that
// fits, and whose scale holds every note of the chord, gives it.
type scaleRow struct {
	in      modes
	degrees string // "": any
	applied bool   // the degree is counted in a tonicised key
	kinds   kinds
	scale   key.ScaleKind
}

// Chord types take the scales of Hutchinson, Music Theory for the 21st-Century
// Classroom, ch. 31 §31.10.1, Table 31.10.3. Where that gives several for a type
// the degree decides, by the mode of the key that starts on it (common
// practice, no source): dorian on II, phrygian on III, natural minor on VI,
// lydian on IV. Sources differ over dominants of minor chords, for which the
// fifth mode of harmonic minor, phrygian dominant, is taken, and over
// substitutes and bVII7, for which it is lydian dominant.
var scaleRows = []scaleRow{
	{inMajor, "I", false, aMajor | aSus | aMajor64, key.MajorScale},
	{inMajor, "II V IV I", false, aMinor, key.DorianScale},
	{inMajor, "III", false, aMinor, key.PhrygianScale},
	{inMajor, "VI", false, aMinor, key.NaturalMinorScale},
	{inMajor, "IV bII bIII bVI bVII", false, aMajor, key.LydianScale},
	{inMinor, "I", false, aMinor | aMinor64, key.NaturalMinorScale},
	{inMinor, "IV II", false, aMinor, key.DorianScale},
	{inMinor, "V", false, aMinor, key.PhrygianScale},
	{inMinor, "bIII", false, aMajor, key.MajorScale},
	{inMinor, "bVI bII", false, aMajor, key.LydianScale},
	{inMinor, "bVII", false, aMajor, key.MixolydianScale},
	{inMinor, "VI", false, aHalfDim, key.LocrianSharp2Scale},
	{inMinor, "IV", false, aSeventh, key.LydianDominantScale},
	{inMajor, "bVII", false, aSeventh, key.LydianDominantScale},
	{inBoth, "bII bVI", false, aSeventh, key.LydianDominantScale},
	{inBoth, "bII", true, aSeventh, key.LydianDominantScale},
	{inBoth, "II", true, aMinor, key.DorianScale},
}

// typeRows give the scale by chord type alone.
var typeRows = []scaleRow{
	{kinds: aSeventh | aSus7 | aSus | aTriad, scale: key.MixolydianScale},
	{kinds: aSeventh | anAug, scale: key.WholeToneScale},
	{kinds: aSeventh, scale: key.LydianDominantScale},
	{kinds: aSeventh, scale: key.DiminishedHalfWholeScale},
	{kinds: aSeventh | aSus7, scale: key.PhrygianDominantScale},
	{kinds: aSeventh, scale: key.AlteredScale},
	{kinds: aMajor, scale: key.MajorScale},
	{kinds: aMajor, scale: key.LydianScale},
	{kinds: aMinor | kinds(1<<kMinor6), scale: key.DorianScale},
	{kinds: aMinor, scale: key.NaturalMinorScale},
	{kinds: aMinor6, scale: key.MelodicMinorScale},
	{kinds: aHalfDim, scale: key.LocrianScale},
	{kinds: aHalfDim, scale: key.LocrianSharp2Scale},
	{kinds: aDim7 | aDim, scale: key.DiminishedWholeHalfScale},
	{kinds: anAugMaj7 | anAug, scale: key.LydianAugmentedScale},
}

// scale is the scale to play over a chord read as the entry in a key; the zero
// Scale where no row's holds all its notes.
func (e *entry) scale(c chord.Chord, k key.Key) key.Scale {
	root, q := e.heard(c, k.Tonic())
	heard := chord.New(root, q)
	set := kinds(1 << kindOf(q))
	mode := inMajor
	if k.IsMinor() {
		mode = inMinor
	}
	if set&aSeventh != 0 && (q.IsAltered() || alters(q, flat5, sharp5) && alters(q, chord.D(9, -1), chord.D(9, 1))) {
		return key.AlteredScale.On(root)
	}
	if e.degree == D(1, 0) && !e.applied() && k.Mode() > key.Minor {
		if s := k.Mode().Scale().On(root); s.ContainsChord(heard) {
			return s
		}
	}
	if e.pullsDark(k) {
		if s := key.PhrygianDominantScale.On(root); s.ContainsChord(heard) {
			return s
		}
	}
	for i := range scaleRows {
		r := &scaleRows[i]
		if r.in&mode == 0 || r.kinds&set == 0 || r.applied != e.applied() || !scaleDegrees[i].has(e.degree) {
			continue
		}
		if s := r.scale.On(root); s.ContainsChord(heard) {
			return s
		}
	}
	for _, r := range typeRows {
		if s := r.scale.On(root); r.kinds&set != 0 && s.ContainsChord(heard) {
			return s
		}
	}
	return key.Scale{}
}

// pullsDark: a dominant whose goal is a minor chord.
func (e *entry) pullsDark(k key.Key) bool {
	if e.degree != D(5, 0) || e.function != Dominant {
		return false
	}
	if e.applied() {
		return isMinorTarget(k.Mode(), e.target)
	}
	return k.IsMinor() && e.owes()
}

// degreeList is a cell of degrees, read once.
type degreeList []Degree

func (l degreeList) has(d Degree) bool { return slices.Contains(l, d) }

var scaleDegrees = func() (cells []degreeList) {
	for _, r := range scaleRows {
		cells = append(cells, mustDegrees(r.degrees))
	}
	return cells
}()

func alters(q chord.Quality, degrees ...chord.Degree) bool {
	return slices.ContainsFunc(degrees, q.Has)
}
