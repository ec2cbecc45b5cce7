package function

// Function is what a chord does in its key: it rests, prepares, or pulls.
type Function uint8

const (
	NoFunction  Function = iota // colour: common-tone chords, silence
	Tonic                       // rest
	Predominant                 // prepares the dominant, or the plagal return
	Dominant                    // pulls to a tonic
)

var functionNames = [...]string{"none", "tonic", "predominant", "dominant"}

// String is the function in lower case.
func (f Function) String() string { return nameOf(functionNames[:], int(f)) }

// Role is the device by which a chord belongs to its key.
type Role uint8

const (
	Silence              Role = iota // N.C.
	Diatonic                         // of the key's own scale
	SecondaryDominant                // V or V7 of another degree
	SecondaryLeadingTone             // VIIdim7 or VIIm7b5 of another degree
	RelatedTwo                       // the two of a secondary dominant or substitute
	TritoneSubstitute                // the dominant a tritone from the expected one
	Borrowed                         // modal mixture: from the parallel key or mode
	BackdoorDominant                 // bVII7 going home
	BluesDominant                    // a dominant seventh at rest on I or IV
	PassingDiminished                // a diminished chord filling a step
	CommonToneDiminished             // a diminished chord embellishing its neighbour
	Neapolitan                       // bII before the dominant or the tonic
	AugmentedSixth                   // bVI7 falling to V in minor
	Chromatic                        // none of these: named by its bare degree
)

var roleNames = [...]string{
	"silence", "diatonic", "secondary-dominant", "secondary-leading-tone", "related-two", "tritone-substitute", "borrowed",
	"backdoor-dominant", "blues-dominant", "passing-diminished", "common-tone-diminished", "neapolitan", "augmented-sixth", "chromatic",
}

// String is the role's name in lower case, words joined by hyphens.
func (r Role) String() string { return nameOf(roleNames[:], int(r)) }

func nameOf(names []string, i int) string {
	if i >= len(names) {
		return "invalid"
	}
	return names[i]
}
