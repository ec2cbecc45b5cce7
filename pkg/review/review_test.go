package review_test

import (
	"errors"
	"fmt"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fifthwise/pkg/chart"
	"fifthwise/pkg/function"
	"fifthwise/pkg/key"
	"fifthwise/pkg/pitch"
	"fifthwise/pkg/review"
)

const (
	blank       = review.Blank
	agrees      = review.Agrees
	defensible  = review.Defensible
	contradicts = review.Contradicts
)

// said is a numeral of an answer with its mark. Of what agrees or is blank the
// reason is the reading's own.
type said struct {
	numeral  string
	verdict  review.Verdict
	expected string
	reason   string
}

// shares are the percentages in a sentence. They are the search's own and move with
// its costs, so that sentences are compared without them.
var shares = regexp.MustCompile(`[0-9.]+%`)

func withoutShares(s string) string { return shares.ReplaceAllString(s, "n%") }

// The verdicts are common practice, no source, but for those of handbooks beside
// whose names a source stands.
var marked = []struct {
	name, chart, regions string
	marks                []said
}{
	{"the reading in capitals", "| Fmaj7 | Am7 D7b9/F# | Gm7 | Gb7 | F6 |", "F major 1", []said{
		{"Imaj7", agrees, "Imaj7", ""},
		{"IIIm7", agrees, "IIIm7", ""},
		{"V7b9/II", agrees, "V7b9/II", ""},
		{"IIm7", agrees, "IIm7", ""},
		{"subV7", agrees, "subV7", ""},
		{"I6", agrees, "I6", ""},
	}},
	{"the reading in cased numerals", "| Fmaj7 | Am7 D7b9/F# | Gm7 | Gb7 | F6 |", "F major 1", []said{
		{"Imaj7", agrees, "Imaj7", ""},
		{"iii7", agrees, "IIIm7", ""},
		{"V7/ii", agrees, "V7b9/II", ""},
		{"ii7", agrees, "IIm7", ""},
		{"sub V7", agrees, "subV7", ""},
		{"I", agrees, "I6", ""},
	}},
	{"the reading in figures", "| Fmaj7 | Am7 D7b9/F# | Gm7 | Gb7 | F6 |", "F major 1", []said{
		{"1maj7", agrees, "Imaj7", ""},
		{"3m7", agrees, "IIIm7", ""},
		{"5 7/2", agrees, "V7b9/II", ""},
		{"2-7", agrees, "IIm7", ""},
		{"sub5 7", agrees, "subV7", ""},
		{"1", agrees, "I6", ""},
	}},
	{"in the words of players", "| Fmaj7 | Am7 D7b9/F# | Gm7 | Gb7 | F6 |", "", []said{
		{"IΔ7", agrees, "Imaj7", ""},
		{"iii-7", agrees, "IIIm7", ""},
		{"V7(b9) of ii", agrees, "V7b9/II", ""},
		{"ii-7", agrees, "IIm7", ""},
		{"bII7", defensible, "subV7", "The bare degree says where the chord stands, not what it does. The tritone substitute of V7: it shares E and Bb with it, and Gb is a half step above F; it goes to F6."},
		{"I69", agrees, "I6", ""},
	}},
	{"bare degrees in capitals", "| Fmaj7 | Am7 D7b9/F# | Gm7 | Gb7 | F6 |", "F major 1", []said{
		{"I", agrees, "Imaj7", ""},
		{"III", agrees, "IIIm7", ""},
		{"VI", defensible, "V7b9/II", "The bare degree is a correct name, if a less telling one. The dominant of II: F# is the leading tone to G; it goes to Gm7."},
		{"II", agrees, "IIm7", ""},
		{"bII", defensible, "subV7", "The bare degree says where the chord stands, not what it does. The tritone substitute of V7: it shares E and Bb with it, and Gb is a half step above F; it goes to F6."},
		{"I", agrees, "I6", ""},
	}},
	{"bare degrees where lower case tells", "| Fmaj7 | Am7 D7b9/F# | Gm7 | Gb7 | F6 |", "F major 1", []said{
		{"I", agrees, "Imaj7", ""},
		{"III", contradicts, "IIIm7", "III in F major spells A; the chart has Am7."},
		{"VI", defensible, "V7b9/II", "The bare degree is a correct name, if a less telling one. The dominant of II: F# is the leading tone to G; it goes to Gm7."},
		{"ii", agrees, "IIm7", ""},
		{"V", contradicts, "subV7", "V in F major spells C; the chart has Gb7."},
		{"I", agrees, "I6", ""},
	}},
	{"dominants aimed elsewhere", "| Fmaj7 | Am7 D7b9/F# | Gm7 | Gb7 | F6 |", "F major 1", []said{
		{"V7/IV", contradicts, "Imaj7", "V7/IV in F major spells F7; the chart has Fmaj7."},
		{"V7/II", contradicts, "IIIm7", "V7/II in F major spells D7; the chart has Am7."},
		{"V7/III", contradicts, "V7b9/II", "V7/III in F major spells E7; the chart has D7b9/F#."},
		{"II7/IV", contradicts, "IIm7", "II7/IV in F major spells C7; the chart has Gm7."},
		{"subV7/V", contradicts, "subV7", "subV7/V in F major spells Db7; the chart has Gb7."},
		{"VIm7", contradicts, "I6", "VIm7 in F major spells Dm7; the chart has F6."},
	}},
	{"left blank", "| Fmaj7 | Am7 D7b9/F# | Gm7 | Gb7 | F6 |", "F major 1", []said{
		{"Imaj7", agrees, "Imaj7", ""},
		{"", blank, "IIIm7", ""},
		{"", blank, "V7b9/II", ""},
		{"IIm7", agrees, "IIm7", ""},
		{" ", blank, "subV7", ""},
		{"I6", agrees, "I6", ""},
	}},
	{"a run of dominants", "| C | E7 | A7 | D7 | G7 | C |", "C major 1", []said{
		{"I", agrees, "I", ""},
		{"II7/II", defensible, "V7/VI", "II7/II has a probability of n%. A two of dominant quality: with the next dominant it aims at D. V7/VI has n%. The dominant of VI: G# is the leading tone to A; it goes to A7."},
		{"II7/V", defensible, "V7/II", "II7/V has a probability of n%. A two of dominant quality: with the next dominant it aims at G. V7/II has n%. The dominant of II: C# is the leading tone to D; it goes to D7."},
		{"II7", defensible, "V7/V", "The bare degree is a correct name, if a less telling one. The dominant of V: F# is the leading tone to G; it goes to G7."},
		{"V7", agrees, "V7", ""},
		{"I", agrees, "I", ""},
	}},
	{"a run of dominants by bare degrees", "| C | E7 | A7 | D7 | G7 | C |", "C major 1", []said{
		{"I", agrees, "I", ""},
		{"III7", defensible, "V7/VI", "The bare degree is a correct name, if a less telling one. The dominant of VI: G# is the leading tone to A; it goes to A7."},
		{"VI7", defensible, "V7/II", "The bare degree is a correct name, if a less telling one. The dominant of II: C# is the leading tone to D; it goes to D7."},
		{"II7", defensible, "V7/V", "The bare degree is a correct name, if a less telling one. The dominant of V: F# is the leading tone to G; it goes to G7."},
		{"V7", agrees, "V7", ""},
		{"I", agrees, "I", ""},
	}},
	{"diminished sevenths by sound", "| C | C#dim7 | Dm7 | F#dim7 | G7 | C |", "C major 1", []said{
		{"I", agrees, "I", ""},
		{"viio7/ii", agrees, "VIIdim7/II", ""},
		{"ii7", agrees, "IIm7", ""},
		{"#iv°7", defensible, "VIIdim7/V", "#iv°7 has a probability of n%. A passing diminished chord: F# leads up a half step to G. VIIdim7/V has n%. The leading-tone chord of V: it stands on F#, a half step below G; it goes to G7."},
		{"V7", agrees, "V7", ""},
		{"I", agrees, "I", ""},
	}},
	{"diminished sevenths on another of their notes", "| C | C#dim7 | Dm7 | F#dim7 | G7 | C |", "C major 1", []said{
		{"Imaj7", agrees, "I", ""},
		{"bIIIdim7", contradicts, "VIIdim7/II", "bIIIdim7 in C major spells Ebdim7; the chart has C#dim7."},
		{"IIm7", agrees, "IIm7", ""},
		{"Idim7", defensible, "VIIdim7/V", "It sounds the same: a diminished seventh can be named from any of its notes. The leading-tone chord of V: it stands on F#, a half step below G; it goes to G7."},
		{"V7", agrees, "V7", ""},
		{"I", agrees, "I", ""},
	}},
	{"suspended dominants", "| Dm7 | Dm7/G | G7 | Cmaj7 |", "C major 1", []said{
		{"IIm7", agrees, "IIm7", ""},
		{"V9sus", agrees, "V9sus", ""},
		{"V7", agrees, "V7", ""},
		{"Imaj7", agrees, "Imaj7", ""},
	}},
	{"suspended dominants by their upper chord", "| Dm7 | Dm7/G | G7 | Cmaj7 |", "C major 1", []said{
		{"IIm7", agrees, "IIm7", ""},
		{"IIm7", defensible, "V9sus", "The bare degree is a correct name, if a less telling one. The dominant of C major, suspended: it holds back the leading tone B; by way of G7 it resolves to Cmaj7."},
		{"V7sus", contradicts, "V7", "V7sus in C major spells G7sus4; the chart has G7."},
		{"Imaj7", agrees, "Imaj7", ""},
	}},
	{"handbook figures", "| C/E | Dm/F | G7/B | C/G G | Bdim/D | C |", "C major 1", []said{
		{"I6", agrees, "I", ""},
		{"ii6", agrees, "IIm", ""},
		{"V6/5", agrees, "V7", ""},
		{"V64", defensible, "I", "Handbooks name a tonic over its fifth by the dominant that follows. The tonic over its fifth, G, leans on the dominant and is no arrival; it goes to G."},
		{"V", agrees, "V", ""},
		{"viio6", agrees, "VIIdim", ""},
		{"I", agrees, "I", ""},
	}},
	{"handbook figures in a long form", "| C/E | Dm7/F | G7/D | C/G G/F | Bm7b5/A | C |", "C major 1", []said{
		{"I/3rd", agrees, "I", ""},
		{"ii65", agrees, "IIm7", ""},
		{"V4/3", agrees, "V7", ""},
		{"I6/4", agrees, "I", ""},
		{"V42", agrees, "V7", ""},
		{"viiø42", agrees, "VIIm7b5", ""},
		{"I", agrees, "I", ""},
	}},
	{"minor by its own scale", "| Am | F | C | G7/B | C | E7 | Am |", "A minor 1", []said{
		{"i", agrees, "Im", ""},
		{"VI", defensible, "IV", "VI has a probability of n%. The submediant of A minor: F is a half step above the dominant, E. IV of C major has n%. The subdominant of C major: F is a fifth below C; as bVI of A minor it joins the two keys."},
		{"III", defensible, "I", "A minor can be heard in this passage, with a probability of n%. The mediant of A minor: C is the third of the tonic chord. I of C major is likelier. C is the tonic: C major rests here."},
		{"V65/III", defensible, "V7", "It goes to C, the goal that it names. The dominant of C major: B is the leading tone to C; it goes to C."},
		{"III", defensible, "I", "The chord belongs to C major and to A minor. C is the tonic: C major rests here; as bIII of A minor it joins the two keys."},
		{"V7", agrees, "V7", ""},
		{"i", agrees, "Im", ""},
	}},
	{"minor by our counting", "| Am | F | C | G7/B | C | E7 | Am |", "A minor 1", []said{
		{"Im", agrees, "Im", ""},
		{"bVI", defensible, "IV", "bVI has a probability of n%. The submediant of A minor: F is a half step above the dominant, E. IV of C major has n%. The subdominant of C major: F is a fifth below C; as bVI of A minor it joins the two keys."},
		{"bIII", defensible, "I", "A minor can be heard in this passage, with a probability of n%. The mediant of A minor: C is the third of the tonic chord. I of C major is likelier. C is the tonic: C major rests here."},
		{"bVII7", defensible, "V7", "A minor can be heard in this passage, with a probability of n%. The subtonic seventh of A minor: G is a whole step below A. V7 of C major is likelier. The dominant of C major: B is the leading tone to C; it goes to C."},
		{"bIII", defensible, "I", "The chord belongs to C major and to A minor. C is the tonic: C major rests here; as bIII of A minor it joins the two keys."},
		{"V7", agrees, "V7", ""},
		{"Im", agrees, "Im", ""},
	}},
	{"the leading tone and raised six of minor", "| Am | G#dim7 | Am | F#m7b5 | E7 | Am |", "A minor 1", []said{
		{"i", agrees, "Im", ""},
		{"#viio7", agrees, "VIIdim7", ""},
		{"i", agrees, "Im", ""},
		{"#viø7", agrees, "VIm7b5", ""},
		{"V7", agrees, "V7", ""},
		{"i", agrees, "Im", ""},
	}},
	{"an augmented sixth in major", "| C | Ab7 | G7 | C |", "C major 1", []said{
		{"I", agrees, "I", ""},
		{"Ger+6", defensible, "subV7/V", "Handbooks name it so: an augmented sixth. The tritone substitute for the dominant of V: Ab is a half step above G; it goes to G7."},
		{"V7", agrees, "V7", ""},
		{"I", agrees, "I", ""},
	}},
	{"the backdoor", "| Cmaj7 | Fm7 | Bb7 | Cmaj7 |", "C major 1", []said{
		{"Imaj7", agrees, "Imaj7", ""},
		{"IIm7/bIII", contradicts, "IVm7", "IIm7/bIII aims at Eb by way of Bb7, and Cmaj7 follows. The minor subdominant: Ab, the lowered sixth, is borrowed from C minor."},
		{"V7/bIII", contradicts, "bVII7", "V7/bIII aims at Eb, and Cmaj7 follows. The backdoor dominant: Bb is a whole step below C, and Ab leans down to G; it goes to Cmaj7."},
		{"Imaj7", agrees, "Imaj7", ""},
	}},
	{"a pivot", "| Cmaj7 | Dm7 G7 | Cmaj7 | Am7 | D7 | Gmaj7 | Gmaj7 | Am7 D7 | Gmaj7 | Gmaj7 |", "C major 1, G major 4", []said{
		{"Imaj7", agrees, "Imaj7", ""},
		{"IIm7", agrees, "IIm7", ""},
		{"V7", agrees, "V7", ""},
		{"Imaj7", agrees, "Imaj7", ""},
		{"IIm7", agrees, "IIm7", ""},
		{"V7", agrees, "V7", ""},
		{"Imaj7", agrees, "Imaj7", ""},
		{"I", agrees, "Imaj7", ""},
		{"IIm7", agrees, "IIm7", ""},
		{"V7", agrees, "V7", ""},
		{"Imaj7", agrees, "Imaj7", ""},
		{"I", agrees, "Imaj7", ""},
	}},
	{"a pivot read in the other key", "| Cmaj7 | Dm7 G7 | Cmaj7 | Am7 | D7 | Gmaj7 | Gmaj7 | Am7 D7 | Gmaj7 | Gmaj7 |", "C major 1, G major 5", []said{
		{"Imaj7", agrees, "Imaj7", ""},
		{"IIm7", agrees, "IIm7", ""},
		{"V7", agrees, "V7", ""},
		{"Imaj7", agrees, "Imaj7", ""},
		{"VIm7", defensible, "IIm7", "The chord belongs to G major and to C major. The two of G major: it prepares the dominant, D; as VIm7 of C major it joins the two keys."},
		{"V7", agrees, "V7", ""},
		{"Imaj7", agrees, "Imaj7", ""},
		{"I", agrees, "Imaj7", ""},
		{"IIm7", agrees, "IIm7", ""},
		{"V7", agrees, "V7", ""},
		{"Imaj7", agrees, "Imaj7", ""},
		{"I", agrees, "Imaj7", ""},
	}},
	{"a border moved over more than a pivot", "| Cmaj7 | Dm7 G7 | Cmaj7 | Am7 | D7 | Gmaj7 | Gmaj7 | Am7 D7 | Gmaj7 | Gmaj7 |", "C major 1, G major 7", []said{
		{"Imaj7", agrees, "Imaj7", ""},
		{"IIm7", agrees, "IIm7", ""},
		{"V7", agrees, "V7", ""},
		{"Imaj7", agrees, "Imaj7", ""},
		{"VIm7", defensible, "IIm7", "The chord belongs to G major and to C major. The two of G major: it prepares the dominant, D; as VIm7 of C major it joins the two keys."},
		{"V7/V", defensible, "V7", "It goes to G, the goal that it names. The dominant of G major: F# is the leading tone to G; it goes to Gmaj7."},
		{"Vmaj7", contradicts, "Imaj7", "It is read in C major, and the passage is heard in G major. Gmaj7 is the tonic: G major rests here."},
		{"I", agrees, "Imaj7", ""},
		{"IIm7", agrees, "IIm7", ""},
		{"V7", agrees, "V7", ""},
		{"Imaj7", agrees, "Imaj7", ""},
		{"I", agrees, "Imaj7", ""},
	}},
	{"a key that is not there", "| Cmaj7 | Dm7 G7 | Cmaj7 | Am7 | D7 | Gmaj7 | Gmaj7 | Am7 D7 | Gmaj7 | Gmaj7 |", "Eb major 1, G major 4", []said{
		{"VImaj7", contradicts, "Imaj7", "It is read in Eb major, which is not heard here; C major is."},
		{"VIIm7", contradicts, "IIm7", "It is read in Eb major, which is not heard here; C major is."},
		{"III7", contradicts, "V7", "It is read in Eb major, which is not heard here; C major is."},
		{"VI", contradicts, "Imaj7", "It is read in Eb major, which is not heard here; C major is."},
		{"IIm7", agrees, "IIm7", ""},
		{"V7", agrees, "V7", ""},
		{"Imaj7", agrees, "Imaj7", ""},
		{"I", agrees, "Imaj7", ""},
		{"IIm7", agrees, "IIm7", ""},
		{"V7", agrees, "V7", ""},
		{"Imaj7", agrees, "Imaj7", ""},
		{"I", agrees, "Imaj7", ""},
	}},
	{"repeats and silences", "|: Dm7 G7 | Cmaj7 :| N.C. | Dm7 G7 | C6 |", "C major 1", []said{
		{"IIm7", agrees, "IIm7", ""},
		{"V7", agrees, "V7", ""},
		{"Imaj7", agrees, "Imaj7", ""},
		{"IIm7", agrees, "IIm7", ""},
		{"V7", agrees, "V7", ""},
		{"", blank, "Imaj7", ""},
		{"IIm7", agrees, "IIm7", ""},
		{"V7", agrees, "V7", ""},
		{"I6", agrees, "I6", ""},
	}},
	{"a bare degree in a key that can be heard", "| Am | F | C | G7/B | C | E7 | Am |", "C major 1", []said{
		{"vi", defensible, "Im", "vi has a probability of n%. In C major, the submediant shares C and E with the tonic chord. Im of A minor has n%. Am is the tonic: A minor rests here."},
		{"IV", agrees, "IV", ""},
		{"I", agrees, "I", ""},
		{"V7", agrees, "V7", ""},
		{"I", agrees, "I", ""},
		{"III7", defensible, "V7", "The bare degree is a correct name in C major, which can be heard in this passage; V7 of A minor is likelier. The dominant of A minor: harmonic minor lends it the leading tone G#; it goes to Am."},
		{"vi", defensible, "Im", "vi has a probability of n%. In C major, the submediant shares C and E with the tonic chord. Im of A minor has n%. Am is the tonic: A minor rests here."},
	}},
	{"one chord", "| Cmaj7 |", "", []said{
		{"V7/IV", contradicts, "Imaj7", "V7/IV in C major spells C7; the chart has Cmaj7."},
	}},
	{"another spelling of the key", "| Abm7 | Db7 | Gbmaj7 | Gbmaj7 |", "F# major 1", []said{
		{"IIm7", agrees, "IIm7", ""},
		{"V7", agrees, "V7", ""},
		{"Imaj7", agrees, "Imaj7", ""},
		{"I", agrees, "Imaj7", ""},
	}},
	{"sharps for flats", "| Cmaj7 | Ebmaj7 | Abmaj7 | Dbmaj7 | Cmaj7 |", "C major 1", []said{
		{"I", agrees, "Imaj7", ""},
		{"#IImaj7", agrees, "bIIImaj7", ""},
		{"#Vmaj7", agrees, "bVImaj7", ""},
		{"#Imaj7", agrees, "bIImaj7", ""},
		{"I", agrees, "Imaj7", ""},
	}},
	{"a two whose goal comes", "| Cmaj7 | Em7 | A7 | Dm7 | G7 | Cmaj7 |", "C major 1", []said{
		{"Imaj7", agrees, "Imaj7", ""},
		{"IIm7/II", defensible, "IIIm7", "IIm7/II has a probability of n%. Of the key itself, but heard with the next dominant: together a two-five to D. IIIm7 has n%. The mediant shares E and G with the tonic chord and stands in for it."},
		{"V7/II", agrees, "V7/II", ""},
		{"IIm7", agrees, "IIm7", ""},
		{"V7", agrees, "V7", ""},
		{"Imaj7", agrees, "Imaj7", ""},
	}},
	{"a goal that does not come", "| Cmaj7 | E7 | Fmaj7 | G7 | Cmaj7 | B7 |", "C major 1", []said{
		{"Imaj7", agrees, "Imaj7", ""},
		{"V7/VI", agrees, "V7/VI", ""},
		{"IVmaj7", agrees, "IVmaj7", ""},
		{"V7", agrees, "V7", ""},
		{"Imaj7", agrees, "Imaj7", ""},
		{"subV7/bVII", contradicts, "V7/III", "subV7/bVII aims at Bb, and Cmaj7 follows at the top. The dominant of III: D# is the leading tone to E; it is turned aside to Cmaj7, a deceptive resolution."},
	}},
	{"what prepares an applied dominant", "| Bbmaj7 | Fm6 | G7 | Cm7 | F7 | Bbmaj7 | Ab7 | G7 | Cm7 | F7 | Bbmaj7 |", "Bb major 1", []said{
		{"Imaj7", agrees, "Imaj7", ""},
		{"iv6/ii", defensible, "Vm6", "It goes to C by way of G7, the goal that it names. Ab is foreign to Bb major; it shares F and D with G7 after it."},
		{"V7/ii", agrees, "V7/II", ""},
		{"ii7", agrees, "IIm7", ""},
		{"V7", agrees, "V7", ""},
		{"Imaj7", agrees, "Imaj7", ""},
		{"bVI7/ii", defensible, "subV7/VI", "It goes to C by way of G7, the goal that it names. The tritone substitute for the dominant of VI: Ab is a half step above G; it goes to G7."},
		{"V7/ii", agrees, "V7/II", ""},
		{"ii7", agrees, "IIm7", ""},
		{"V7", agrees, "V7", ""},
		{"Imaj7", agrees, "Imaj7", ""},
	}},
	{"what prepares a dominant that does not come", "| Bbmaj7 | Ab7 | Cm7 | F7 | Bbmaj7 | Ab6 | Bbmaj7 |", "Bb major 1", []said{
		{"Imaj7", agrees, "Imaj7", ""},
		{"bVI7/ii", contradicts, "bVII7", "bVI7/ii is no reading of Ab7 in Bb major. The backdoor dominant: Ab is a whole step below Bb, and Gb leans down to F; it does not resolve: Cm7 follows."},
		{"ii7", agrees, "IIm7", ""},
		{"V7", agrees, "V7", ""},
		{"Imaj7", agrees, "Imaj7", ""},
		{"IV/IV", contradicts, "bVII6", "IV/IV aims at Eb, and Bbmaj7 follows. Ab, the lowered seventh of Bb mixolydian, is a whole step below Bb."},
		{"Imaj7", agrees, "Imaj7", ""},
	}},
	{"the subdominant of the subdominant", "| C | Bb | F | C | G | C |", "C major 1", []said{
		{"I", agrees, "I", ""},
		{"IV/IV", defensible, "bVII", "It goes to F, the goal that it names. Bb, the lowered seventh of C mixolydian, is a whole step below C."},
		{"IV", agrees, "IV", ""},
		{"I", agrees, "I", ""},
		{"II/IV", contradicts, "V", "II/IV aims at F by way of C, and C follows at the top. The dominant of C major: B is the leading tone to C; it goes to C."},
		{"I", agrees, "I", ""},
	}},
	{"a key that was not told", "| Fmaj7 | Gm7 C7 | Fmaj7 | Dm7 | G7 | Cmaj7 | Dm7 G7 | Cmaj7 | Gm7 C7 | Fmaj7 |", "", []said{
		{"1maj7", agrees, "Imaj7", ""},
		{"2m7", agrees, "IIm7", ""},
		{"57", agrees, "V7", ""},
		{"1", agrees, "Imaj7", ""},
		{"6m7", contradicts, "IIm7", "6m7 in C major spells Am7; the chart has Dm7, which it is in F major."},
		{"27", contradicts, "V7", "27 in C major spells D7; the chart has G7, which it is in F major."},
		{"5maj7", contradicts, "Imaj7", "5maj7 in C major spells Gmaj7; the chart has Cmaj7, which it is in F major."},
		{"6m", contradicts, "IIm7", "6m in C major spells Am; the chart has Dm7, which it is in F major."},
		{"2", contradicts, "V7", "2 in C major spells D; the chart has G7, which it is in F major."},
		{"5", contradicts, "Imaj7", "5 in C major spells G; the chart has Cmaj7, which it is in F major."},
		{"2m7", agrees, "IIm7", ""},
		{"57", agrees, "V7", ""},
		{"1", agrees, "Imaj7", ""},
	}},
	{"what a seventh adds", "| C | G | C | Am |", "C major 1", []said{
		{"Imaj7", agrees, "I", ""},
		{"V7", contradicts, "V", "V7 in C major spells G7; the chart has G."},
		{"I7", contradicts, "I", "I7 in C major spells C7; the chart has C."},
		{"VIm7", agrees, "VIm", ""},
	}},
	{"the dominant of the goal that comes", "| C | Eb | Ab | G7 | C |", "C major 1", []said{
		{"I", agrees, "I", ""},
		{"V/bVI", defensible, "bIII", "It goes to Ab, the goal that it names. Borrowed from C minor: Eb is the lowered third."},
		{"bVI", agrees, "bVI", ""},
		{"V7", agrees, "V7", ""},
		{"I", agrees, "I", ""},
	}},
	{"wrong qualities", "| Dm7 | G7 | Cmaj7 | Bm7b5 |", "C major 1", []said{
		{"IIm7b5", contradicts, "IIm7", "IIm7b5 in C major spells Dm7b5; the chart has Dm7."},
		{"Vm7", contradicts, "V7", "Vm7 in C major spells Gm7; the chart has G7."},
		{"Im7", contradicts, "Imaj7", "Im7 in C major spells Cm7; the chart has Cmaj7."},
		{"VIIm7", contradicts, "VIIm7b5", "VIIm7 in C major spells Bm7; the chart has Bm7b5."},
	}},
}

