package abc

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fifthwise/pkg/chart"
	"fifthwise/pkg/key"
)

// notation are tunes, without their first line, with their bars in the text
// notation and the warnings. Invented; what the standard says of them is cited
// where it is read.
var notation = []struct{ name, in, want, warnings string }{
	{"plain", "M:4/4\nL:1/4\nK:C\n\"C\"c4|\"F\"f2\"G\"g2|c4|\"N.C.\"z4|]",
		"| C | F G | / / / / | N.C. |", ""},
	{"upbeat", "M:4/4\nL:1/4\nK:C\n\"G7\"g|\"C\"c4|\"F\"f3|]",
		"| G7 | C | 3/4 F |", ""},
	{"silent upbeat", "M:4/4\nL:1/4\nK:C\ng|\"C\"c4|\"F\"f3|]",
		"| N.C. | C | 3/4 F |", ""},
	{"chord before the bar line", "M:4/4\nL:1/4\nK:C\n\"C\"c4 \"F\"|f4 \"G\"|]",
		"| C | F |", "2: \"G\" stands behind the last note and is left out"},
	{"repeat with endings", "M:4/4\nL:1/4\nK:C\n|:\"C\"c4|1 \"F\"f4:|2 \"G\"g4|]",
		"|: C | 1. F :| 2. G |", ""},
	{"endings in brackets", "M:4/4\nL:1/4\nK:C\n|:\"C\"c4|[1,3 \"F\"f4:|[2 \"G\"g4:|[4-5 \"Am\"a4:|\"C\"c4|]",
		"|: C | 1,3. F :| 2. G :| 4,5. Am :| | C |", ""},
	{"ending in words", "M:4/4\nL:1/4\nK:C\n|:\"C\"c4|1 \"F\"f4:|[\"last time\" \"G\"g4|]",
		"|: C | 1. F :| 2. G |", ""},
	{"two repeats in one sign", "M:4/4\nL:1/4\nK:C\n|:\"C\"c4::\"F\"f4:|:\"G\"g4:||:\"Am\"a4:||",
		"|: C :| |: F :| |: G :| |: Am :|", ""},
	{"three times", "M:4/4\nL:1/4\nK:C\n|::\"C\"c4|\"F\"f4::|\"G\"g4|]",
		"| C | F || C | F || | C | F || G |", ""},
	{"back to the double bar", "M:4/4\nL:1/4\nK:C\n\"C\"c4||\"F\"f4|\"G\"g4:|",
		"| C || |: F | G :|", ""},
	{"back to the last repeat", "M:4/4\nL:1/4\nK:C\n\"C\"c4:|\"F\"f4|\"G\"g4:|",
		"| C :| F | G :|", ""},
	{"back to the part", "M:4/4\nL:1/4\nK:C\nP:A\n\"C\"c4|\nP:B\n\"F\"f4|\"G\"g4:|",
		"[A] | C | [B] |: F | G :|", ""},
	{"back to the start", "M:4/4\nL:1/4\nK:C\n\"C\"c4|\"F\"f4:|",
		"| C | F :|", ""},
	{"repeat past an upbeat", "M:3/4\nL:1/4\nK:C\nc|\"C\"c3|\"F\"f3:|\"G\"g3|]",
		"| N.C. | C | F :| G |", ""},
	{"ending closed by a double bar", "M:4/4\nL:1/4\nK:C\n|:\"C\"c4|1 \"F\"f4:|2 \"G\"g4||\"Am\"a4:|",
		"|: C | 1. F :| 2. G || |: Am :|", ""},
	{"bar lines of many shapes", "M:4/4\nL:1/4\nK:C\n[|\"C\"c4|]\"F\"f4[|\"G\"g4[|]\"Am\"a4.|\"Dm\"d4||",
		"| C || F || G | Am | | Dm ||", ""},
	{"da capo", "M:4/4\nL:1/4\nK:C\n\"C\"c4|\"F\"f4!fine!|\"G\"g4!D.C.alfine!|]",
		"| C | F | G || C | | F |", ""},
	{"da capo in words", "M:4/4\nL:1/4\nK:C\n\"C\"c4|\"F\"f4\"Fine\"|\"G\"g4\"^D.C. al Fine\"|]",
		"| C | F | G || C | | F |", ""},
	{"dal segno with a coda", "M:4/4\nL:1/4\nK:C\n\"C\"c4|S\"F\"f4|\"Em\"e4O|\"G\"g4!D.S.alcoda!|O\"Am\"a4|]",
		"| C | F | Em | G || | F | Em || [Coda] | Am |", ""},
	{"to coda", "M:4/4\nL:1/4\nK:C\n\"C\"c4!dacoda!|\"F\"f4!dacapo!|!coda!\"G\"g4|]",
		"| C | F || C || [Coda] | G |", ""},
	{"to coda in words", "M:4/4\nL:1/4\nK:C\n\"C\"c4\"To Coda\"|\"F\"f4\"D.C. al Coda\"|\"Coda\"\"G\"g4|]",
		"| C | F || C || [Coda] | G |", ""},
	{"user symbols", "M:4/4\nL:1/4\nU:n=!fine!\nU:S=!trill!\nK:C\n\"C\"c4n|\"F\"Sf4!D.C.!|]",
		"| C | F || C |", ""},
	{"parts in order", "P:ABA\nM:4/4\nL:1/4\nK:C\nP:A\n\"C\"c4|\nP:B\n\"F\"f4|]",
		"[A] | C | [B] | F | [A] | C |", ""},
	{"parts with numbers", "P:A2(BA)2\nM:4/4\nL:1/4\nK:C\nP:A\n|:\"C\"c4:|\nP:B\n\"F\"f4|]",
		"[A] |: C :| [A] |: C :| [B] | F | [A] |: C :| [B] | F | [A] |: C :|", ""},
	{"parts in brackets", "M:4/4\nL:1/4\nK:C\n[P:A]\"C\"c4|[P:B]\"F\"f4|]",
		"[A] | C | [B] | F |", ""},
	{"meters", "M:C\nL:1/4\nK:C\n\"C\"c4|\nM:C|\n\"F\"f4|[M:2+3/8]\"G\"g5/2|[M:(3+2+2)/8]\"Am\"a7/2|[M:6/8]\"C\"c3/2\"F\"f3/2|]",
		"| C | 2/2 F | 5/8 G | 7/8 Am | | 6/8 C F |", ""},
	{"free meter", "M:none\nL:1/4\nK:C\n\"C\"c3\"F\"f2|\"G\"g7/2|]",
		"| C / / F / | 7/8 G |", ""},
	{"bars of rests", "M:3/4\nL:1/4\nK:C\n\"C\"c3|\"F\"Z2|\"G\"g3|Z|]",
		"| C | F | / / / | G | | / / / |", ""},
	{"broken over a bar line", "M:2/4\nL:1/4\nK:C\n\"C\"c>\"F\"f|\"G\"g<\"C\"c|]",
		"| C F@2.5 | G C@1.5 |", ""},
	{"several before one note", "M:4/4\nL:1/4\nK:C\n\"C\"\"F\"c4|\"Dm G7\"d4|\"C\"\"F\"\"G\"c3 z|]",
		"| C F | Dm G7 | C F G / |", "1: 2 chords stand before one note and share its time; 2: 2 chords stand before one note and share its time; 3: 3 chords stand before one note and share its time"},
	{"bars without notes", "M:4/4\nL:1/4\nK:C\n\"C\"|\"F\" \"G\"|\"Am\"|",
		"| C | F G | Am |", "1: the bar has no notes; its chords share it evenly; 2: the bar has no notes; its chords share it evenly; 3: the bar has no notes; its chords share it evenly"},
	{"alternates", "M:4/4\nL:1/4\nK:C\n\"G(Em)\"g4|\"C\"\"(Am)\"c4|\"D7;Ab7\"d4|\"G\"g4|]",
		"| G | C | D7 | G |", "1: \"Em\" is an alternate of \"G\" and is left out; 2: \"Am\" is an alternate of \"C\" and is left out; 3: \"Ab7\" is another line of the chord symbol \"D7;Ab7\" and is left out"},
	{"optional", "M:4/4\nL:1/4\nK:C\n\"(Em7\"e2 \"A7(b9))\"a2|\"Dm7\"d4|\"(G7)\"g4|\"(C\"c2\"F\"f2|\"G)\"g4|]",
		"| (Em7 A7b9) | Dm7 | (G7 | C F | | G) |", ""},
	{"symbols", "M:4/4\nL:1/4\nK:C\n\"F♯m7b5\"f\"B♭7\"b\"C=7\"c\"E\\u266d\"e|\"Am/G\"a\"NC\"z\"n.c.\"z\"Bbmaj7#11/F\"b|]",
		"| F#m7b5 Bb7 C7 Eb | Am/G N.C. N.C. Bbmaj7#11/F |", ""},
	{"text", "M:4/4\nL:1/4\nK:C\n\"C\"c\"Verse\"c\"p\"c\"Bridge\"c|\"C,\"c\"c'\"c\"last time\"c\"Amen\"c|\"^Am\"c\"_Bb\"c\"<F\"c\"@-4,5 G\"c|]",
		"| C | / / / / | / / / / |", "1: \"Verse\" is no chord symbol and is passed over as text; 1: \"p\" is no chord symbol and is passed over as text; 1: \"Bridge\" is no chord symbol and is passed over as text; 2: \"C,\" is no chord symbol and is passed over as text; 2: \"c'\" is no chord symbol and is passed over as text; 2: \"last time\" is no chord symbol and is passed over as text; 2: \"Amen\" is no chord symbol and is passed over as text"},
	{"overlay", "M:4/4\nL:1/4\nK:C\n\"C\"c2\"F\"f2&e\"G\"e e2|\"C\"c4|]",
		"| C G F / | C |", ""},
	{"overlay over bars", "M:4/4\nL:1/4\nK:C\n\"C\"c2(&c2|\"F\"f4&e2|\"Am\"e4&)|\"C\"c4|]",
		"| C | F | C |", ""},
	{"symbol line", "M:4/4\nL:1/4\nK:C\nc2 z f|g2 a2|\ns:\"C\" \"F\"|* \"Am\"\n\"C\"c4|]",
		"| C / / F | / / Am / | C |", ""},
	{"voices", "M:4/4\nL:1/4\nK:C\nV:1 name=\"Tune\"\nc4|:d4:|\nV:2\n\"C\"x4|\"F\"x2\"G\"x2|\n[V:1]e4|[V:2]\"Am\"x4|",
		"| C |: F G :| Am |", ""},
	{"voices that differ", "M:4/4\nL:1/4\nK:C\nV:1\n\"C\"c4|d4|\nV:2\n\"C\"x4|\"F\"x2\"G\"x2|",
		"| C | F G |", "1: voice \"2\" and voice \"1\" have different chords; those of voice \"2\" are read"},
	{"continued lines", "M:4/4\nL:1/4\nK:C\n\"C\"c2\\\n\"F\"f2|\\ % here\n% between\n\"G\"g4|]",
		"| C F | G |", ""},
	{"directives and comments", "%%scale 0.7\nM:4/4\nL:1/4\nK:C\n%%begintext\n\"Xm7\"x|\n\n%%endtext\n\"C\"c4|% \"Xm7\"\nr:remark\nN:\"H\"\nw:\"la\" la\n\"F\"f4|[r:\"Xx7\"]g4|]",
		"| C | F | / / / / |", ""},
	{"spacers and breaks", "M:4/4\nL:1/4\nK:C\n\"C\"yc2y\"F\"f2y2|$!\"G\"`g2``!trill!\"C\"c2!|]",
		"| C F | G C |", ""},
	{"division of a bar", "M:4/4\nL:1/4\nK:C\n\"C\"c4|\"F\"f2:|g2|\"C\"c4|]",
		"| C | F :| C |", "2: the bar lacks an upbeat and is read as whole"},
	{"long bar", "M:4/4\nL:1/4\nK:C\n\"C\"c4|\"F\"f4\"G\"g|\"C\"c4|]",
		"| C | 5/4 F / / / G | 4/4 C |", "2: the bar is longer than its meter, 4/4, and is read in 5/4"},
	{"unknown order", "P:AXB\nM:4/4\nL:1/4\nK:C\nP:A\n\"C\"c4|\nP:B\n\"F\"f4|\nP:C\n\"G\"g4|]",
		"[A] | C | [B] | F |", "1: part C is not in the order of parts and is left out; 1: the order of parts names part X, which is not in the tune; it is left out"},
	{"group of notes with a symbol in it", "M:4/4\nL:1/4\nK:C\n[\"C\"CEG]2[\"F\"FA]2|]",
		"| C F |", ""},
	{"tab and dashes", "M:4/4\nL:1/4\nK:C\n\"C\"c2:\"F\"f2|\"G\"g4|]",
		"| C F | G |", ""},
	{"macro", "m:~g2 = {a}g2\nM:4/4\nL:1/4\nK:C\n\"C\"~g2c2|]",
		"| C |", "1: macros are not expanded; their notes are read as written"},
	{"an ending without the first", "M:4/4\nL:1/4\nK:C\n\"C\"c4|3 \"F\"f4|]",
		"| C | F |", "2: ending 3 follows no ending 1; it is left out"},
	{"old chords between plus signs", "M:4/4\nL:1/4\nK:C\n\"C\"+trill+c2+fermata+\"F\"c2|]",
		"| C F |", ""},
	{"notes before a repeat sign", "M:4/4\nL:1/4\nK:C\n|:\"C\"c2\n\"F\"c\nc:|\"G\"g4|]",
		"|: C F :| G |", ""},
	{"line ends of other systems", "M:4/4\r\nL:1/4\rK:C\r\n\"C\"c4|\r\"F\"f4|]\r\n",
		"| C | F |", ""},
	{"music without K:", "M:4/4\nL:1/4\n\"C\"c4|\"F\"f4|]",
		"| C | F |", ""},
	{"a zero length", "M:4/4\nL:1/4\nK:C\n\"C\"c0\"F\"c4|]",
		"| C |", "1: \"C\" and \"F\" stand at one place; the first is read"},
	{"a group over bars", "M:4/4\nL:1/4\nK:C\n\"C\"c4|\"(F\"f4|\"G\"g4|\"Am)\"a4|]",
		"| C | (F | G | Am) |", ""},
	{"text behind the tune", "M:4/4\nL:1/4\nK:C\n\"C\"c4|\n\n\"F\"f4|\"G\"g4|]",
		"| C |", "1: line 7 stands behind the empty line that ends the tune and is not read"},
}

