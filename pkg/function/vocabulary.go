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
	says     string // what a teacher would say; see reason.go for the marks
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
	// blue: stable only in the manner of a blues.
	blue
)

// Sets of qualities that behave alike.
const (
	aMajor    = kinds(1<<kMajor | 1<<kMajor6 | 1<<kMajor7 | 1<<kPower)
	aTriad    = kinds(1<<kMajor | 1<<kPower)
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

	pulling = aSeventh | anAug | aSus7 | aSus
)

// Where a source is not named a row is common practice, no source.
const (
	hutchinson = "Hutchinson, Music Theory for the 21st-Century Classroom, ch. "
	omt        = "Open Music Theory, "
	practice   = "common practice, no source"
)

// idioms is the vocabulary. The order matters only between readings that are
// exactly as likely: the earlier row is shown.
var idioms = []idiom{
	// The major key's own chords.
	{inMajor, "I", "", aMajor | aSus, Diatonic, Tonic, FitMajorI, "", arrives, "the tonic: {key} rests here", hutchinson + "9.4"},
	{inMajor, "I", "", aMajor64, Diatonic, Dominant, FitSixFour, "V", 0, "the tonic over its fifth leans on the dominant: it is no arrival", hutchinson + "9.4"},
	{inMajor, "I", "", aMajor64, Diatonic, Tonic, FitSixFourPassing, "", 0, "the tonic over its fifth, in passing", practice},
	{inMajor, "II", "", aMinor, Diatonic, Predominant, FitMajorII, "", 0, "the two of {key}: it prepares the dominant", hutchinson + "9.4"},
	{inMajor, "III", "", aMinor, Diatonic, Tonic, FitMajorIII, "", 0, "the mediant shares {third} and {fifth} with the tonic and stands in for it", hutchinson + "9.4"},
	{inMajor, "IV", "", aMajor | aSus, Diatonic, Predominant, FitMajorIV, "", 0, "the subdominant moves away from the tonic", hutchinson + "9.4"},
	{inMajor, "V", "", aTriad | aSus, Diatonic, Dominant, FitV, "I", 0, "the dominant: its third is the leading tone of {key}", hutchinson + "9.4"},
	{inMajor, "V", "", aSeventh | aSus7 | anAug, Diatonic, Dominant, FitV7, "I", 0, "the dominant: its third is the leading tone of {key}", hutchinson + "9.4"},
	{inMajor, "VI", "", aMinor, Diatonic, Tonic, FitMajorVI, "", 0, "the submediant, the relative minor's chord, shares two notes with the tonic", hutchinson + "9.4"},
	{inMajor, "VII", "", aDim | aHalfDim, Diatonic, Dominant, FitVII, "I", 0, "the leading-tone chord: a dominant without its root", hutchinson + "9.4"},

	// The minor key's own chords: natural, harmonic and melodic together.
	{inMinor, "I", "", kinds(1<<kMinor|1<<kPower) | aSus, Diatonic, Tonic, FitMinorI, "", arrives, "the tonic: {key} rests here", hutchinson + "8.3"},
	{inMinor, "I", "", kinds(1 << kMinor7), Diatonic, Tonic, FitMinorI7, "", arrives, "the tonic with its minor seventh", hutchinson + "8.3"},
	{inMinor, "I", "", aMinor6, Diatonic, Tonic, FitMinorI6, "", arrives, "the tonic with a note of melodic minor", hutchinson + "3.3"},
	{inMinor, "I", "", aMinor64, Diatonic, Dominant, FitSixFour, "V", 0, "the tonic over its fifth leans on the dominant: it is no arrival", hutchinson + "9.4"},
	{inMinor, "I", "", aMinor64, Diatonic, Tonic, FitSixFourPassing, "", 0, "the tonic over its fifth, in passing", practice},
	{inMinor, "II", "", aHalfDim | aDim, Diatonic, Predominant, FitMinorII, "", 0, "the two of {key}: half-diminished, since the key lowers the sixth", hutchinson + "9.4"},
	{inMinor, "II", "", aMinor, Diatonic, Predominant, FitMelodicII, "", 0, "the two with the raised sixth of melodic minor", practice},
	{inMinor, "bIII", "", aMajor | anAug | anAugMaj7, Diatonic, Tonic, FitMinorIII, "", 0, "the relative major's chord, in the minor key", hutchinson + "8.3"},
	{inMinor, "IV", "", kinds(1<<kMinor|1<<kMinor7|1<<kMinor6|1<<kPower) | aSus, Diatonic, Predominant, FitMinorIV, "", 0, "the subdominant of {key}", hutchinson + "8.3"},
	{inMinor, "IV", "", kinds(1<<kMajor|1<<kMajor6) | aSeventh, Diatonic, Predominant, FitMelodicIV, "", 0, "the subdominant made major by the raised sixth of melodic minor", hutchinson + "9.5"},
	{inMinor, "V", "", kinds(1<<kMajor) | aSus, Diatonic, Dominant, FitMinorV, "I", 0, "the dominant, with the raised seventh of harmonic minor", hutchinson + "8.3"},
	{inMinor, "V", "", aSeventh | aSus7 | anAug, Diatonic, Dominant, FitMinorV7, "I", 0, "the dominant, with the raised seventh of harmonic minor", hutchinson + "8.3"},
	{inMinor, "V", "", aMinor | kinds(1<<kPower), Diatonic, Dominant, FitNaturalV, "", 0, "the dominant of natural minor, without a leading tone", hutchinson + "7.3"},
	{inMinor, "bVI", "", aMajor, Diatonic, Predominant, FitMinorVI, "", 0, "the submediant of {key}", hutchinson + "8.3"},
	{inMinor, "VI", "", aHalfDim | aDim, Diatonic, Tonic, FitMelodicVI, "", 0, "the raised sixth of melodic minor carries it", hutchinson + "21.7"},
	{inMinor, "bVII", "", aMajor | aSus, Diatonic, Dominant, FitMinorVII, "", 0, "the subtonic of natural minor", hutchinson + "9.4"},
	{inMinor, "bVII", "", aSeventh | aSus7, Diatonic, Dominant, FitMinorVII7, "", 0, "the subtonic seventh of natural minor", hutchinson + "9.4"},
	{inMinor, "VII", "", aDim | aDim7, Diatonic, Dominant, FitMinorLeading, "I", 0, "the leading-tone chord of harmonic minor", hutchinson + "8.3"},

	// Borrowed from the parallel key.
	{inMajor, "I", "", kinds(1<<kMinor|1<<kMinor7) | aMinor6, Borrowed, Tonic, FitBorrowedI, "", 0, "the tonic darkened: its third is borrowed from the parallel minor", hutchinson + "19.1"},
	{inMajor, "II", "", aHalfDim | aDim, Borrowed, Predominant, FitBorrowedII, "", 0, "the two borrowed from the parallel minor, with its lowered sixth", hutchinson + "19.1"},
	{inMajor, "bIII", "", aMajor, Borrowed, Tonic, FitBorrowedIII, "", 0, "borrowed from the parallel minor, whose relative major it is", hutchinson + "19.1"},
	{inMajor, "IV", "", aMinor | aMinor6, Borrowed, Predominant, FitBorrowedIV, "", 0, "the minor subdominant, borrowed from the parallel minor", hutchinson + "19.1"},
	{inMajor, "V", "", aMinor, Borrowed, Dominant, FitBorrowedV, "", 0, "the minor dominant, borrowed: it has no leading tone", practice},
	{inMajor, "bVI", "", aMajor, Borrowed, Predominant, FitBorrowedVI, "", 0, "borrowed from the parallel minor, a half step above the dominant", hutchinson + "19.1"},
	{inMajor, "bVII", "", aMajor | aSus | aSus7, Borrowed, Predominant, FitBorrowedVII, "", 0, "the subtonic, borrowed: a whole step below the tonic, without a leading tone", hutchinson + "9.6"},
	{inMajor, "VII", "", aDim7, Borrowed, Dominant, FitBorrowedLeading, "I", 0, "the leading-tone seventh of the parallel minor", hutchinson + "19.1"},
	{inMajor, "II", "", aTriad, Borrowed, Predominant, FitLydianII, "IV I", 0, "the lydian two: its third is the raised fourth, and it does not go to the dominant", practice},
	{inMinor, "I", "", kinds(1<<kMajor | 1<<kMajor6 | 1<<kMajor7), Borrowed, Tonic, FitPicardy, "", arrives, "the tonic brightened: a Picardy third", practice},
	{inBoth, "bII", "", aMajor, Neapolitan, Predominant, FitNeapolitan, "", 0, "the Neapolitan, a half step above the tonic", hutchinson + "20.1"},
	{inMinor, "bVI", "", aSeventh, AugmentedSixth, Predominant, FitAugmentedSixth, "V I", 0, "an augmented sixth: its seventh is heard as the raised fourth and opens to the dominant", hutchinson + "21.5"},

	// Dominants of the home key by other ways.
	{inMajor, "bVII", "", aSeventh, BackdoorDominant, Dominant, FitBackdoor, "I III", 0, "the backdoor dominant: it comes home by a whole step", omt + "Jazz: substitutions"},
	{inBoth, "bII", "", aSeventh, TritoneSubstitute, Dominant, FitTritone, "I", 0, "the tritone substitute of the dominant: same third and seventh, root a half step above home", omt + "Jazz: substitutions"},
	{inMajor, "#IV", "", aHalfDim, Chromatic, Predominant, FitSharpFour, "IV III", 0, "half-diminished on the raised fourth, on its way down", practice},

	// Dominant sevenths at rest.
	{inMajor, "I", "", aSeventh, BluesDominant, Tonic, FitBluesI, "", blue | arrives, "the tonic with a blue seventh: at rest, not on its way", hutchinson + "31.8"},
	{inMajor, "IV", "", aSeventh, BluesDominant, Predominant, FitBluesIV, "", blue, "the subdominant with a blue seventh: colour, no dominant", hutchinson + "31.8"},
	{inMinor, "I", "", aSeventh, BluesDominant, Tonic, FitBluesMinorI, "", blue, "the tonic with a blue third and seventh", practice},

	// Applied chords.
	{inMajor, "V", "II III IV V VI bIII bVI bVII bII", pulling, SecondaryDominant, Dominant, FitApplied, "I", 0, "the dominant of {target}", hutchinson + "17.3"},
	{inMajor, "V", "II III V VI", aTriad, SecondaryDominant, Dominant, FitAppliedTriad, "I", 0, "the dominant of {target}", hutchinson + "17.3"},
	{inMajor, "V", "VII #IV", aSeventh, SecondaryDominant, Dominant, FitAppliedChain, "I", strictly, "the dominant of {target}, in a chain of dominants", practice},
	{inMinor, "V", "bIII IV V bVI bVII II bII", pulling, SecondaryDominant, Dominant, FitApplied, "I", 0, "the dominant of {target}", hutchinson + "17.3"},
	{inMinor, "V", "IV V II", kinds(1 << kMajor), SecondaryDominant, Dominant, FitAppliedTriad, "I", 0, "the dominant of {target}", hutchinson + "17.3"},
	{inBoth, "VII", "II III IV V VI bIII bVI bVII", aDim | aDim7, SecondaryLeadingTone, Dominant, FitAppliedLeading, "I", 0, "the leading-tone chord of {target}", hutchinson + "18.1"},
	{inBoth, "VII", "IV V bIII bVI bVII", aHalfDim, SecondaryLeadingTone, Dominant, FitAppliedHalfDim, "I", 0, "the leading-tone chord of {target}", hutchinson + "18.1"},
	{inMajor, "II", "IV bIII bVI bVII bII VII #IV", aMinor | aHalfDim, RelatedTwo, Predominant, FitRelatedTwo, toDominant, strictly, "the two that belongs to the dominant of {target}", omt + "Jazz: ii–V–I"},
	{inMajor, "II", "III VI II", aHalfDim, RelatedTwo, Predominant, FitRelatedTwo, toDominant, strictly, "the two that belongs to the dominant of {target}", omt + "Jazz: ii–V–I"},
	{inMajor, "II", "III VI", aMinor, RelatedTwo, Predominant, FitRelatedTwo, toDominant, strictly, "the two that belongs to the dominant of {target}", omt + "Jazz: ii–V–I"},
	{inMajor, "II", "II V", aMinor, RelatedTwo, Predominant, FitRelatedTwoDiatonic, toDominant, strictly, "the two that belongs to the dominant of {target}", omt + "Jazz: ii–V–I"},
	{inMajor, "II", "V", aHalfDim, RelatedTwo, Predominant, FitRelatedTwo, toDominant, strictly, "the two that belongs to the dominant of {target}", practice},
	{inMinor, "II", "bIII IV V bVI bVII II bII", aMinor | aHalfDim, RelatedTwo, Predominant, FitRelatedTwo, toDominant, strictly, "the two that belongs to the dominant of {target}", omt + "Jazz: ii–V–I"},
	{inMajor, "bII", "II III IV V VI bIII bVI bVII", aSeventh, TritoneSubstitute, Dominant, FitTritoneApplied, "I", 0, "the tritone substitute for the dominant of {target}", omt + "Jazz: substitutions"},
	{inMinor, "bII", "II bIII IV V bVI bVII", aSeventh, TritoneSubstitute, Dominant, FitTritoneApplied, "I", 0, "the tritone substitute for the dominant of {target}", omt + "Jazz: substitutions"},
	{inBoth, "II", "II III IV V VI bIII bVI bVII", aSeventh, SecondaryDominant, Predominant, FitDominantTwo, toDominant, strictly, "a two of dominant quality: it goes to the dominant of {target}", practice},

	// Diminished sevenths by behaviour.
	{inBoth, "#I #II #IV #V", "", aDim7 | aDim, PassingDiminished, Dominant, FitDimAscending, "up", asWritten, "a diminished chord filling the whole step upward", hutchinson + "18.1"},
	{inBoth, "bIII", "", aDim7 | aDim, PassingDiminished, NoFunction, FitDimDescending, "II", strictly, "a diminished chord filling the step from III down to II", practice},
	{inBoth, "bII", "", aDim7 | aDim, PassingDiminished, NoFunction, FitDimDescending, "I", strictly, "a diminished chord filling the step from II down to I", practice},
	{inBoth, "bVI", "", aDim7 | aDim, PassingDiminished, NoFunction, FitDimDescending, "V", strictly, "a diminished chord filling the step from VI down to V", practice},
	{inBoth, "I #II #IV", "", aDim7, CommonToneDiminished, NoFunction, FitDimCommonTone, "I", asWritten | strictly, "a common-tone diminished chord: it embellishes the tonic and shares a note with it", practice},
	{inBoth, "V", "", aDim7, CommonToneDiminished, NoFunction, FitDimCommonTone, "V", asWritten | strictly, "a common-tone diminished chord: it embellishes the dominant and shares its root", practice},
	{inBoth, "IV", "", aDim7, CommonToneDiminished, NoFunction, FitDimCommonTone, "IV", asWritten | strictly, "a common-tone diminished chord: it embellishes the subdominant and shares its root", practice},

	// A moving voice over one harmony.
	{inMajor, "I", "", anAug | anAugMaj7, Chromatic, Tonic, FitLineI, "I IV", 0, "the tonic with its fifth on the move", practice},

	// Whatever is left: always correct, seldom telling.
	{inBoth, "I bII II bIII III IV bV V bVI VI bVII VII", "", anything &^ (aHalfDim | aDim | aDim7), Chromatic, NoFunction, FitChromatic, "", asWritten, "named by its degree: no function in {key}", practice},
	{inBoth, "I #I II #II III IV #IV V #V VI bVII VII", "", aHalfDim | aDim | aDim7, Chromatic, NoFunction, FitChromatic, "", asWritten, "named by its degree: no function in {key}", practice},
}
