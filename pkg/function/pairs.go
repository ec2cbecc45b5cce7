package function

// pairTerm is how chord a, read as an entry, goes on to chord b in the same
// key. ok is false where b may not follow: a strict debt unpaid.
func pairTerm(a, b *entry) (t Term, ok bool) {
	if a.is(strictly) && a.settles()>>b.root&1 == 0 {
		return 0, false
	}
	if a.label == b.label && a.hasMinorThird() == b.hasMinorThird() && a.isDiminished() == b.isDiminished() {
		return PairHold, true
	}
	if a.owes() {
		if t, done := debtTerm(a, b); done {
			return t, true
		}
		if a.is(strictly) {
			return 0, false
		}
		return unpaidTerm(a, b), true
	}
	if b.is(arrives) {
		return arrivalTerm(a), true
	}
	switch {
	case a.function == Predominant && b.homeDominant():
		return PairToDominant, true
	case a.function == Tonic && b.homeDominant() && b.role == Diatonic:
		return PairTonicToDominant, true
	case a.fit == FitMinorI7 && b.degree == D(5, 0) && b.target == D(7, -1):
		return PairAsTwo, true
	case a.fit == FitMinorI7 && b.root == 5 && b.kinds&aSeventh != 0:
		return PairLikeTwo, true
	case a.is(arrives) && b.role == Diatonic:
		return PairFromTonic, true
	}
	return motionTerm(a.root, b.root), true
}

// debtTerm is the term for a debt paid, at once or through the target's two.
func debtTerm(a, b *entry) (Term, bool) {
	if a.wantsDominant() {
		return PairTwoFive, b.answersTwo(a)
	}
	if b.role == TritoneSubstitute && a.applied() && a.function == Dominant && a.payRoot((b.root+6)%12) {
		return PairPaidSub, true // the target's dominant by its substitute
	}
	if !a.payRoot(b.root) {
		return PairLate, a.function == Dominant && b.isTwo() && a.payRoot((b.root+5)%12)
	}
	switch {
	case a.role == PassingDiminished || a.role == CommonToneDiminished:
		return PairDimPaid, true
	case a.applied() && (a.role == TritoneSubstitute || a.role == SecondaryLeadingTone):
		return PairPaidSub, true
	case a.applied() && b.kinds&aSeventh != 0:
		return PairPaidFive, true
	case a.applied():
		return PairPaid, true
	case b.fit == FitPicardy:
		return PairPicardy, true
	case b.is(arrives) && a.degree == D(5, 0):
		if a.kinds&aSeventh != 0 {
			return PairCadence7, true
		}
		return PairCadence, true
	case b.is(arrives) && a.degree == D(7, 0):
		return PairLeading, true
	case b.is(arrives):
		return PairSubstitute, true
	case a.role == BackdoorDominant && b.root == 4:
		return PairDeceptive, true // III in place of I
	case a.homeDominant():
		return PairHalf, true
	}
	return PairToDominant, true
}

// answersTwo: b is the dominant of the two-five that a begins. It may be named
// otherwise, as the substitute subV7 that Abm7 goes with in C, or may itself be
// the substitute of that dominant.
func (b *entry) answersTwo(a *entry) bool {
	if b.function != Dominant || !b.owes() || b.kinds&(aSeventh|aSus7|aTriad) == 0 {
		return false
	}
	if b.role == TritoneSubstitute && a.target.Alter() <= 0 {
		return b.goal == a.goal || b.root == (a.goal+7)%12
	}
	return b.target == a.target
}

// isTwo: a chord that can be the two of a dominant a fourth above it.
func (e *entry) isTwo() bool {
	return e.kinds&(kinds(1<<kMinor7)|aHalfDim) != 0 && e.role != Chromatic && !e.is(arrives)
}

// unpaidTerm is the term for a debt that the next chord does not pay.
func unpaidTerm(a, b *entry) Term {
	up := (b.root + 12 - a.goal) % 12 // above the tonic it aimed at
	switch {
	case a.degree == D(5, 0) && a.homeDominant():
		return turnedTerm(b, up)
	case a.degree == D(7, 0) && a.kinds&aHalfDim != 0 && b.degree == D(5, 0) && b.target == D(6, 0):
		return PairTwoOfSix
	case a.degree == D(7, 0) && a.homeDominant() && up == 4 && b.kinds&aMinor != 0:
		return PairHalf // VII to III, as in the circle of fifths
	case a.degree == D(5, 0) && a.function == Dominant && turnsAside(b, up):
		return PairAside
	case b.isTwo() && (b.wantsDominant() || a.homeDominant() && b.degree == D(2, 0)):
		return PairInterrupted
	}
	return PairBroken
}

// turnedTerm is the term of V going elsewhere than to I.
func turnedTerm(b *entry, up uint8) Term {
	switch {
	case up == 5 && b.kinds&aMajor != 0:
		return PairHalfToIV
	case up == 5 && b.role != Chromatic, turnsAside(b, up):
		return PairDeceptive
	}
	return PairHalf
}

// turnsAside: a dominant's debt is paid deceptively by VI, bVI or III of the
// key it aims at, so V7/VI by IV and V7/III by I.
func turnsAside(b *entry, up uint8) bool {
	return b.role != Chromatic && (up == 9 && b.kinds&aMinor != 0 || up == 8 && b.kinds&aMajor != 0 || up == 4 && b.kinds&aMinor != 0)
}

// arrivalTerm is how a chord without a debt reaches the tonic.
func arrivalTerm(a *entry) Term {
	switch {
	case a.degree == D(4, 0) && a.hasMinorThird():
		return PairMinorPlagal
	case a.degree == D(4, 0):
		return PairPlagal
	case a.degree == D(7, -1):
		return PairSubtonic
	}
	return PairOtherToTonic
}

// motionTerm is the term of a plain root motion.
func motionTerm(from, to uint8) Term {
	return [12]Term{PairSameRoot, PairStepUp, PairStepUp, PairThirdUp, PairThirdUp, PairFifth,
		PairTritone, PairFourth, PairThirdDown, PairThirdDown, PairStepDown, PairStepDown}[(to+12-from)%12]
}

// isCadence: the terms by which a tonic is confirmed.
func isCadence(t Term) bool {
	switch t {
	case PairCadence, PairCadence7, PairLeading, PairSubstitute:
		return true
	}
	return false
}

// upbeat: tunes begin on such a chord, on the way to their tonic.
func (e *entry) upbeat() bool {
	return e.role == Diatonic && !e.applied() && e.degree.Alter() == 0 && !e.is(arrives)
}

// enterTerm is how a region begins on an entry.
func enterTerm(e *entry) Term {
	switch {
	case e.is(lean):
		return EnterLean
	case e.is(arrives):
		return EnterTonic
	case e.homeDominant():
		return EnterDominant
	case e.degree == D(2, 0) && e.function == Predominant && !e.applied():
		return EnterTwo
	case e.function == Predominant && !e.applied() && e.role != Chromatic:
		return EnterFour
	case e.isTwo() && (e.degree == D(3, 0) && !e.applied() || e.degree == D(2, 0) && e.target == D(2, 0)):
		return EnterTurnaround
	}
	return EnterOther
}

// leaveTerm is how a settled region ends on an entry.
func leaveTerm(e *entry) Term {
	switch {
	case e.is(arrives):
		return LeaveTonic
	case e.homeDominant():
		return LeaveDominant
	case e.owes():
		return LeaveInDebt
	case e.role == Chromatic:
		return LeaveForeign
	}
	return LeaveOther
}
