package chord

// kind is a row of the table of words that stand right behind a root. The
// first of the words is the one that is printed. The triad stands for the
// chord without a number; the seventh is the one that a number of 7 or more
// brings; alone is the number understood where none is written; numbers are
// those the word takes.
type kind struct{ words, triad, seventh, alone, numbers string }

// Where sources part, one reading is taken:
//
//   - A triangle alone is the major seventh, as in jazz charts (Material
//     Armonia); others use it for the triad (Wikipedia, "Chord notation").
//   - dim, ° and o alone are the triad (Hutchinson ch. 8; Wikipedia); some pages
//     mean the seventh, which here wants its 7.
//   - + and - right behind the root are augmented and minor, so that C+9 is
//     C9#5 and C-9 is Cm9; behind a number or in brackets they are # and b
//     (Hutchinson §31.1). C-5 could be either and is refused.
var kinds = []kind{
	{"|omit", "3 5", "b7", "", "2 6 6/9 7 9 11 13"}, // nothing, where an o would be read
	{"m m|add min mi - − –", "b3 5", "b7", "", "2 6 6/9 7 9 11 13"},
	{"maj M M|add ma j", "3 5", "7", "", "6 6/9 7 9 11 13"},
	{"Δ ∆ △", "3 5", "7", "7", "6 6/9 7 9 11 13"},
	{"dim ° º o", "b3 b5", "bb7", "", "7 9 11 13"},
	{"aug + aug5 +5", "3 #5", "b7", "", "6 7 9 11 13"},
	{"ø Ø ∅ hdim", "b3 b5", "b7", "7", "7 9 11 13"},
	{"dom x", "3 5", "b7", "7", "7 9 11 13"},
	{"5", "5", "", "", ""},
}

// number is a row of the table of figures: what each adds to the triad, "s"
// being the seventh of the kind, over a major and over a minor third.
type number struct{ words, major, minor string }

// Where sources part, one reading is taken:
//
//   - 9, 11 and 13 bring the seventh and what lies between (Hutchinson §31.1).
//   - The third stays in an 11 (MusicXML 4.0 dominant-11th; Harte's later
//     shorthand 11), though many players leave it out; C9sus4 says that.
//   - The natural 11 is left out of a 13 with a major third, where it would
//     clash ("players leave the natural 11 out of C13", Hutchinson §31.2), and
//     kept with a minor one. MusicXML's kinds and Harte's 13 and maj13 count it.
//   - 2 is an added ninth (Hutchinson ch. 31), not a suspension.
var numbers = []number{
	{"2", "9", "9"},
	{"6", "6", "6"},
	{"6/9 69", "6 9", "6 9"},
	{"7", "s", "s"},
	{"9", "s 9", "s 9"},
	{"11", "s 9 11", "s 9 11"},
	{"13", "s 9 13", "s 9 11 13"},
}

// op is what a word of the table of modifiers does.
type op uint8

const (
	suspend   op = iota + 1 // put the degrees in the place of the third
	add                     // add the degree that follows
	leaveOut                // take out the degree that follows
	leaveRoot               // take out the root
	raise                   // sharpen the fifth
	alter                   // fifth and ninth altered at will
	separate                // nothing
)

// modifier is a row of the table of words behind the kind and number.
type modifier struct {
	words   string
	op      op
	degrees string
}

// Where sources part, one reading is taken:
//
//   - sus alone is sus4, and sus9 is sus2 (Hutchinson ch. 31). sus has no
//     seventh unless one is written: Csus(b9) has none.
//   - alt is the third, the minor seventh, and each of b5, #5, b9, #9, of which
//     the player picks (Hutchinson ch. 31: "any of"); that it was written alt is
//     kept beside.
//   - b5 and #5 take the place of the fifth; #11 and b13 stand beside it
//     (Hutchinson §31.2: "b13 implies a natural fifth, #5 does not"). A
//     sign on 9, 11 or 13 takes the place of the natural degree that a number
//     brought: C9(b9) is C7b9.
//   - add2 and add4 are added ninths and elevenths: beside a third these are
//     tensions (Hutchinson §31.2: "4 is sus only if there is no third, else 11").
//   - b10 stays a tenth, though it often means #9.
var modifiers = []modifier{
	{"sus4 sus sus|b sus|#", suspend, "4"},
	{"sus2 sus9", suspend, "2"},
	{"sus2sus4 sus24 sus42 sus4sus2", suspend, "2 4"},
	{"sus7", suspend, "4 b7"},
	{"add", add, ""},
	{"no omit", leaveOut, ""},
	{"noroot", leaveRoot, ""},
	{"+ aug", raise, "#5"},
	{"alt altered", alter, ""},
}

// natural is what an unsigned degree in brackets or behind add stands for.
var naturals = []struct {
	words  string
	degree string
}{
	{"2", "9"}, {"3", "3"}, {"4", "11"}, {"5", "5"}, {"6", "6"}, {"8", "8"}, {"9", "9"}, {"10", "10"}, {"11", "11"}, {"12", "12"}, {"13", "13"},
}

// Signs of altered degrees. Those of the second table are read on lead sheets
// only; the dash is the minus sign.
var (
	signTable     = []sign{{"#", 1}, {"♯", 1}, {"𝄪", 2}, {"b", -1}, {"♭", -1}, {"𝄫", -2}}
	leadSignTable = []sign{{"+", 1}, {"-", -1}, {"−", -1}, {"–", -1}}
)

type sign struct {
	word string
	step int
}