func TestParse(t *testing.T) {
	for _, n := range notation {
		t.Run(n.name, func(t *testing.T) {
			c, err := Parse([]byte("X:1\n" + n.in))
			require.NoError(t, err)
			require.NoError(t, c.Validate())
			assert.Equal(t, n.want, changes(c))
			var warnings []string
			for _, w := range c.Warnings {
				warnings = append(warnings, fmt.Sprintf("%d: %s", w.Bar, w.Message))
			}
			assert.Equal(t, n.warnings, strings.Join(warnings, "; "))
		})
	}
}

// changes is the bars of a chart in the text notation, on one line.
func changes(c chart.Chart) string {
	_, bars, _ := strings.Cut(c.String(), "\n\n")
	return strings.Join(strings.Fields(bars), " ")
}

// Three examples of the standard (The abc music standard 2.1, sections 4.1, 4.8
// and 4.15, from memory), with chords put in.
func TestExamplesOfTheStandard(t *testing.T) {
	for _, n := range []struct{ name, in, want string }{
		{"variants of the repeat sign", "M:4/4\nL:1/4\nK:D\n|:\"D\"d4|\"G\"g4:||:\"A\"a4|\"D\"d4:|", "|: D | G :| |: A | D :|"},
		{"first and second ending", "M:4/4\nL:1/4\nK:D\n|:\"D\"FAAF|\"A\"EccE|1 \"D\"d4:|2 \"D\"d2 \"A\"a2||", "|: D | A | 1. D :| 2. D A ||"},
		{"symbol line", "M:4/4\nL:1/4\nK:C\nCDEF    | G```AB`c|\ns: \"^slow\" | !f! ** \"G7\"\n\"C\"c4|", "| N.C. | / / / G7 | C |"},
	} {
		t.Run(n.name, func(t *testing.T) {
			c, err := Parse([]byte("X:1\nT:Low Tide\n" + n.in))
			require.NoError(t, err)
			assert.Equal(t, n.want, changes(c))
		})
	}
}