// regionsOf reads regions such as "F major 1, C major 5@3 x2": key, bar, beat, time.
func regionsOf(t testing.TB, text string) (list []review.Region) {
	t.Helper()
	for part := range strings.SplitSeq(text, ", ") {
		words := strings.Fields(part)
		if len(words) == 0 {
			continue
		}
		g := review.Region{Key: key.MustParse(words[0] + " " + words[1])}
		bar, beat, hasBeat := strings.Cut(words[2], "@")
		_, err := fmt.Sscan(bar, &g.Bar)
		require.NoError(t, err)
		if hasBeat {
			g.Beat = chart.MustParseBeats(beat)
		}
		if len(words) > 3 {
			_, err := fmt.Sscanf(words[3], "x%d", &g.Pass)
			require.NoError(t, err)
		}
		list = append(list, g)
	}
	return list
}

func TestMarks(t *testing.T) {
	for _, tt := range marked {
		t.Run(tt.name, func(t *testing.T) {
			a := function.Analyze(chartOf(t, tt.chart))
			answer := review.Answer{Regions: regionsOf(t, tt.regions), Numerals: []string{}}
			for _, s := range tt.marks {
				answer.Numerals = append(answer.Numerals, s.numeral)
			}
			r, err := review.Of(&a, answer)
			require.NoError(t, err)
			for i, m := range r.Chords {
				want := tt.marks[i]
				if want.reason == "" {
					want.reason = a.Reason(m.Chord)
				}
				assert.Equal(t, want, said{answer.Numerals[i], m.Verdict, m.Expected, withoutShares(m.Reason)}, "chord %d", m.Chord)
			}
		})
	}
}

