package function

// CadenceKind tells how a phrase closes.
type CadenceKind uint8

const (
	Authentic          CadenceKind = iota // V or VII to I
	Half                                  // rests on V
	PhrygianHalf                          // IVm over its third to V, in minor
	Plagal                                // IV to I
	MinorPlagal                           // IVm to I
	Deceptive                             // V to VI or its like
	Backdoor                              // bVII7 to I
	TritoneSubstituted                    // subV7 to I
)

var cadenceNames = [...]string{"authentic", "half", "phrygian-half", "plagal", "minor-plagal", "deceptive", "backdoor", "tritone-substitute"}

// String is the kind in lower case, words joined by hyphens.
func (k CadenceKind) String() string { return nameOf(cadenceNames[:], int(k)) }

// addCadences lists the cadences. A dominant that reaches the tonic or a
// deceptive goal on a downbeat, or after a chord that prepares it, makes one
// wherever it stands, unless a section opens between; a plagal or half cadence
// only where a phrase ends: at a section's end or, if no tonic answers, at the
// end of a group of four bars.
func (a *Analysis) addCadences() {
	o := a.outcome
	var chords []int // of all cadences, one after the other
	for i := range o.columns {
		k, length, ok := a.cadenceAt(i)
		if !ok {
			continue
		}
		from := len(chords)
		for j := i - length + 1; j <= i; j++ {
			chords = append(chords, o.columns[j].first)
		}
		a.Cadences = append(a.Cadences, Cadence{Kind: k, Key: a.Chords[o.columns[i].first].Key, Chords: chords[from:len(chords):len(chords)]})
	}
}

// cadenceAt is the cadence that ends with column i and its length in columns.
func (a *Analysis) cadenceAt(i int) (k CadenceKind, length int, ok bool) {
	o := a.outcome
	if a.Chords[o.columns[i].first].Event.Optional {
		return 0, 0, false // a turnaround closes nothing
	}
	if i == 0 || o.chosen[i].key != o.chosen[i-1].key {
		return 0, 0, false
	}
	before, e := o.entry(i-1), o.entry(i)
	length = 2
	prepared := i > 1 && o.chosen[i-2].key == o.chosen[i].key && o.entry(i-2).function == Predominant && !o.entry(i-2).applied()
	if prepared {
		length = 3
	}
	weighty := (prepared || o.columns[i].traits.downbeat) && !a.Chords[o.columns[i].first].Event.SectionStart
	switch {
	case e.is(arrives) && before.homeDominant() && weighty:
		return dominantCadence(before), length, true
	case e.is(arrives) && before.degree == D(4, 0) && !before.applied() && a.closes(i):
		if before.hasMinorThird() {
			return MinorPlagal, 2, true
		}
		return Plagal, 2, true
	case before.homeDominant() && unpaidTerm(before, e) == PairDeceptive && weighty && before.degree == D(5, 0):
		return Deceptive, length, true
	case e.homeDominant() && e.degree == D(5, 0) && a.rests(i):
		if before.degree == D(4, 0) && before.kinds&aMinor != 0 && a.overThird(i-1) && o.chosen[i].key%modeCount == minor {
			return PhrygianHalf, 2, true
		}
		return Half, 2, true
	}
	return 0, 0, false
}

func dominantCadence(e *entry) CadenceKind {
	switch e.role {
	case BackdoorDominant:
		return Backdoor
	case TritoneSubstitute:
		return TritoneSubstituted
	}
	return Authentic
}

// overThird: the column's chord stands over its third.
func (a *Analysis) overThird(i int) bool {
	c := a.Chords[a.outcome.columns[i].first].Event.Chord
	over := c.Root().To(c.Bass()).Semitones()
	return over == 3 || over == 4
}

// rests: a phrase ends with column i on the dominant, and what follows opens a
// section or does not answer it.
func (a *Analysis) rests(i int) bool {
	o := a.outcome
	if !a.closes(i) || i == len(o.columns)-1 {
		return a.closes(i)
	}
	next := o.entry(i + 1)
	answered := next.is(arrives) || unpaidTerm(o.entry(i), next) == PairDeceptive
	return o.columns[i+1].traits.opens || !answered
}

// closes: a phrase ends with column i.
func (a *Analysis) closes(i int) bool {
	o := a.outcome
	if i == len(o.columns)-1 {
		return true
	}
	next := &o.columns[i+1]
	return next.traits.opens || next.traits.wide && o.columns[i].traits.downbeat
}
