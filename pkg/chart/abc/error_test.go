package abc

import (
	"errors"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fifthwise/pkg/chart"
	"fifthwise/pkg/pitch"
)

// badNotation are files with the text of their errors.
var badNotation = []struct{ name, in, want string }{
	{"unknown root", "X:3\nT:Low Tide\nM:4/4\nL:1/4\nK:C\n\"C\"c4|\"Xm7\"f4|\"G\"g4|]",
		`tune 3, bar 2, line 6, column 8, "Xm7": expected a root A to G or N.C.`},
	{"the German H", "X:1\nK:C\n\"C\"c8|\"H7\"f8|\"H\"f8|]",
		`tune 1, bar 2, line 3, column 8, "H7": expected a root A to G or N.C. (the German H is B)
tune 1, bar 3, line 3, column 15, "H": expected a root A to G or N.C. (the German H is B)`},
	{"too large a number", "X:1\nK:C\n\"C\"c8|\n\"Cmaj9000\"f8|]",
		`tune 1, bar 2, line 4, column 7, "Cmaj9000": a degree behind the number wants a sign or brackets (write (0))`},
	{"lower case", "X:1\nK:C\n\"C\"c8| \"am7\"f8|\"dm\"f8|]",
		`tune 1, bar 2, line 3, column 9, "am7": expected the root in upper case (write Am7)
tune 1, bar 3, line 3, column 17, "dm": expected the root in upper case (write Dm)`},
	{"upbeat counts as bar 0", "X:2\nM:4/4\nL:1/4\nK:C\n\"Cmaq7\"c|\"F\"f4|\"Fmjq7\"f4|]",
		`tune 2, bar 0, line 5, column 5, "Cmaq7": expected an altered degree, maj7, add, no, sus, alt, a bracket or a bass (write Cma7, or a quality such as m7, maj7 or 7b9)
tune 2, bar 2, line 5, column 20, "Fmjq7": expected 7, 9, 11 or 13 after the word for major`},
	{"all at once, with umlauts before", "X:1\nT:Ü\nK:C\n\"C\"c8|\"Ärger\"x2\"Gmax9\"f8|\n\n",
		`tune 1, bar 2, line 4, column 20, "Gmax9": expected an altered degree, maj7, add, no, sus, alt, a bracket or a bass (write Gma9, or a quality such as m7, maj7 or 7b9)`},
	{"in brackets", "X:1\nK:C\n\"(C\"c4\"Qm7)\"c4|]",
		`tune 1, bar 1, line 3, column 8, "Qm7)": expected a root A to G or N.C.`},
	{"a group not closed", "X:1\nK:C\n\"(C\"c4\"F\"c4|]",
		`tune 1, bar 1, line 3, column 2, "(": the optional group is not closed (write ) behind its last chord)`},
	{"nothing to close", "X:1\nK:C\n\"C)\"c4\"F\"c4|]",
		`tune 1, bar 1, line 3, column 2, "C)": nothing opens the group that ) closes (write ( before its first chord)`},
	{"groups in groups", "X:1\nK:C\n\"(C\"c4\"(F\"c4|\"G)\"c8|]",
		`tune 1, bar 1, line 3, column 8, "(F": optional groups do not nest (close the one before with ))`},
	{"quotes not closed", "X:1\nK:C\n\"C\"c4\"F c4|]\n\"G\"c4|]",
		`tune 1, bar 1, line 3, column 6, "\"F c4|]": the quotes are not closed (write " behind the chord)`},
	{"notes not closed", "X:1\nK:C\n\"C\"[CEG c4|\"F\"[FA",
		`tune 1, bar 1, line 3, column 4, "[CEG c4": the notes in brackets are not closed (write ] behind them)
tune 1, bar 2, line 3, column 15, "[FA": the notes in brackets are not closed (write ] behind them)`},
	{"field not closed", "X:1\nK:C\n\"C\"c4[M:3/4 c4|",
		`tune 1, bar 1, line 3, column 6, "[M:3/4 c4|": the field in brackets is not closed (write ] behind it)`},
	{"grace not closed", "X:1\nK:C\n\"C\"c4{ab c4|",
		`tune 1, bar 1, line 3, column 6, "{ab c4|": the grace notes are not closed (write } behind them)`},
	{"no meter", "X:1\nM:foo\nK:C\n\"C\"c4|",
		`tune 1, line 2, column 3, "foo": expected a meter (for example 3/4, 2+3/8, C, C| or none)`},
	{"bad meter", "X:1\nM:4/3\nK:C\n\"C\"c4|[M:99/4]c4|",
		`tune 1, line 2, column 3, "4/3": expected 1, 2, 4, 8, 16 or 32 as the lower number of a meter
tune 1, bar 2, line 4, column 10, "99/4": expected 1 to 64 as the upper number of a meter`},
	{"bad unit", "X:1\nL:eighth\nK:C\n\"C\"c4|[L:0]c4|",
		`tune 1, line 2, column 3, "eighth": expected the length of a note (for example L:1/8)
tune 1, bar 2, line 4, column 10, "0": expected the length of a note (for example L:1/8)`},
	{"no chords", "X:7\nT:Low Tide\nM:4/4\nK:C\ncdef|",
		`tune 7, line 1, column 1: the tune holds no chord symbols (write them in quotes before the notes, as "C"C2)`},
	{"no music", "X:7\nT:Low Tide\nK:C\n",
		`tune 7, line 1, column 1: the tune holds no chord symbols (write them in quotes before the notes, as "C"C2)`},
	{"no tune", "Dear reader,\n\"C\"c4|",
		`the file holds no tune, expected a line X:1 where one begins (a tune begins with X:1, then T: with its title, M:4/4 and K:C)`},
	{"empty", " \n",
		`the file is empty, expected a tune (a tune begins with X:1, then T: with its title, M:4/4 and K:C)`},
	{"several", "X:1\nT:Low Tide\nK:C\n\"C\"c\n\nX:2\nK:C\n\"C\"c\n\nX:4\nT:Night Bus\nT:Second\nK:C",
		`expected one tune, the file holds 3: X:1 "Low Tide", X:2, X:4 "Night Bus" (leave one of them, or choose one by its number)`},
	{"UTF-16", "\xff\xfeX\x00:\x001\x00",
		`the file is in UTF-16, expected UTF-8 (save it in UTF-8)`},
	{"UTF-16 without mark", "\x00X\x00:\x001\x00\n\x00T\x00:\x00A",
		`the file is in UTF-16, expected UTF-8 (save it in UTF-8)`},
	{"another encoding", "%%abc-charset iso-8859-2\nX:1\nT:\xb1\nK:C\n\"C\"c",
		`the file says that it is in "iso-8859-2", expected utf-8 or iso-8859-1 (save it in UTF-8)`},
	{"not in UTF-8 as said", "I:abc-charset utf-8\nX:1\nT:\xb1\nK:C\n\"C\"c",
		`the file says that it is in UTF-8, but line 3 is not (save it in UTF-8)`},
	{"symbol line gone on with", "X:1\nL:1/4\nK:C\nc2 d2|\ns:\"C\"\n+: \"F\" \"G\"\n",
		`tune 1, line 6, column 9, "G": the symbol line has more symbols than the line before has notes (write * for a note without one)`},
	{"symbol line too long", "X:1\nL:1/4\nK:C\nc2 d2|\ns:\"C\" \"F\" \"G\"\n",
		`tune 1, line 5, column 12, "G": the symbol line has more symbols than the line before has notes (write * for a note without one)`},
	{"too many bars", "X:1\nL:1/4\nK:C\n\"C\"Z200000|",
		`tune 1: the tune has more than 40000 bars`},
	{"too many bars for a chart", "X:1\nL:1/4\nK:C\n\"C\"Z20000|",
		`tune 1, line 1, column 1: played with its repeats the chart has more than 10000 bars or 50000 chords`},
}