// A tune with a pivot: Am7 is VI of C and II of G.
const pivot = "| Cmaj7 | Dm7 G7 | Cmaj7 | Am7 | D7 | Gmaj7 | Gmaj7 | Am7 D7 | Gmaj7 | Gmaj7 |"

func TestRegions(t *testing.T) {
	tests := []struct {
		name, chart, regions string
		want                 []string // verdict, expected: reason
		score                float64  // without numerals
	}{
		{"as read", pivot, "C major 1, G major 4", []string{
			"agrees C major: C major is heard here.",
			"agrees G major: G major is heard here.",
		}, 1},
		{"the first alone, to the end", pivot, "C major 1", []string{
			"defensible G major: C major can be heard here, with a probability of n%; G major is likelier.",
		}, .4},
		{"the second alone", pivot, "G major 4", []string{"agrees G major: G major is heard here."}, .7},
		{"a border behind the pivot", pivot, "C major 1, G major 5", []string{
			"defensible C major: C major is heard here, but G major at Am7 in bar 4.",
			"defensible G major: G major is heard here, but it begins with Am7 in bar 4.",
		}, 1},
		{"a border far behind the pivot", pivot, "C major 1, G major 9", []string{
			"defensible G major: C major can be heard here, with a probability of n%; G major is likelier.",
			"defensible G major: G major is heard here, but it begins with Am7 in bar 4.",
		}, .6},
		{"a border before the pivot", pivot, "C major 1, G major 3", []string{
			"defensible C major: C major is heard here, but it goes on to Cmaj7 in bar 3.",
			"defensible G major: G major is heard here, but C major at Cmaj7 in bar 3.",
		}, 1},
		{"no such keys", pivot, "Eb major 1, B minor 4", []string{
			"contradicts C major: Eb major has a probability of under n% here, and n% is the least that can be defended; C major is heard.",
			"contradicts G major: B minor has a probability of under n% here, and n% is the least that can be defended; G major is heard.",
		}, 0},
		{"one key stated anew", pivot, "C major 1, C major 2@3, G major 4, G major 8", []string{
			"agrees C major: C major is heard here.",
			"agrees C major: C major is heard here.",
			"agrees G major: G major is heard here.",
			"agrees G major: G major is heard here.",
		}, 1},
		{"a beat between chords is that of the next", pivot, "C major 1, G major 8@2", []string{
			"defensible G major: C major can be heard here, with a probability of n%; G major is likelier.",
			"defensible G major: G major is heard here, but it begins with Am7 in bar 4.",
		}, .65},
		{"keys by their sound and third", "| Abm7 | Db7 | Gbmaj7 | Gbmaj7 |", "F# mixolydian 1", []string{"agrees F# mixolydian: F# mixolydian is heard here."}, 1},
		{"the second time", "|: Fmaj7 | Gm7 C7 | 1. Fmaj7 :| 2. Fmaj7 | Dm7 | G7 | Cmaj7 | Dm7 G7 | Cmaj7 |", "F major 1, F major 1 x2, C major 5", []string{
			"agrees F major: F major is heard here.",
			"agrees F major: F major is heard here.",
			"agrees C major: C major is heard here.",
		}, 1},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			a := function.Analyze(chartOf(t, tt.chart))
			r, err := review.Of(&a, review.Answer{Regions: regionsOf(t, tt.regions)})
			require.NoError(t, err)
			var got []string
			for _, m := range r.Regions {
				got = append(got, withoutShares(fmt.Sprintf("%v %s: %s", m.Verdict, m.Expected, m.Reason)))
			}
			assert.Equal(t, tt.want, got)
			assert.InDelta(t, tt.score, r.Score, 1e-9)
			assert.Empty(t, r.Chords)
			assert.Empty(t, r.Roles)
		})
	}
}

