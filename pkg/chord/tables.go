package chord

// The lead-sheet grammar is these tables: a symbol is a root, a kind, a number,
// modifiers and a bass, all but the root as they may be. The spellings are
// those of
//
//   - R. Hutchinson, Music Theory for the 21st-Century Classroom, ch. 6, 8, 31;
//   - Wikipedia, "Chord notation";
//   - Material Armonia, a class handout;
//   - the symbols of MusicXML 4.0's kinds;
//
// and where sources part, the reading taken is told beside the table.

// kind is a row of the words that stand right behind a root. The triad stands
// where no number does; the seventh is what a number of 7 or more brings;
// alone is the number understood where none is written; numbers are those the
// word takes.
type kind struct{ words, triad, seventh, alone, numbers string }

// Readings taken:
//
//   - A triangle alone is the major seventh, as in jazz charts (Material
//     Armonia); Wikipedia has it for the triad.
//   - dim, ° and o alone are the triad (Hutchinson ch. 8, Wikipedia); some pages
//     mean the seventh, which here wants its 7. The seventh under a dim9 is
//     diminished too.
//   - + and - right behind the root are augmented and minor, so that C+9 is
//     C9#5 and C-9 is Cm9; behind a number or in brackets they are # and b
//     (Hutchinson ch. 31). C-5 could be either and is refused.
//   - A lower-case root, which some use for minor, is refused: c7 would
//     silently be Cm7 to one reader and C7 to another.
var kinds = []kind{
	{"|omit", "3 5", "b7", "", "2 6 6/9 7 9 11 13"}, // no word, where o would be read
	{"m m|add min mi - − –", "b3 5", "b7", "", "2 6 6/9 7 9 11 13"},
	{"maj M M|add ma j", "3 5", "7", "", "6 6/9 7 9 11 13"},
	{"Δ ∆ △", "3 5", "7", "7", "6 6/9 7 9 11 13"},
	{"dim ° º o", "b3 b5", "bb7", "", "7 9 11 13"},
	{"aug + aug5 +5", "3 #5", "b7", "", "7 9 11 13"},
	{"ø Ø ∅ hdim", "b3 b5", "b7", "7", "7 9 11 13"},
	{"dom x", "3 5", "b7", "7", "7 9 11 13"},
	{"5", "5", "", "", ""},
}

// majorKinds are the rows of kinds that may also stand further back before a
// number, as in Cm(maj7).
var majorKinds = kinds[2:4]

// number is a row of the figures behind the kind: the degrees that each adds,
// over a major and over a minor third. S is the seventh of the kind.
type number struct{ words, overMajor, overMinor string }

// Readings taken:
//
//   - 9, 11 and 13 bring the seventh and what lies between (Hutchinson ch. 31).
//   - The third stays in an 11 (MusicXML 4.0, dominant-11th; the shorthand 11 of
//     Harte's followers), though many players leave it out; that is C9sus4.
//   - The natural 11 is left out of a 13 with a major third, where it clashes
//     (players leave it out, Hutchinson ch. 31), and kept over a minor one.
//     MusicXML's kinds and Harte's followers always count it.
//   - C2 is an added ninth (Hutchinson ch. 31), no suspension.
var numbers = []number{
	{"2", "9", "9"},
	{"6", "6", "6"},
	{"6/9 69", "6 9", "6 9"},
	{"7", "S", "S"},
	{"9", "S 9", "S 9"},
	{"11", "S 9 11", "S 9 11"},
	{"13", "S 9 13", "S 9 11 13"},
}

// modifier is a row of the words behind kind and number.
type modifier struct {
	words   string
	op      op
	degrees string
}

// op is what a modifier does.
type op uint8

const (
	suspend   op = iota + 1 // put the degrees in the place of the third
	raise                   // put the degree in the place of the natural fifth
	alter                   // alter fifth and ninth at will
	add                     // add the degree that follows
	leaveOut                // leave out the degree that follows
	leaveRoot               // leave out the root
)

