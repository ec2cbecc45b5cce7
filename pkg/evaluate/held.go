package evaluate

import "fifthwise/pkg/function"

// held are the terms that corpora of rock songs, chorales and art songs hardly
// know, or know otherwise than lead sheets mean them. They were set by hand to the
// practice of jazz players and are held there when the others are fitted. Who
// brings annotated jazz may let them go, group by group.
var held = [][]function.Term{
	{ // idioms of jazz, too rare elsewhere to be counted
		function.FitRelatedTwo, function.FitRelatedTwoBorrowed, function.FitRelatedTwoDiatonic,
		function.FitTritone, function.FitTritoneApplied, function.PairSubstitute,
		function.FitSharpFour, function.FitBackdoor, function.FitDominantTwo, function.FitLydianII, function.FitBorrowedV7,
		function.FitAppliedChain, function.FitAppliedBorrowed, function.FitAppliedDiatonic,
		function.FitDimAscending, function.FitDimDescending, function.FitDimCommonTone, function.PairDimPaid,
		function.FitMelodicII7, function.FitMelodicVII, function.FitMinorI7, function.FitMinorI6, function.FitLineI,
		function.PairTwoFive, function.PairLikeTwo,
		function.PairLate, function.PairInterrupted, function.PairAside, function.PairBroken,
		function.ForeignLong, function.LeaveForeign,
	},
	{ // the blues, which rock annotations count among chords of the key
		function.FitBluesI, function.FitBluesIV, function.FitBluesMinorI, function.BlueChart,
	},
	{ // what depends on how rich the chords are: these corpora are mostly triads, but for their dominants
		function.ChangeAtSectionRich, function.ChangeNear,
		function.EnterTwoRich, function.EnterTonicRich, function.EnterLean, function.PivotOtherRich,
		function.SettleRich, function.SettleCloses, function.SettleSequence, function.SettleBare,
		function.SettleAtSection, function.SettleLean, function.SettleLeadsOn,
		function.LeaveUnsettled, function.LeaveUnsettledRich,
		function.StartUnsettled, function.EndUnsettled, function.EndUnsettledRich, function.EndInDebt, function.DominantBack,
	},
	{ // what these annotators see in the voices, and a chord symbol does not show
		function.FitSixFour, function.FitSixFourPassing, function.FitPicardy, function.PairPicardy,
		function.FitSecondHearing, function.FitRespelled,
	},
	{ // the tonic of minor: costs of chords count only against each other, and
		// without a fixed one modes drift with how a corpus mixes them
		function.FitMinorI, function.FitBorrowedI,
	},
	{ // where a chart breaks off: textbooks end their examples on a new tonic, tunes do not
		function.EnterLast,
	},
	{ // a stated key: fitting reads without one
		function.HintStart, function.HintEnd, function.HintElsewhere,
	},
}

// holding is how many times stronger held terms are pulled than the others.
const holding = 20

// Held reports whether fitting should leave a term about where it starts.
func Held(t function.Term) bool { return heldTerms[t] }

var heldTerms = func() (set [len(function.Weights{})]bool) {
	for _, group := range held {
		for _, t := range group {
			set[t] = true
		}
	}
	return set
}()

// Pulls is a [Fit.Pull] of a strength that holds the held terms, from 0. With
// examples by [Weigh] 1 hardly binds the others; small corpora want more.
func Pulls(strength float64) (pull function.Weights) {
	for t := range pull {
		pull[t] = strength
		if Held(function.Term(t)) {
			pull[t] *= holding
		}
	}
	return pull
}

// Blank is w with all terms at 0 that are not held: a [Fit.Start] that has not
// seen the pieces to be read. The default weights have seen most of the corpora
// named in DEVELOPERS.md, and folds that start from them flatter.
func Blank(w function.Weights) function.Weights {
	for t := range w {
		if !Held(function.Term(t)) {
			w[t] = 0
		}
	}
	return w
}