// A key that is written without its mode is major, which is told where the minor key
// on its tonic is heard (common practice, no source).
func TestKeysWithoutMode(t *testing.T) {
	const hint = " A key without m or a mode is taken as major: write C minor if that is meant."
	tests := []struct {
		name, chart, key string
		noMode, isTold   bool
	}{
		{"minor is heard", "| Cm7 | Dm7b5 G7 | Cm7 | Fm7 | Dm7b5 | G7 | Cm6 | Cm6 |", "C major", true, true},
		{"major was meant", "| Cm7 | Dm7b5 G7 | Cm7 | Fm7 | Dm7b5 | G7 | Cm6 | Cm6 |", "C major", false, false},
		{"another tonic", "| Cm7 | Dm7b5 G7 | Cm7 | Fm7 | Dm7b5 | G7 | Cm6 | Cm6 |", "Eb major", true, false},
		{"major is heard", "| Cmaj7 | Dm7 G7 | Cmaj7 |", "C major", true, false},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			a := function.Analyze(chartOf(t, tt.chart))
			r, err := review.Of(&a, review.Answer{Regions: []review.Region{{Key: key.MustParse(tt.key), Bar: 1, NoMode: tt.noMode}}})
			require.NoError(t, err)
			assert.Equal(t, tt.isTold, strings.HasSuffix(r.Regions[0].Reason, hint), r.Regions[0].Reason)
		})
	}
}