const altDegrees = "3 b5 #5 b7 b9 #9"

// Readings taken:
//
//   - sus alone is sus4, sus9 is sus2 (Hutchinson ch. 31). It brings no seventh:
//     Csus(b9) has none.
//   - alt is a major third, a minor seventh and all of b5, #5, b9, #9, of which
//     the player picks (Hutchinson ch. 31: any of them). That alt was written is
//     remembered.
var modifiers = []modifier{
	{"sus4 sus", suspend, "4"},
	{"sus2 sus9", suspend, "2"},
	{"sus2sus4 sus4sus2 sus24 sus42", suspend, "2 4"},
	{"sus7", suspend, "4 b7"},
	{"sus#4 sus♯4", suspend, "#4"},
	{"+ aug", raise, "#5"},
	{"alt altered", alter, altDegrees},
	{"add", add, ""},
	{"no omit", leaveOut, ""},
	{"noroot", leaveRoot, ""},
}

// sheetDegree is a row of the degrees that can be added or altered on a lead
// sheet: the number, the one it stands for, and whether it is written with a
// sign, plain (in brackets or behind add), or both.
type sheetDegree struct {
	number, stands int
	signed, plain  bool
}

// Readings taken:
//
//   - A signed degree takes the place of the natural one if the kind or number
//     brought that: C9(b9) is C7b9. So b5 and #5 replace the fifth, while #11
//     and b13 stand beside it (Hutchinson ch. 31: a b13 goes with a natural fifth).
//     Behind add, none is replaced.
//   - 2 and 4 beside a third are 9 and 11 (Hutchinson ch. 31).
//   - A plain 9, 11 or 13 in brackets behind a seventh counts as the number:
//     Cm7(11) is Cm11 (Hutchinson ch. 31), with what lies between if that is not there in
//     another form. Behind a triad or add it comes alone.
//   - #7 is the major seventh, raised from the minor one (Wikipedia).
//   - b10 stays a tenth, though #9 is often meant.
var sheetDegrees = []sheetDegree{
	{2, 9, true, true},
	{3, 3, false, true},
	{4, 11, true, true},
	{5, 5, true, true},
	{6, 6, true, true},
	{7, 7, true, false},
	{9, 9, true, true},
	{10, 10, true, true},
	{11, 11, true, true},
	{13, 13, true, true},
}

// sign is a row of the accidentals before a degree.
type sign struct {
	words     string
	semitones int
}

var (
	degreeSigns = []sign{{"# ♯", 1}, {"𝄪", 2}, {"b ♭", -1}, {"𝄫", -2}}
	// sheetSigns are read on lead sheets besides.
	sheetSigns = []sign{{"+", 1}, {"- − –", -1}}
)

// shorthand is a row of Harte's table: a word and the degrees that it stands
// for besides the root.
type shorthand struct{ word, degrees string }

// shorthands are the sixteen of C. Harte, M. Sandler, S. Abdallah and E. Gómez,
// "Symbolic Representation of Musical Chords", ISMIR 2005, table 1.
var shorthands = []shorthand{
	{"maj", "3 5"},
	{"min", "b3 5"},
	{"dim", "b3 b5"},
	{"aug", "3 #5"},
	{"maj7", "3 5 7"},
	{"min7", "b3 5 b7"},
	{"7", "3 5 b7"},
	{"dim7", "b3 b5 bb7"},
	{"hdim7", "b3 b5 b7"},
	{"minmaj7", "b3 5 7"},
	{"maj6", "3 5 6"},
	{"min6", "b3 5 6"},
	{"9", "3 5 b7 9"},
	{"maj9", "3 5 7 9"},
	{"min9", "b3 5 b7 9"},
	{"sus4", "4 5"},
}

