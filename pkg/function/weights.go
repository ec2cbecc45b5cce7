package function

// Term names one kind of cost of a reading. A reading's cost is the sum of the
// terms it uses, each times how often; the probability of a reading falls with
// e to the minus cost. Every cost in the search is one of these: no number
// stands anywhere else.
type Term uint8

// Costs are in nats: 0.7 halves a probability, 2.3 divides it by ten.
// Negative costs are rewards.
const (
	// Fit: what a chord of this idiom costs to meet, whatever stands beside it.
	FitMajorI Term = iota
	FitMajorII
	FitMajorIII
	FitMajorIV
	FitV
	FitV7
	FitMajorVI
	FitVII
	FitSixFour
	FitSixFourPassing
	FitMinorI
	FitMinorI7
	FitMinorI6
	FitMinorII
	FitMelodicII
	FitMelodicII7
	FitMinorIII
	FitMinorIV
	FitMelodicIV
	FitMinorV
	FitMinorV7
	FitNaturalV
	FitMinorVI
	FitMelodicVI
	FitMinorVII
	FitMinorVII7
	FitMelodicVII
	FitMinorLeading
	FitBorrowedI
	FitBorrowedII
	FitBorrowedIII
	FitBorrowedIV
	FitBorrowedV
	FitBorrowedV7 // … with a seventh: in jazz rather a two
	FitBorrowedVI
	FitBorrowedVII
	FitBorrowedLeading
	FitLydianII
	FitPicardy
	FitNeapolitan
	FitNeapolitanSixth
	FitAugmentedSixth
	FitBackdoor
	FitTritone
	FitSharpFour
	FitSusI
	FitBluesI
	FitBluesIV
	FitBluesMinorI
	FitApplied
	FitAppliedBorrowed // to a borrowed major chord
	FitAppliedTriad
	FitAppliedDiatonic // an applied chord that is diatonic too
	FitAppliedChain
	FitAppliedLeading
	FitAppliedHalfDim
	FitRelatedTwo
	FitRelatedTwoBorrowed
	FitRelatedTwoDiatonic
	FitTritoneApplied
	FitDominantTwo
	FitDimAscending
	FitDimDescending
	FitDimCommonTone
	FitLineI
	FitChromatic
	FitSecondHearing // a hearing that is not the symbol's first
	FitRespelled     // a diminished seventh on another root than the one written

	// Pair: how a chord goes on to the next in one key.
	PairHold            // the same degree again
	PairCadence         // V to I
	PairCadence7        // V7 to I
	PairPicardy         // V to the major tonic of a minor key
	PairLeading         // VII to I
	PairSubstitute      // a substitute or backdoor dominant to I
	PairPlagal          // IV to I
	PairMinorPlagal     // IVm to I
	PairSubtonic        // bVII to I
	PairOtherToTonic    // anything else to I
	PairToDominant      // predominant to V
	PairTonicToDominant // I, III, VI to V
	PairDeceptive       // V to VI and its like
	PairHalf            // V goes on elsewhere
	PairHalfToIV        // V to IV
	PairPaid            // an applied dominant to its target
	PairPaidFive        // an applied dominant to a dominant on its target
	PairPaidSub         // an applied substitute or leading-tone chord to its target
	PairTwoFive         // a related two to its dominant
	PairLate            // a dominant interrupted by its target's two
	PairInterrupted     // a dominant interrupted by another two
	PairAside           // an applied dominant goes elsewhere, as deceptive cadences do
	PairBroken          // a debt not paid
	PairTwoOfSix        // VIIm7b5 to V7/VI, of which it is the two
	PairDimPaid         // a passing or common-tone diminished chord resolves
	PairFromTonic       // I to a diatonic chord
	PairLikeTwo         // a minor seventh chord as tonic goes to a dominant a fourth above, as a two does
	PairAsTwo           // … which aims at bVII: the two chords are a two-five
	PairFifth           // root down a fifth
	PairFourth          // root down a fourth
	PairStepUp          // root up a step
	PairStepDown        // root down a step
	PairThirdUp         // root up a third
	PairThirdDown       // root down a third
	PairTritone         // root across a tritone
	PairSameRoot        // a new chord on the same root

	// Place: where a chord of some function falls.
	TonicFirst     // the chart begins on it
	TonicLast      // the chart ends on it
	TonicOpens     // it opens a section
	TonicCloses    // it is the last chord before a section ends
	TonicFrames    // it opens a section of eight bars or more that ends on it too
	TonicAgain     // a cadence has reached it twice in eight bars
	TonicLoop      // it begins a loop
	TonicDownbeat  // it falls on the first beat of a bar
	TonicLong      // for each doubling of its length beyond a bar; negative for halvings
	TonicWide      // it begins a group of four bars
	DominantFirst  // the chart begins on V
	DominantLast   // the chart ends on V
	DominantOpens  // a section opens on V
	DominantCloses // a section ends on V
	DominantLoop
	DominantBack // it stands between two of one minor seventh chord a fifth above, times how rich the chords are: a vamp, that leads nowhere
	DominantDownbeat
	DominantLong
	OtherFirst // the chart begins on another chord that is no tonic
	OtherLast  // the chart ends on one
	OtherLong
	BorrowedLong // the same for a borrowed chord, times how rich the chords are
	ForeignLong  // a chord without function, for each doubling of its length from two bars to eight
	BlueChart    // a blue chord, times how blue the chart is

	// Change: the key moves.
	ChangeKey           // always
	ChangeAtSection     // at the start of a section
	ChangeAtBar         // at a bar line
	ChangeAtSequence    // where a group of chords begins that comes next on other roots
	ChangeWithin        // inside a bar
	ChangeLooping       // times the share of the chart that goes in loops
	ChangeSlow          // times the mean length of a chord, in doublings of a bar
	ChangeBrief         // for each halving of the chart's length below 16 chords
	ChangeNear          // to a key at most one step away, times how rich the chords are: its tonic is diatonic and needs no key of its own
	ChangeAtSectionRich // at the start of a section, times how rich the chords are
	ChangeSignature0    // opening on the new cadence: to the relative key
	ChangeSignature1    // one step on the circle of fifths
	ChangeSignature2
	ChangeSignature3
	ChangeSignature4
	ChangeSignature5
	ChangeSignature6
	ChangeThin0 // starting on the tonic itself: to the relative key
	ChangeThin1 // one step on the circle of fifths
	ChangeThin2
	ChangeThin3
	ChangeThin4
	ChangeThin5
	ChangeThin6
	ChangeMajorMinor
	ChangeMinorMajor
	ChangeMinorMinor
	PivotTonic         // the region starts on its tonic, which is diatonic in the old key
	PivotTwo           // … on its two, which is
	PivotOther         // … on another chord, which is
	PivotOtherRich     // … times how rich the chords are: it counts in the old key
	PivotLeft          // the old region's last chord is diatonic in the new key
	EnterTonic         // the region starts on its tonic
	EnterDominant      // … on its dominant
	EnterTwo           // … on its two
	EnterTwoRich       // … times how rich the chords are
	EnterTonicRich     // … for less than two bars and where no section opens, times how rich the chords are
	EnterLean          // … on a minor sixth chord or a dominant seventh as its tonic
	EnterLast          // … on the chart's last chord, of less than four bars
	EnterFour          // … on another chord that prepares the dominant
	EnterTurnaround    // … on the two of V7/II, with which a turnaround begins
	EnterOther         // … on another chord
	SettleCadence      // its tonic is reached by a cadence
	SettleRich         // … times how rich the chords are and how far the tonic lasts longer than a bar, 1 for two bars and more
	SettleCloses       // … times how rich the chords are, where the tonic ends a phrase
	SettleSequence     // … times how rich the chords are, within a sequence
	SettleBare         // … times how rich the chords are, for less than two bars and none of these
	SettleAtSection    // … times how rich the chords are, where a section opens
	SettleOther        // … otherwise
	SettleLong         // for each doubling of that tonic's length beyond a bar
	SettleLean         // … on a minor sixth chord or a dominant seventh
	SettleLeadsOn      // … on a minor or dominant seventh that leads on to the dominant a fourth above, times how rich the chords are, and of a dominant how little they are a blues: a two, or a dominant in a chain
	LeaveTonic         // the region ends on its tonic
	LeaveDominant      // … on its dominant, its tonic heard
	LeaveOther         // … on another chord
	LeaveInDebt        // … on an applied chord that owes
	LeaveForeign       // … on a chord without function: it rather begins what comes
	LeaveUnsettled     // … on its dominant, its tonic never heard
	LeaveUnsettledRich // … times how rich the chords are: a two-five on its way opens nothing
	StartUnsettled     // the chart starts on a diatonic chord before its first tonic, times how rich the chords are: no change of key, that a cadence would have to prove
	EndUnsettled       // the chart ends before the last region's tonic is heard; on its dominant, with that tonic to go round to, for what the circle does not weigh
	EndInDebt          // the chart ends on an applied chord, and its first does not pay it
	EndUnsettledRich   // … and on another chord than its dominant, times how rich the chords are

	// Hint: the chart states a key. Of the stated tonic in the other mode half of each counts.
	HintStart     // the chart begins in another
	HintEnd       // it ends in another
	HintElsewhere // a chord in another key than the stated one

	// Home.
	// by chord, for each key
	HomeFirst // the chart's first chord is its tonic
	HomeLast  // the chart's last chord is
	HomeOpens // times the share of sections that open on its tonic
	HomeTime  // times the share of the chart's time that its tonic chord takes

	termCount
)

// Weights gives each term its cost.
type Weights [termCount]float64

// Terms lists every term with its name, in order.
func Terms() []string {
	names := make([]string, termCount)
	for t := range names {
		names[t] = terms[t].name
	}
	return names
}

// String is the term's name.
func (t Term) String() string {
	if t >= termCount {
		return "invalid"
	}
	return terms[t].name
}

// The scale of probabilities and the weight of the circle.
const (
	// temperature divides every cost: above 1 readings are less sure of
	// themselves.
	temperature = 1.0
	// circle is the weight, 0 to 1, at which the virtual first chord after the
	// last pays debts and closes cadences.
	circle = 0.5
)