func TestFields(t *testing.T) {
	for _, f := range []struct{ in, title, meter, key, warning string }{
		{"T:Low Tide\nT:or Ebb\nM:3/4\nK:Eb", "Low Tide", "3/4", "Eb major", ""},
		{"T: Low\n+: Tide % once\nM:C|\nK:A minor", "Low Tide", "2/2", "A minor", ""},
		{"T:Low \\\n Tide\nM:C\nK:Am", "Low Tide", "4/4", "A minor", ""},
		{`T:\"Uberfahrt na\"ive \'Ecole \ss \AE &eacute; &amp; \u266d \U0001F3B5 50\% \\ a&b` + "\nK:F#dor", "Überfahrt naïve École ß Æ é & ♭ 🎵 50% \\ a&b", "4/4", "F# dorian", ""},
		{"T:\\005 \\q \\", "\\005 \\q", "4/4", "invalid key", ""},
		{"K:Dmix", "", "4/4", "D mixolydian", ""},
		{"K:D Mixolydian", "", "4/4", "D mixolydian", ""},
		{"K:Bb Lyd clef=bass", "", "4/4", "Bb lydian", ""},
		{"K:C#Phr ^f _b", "", "4/4", "C# phrygian", ""},
		{"K:GAeo", "", "4/4", "G minor", ""},
		{"K:GIon", "", "4/4", "G major", ""},
		{"K:GM", "", "4/4", "invalid key", `the mode of the key "GM" is not understood; expected one as maj, min, dor, phr, lyd or mix`},
		{"K:BLoc", "", "4/4", "invalid key", `the key "BLoc" is locrian, in which no key is read`},
		{"K:D exp ^f", "", "4/4", "invalid key", ""},
		{"K:D ^f", "", "4/4", "invalid key", `the key "D ^f" has accidentals and no mode; no key is read`},
		{"K:D bass", "", "4/4", "D major", ""},
		{"K:none", "", "4/4", "invalid key", ""},
		{"K:", "", "4/4", "invalid key", ""},
		{"K:HP", "", "4/4", "invalid key", ""},
		{"K:Hp", "", "4/4", "invalid key", ""},
		{"K:clef=alto", "", "4/4", "invalid key", ""},
		{"K:h", "", "4/4", "invalid key", `the key "h" is not understood; expected a tonic A to G and a mode, for example Ebmaj or F#dor`},
		{"M:2+3/8\nK:C", "", "5/8", "C major", ""},
		{"M:(2+3+2)/8\nK:C", "", "7/8", "C major", ""},
		{"M:C=4/4\nK:C", "", "4/4", "C major", ""},
		{"M:5/4 (2/4 3/4)\nK:C", "", "5/4", "C major", ""},
		{"M:3\nK:C", "", "3/4", "C major", ""},
		{"P:March\nK:C", "", "4/4", "C major", "the order of parts, P:March, is not understood; expected letters as ABA or A3(BC)2"},
	} {
		t.Run(f.in, func(t *testing.T) {
			c, err := Parse([]byte("X:1\n" + f.in + "\nL:1\n\"C\"Z|Z|\"G\"Z|"))
			require.NoError(t, err)
			assert.Equal(t, f.title, c.Title)
			assert.Equal(t, f.meter, c.Meter.String())
			assert.Equal(t, f.key, c.Key.String())
			warning := ""
			if len(c.Warnings) > 0 {
				warning = c.Warnings[0].Message
			}
			assert.Equal(t, f.warning, warning)
		})
	}
}