// laterShorthands are read but not printed: those of later corpora, as
// mir_eval's chord.py and ChoCo list them. 1, 5 and the last four are mir_eval's,
// from memory. ChoCo's dim11 is left out, its eleventh being doubtful.
var laterShorthands = []shorthand{
	{"sus2", "2 5"},
	{"11", "3 5 b7 9 11"},
	{"13", "3 5 b7 9 11 13"},
	{"maj11", "3 5 7 9 11"},
	{"maj13", "3 5 7 9 11 13"},
	{"min11", "b3 5 b7 9 11"},
	{"min13", "b3 5 b7 9 11 13"},
	{"minmaj9", "b3 5 7 9"},
	{"aug7", "3 #5 b7"},
	{"augmaj7", "3 #5 7"},
	{"dom7dim5", "3 b5 b7"},
	{"hdim9", "b3 b5 b7 9"},
	{"dim9", "b3 b5 bb7 9"},
	{"7sus4", "4 5 b7"},
	{"power", "5"},
	{"5", "5"},
	{"pedal", ""},
	{"1", ""},
	{"b9", "3 5 b7 b9"},
	{"#9", "3 5 b7 #9"},
	{"#11", "3 5 b7 9 #11"},
	{"b13", "3 5 b7 9 11 b13"},
}

// head is a row of the names that are printed behind a root, and the degrees
// which they are read as.
type head struct{ name, degrees string }

// heads are tried from above: those that say most come first. Behind them
// come other degrees, altered ones in the place of a natural 5, 9 or 11.
var heads = []head{
	{"13", "3 5 b7 9 13"},
	{"maj13", "3 5 7 9 13"},
	{"m13", "b3 5 b7 9 11 13"},
	{"m(maj13)", "b3 5 7 9 11 13"},
	{"13sus4", "4 5 b7 9 13"},
	{"maj13sus4", "4 5 7 9 13"},

	{"11", "3 5 b7 9 11"},
	{"maj11", "3 5 7 9 11"},
	{"m11", "b3 5 b7 9 11"},
	{"m(maj11)", "b3 5 7 9 11"},
	{"dim11", "b3 b5 bb7 9 11"},

	{"9", "3 5 b7 9"},
	{"maj9", "3 5 7 9"},
	{"m9", "b3 5 b7 9"},
	{"dim(maj9)", "b3 b5 7 9"},
	{"m(maj9)", "b3 5 7 9"},
	{"dim9", "b3 b5 bb7 9"},
	{"9sus4", "4 5 b7 9"},
	{"maj9sus4", "4 5 7 9"},

	{"7", "3 5 b7"},
	{"maj7", "3 5 7"},
	{"m7", "b3 5 b7"},
	{"dim(maj7)", "b3 b5 7"},
	{"m(maj7)", "b3 5 7"},
	{"dim7", "b3 b5 bb7"},
	{"7sus4", "4 5 b7"},
	{"maj7sus4", "4 5 7"},
	{"7sus2", "2 5 b7"},
	{"maj7sus2", "2 5 7"},
	{"7sus2sus4", "2 4 5 b7"},

	{"6/9", "3 5 6 9"},
	{"m6/9", "b3 5 6 9"},
	{"6/9sus4", "4 5 6 9"},
	{"6", "3 5 6"},
	{"m6", "b3 5 6"},
	{"6sus4", "4 5 6"},
	{"6sus2", "2 5 6"},

	{"dim", "b3 b5"},
	{"aug", "3 #5"},
	{"", "3 5"},
	{"m", "b3 5"},
	{"sus4", "4 5"},
	{"sus2", "2 5"},
	{"sus2sus4", "2 4 5"},
}

// What is printed behind a head: these with add, if they are natural degrees,
// else with their sign.
const tensions = "9 11 13 b5 #5 b6 b9 #9 b10 b11 #11 b13 #13"

// silences are what is read as no chord; the first is printed.
var silences = []string{"N.C.", "NC", "N", "N.C"}