// An answer in the relative key is told as a whole, and marked as any other.
func TestRelativeKeys(t *testing.T) {
	const minor, major = "| Cm7 | Dm7b5 G7 | Cm7 | Fm7 | Dm7b5 | G7 | Cm6 | Cm6 |", "| Ebmaj7 | Fm7 Bb7 | Ebmaj7 | Cm7 | Fm7 | Bb7 | Eb6 | Eb6 |"
	const inMinor = "The degrees fit one another, but are counted in the relative key: in Eb major, where C minor is heard."
	const inMajor = "The degrees fit one another, but are counted in the relative key: in C minor, where Eb major is heard."
	tests := []struct{ name, chart, regions, numerals, remark string }{
		{"minor as major", minor, "Eb major 1", "VIm7 VIIm7b5 III7 VIm7 IIm7 VIIm7b5 III7 VIm6 VIm6", inMinor},
		{"not stated", minor, "", "vi7 viiø7 V7/vi vi7 ii7 viiø7 III7 vi6 vi6", inMinor},
		{"stated, and counted in the key heard", minor, "Eb major 1", "i7 iiø7 V7 i7 iv7 iiø7 V7 i6 i6", ""},
		{"major as minor", major, "C minor 1", "bIIImaj7 iv7 bVII7 bIIImaj7 i7 iv7 bVII7 bIII bIII", inMajor},
		{"by the minor scale", major, "C minor 1", "III iv VII III i iv VII III III", inMajor},
		{"bare degrees, with two errors", major, "C minor 1", "III IV VII III I IV VII I V", inMajor},
		{"too many errors", major, "C minor 1", "III IV VII I I IV V I V", ""},
		{"the key heard", major, "Eb major 1", "I ii V I vi ii V I I", ""},
		{"nothing said", major, "C minor 1", "", ""},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			a := function.Analyze(chartOf(t, tt.chart))
			answer := review.Answer{Regions: regionsOf(t, tt.regions), Numerals: strings.Fields(tt.numerals)}
			if tt.numerals == "" {
				answer.Numerals = make([]string, 9)
			}
			r, err := review.Of(&a, answer)
			require.NoError(t, err)
			assert.Equal(t, tt.remark, r.Remark)
		})
	}
}

