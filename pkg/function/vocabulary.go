package function

// An idiom is a row of the vocabulary: something a chord may be in a key.
// A row may stand for several degrees and, where it is applied, for several
// tonicised degrees; start-up writes them out one by one.
type idiom struct {
	in       modes  // modes of the key it occurs in
	degrees  string // the degrees it stands on, in the key or in the tonicised key
	of       string // the tonicised degrees, in the key; "" for the key itself
	kinds    kinds  // chord qualities
	role     Role
	function Function
	fit      Term   // what it costs to meet it
	to       string // what it owes: degrees whose chord pays, or dominant; "" for nothing
	when     when   // further conditions
	says     string // what a teacher would say; reason.go tells the marks in braces
	source   string
}

// toDominant in idiom.to: only a dominant of the same target pays.
const toDominant = "dominant"

// modes is a set of the two modes that the search tells apart.
type modes uint8

const (
	inMajor modes = 1 << iota
	inMinor
	inBoth = inMajor | inMinor
)

// when narrows an idiom.
type when uint8

const (
	// arrives: the chord is the tonic at rest, the centre of a region.
	arrives when = 1 << iota
	// asWritten: only for the root that the chart writes, where a chord (a
	// diminished seventh) may be heard on several.
	asWritten
	// strictly: the debt must be paid by the very next chord.
	strictly
	// lean: too little of a tonic to open a region on.
	lean
	// blue: stable only in the manner of a blues.
	blue
)

// Sets of qualities that behave alike.
const (
	aMajor    = kinds(1<<kMajor | 1<<kMajorOverThird | 1<<kMajor6 | 1<<kMajor7 | 1<<kPower)
	aTriad    = kinds(1<<kMajor | 1<<kMajorOverThird | 1<<kPower)
	aSeventh  = kinds(1 << kDominant)
	aSus      = kinds(1 << kSus)
	aSus7     = kinds(1 << kSus7)
	anAug     = kinds(1 << kAugmented)
	anAugMaj7 = kinds(1 << kAugmentedMajor7)
	aMinor    = kinds(1<<kMinor | 1<<kMinor7)
	aMinor6   = kinds(1<<kMinor6 | 1<<kMinorMajor7)
	aHalfDim  = kinds(1 << kHalfDiminished)
	aDim      = kinds(1 << kDiminished)
	aDim7     = kinds(1 << kDiminished7)
	aMajor64  = kinds(1 << kMajorOverFifth)
	aMinor64  = kinds(1 << kMinorOverFifth)
	anything  = kinds(1<<kindCount - 1)
)

// Where a source is not named a row is common practice, no source.
const (
	hutchinson = "Hutchinson, Music Theory for the 21st-Century Classroom, ch. "
	omt        = "Open Music Theory, "
	practice   = "common practice, no source"
)

// Sentences of several rows.
const (
	suspended  = "the dominant of {key}, suspended: it holds back the leading tone {lead}"
	relatedTwo = "the two that goes with the next dominant: together a two-five to {goal}"
)