// Every mode that is written is read as itself.
func TestKeysRoundTrip(t *testing.T) {
	assert.Len(t, modeNames, int(key.Mixolydian))
	for mode, name := range modeNames {
		for _, tonic := range []string{"C", "F#", "Bb", "A"} {
			k := key.MustParse(tonic + " " + mode.String())
			got, note := parseKey(formatKey(k))
			assert.Equal(t, k, got, name)
			assert.Empty(t, note)
		}
	}
}

func TestOrdersOfParts(t *testing.T) {
	for _, o := range []struct{ in, want string }{
		{"ABA", "ABA"}, {"A.B.A", "ABA"}, {"A2B", "AAB"}, {"A3(BC)2", "AAABCBC"}, {"((AB)3.(CD)2)2", "ABABABCDCDABABABCDCD"}, {"A B", "AB"}, {"A0B", "B"},
		{"March", ""}, {"A(B", ""}, {"A)B", ""}, {"A9999", ""}, {"(A99)99", ""}, {"((((((((((A))))))))))", ""}, {"a", ""},
	} {
		assert.Equal(t, o.want, strings.Join(parseOrder(o.in), ""), o.in)
	}
}

// Each row of accents is pairs of a letter and a letter, and is read.
func TestAccents(t *testing.T) {
	for mark, pairs := range accents {
		letters := []rune(pairs)
		require.Zero(t, len(letters)%2, "%c", mark)
		for i := 0; i < len(letters); i += 2 {
			assert.Equal(t, string(letters[i+1]), unescape(`\`+string(mark)+string(letters[i])))
		}
	}
	for in, want := range ligatures {
		assert.Equal(t, want, unescape(`\`+in))
	}
	assert.Equal(t, "åÅ", unescape(`\aa\AA`))
}

func TestEncodings(t *testing.T) {
	const tail = "\nK:C\n\"C\"c4|]"
	for _, e := range []struct{ name, in, title, warning string }{
		{"UTF-8", "X:1\nT:Übung" + tail, "Übung", ""},
		{"byte order mark", "\xef\xbb\xbfX:1\nT:Übung" + tail, "Übung", ""},
		{"Latin-1, unsaid", "X:1\nT:\xdcbung" + tail, "Übung", "the file is not in UTF-8 and is read as Latin-1"},
		{"Latin-1", "%%abc-charset iso-8859-1\nX:1\nT:\xdcbung" + tail, "Übung", ""},
		{"another, but plain", "I:abc-charset iso-8859-2\nX:1\nT:Uebung" + tail, "Uebung", ""},
	} {
		t.Run(e.name, func(t *testing.T) {
			c, err := Parse([]byte(e.in))
			require.NoError(t, err)
			assert.Equal(t, e.title, c.Title)
			if e.warning == "" {
				assert.Empty(t, c.Warnings)
			} else {
				assert.Equal(t, []chart.Warning{{Bar: 1, Message: e.warning}}, c.Warnings)
			}
		})
	}
}

// A book has a header for all tunes, text between them and errors in some.
func TestTunes(t *testing.T) {
	const book = `%abc-2.1
M:3/4
L:1/4
U:n=!fine!

Some words about "C" tunes.

X:4
T:Low Tide
K:C
"C"c3|"F"f3|]

More words.
X:7
T:Night Bus
M:4/4
K:F
%%begintext

An empty line, and
X ends no text.
%%endtext
"F"f4|"C"c3n c|]
X:8
T:No Chords
K:C
c3|
X:9
T:Bad Chord
K:C
"Xm7"c3|"C"c3|`
	var got []string
	for tune, err := range Tunes([]byte(book)) {
		line := tune.Chart.Title + ", " + changes(tune.Chart)
		if err != nil {
			line = tune.Chart.Title + ": " + err.Error()
		}
		got = append(got, line)
	}
	assert.Equal(t, []string{
		"Low Tide, | C | F |",
		"Night Bus, | F | C |",
		`No Chords: tune 8, line 24, column 1: the tune holds no chord symbols (write them in quotes before the notes, as "C"C2)`,
		`Bad Chord: tune 9, bar 1, line 31, column 2, "Xm7": expected a root A to G or N.C.`,
	}, got)
	for tune := range Tunes([]byte(book)) {
		assert.Equal(t, Tune{Number: 4, Line: 8, Chart: tune.Chart}, tune)
		break
	}
}

// A file without X: is read where it has a key.
func TestTuneWithoutNumber(t *testing.T) {
	const in = "T:Low Tide\nK:C\n\"C\"c8|\n\n\"F\"f8|"
	c, err := Parse([]byte(in))
	require.NoError(t, err)
	assert.Equal(t, "| C | F |", changes(c))
	assert.Equal(t, []chart.Warning{{Bar: 1, Message: "the tune does not begin with X:"}}, c.Warnings)
	for tune, err := range Tunes([]byte(in)) {
		require.NoError(t, err)
		assert.Equal(t, c, tune.Chart)
	}
}