func TestRegionsPointAtTheirFirstChord(t *testing.T) {
	a := function.Analyze(chartOf(t, "| N.C. | Dm7 G7 | Cmaj7 |"))
	r, err := review.Of(&a, review.Answer{Regions: regionsOf(t, "C major 2"), Numerals: []string{"IIm7", "V7", "I"}})
	require.NoError(t, err)
	assert.Equal(t, 1, r.Regions[0].Chord)
	assert.Equal(t, []int{1, 2, 3}, []int{r.Chords[0].Chord, r.Chords[1].Chord, r.Chords[2].Chord})
}

func TestFaults(t *testing.T) {
	const chart = "|: Dm7 G7 | Cmaj7 :| N.C. |"
	six := []string{"", "", "", "", "", ""}
	with := func(at int, numeral string) []string {
		list := append([]string{}, six...)
		list[at] = numeral
		return list
	}
	tests := []struct {
		name     string
		regions  []review.Region
		numerals []string
		want     []string
	}{
		{"too few", nil, six[:5], []string{"numerals: 5 numerals for 6 sounding chords (one for each chord as played, repeats unfolded, silences left out, blanks included)"}},
		{"none where some are asked for", nil, []string{}, []string{"numerals: 0 numerals for 6 sounding chords (one for each chord as played, repeats unfolded, silences left out, blanks included)"}},
		{"too many, one of them no numeral", nil, append(with(1, "H"), "V", "x"), []string{
			"numerals: 8 numerals for 6 sounding chords (one for each chord as played, repeats unfolded, silences left out, blanks included)",
			"numerals 1: expected a degree I to VII or 1 to 7",
			"numerals 7: expected a degree I to VII or 1 to 7",
		}},
		{"a chord symbol", nil, with(3, "G7"), []string{"numerals 3: expected a degree I to VII or 1 to 7 (a chord symbol is no numeral)"}},
		{"silence for a chord", nil, with(0, "N.C."), []string{"numerals 0: the chord sounds (silences have no place in the list)"}},
		{"two numerals in one", nil, with(1, "ii-V"), []string{"numerals 1: another numeral begins here (write one a chord, with a space between)"}},
		{"three numerals in one", nil, with(1, "ii-7-bII7-I"), []string{"numerals 1: another numeral begins here (write one a chord, with a space between)"}},
		{"a mixed degree", nil, with(0, "iI"), []string{"numerals 0: upper and lower case are mixed in one degree (write II or ii)"}},
		{"a target with a quality", nil, with(1, "V/ii7"), []string{"numerals 1: expected the end of the numeral behind the tonicised degree (a target has no quality)"}},
		{"two targets", nil, with(1, "V/V/V"), []string{"numerals 1: an applied chord has one target (name it by the chord it goes to)"}},
		{"a minor degree that is major", nil, with(2, "imaj7"), nil},
		{"no key", []review.Region{{Bar: 1}}, nil, []string{"regions 0 key: the region has no key (such as F major)"}},
		{"no such bar", regionsOf(t, "C major 9"), nil, []string{"regions 0 bar: no chord starts in bar 9 (a region begins with a chord)"}},
		{"a bar of silence", regionsOf(t, "C major 3"), nil, []string{"regions 0 bar: no chord starts in bar 3 (a region begins with a chord)"}},
		{"a third time", regionsOf(t, "C major 1 x3"), nil, []string{"regions 0 pass: bar 1 is not played 3 times"}},
		{"a beat behind all chords", regionsOf(t, "C major 1@4"), nil, []string{"regions 0 beat: no chord of bar 1 starts on beat 4 or later (a region begins with a chord)"}},
		{"out of order", regionsOf(t, "C major 2, C major 1"), nil, []string{"regions 1: the region does not begin after the one before (regions stand in the order of play)"}},
		{"two of one place", regionsOf(t, "C major 1@2, C major 1@3"), nil, []string{"regions 1: the region does not begin after the one before (regions stand in the order of play)"}},
		{"all at once, regions first", regionsOf(t, "C major 7, C major 1@5"), with(5, "Q"), []string{
			"regions 0 bar: no chord starts in bar 7 (a region begins with a chord)",
			"regions 1 beat: no chord of bar 1 starts on beat 5 or later (a region begins with a chord)",
			"numerals 5: expected a degree I to VII or 1 to 7",
		}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			a := function.Analyze(chartOf(t, chart))
			r, err := review.Of(&a, review.Answer{Regions: tt.regions, Numerals: tt.numerals})
			if tt.want == nil {
				require.NoError(t, err)
				return
			}
			assert.EqualError(t, err, strings.Join(tt.want, "\n"))
			assert.Zero(t, r)
			var list review.ErrorList
			require.ErrorAs(t, err, &list)
			assert.Len(t, list, len(tt.want))
		})
	}
}