func TestErrors(t *testing.T) {
	for _, n := range badNotation {
		t.Run(n.name, func(t *testing.T) {
			_, err := Parse([]byte(n.in))
			assert.EqualError(t, err, n.want)
		})
	}
}

func TestErrorsUnwrap(t *testing.T) {
	_, err := Parse([]byte("X:1\nK:C\nc8|"))
	assert.ErrorIs(t, err, ErrNoChords)
	_, err = Parse([]byte("X:1\nK:C\n\"H7\"c8|"))
	var syntax *pitch.SyntaxError
	require.ErrorAs(t, err, &syntax)
	assert.Equal(t, "H7", syntax.Input)
	var e *Error
	require.ErrorAs(t, err, &e)
	assert.Equal(t, Error{Tune: 1, Bar: 1, Line: 3, Column: 2, Symbol: "H7", Msg: "expected a root A to G or N.C.", Hint: "the German H is B", offset: 1, cause: e.cause}, *e)
	_, err = Parse([]byte("X:1\nK:C\nL:1/4\n" + strings.Repeat(`"C"c/64`, chart.MaxChords+1) + "|"))
	assert.EqualError(t, err, `tune 1, bar 1, line 4, column 1, "C": a bar holds at most 64 chords`)
	_, err = Parse([]byte("X:1\nM:4/4\nL:1/4\nK:C\n\"C\"c4|" + strings.Repeat(`"C"c`, 65)))
	assert.EqualError(t, err, `tune 1, bar 2, line 5, column 7: the bar lasts more than 64 beats (bar lines are written |)`)
	_, err = Parse([]byte("X:1\nK:C\n\"C\"Z20000|"))
	assert.ErrorIs(t, err, chart.ErrTooLong)
}

// What is right is read though something else is wrong.
func TestChartOfABadTune(t *testing.T) {
	c, err := Parse([]byte("X:1\nT:Low Tide\nM:4/4\nL:1/4\nK:C\n\"C\"c4|\"Xm7\"f2\"F\"f2|"))
	require.Error(t, err)
	assert.Equal(t, "Low Tide", c.Title)
	assert.Equal(t, "| C | / / F / |", changes(c))
}

func TestErrorsAreBounded(t *testing.T) {
	_, err := Parse([]byte("X:1\nK:C\n" + strings.Repeat(`"Xm7"c8|`, 3*MaxErrors)))
	var list ErrorList
	require.True(t, errors.As(err, &list))
	assert.Len(t, list, MaxErrors)
	assert.Contains(t, err.Error(), "\nand 990 more")
	_, err = Parse(make([]byte, MaxBytes+1))
	assert.EqualError(t, err, "the file has more than 8388608 bytes (divide it)")
}