// idioms is the vocabulary. The order matters only between readings that are
// exactly as likely: the earlier row is shown.
var idioms = []idiom{
	// The major key's own chords.
	{inMajor, "I", "", aMajor | aSus, Diatonic, Tonic, FitMajorI, "", arrives, "{chord} is the tonic: {key} rests here", hutchinson + "9.4"},
	{inMajor, "I", "", aSus7, Diatonic, Tonic, FitSusI, "", arrives, "{chord} is the tonic, suspended and at rest", practice},
	{inMajor, "I", "", aMajor64, Diatonic, Dominant, FitSixFour, "V", 0, "the tonic over its fifth, {5}, leans on the dominant and is no arrival", hutchinson + "9.4"},
	{inMajor, "I", "", aMajor64, Diatonic, Tonic, FitSixFourPassing, "", 0, "the tonic over its fifth, {5}, in passing", practice},
	{inMajor, "II", "", aMinor, Diatonic, Predominant, FitMajorII, "", 0, "the two of {key}: it prepares the dominant, {dominant}", hutchinson + "9.4"},
	{inMajor, "III", "", aMinor, Diatonic, Tonic, FitMajorIII, "", 0, "the mediant shares {root} and {3} with the tonic chord and stands in for it", hutchinson + "9.4"},
	{inMajor, "IV", "", aMajor | aSus, Diatonic, Predominant, FitMajorIV, "", 0, "the subdominant of {key}: {root} is a fifth below {tonic}", hutchinson + "9.4"},
	{inMajor, "V", "", aTriad, Diatonic, Dominant, FitV, "I", 0, "the dominant of {key}: {pull}", hutchinson + "9.4"},
	{inMajor, "V", "", aSus, Diatonic, Dominant, FitV, "I", 0, suspended, practice},
	{inMajor, "V", "", aSus7, Diatonic, Dominant, FitV7, "I", 0, suspended, practice},
	{inMajor, "V", "", aSeventh | anAug, Diatonic, Dominant, FitV7, "I", 0, "the dominant of {key}: {pull}", hutchinson + "9.4"},
	{inMajor, "VI", "", aMinor, Diatonic, Tonic, FitMajorVI, "", 0, "the submediant shares {3} and {5} with the tonic chord", hutchinson + "9.4"},
	{inMajor, "VII", "", aDim | aHalfDim, Diatonic, Dominant, FitVII, "I", 0, "the leading-tone chord of {key}: {dominant} is left out, and {root} still pulls up to {tonic}", hutchinson + "9.4"},

	// The minor key's own chords: natural, harmonic and melodic together.
	{inMinor, "I", "", kinds(1<<kMinor|1<<kPower) | aSus, Diatonic, Tonic, FitMinorI, "", arrives, "{chord} is the tonic: {key} rests here", hutchinson + "8.3"},
	{inMinor, "I", "", kinds(1 << kMinor7), Diatonic, Tonic, FitMinorI7, "", arrives, "{chord} is the tonic of {key}, with the lowered seventh, {7}", hutchinson + "8.3"},
	{inMinor, "I", "", kinds(1 << kMinorMajor7), Diatonic, Tonic, FitMinorI6, "", arrives, "{chord} is the tonic of {key}, with the raised seventh, {7}", hutchinson + "3.3"},
	{inMinor, "I", "", kinds(1 << kMinor6), Diatonic, Tonic, FitMinorI6, "", arrives | lean, "{chord} is the tonic of {key}, with the raised sixth, {6}", hutchinson + "3.3"},
	{inMinor, "I", "", aMinor64, Diatonic, Dominant, FitSixFour, "V", 0, "the tonic over its fifth, {5}, leans on the dominant and is no arrival", hutchinson + "9.4"},
	{inMinor, "I", "", aMinor64, Diatonic, Tonic, FitSixFourPassing, "", 0, "the tonic over its fifth, {5}, in passing", practice},
	{inMinor, "II", "", aHalfDim | aDim, Diatonic, Predominant, FitMinorII, "", 0, "the two of {key}: its fifth, {5}, is the lowered sixth", hutchinson + "9.4"},
	{inMinor, "II", "", kinds(1 << kMinor), Diatonic, Predominant, FitMelodicII, "", 0, "the two of {key} with the raised sixth of melodic minor, {5}", practice},
	{inMinor, "II", "", kinds(1 << kMinor7), Diatonic, Predominant, FitMelodicII7, "", 0, "the two of {key} with the raised sixth of melodic minor, {5}", practice},
	{inMinor, "bIII", "", aMajor | anAug | anAugMaj7, Diatonic, Tonic, FitMinorIII, "", 0, "the mediant of {key}: {root} is the third of the tonic chord", hutchinson + "8.3"},
	{inMinor, "IV", "", kinds(1<<kMinor|1<<kMinor7|1<<kMinor6|1<<kPower) | aSus, Diatonic, Predominant, FitMinorIV, "", 0, "the subdominant of {key}: {root} is a fifth below {tonic}", hutchinson + "8.3"},
	{inMinor, "IV", "", kinds(1<<kMajor|1<<kMajorOverThird|1<<kMajor6) | aSeventh, Diatonic, Predominant, FitMelodicIV, "", 0, "the subdominant of {key} made major by the raised sixth, {3}", hutchinson + "9.5"},
	{inMinor, "V", "", aSus, Diatonic, Dominant, FitMinorV, "I", 0, suspended, practice},
	{inMinor, "V", "", aSus7, Diatonic, Dominant, FitMinorV7, "I", 0, suspended, practice},
	{inMinor, "V", "", kinds(1<<kMajor | 1<<kMajorOverThird), Diatonic, Dominant, FitMinorV, "I", 0, "the dominant of {key}: harmonic minor lends it the leading tone {lead}", hutchinson + "8.3"},
	{inMinor, "V", "", aSeventh | anAug, Diatonic, Dominant, FitMinorV7, "I", 0, "the dominant of {key}: harmonic minor lends it the leading tone {lead}", hutchinson + "8.3"},
	{inMinor, "V", "", aMinor | kinds(1<<kPower), Diatonic, Dominant, FitNaturalV, "", 0, "the dominant of {key} without its leading tone, {lead}", hutchinson + "7.3"},
	{inMinor, "bVI", "", aMajor, Diatonic, Predominant, FitMinorVI, "", 0, "the submediant of {key}: {root} is a half step above the dominant, {dominant}", hutchinson + "8.3"},
	{inMinor, "VI", "", aHalfDim | aDim, Diatonic, Tonic, FitMelodicVI, "", 0, "it stands on {root}, the raised sixth of {key}", hutchinson + "21.7"},
	{inMinor, "bVII", "", aMajor&^kinds(1<<kMajor7) | aSus, Diatonic, Dominant, FitMinorVII, "", 0, "the subtonic of {key}: {root} is a whole step below {tonic}", hutchinson + "9.4"},
	{inMinor, "bVII", "", kinds(1 << kMajor7), Diatonic, Dominant, FitMelodicVII, "", 0, "the subtonic of {key} with the raised sixth, {7}, as in dorian", practice},
	{inMinor, "bVII", "", aSeventh | aSus7, Diatonic, Dominant, FitMinorVII7, "", 0, "the subtonic seventh of {key}: {root} is a whole step below {tonic}", hutchinson + "9.4"},
	{inMinor, "VII", "", aDim | aDim7, Diatonic, Dominant, FitMinorLeading, "I", 0, "the leading-tone chord of {key}: harmonic minor raises the seventh to {root}", hutchinson + "8.3"},

	// Borrowed from the parallel key.
	{inMajor, "I", "", kinds(1<<kMinor|1<<kMinor7) | aMinor6, Borrowed, Tonic, FitBorrowedI, "", 0, "the tonic darkened: {3} is borrowed from {tonic} minor", hutchinson + "19.1"},
	{inMajor, "II", "", aHalfDim | aDim, Borrowed, Predominant, FitBorrowedII, "", 0, "the two borrowed from {tonic} minor, with its lowered sixth {5}", hutchinson + "19.1"},
	{inMajor, "bIII", "", aMajor, Borrowed, Tonic, FitBorrowedIII, "", 0, "borrowed from {tonic} minor: {root} is the lowered third", hutchinson + "19.1"},
	{inMajor, "IV", "", aMinor | aMinor6, Borrowed, Predominant, FitBorrowedIV, "", 0, "the minor subdominant: {3}, the lowered sixth, is borrowed from {tonic} minor", hutchinson + "19.1"},
	{inMajor, "V", "", aMinor &^ kinds(1<<kMinor7), Borrowed, Dominant, FitBorrowedV, "", 0, "the minor dominant borrowed from {tonic} minor: {3} is no leading tone", practice},
	{inMajor, "V", "", kinds(1 << kMinor7), Borrowed, Dominant, FitBorrowedV7, "", 0, "the minor dominant borrowed from {tonic} minor: {3} is no leading tone", practice},
	{inMajor, "bVI", "", aMajor, Borrowed, Predominant, FitBorrowedVI, "", 0, "borrowed from {tonic} minor: {root}, the lowered sixth, is a half step above the dominant, {dominant}", hutchinson + "19.1"},
	{inMajor, "bVII", "", aMajor | aSus | aSus7, Borrowed, Predominant, FitBorrowedVII, "", 0, "{root}, the lowered seventh of {tonic} mixolydian, is a whole step below {tonic}", hutchinson + "9.6"},
	{inMajor, "VII", "", aDim7, Borrowed, Dominant, FitBorrowedLeading, "I", 0, "the leading-tone seventh borrowed from {tonic} minor, with its lowered sixth {7}", hutchinson + "19.1"},
	{inMajor, "II", "", aTriad, Borrowed, Predominant, FitLydianII, "IV I", 0, "the lydian two: the fourth of {key} is raised to {sharp}", practice},
	{inMinor, "I", "", kinds(1<<kMajor | 1<<kMajorOverThird), Borrowed, Tonic, FitPicardy, "", arrives, "the tonic brightened: {3} is borrowed from {tonic} major", practice},
	{inBoth, "bII", "", aMajor &^ kinds(1<<kMajorOverThird), Neapolitan, Predominant, FitNeapolitan, "", 0, "the Neapolitan: it stands on {root}, a half step above {tonic}", hutchinson + "20.1"},
	{inBoth, "bII", "", kinds(1 << kMajorOverThird), Neapolitan, Predominant, FitNeapolitanSixth, "", 0, "the Neapolitan sixth: {root}, a half step above {tonic}, over its third, {3}", hutchinson + "20.1"},
	{inMinor, "bVI", "", aSeventh, AugmentedSixth, Predominant, FitAugmentedSixth, "V I", 0, "an augmented sixth: {root} leans down to the dominant, {dominant}, and {7}, heard as {sharp}, up to it", hutchinson + "21.5"},

	// Dominants of the home key by other ways.
	{inMajor, "bVII", "", aSeventh, BackdoorDominant, Dominant, FitBackdoor, "I III", 0, "the backdoor dominant: {root} is a whole step below {tonic}, and {7} leans down to {dominant}", omt + "jazz chapters"},
	{inBoth, "bII", "", aSeventh, TritoneSubstitute, Dominant, FitTritone, "I", 0, "the tritone substitute of V7: it shares {lead} and {fourth} with it, and {root} is a half step above {goal}", omt + "jazz chapters"},
	{inMajor, "#IV", "", aHalfDim, Chromatic, Predominant, FitSharpFour, "IV III", 0, "half-diminished on the raised fourth, {root}, which leans down", practice},

	// Dominant sevenths at rest.
	{inMajor, "I", "", aSeventh, BluesDominant, Tonic, FitBluesI, "", blue | arrives | lean, "the tonic with a blue seventh, {7}: a colour that needs no resolution", hutchinson + "31.8"},
	{inMajor, "IV", "", aSeventh, BluesDominant, Predominant, FitBluesIV, "", blue, "the subdominant with a blue seventh, {7}: a colour, no dominant", hutchinson + "31.8"},
	{inMinor, "I", "", aSeventh, BluesDominant, Tonic, FitBluesMinorI, "", blue, "the tonic of a minor blues with the major third, {3}, and a blue seventh, {7}", practice},

	// Applied chords.
	{inMajor, "V", "II III IV V VI", aSeventh | anAug, SecondaryDominant, Dominant, FitApplied, "I", 0, "the dominant of {target}: {pull}", hutchinson + "17.3"},
	{inMajor, "V", "bIII bVI bVII bII", aSeventh | anAug, SecondaryDominant, Dominant, FitAppliedBorrowed, "I", 0, "the dominant of {target}: {pull}", hutchinson + "17.3"},
	{inMajor, "V", "II III IV V VI", aSus | aSus7, SecondaryDominant, Dominant, FitApplied, "I", 0, "the dominant of {target}, suspended: it holds back {lead}, the leading tone to {goal}", practice},
	{inMajor, "V", "bIII bVI bVII bII", aSus | aSus7, SecondaryDominant, Dominant, FitAppliedBorrowed, "I", 0, "the dominant of {target}, suspended: it holds back {lead}, the leading tone to {goal}", practice},
	{inMajor, "V", "II III V VI", aTriad, SecondaryDominant, Dominant, FitAppliedTriad, "I", 0, "the dominant of {target}: {pull}", hutchinson + "17.3"},
	{inMajor, "V", "VII #IV", aSeventh, SecondaryDominant, Dominant, FitAppliedChain, "I", strictly, "a dominant in a chain: {lead} leads to {goal}, the root of the next one", practice},
	{inMinor, "V", "IV V bVI bVII II bII", aSeventh | anAug, SecondaryDominant, Dominant, FitApplied, "I", 0, "the dominant of {target}: {pull}", hutchinson + "17.3"},
	{inMinor, "V", "bIII", aSeventh | anAug, SecondaryDominant, Dominant, FitAppliedDiatonic, "I", 0, "the dominant of {target}: {pull}", hutchinson + "17.3"},
	{inMinor, "V", "IV V bVI bVII II bII", aSus | aSus7, SecondaryDominant, Dominant, FitApplied, "I", 0, "the dominant of {target}, suspended: it holds back {lead}, the leading tone to {goal}", practice},
	{inMinor, "V", "bIII", aSus | aSus7, SecondaryDominant, Dominant, FitAppliedDiatonic, "I", 0, "the dominant of {target}, suspended: it holds back {lead}, the leading tone to {goal}", practice},
	{inMinor, "V", "IV V II", kinds(1<<kMajor | 1<<kMajorOverThird), SecondaryDominant, Dominant, FitAppliedTriad, "I", 0, "the dominant of {target}: {pull}", hutchinson + "17.3"},
	{inMinor, "V", "bVII", kinds(1<<kMajor | 1<<kMajorOverThird), SecondaryDominant, Dominant, FitAppliedDiatonic, "I", strictly, "the dominant of {target}: {pull}", hutchinson + "17.3"},
	{inBoth, "VII", "II III IV V VI bIII bVI bVII", aDim | aDim7, SecondaryLeadingTone, Dominant, FitAppliedLeading, "I", 0, "the leading-tone chord of {target}: it stands on {root}, a half step below {goal}", hutchinson + "18.1"},
	{inBoth, "VII", "IV V bIII bVI bVII", aHalfDim, SecondaryLeadingTone, Dominant, FitAppliedHalfDim, "I", 0, "the leading-tone chord of {target}: it stands on {root}, a half step below {goal}", hutchinson + "18.1"},
	{inMajor, "II", "IV VII #IV", aMinor | aHalfDim, RelatedTwo, Predominant, FitRelatedTwo, toDominant, strictly, relatedTwo, omt + "jazz chapters"},
	{inMajor, "II", "bIII bVI bVII bII", aMinor | aHalfDim, RelatedTwo, Predominant, FitRelatedTwoBorrowed, toDominant, strictly, relatedTwo, omt + "jazz chapters"},
	{inMajor, "II", "VI", aMinor | aHalfDim, RelatedTwo, Predominant, FitRelatedTwo, toDominant, strictly, relatedTwo, omt + "jazz chapters"},
	{inMajor, "II", "III", aMinor, RelatedTwo, Predominant, FitRelatedTwo, toDominant, strictly, relatedTwo, omt + "jazz chapters"},
	{inMajor, "II", "III", aHalfDim, RelatedTwo, Predominant, FitRelatedTwo, toDominant, 0, "the two of a two-five to {goal}", omt + "jazz chapters"},
	{inMajor, "II", "II V", aHalfDim, RelatedTwo, Predominant, FitRelatedTwo, toDominant, strictly, relatedTwo, omt + "jazz chapters"},
	{inMajor, "II", "II V", aMinor, RelatedTwo, Predominant, FitRelatedTwoDiatonic, toDominant, strictly, "of the key itself, but heard with the next dominant: together a two-five to {goal}", omt + "jazz chapters"},
	{inMinor, "II", "bIII IV V bVI bVII II bII", aMinor | aHalfDim, RelatedTwo, Predominant, FitRelatedTwo, toDominant, strictly, relatedTwo, omt + "jazz chapters"},
	{inBoth, "II", "bV", aMinor, RelatedTwo, Predominant, FitRelatedTwo, toDominant, strictly, "the two that goes with a substitute: together a two-five to {goal}, a tritone away", omt + "jazz chapters"},
	{inMinor, "II", "VII", aMinor, RelatedTwo, Predominant, FitRelatedTwo, toDominant, strictly, relatedTwo, omt + "jazz chapters"},
	{inMajor, "bII", "II III IV V VI bIII bVI bVII", aSeventh, TritoneSubstitute, Dominant, FitTritoneApplied, "I", 0, "the tritone substitute for the dominant of {target}: {root} is a half step above {goal}", omt + "jazz chapters"},
	{inMinor, "bII", "II bIII IV V bVI bVII", aSeventh, TritoneSubstitute, Dominant, FitTritoneApplied, "I", 0, "the tritone substitute for the dominant of {target}: {root} is a half step above {goal}", omt + "jazz chapters"},
	{inBoth, "II", "II III IV V VI bIII bVI bVII", aSeventh, SecondaryDominant, Predominant, FitDominantTwo, toDominant, strictly, "a two of dominant quality: with the next dominant it aims at {goal}", practice},

	// Diminished sevenths by behaviour.
	{inBoth, "#I #II #IV #V", "", aDim7 | aDim, PassingDiminished, Dominant, FitDimAscending, "up", asWritten, "a passing diminished chord: {root} leads up a half step to {above}", hutchinson + "18.1"},
	{inBoth, "bIII", "", aDim7 | aDim, PassingDiminished, NoFunction, FitDimDescending, "II", strictly, "a passing diminished chord: {root} sinks a half step to {below}", practice},
	{inBoth, "bII", "", aDim7 | aDim, PassingDiminished, NoFunction, FitDimDescending, "I", strictly, "a passing diminished chord: {root} sinks a half step to {below}", practice},
	{inBoth, "bVI", "", aDim7 | aDim, PassingDiminished, NoFunction, FitDimDescending, "V", strictly, "a passing diminished chord: {root} sinks a half step to {below}", practice},
	{inBoth, "I #II #IV", "", aDim7, CommonToneDiminished, NoFunction, FitDimCommonTone, "I", asWritten | strictly, "a common-tone diminished chord: it holds {tonic} and embellishes the tonic", practice},
	{inBoth, "V", "", aDim7, CommonToneDiminished, NoFunction, FitDimCommonTone, "V", asWritten | strictly, "a common-tone diminished chord: it holds {root} and embellishes the dominant", practice},
	{inBoth, "IV", "", aDim7, CommonToneDiminished, NoFunction, FitDimCommonTone, "IV", asWritten | strictly, "a common-tone diminished chord: it holds {root} and embellishes the subdominant", practice},
	{inMinor, "bIII", "", aDim7, CommonToneDiminished, NoFunction, FitDimCommonTone, "bIII", asWritten | strictly, "a common-tone diminished chord: it holds {root} and embellishes the mediant", practice},

	// A moving voice over one harmony.
	{inMajor, "I", "", anAug | anAugMaj7, Chromatic, Tonic, FitLineI, "I IV", 0, "still the tonic, its fifth raised to {5}", practice},

	// Whatever is left: always correct, seldom telling.
	{inBoth, "I bII II bIII III IV bV V bVI VI bVII VII", "", anything &^ (aHalfDim | aDim | aDim7), Chromatic, NoFunction, FitChromatic, "", asWritten, "{foreign}", practice},
	{inBoth, "I #I II #II III IV #IV V #V VI bVII VII", "", aHalfDim | aDim | aDim7, Chromatic, NoFunction, FitChromatic, "", asWritten, "{foreign}", practice},
}