// Faults lie where they are written, whatever of the numeral was read otherwise.
func TestFaultOffsets(t *testing.T) {
	tests := []struct {
		numeral string
		offset  int
	}{
		{"X7", 0},
		{"  X7", 2},
		{"V65/x", 4},
		{" V6/5/x", 6},
		{"viio7/ii7", 8},
		{"V7/5/5", 2},
		{"♭♭♭III", 0},
	}
	for _, tt := range tests {
		t.Run(tt.numeral, func(t *testing.T) {
			a := function.Analyze(chartOf(t, "| G7 |"))
			_, err := review.Of(&a, review.Answer{Numerals: []string{tt.numeral}})
			var fault *review.Error
			require.ErrorAs(t, err, &fault)
			assert.Equal(t, tt.offset, fault.Offset, fault.Msg)
			var syntax *pitch.SyntaxError
			assert.True(t, errors.As(err, &syntax))
		})
	}
}

func TestScoreIsByBeats(t *testing.T) {
	a := function.Analyze(chartOf(t, "| Dm7 G7 | Cmaj7 | N.C. | 2/4 G7 | 4/4 C6 |"))
	tests := []struct {
		numerals []string
		score    float64
	}{
		{[]string{"IIm7", "V7", "Imaj7", "V7", "I6"}, 1},
		{[]string{"", "", "", "", ""}, 0},
		{[]string{"IIm7", "", "", "", ""}, 2. / 14},
		{[]string{"IVm7", "bVII7", "Imaj7", "V7", "I"}, 10. / 14},
		{[]string{"", "", "", "V7", ""}, 2. / 14},
	}
	for _, tt := range tests {
		r, err := review.Of(&a, review.Answer{Numerals: tt.numerals})
		require.NoError(t, err)
		assert.InDelta(t, tt.score, r.Score, 1e-12, "%v", tt.numerals)
	}
}

func TestNothingSounds(t *testing.T) {
	for _, answer := range []review.Answer{{}, {Numerals: []string{}}} {
		a := function.Analyze(chartOf(t, "| N.C. |"))
		r, err := review.Of(&a, answer)
		require.NoError(t, err)
		assert.Equal(t, review.Review{Chords: []review.Mark{}, Regions: []review.Mark{}, Roles: []review.Role{}}, r)
	}
	r, err := review.Of(&function.Analysis{}, review.Answer{})
	require.NoError(t, err)
	assert.Zero(t, r.Score)
}

func TestRoles(t *testing.T) {
	a := function.Analyze(chartOf(t, "| Fmaj7 F7 | Bbmaj7 Bbm6 | Am7 D7b9 | Gm7 Gb7 | F6 |"))
	r, err := review.Of(&a, review.Answer{Numerals: []string{"Imaj7", "V7/IV", "IVmaj7", "", "IIIm7", "V7/V", "IIm7", "VI", "I"}})
	require.NoError(t, err)
	assert.Equal(t, []review.Role{
		{function.SecondaryDominant, 2, 1, "A dominant seventh that is not the key's own usually aims a fifth down: look at the chord it goes to, and name it V7 of that."},
		{function.TritoneSubstitute, 1, 1, "A dominant seventh a half step above its goal stands for the dominant a tritone away."},
		{function.Borrowed, 1, 1, "A chord with notes that the key lacks, and no goal of its own, is borrowed: ask what it would be in the other mode on the same tonic."},
		{function.Diatonic, 5, 0, ""},
	}, r.Roles)
}

// Where the key is what was missed, the advice is about keys.
func TestAdviceOnKeys(t *testing.T) {
	tests := []struct {
		name, regions string
		numerals      string
		isOfKeys      bool
	}{
		{"a border that comes late", "C major 1, G major 8", "Imaj7 IIm7 V7 Imaj7 VIm7 II7 Vmaj7 Vmaj7 IIm7 V7 Imaj7 Imaj7", true},
		{"a key that is not heard", "C major 1, Eb major 4", "Imaj7 IIm7 V7 Imaj7 #IVm7 VII7 IIImaj7 IIImaj7 #IVm7 VII7 IIImaj7 IIImaj7", true},
		{"a key left out", "G major 1", "IVmaj7 VIm7 II7 IVmaj7 IIm7 V7 Imaj7 Imaj7 IIm7 V7 Imaj7 Imaj7", true},
		{"no key told", "", "Imaj7 IIm7 V7 Imaj7 VIm7 II7 Vmaj7 Vmaj7 VIm7 II7 Vmaj7 Vmaj7", true},
		{"wrong degrees", "C major 1, G major 4", "Imaj7 IIm7 V7 Imaj7 IIm7 V7 IVmaj7 IVmaj7 IIm7 V7 IVmaj7 Imaj7", false},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			a := function.Analyze(chartOf(t, pivot))
			r, err := review.Of(&a, review.Answer{Regions: regionsOf(t, tt.regions), Numerals: strings.Fields(tt.numerals)})
			require.NoError(t, err)
			require.Equal(t, function.Diatonic, r.Roles[0].Role)
			const advice = "Most of what was missed stands in another key than the one heard: look for the two-five-one of each key, and let the key begin with its first chord."
			assert.Equal(t, tt.isOfKeys, r.Roles[0].Advice == advice, "%+v", r.Roles[0])
		})
	}
}

// Every role that a chord can have has its advice.
func TestAdvice(t *testing.T) {
	seen := map[string]function.Role{}
	charts := []string{
		"| Fmaj7 F7 | Bbmaj7 Bbm6 | Am7 D7b9 | Gm7 Gb7 | F6 |", "| Cmaj7 | Fm7 | Bb7 | Cmaj7 |", "| Cm | Ab7 | G7 | Cm |", "| Cm | Db/F | G7 | Cm |",
		"C7 F7 C7 C7 F7 F7 C7 C7 G7 F7 C7 C7", "| Cmaj7 C#dim7 | Dm7 | Em7 Ebdim7 | Dm7 G7 | Cmaj7 Cdim7 | Cmaj7 |", "| Cmaj7 | Gm7 C7 | Fmaj7 | G7 | Cmaj7 |",
		"| Fmaj7 | Gm7 C7 | Fmaj7 | Gm7 G#m7 | Am7 | Gm7 C7 | Fmaj7 |",
	}
	for _, text := range charts {
		a := function.Analyze(chartOf(t, text))
		numerals := []string{}
		for i := range a.Chords {
			if a.Chords[i].Region >= 0 {
				numerals = append(numerals, "")
			}
		}
		r, err := review.Of(&a, review.Answer{Numerals: numerals})
		require.NoError(t, err)
		for _, role := range r.Roles {
			assert.Equal(t, role.Chords, role.Missed)
			assert.NotEmpty(t, role.Advice, "%v", role.Role)
			other, ok := seen[role.Advice]
			assert.True(t, !ok || other == role.Role, "%v and %v have one advice", other, role.Role)
			seen[role.Advice] = role.Role
		}
	}
	assert.Len(t, seen, int(function.Chromatic), "roles without silence")
}

func TestVerdictNames(t *testing.T) {
	for _, v := range []review.Verdict{blank, agrees, defensible, contradicts} {
		text, err := v.MarshalText()
		require.NoError(t, err)
		assert.Equal(t, v.String(), string(text))
		var back review.Verdict
		require.NoError(t, back.UnmarshalText(text))
		assert.Equal(t, v, back)
	}
	assert.Equal(t, "Verdict(9)", review.Verdict(9).String())
	var v review.Verdict
	assert.EqualError(t, v.UnmarshalText([]byte("wrong")), `expected a verdict: blank, agrees, defensible or contradicts at offset 0 of "wrong"`)
}

// Sentences and what is expected are written as the reading is.
func TestStyleOfReading(t *testing.T) {
	a := function.Analyze(chartOf(t, "| Fmaj7 | Am7 D7b9 | Gm7 | Gb7 | F6 |"), function.Written(function.Cased, pitch.Unicode))
	r, err := review.Of(&a, review.Answer{Regions: regionsOf(t, "F major 1"), Numerals: []string{"I", "biii7", "V7/ii", "", "subV7/bIII", "I"}})
	require.NoError(t, err)
	assert.Equal(t, "biii7 in F major spells A♭m7; the chart has Am7.", r.Chords[1].Reason)
	assert.Equal(t, "V7♭9/ii", r.Chords[2].Expected)
	assert.Equal(t, "subV7/bIII in F major spells B♭♭7; the chart has Gb7.", r.Chords[4].Reason)
}
