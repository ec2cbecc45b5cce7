package chart

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fifthwise/pkg/chord"
	"fifthwise/pkg/key"
	"fifthwise/pkg/pitch"
)

// told is the chart as played, "1.1 C 2" for C on beat 1 of bar 1 for two
// beats, optional chords in brackets.
func told(c Chart) string {
	var parts []string
	for _, e := range c.Played() {
		symbol := e.Symbol
		if e.Optional {
			symbol = "(" + symbol + ")"
		}
		parts = append(parts, fmt.Sprintf("%d.%v %s %v", e.Bar, e.Beat, symbol, e.Len))
	}
	return strings.Join(parts, "; ")
}

// The sentences of the notation in their order, several spellings of one
// meaning in a row; the first is what is printed where it is canonical.
var notation = []struct {
	name string
	in   []string
	want string
}{
	{"a bar stands between bar lines, the outer ones may be missing", []string{"| C | F |", "C | F", "| C | F", "C | F |", "|C|F|"}, "1.1 C 4; 2.1 F 4"},
	{"a line break is a space", []string{"| C F | G |", "C\nF | G", "C F\n|\nG", "C F |\n| G", "C F |\r\n| G\r\n", "C\tF | G", "\ufeffC F | G"}, "1.1 C 2; 1.3 F 2; 2.1 G 4"},
	{"a double bar line makes no bar", []string{"| C || F ||", "|| C || F", "C ||\n|| F ||"}, "1.1 C 4; 2.1 F 4"},
	{"a mark alone makes no bar", []string{"| [A] | C | F |", "[A] C | F", "[A]\nC | F", "[A] | C\n\n | F", "| 4/4 | C | F"}, "1.1 C 4; 2.1 F 4"},
	{"marks in any order", []string{"3/4 [A] |: 1. C :| 2. F", "|: [A] 1. 3/4 C :| 2. F", "|: [A] | 1. | 3/4 | C :| 2. | F"}, "1.1 C 3; 2.1 F 3"},
	{"one chord", []string{"C"}, "1.1 C 4"},
	{"chords share a bar evenly", []string{"| C F | C F G C | C F G C D G C F |"},
		"1.1 C 2; 1.3 F 2; 2.1 C 1; 2.2 F 1; 2.3 G 1; 2.4 C 1; 3.1 C 1/2; 3.3/2 F 1/2; 3.2 G 1/2; 3.5/2 C 1/2; 3.3 D 1/2; 3.7/2 G 1/2; 3.4 C 1/2; 3.9/2 F 1/2"},
	{"three chords in 4/4", []string{"| C F G |"}, "1.1 C 4/3; 1.7/3 F 4/3; 1.11/3 G 4/3"},
	{"a slash is a beat", []string{"| C / F G |", "| C / F G"}, "1.1 C 2; 1.3 F 1; 1.4 G 1"},
	{"a slash is a beat in 3/4", []string{"Meter: 3/4\n| C / F |"}, "1.1 C 2; 1.3 F 1"},
	{"a slash is a dotted quarter in 12/8", []string{"Meter: 12/8\n| C / F G |"}, "1.1 C 2; 1.3 F 1; 1.4 G 1"},
	{"a leading slash holds", []string{"| C | / F / / | / / / / | / / / G |"}, "1.1 C 5; 2.2 F 10; 4.4 G 1"},
	{"a place in the bar", []string{"| C F@3.5 |", "| C F@7/2 |", "C F@3.50"}, "1.1 C 5/2; 1.7/2 F 3/2"},
	{"chords before and behind a place share", []string{"| C D F@3 G |", "| C@1 D@2 F@3 G@4 |"}, "1.1 C 1; 1.2 D 1; 1.3 F 1; 1.4 G 1"},
	{"a place holds the chord before", []string{"| C | F@3 | G |"}, "1.1 C 6; 2.3 F 2; 3.1 G 4"},
	{"a decimal place may be cut or rounded", []string{"| C F@7/3 |", "| C F@2.333 |", "| C F@2.3333333333 |"}, "1.1 C 4/3; 1.7/3 F 8/3"},
	{"% writes the bar before again", []string{"| C F | % | G |"}, "1.1 C 2; 1.3 F 2; 2.1 C 2; 2.3 F 2; 3.1 G 4"},
	{"% many times", []string{"| C | % | % |"}, "1.1 C 4; 2.1 C 4; 3.1 C 4"},
	{"% makes new chords of what was held", []string{"| C | / / F / | % | / / / / | % |"},
		"1.1 C 6; 2.3 F 2; 3.1 C 2; 3.3 F 6; 5.1 F 4"},
	{"% and marks", []string{"| C | [B] % :|"}, "1.1 C 4; 2.1 C 4; 2.1 C 4"},
	{"% in a group", []string{"| C | (%) |", "| C | ( % ) |"}, "1.1 C 4; 2.1 (C) 4"},
	{"silence", []string{"| N.C. | C N.C. |", "| N.C. | C / N.C. / |"}, "1.1 N.C. 4; 2.1 C 2; 2.3 N.C. 2"},
	{"a repeat", []string{"|: C | F :| G |", "|: C | F :|\n| G"}, "1.1 C 4; 2.1 F 4; 1.1 C 4; 2.1 F 4; 3.1 G 4"},
	{"a repeat from the start", []string{"| C | F :| G |"}, "1.1 C 4; 2.1 F 4; 1.1 C 4; 2.1 F 4; 3.1 G 4"},
	{"a repeat from the section", []string{"| C | [B] F :| G |"}, "1.1 C 4; 2.1 F 4; 2.1 F 4; 3.1 G 4"},
	{"a repeat from the last repeat", []string{"| C :| F :| G |"}, "1.1 C 4; 1.1 C 4; 2.1 F 4; 2.1 F 4; 3.1 G 4"},
	{"a repeat over a section", []string{"|: [A] C | [B] F :|"}, "1.1 C 4; 2.1 F 4; 1.1 C 4; 2.1 F 4"},
	{"two repeats side by side", []string{"|: C :|\n|: F :|", "|: C :|: F :|", "|: C :||: F :|", "|: C :| |: F :|"}, "1.1 C 4; 1.1 C 4; 2.1 F 4; 2.1 F 4"},
	{"repeat signs with double bars", []string{"| C ||\n|: F :||", "| C ||: F :||", "| C || |: F :||"}, "1.1 C 4; 2.1 F 4; 2.1 F 4"},
	{"endings", []string{"|: C | 1. F :| 2. G |", "|: C |1. F :|2. G |", "C | 1. F :| 2. G"}, "1.1 C 4; 2.1 F 4; 1.1 C 4; 3.1 G 4"},
	{"endings of two bars", []string{"|: C | 1. F | D :| 2. G | A |"}, "1.1 C 4; 2.1 F 4; 3.1 D 4; 1.1 C 4; 4.1 G 4; 5.1 A 4"},
	{"three endings", []string{"|: C | 1. F :| 2. G :| 3. A |"}, "1.1 C 4; 2.1 F 4; 1.1 C 4; 3.1 G 4; 1.1 C 4; 4.1 A 4"},
	{"an ending for two passes", []string{"|: C | 1,2. F :| 3. G |"}, "1.1 C 4; 2.1 F 4; 1.1 C 4; 2.1 F 4; 1.1 C 4; 3.1 G 4"},
	{"endings by turns", []string{"|: C | 1,3. F :| 2,4. G :| A |"}, "1.1 C 4; 2.1 F 4; 1.1 C 4; 3.1 G 4; 1.1 C 4; 2.1 F 4; 1.1 C 4; 3.1 G 4; 4.1 A 4"},
	{"the repeat sign of the last ending goes nowhere", []string{"|: C | 1. F :| 2. G :| A |"}, "1.1 C 4; 2.1 F 4; 1.1 C 4; 3.1 G 4; 4.1 A 4"},
	{"only a first ending", []string{"|: C | 1. F :| G |"}, "1.1 C 4; 2.1 F 4; 1.1 C 4; 3.1 G 4"},
	{"nothing before the endings", []string{"|: 1. C :| 2. F |"}, "1.1 C 4; 2.1 F 4"},
	{"endings from the section", []string{"| C | [B] F | 1. G :| 2. A | D |"}, "1.1 C 4; 2.1 F 4; 3.1 G 4; 2.1 F 4; 4.1 A 4; 5.1 D 4"},
	{"a repeat after endings and a section", []string{"|: C | 1. F :| 2. G | [B] A :| D |"}, "1.1 C 4; 2.1 F 4; 1.1 C 4; 3.1 G 4; 4.1 A 4; 4.1 A 4; 5.1 D 4"},
	{"a repeat after endings and a double bar", []string{"|: C | 1. F :| 2. G || A :| D |"}, "1.1 C 4; 2.1 F 4; 1.1 C 4; 3.1 G 4; 4.1 A 4; 3.1 G 4; 4.1 A 4; 5.1 D 4"},
	{"two repeats with endings", []string{"|: C | 1. F :| 2. G |: A | 1. D :| 2. E |"}, "1.1 C 4; 2.1 F 4; 1.1 C 4; 3.1 G 4; 4.1 A 4; 5.1 D 4; 4.1 A 4; 6.1 E 4"},
	{"a hold into an ending holds what was played before", []string{"|: C | 1. F :| 2. / / G / |"}, "1.1 C 4; 2.1 F 4; 1.1 C 6; 3.3 G 2"},
	{"a hold into a repeat", []string{"|: C | F :| / / / / |"}, "1.1 C 4; 2.1 F 4; 1.1 C 4; 2.1 F 8"},
	{"a change of meter", []string{"| C | 3/4 F | G | 4/4 A |"}, "1.1 C 4; 2.1 F 3; 3.1 G 3; 4.1 A 4"},
	{"a change of meter alone", []string{"| C | 3/4 | F | G | 4/4 | A |"}, "1.1 C 4; 2.1 F 3; 3.1 G 3; 4.1 A 4"},
	{"brackets inside a symbol", []string{"| C7(b9) |"}, "1.1 C7(b9) 4"},
	{"an optional group", []string{"| C | (Em7 A7(b9) | Dm7 G7) | C |", "| C | ( Em7 A7(b9) | Dm7 G7 ) | C |", "| C | ( | Em7 A7(b9) | Dm7 G7 | ) | C |"},
		"1.1 C 4; 2.1 (Em7) 2; 2.3 (A7(b9)) 2; 3.1 (Dm7) 2; 3.3 (G7) 2; 4.1 C 4"},
	{"a group that ends with a bracketed symbol", []string{"| C (A7(b9)) |", "| C ( A7(b9) ) |"}, "1.1 C 2; 1.3 (A7(b9)) 2"},
	{"a group and beats", []string{"| C / (F G) |", "| C / (F G ) |"}, "1.1 C 2; 1.3 (F) 1; 1.4 (G) 1"},
	{"a group and places", []string{"| C (F@3.5) |"}, "1.1 C 5/2; 1.7/2 (F) 3/2"},
	{"a group that ends with a held beat", []string{"| C / (F /) |"}, "1.1 C 2; 1.3 (F) 2"},
	{"brackets on the far side of a word", []string{"| C( F )G A |"}, "1.1 C 1; 1.2 (F) 1; 1.3 G 1; 1.4 A 1"},
	{"a group over a section", []string{"| C (G | [A] D) | F |", "| C (G | [A] D ) | F |"}, "1.1 C 2; 1.3 (G) 2; 2.1 (D) 4; 3.1 F 4"},
	{"headers", []string{"Title: Night Bus\nMeter: 3/4\nKey: F major\n| C |", "title: Night Bus\nKEY:F\n meter:3/4\nC", "[A]\nTitle: Night Bus\nMeter: 3/4\nC"}, "1.1 C 3"},
	{"a pickup", []string{"Pickup: 1\n| G7 | C |"}, "0.4 G7 1; 1.1 C 4"},
	{"a pickup of two chords", []string{"Pickup: 1.5\n| G7 D7@4 | C |"}, "0.7/2 G7 1/2; 0.4 D7 1; 1.1 C 4"},
	{"a pickup with slashes", []string{"Pickup: 2\n| G7 / | C |"}, "0.3 G7 2; 1.1 C 4"},
	{"a pickup is not repeated", []string{"Pickup: 1\n| G7 | C | F :|"}, "0.4 G7 1; 1.1 C 4; 2.1 F 4; 1.1 C 4; 2.1 F 4"},
	{"a pickup is repeated", []string{"Pickup: 1\n|: G7 | 3/4 C :|"}, "0.4 G7 1; 1.1 C 3; 0.4 G7 1; 1.1 C 3"},
	{"a pickup that holds nothing", []string{"Pickup: 0\n| G7 |"}, "1.1 G7 4"},
	{"comments", []string{"# a tune\n| C |\n  # its end\n| F |\n#", "| C |\n#|\n| F |"}, "1.1 C 4; 2.1 F 4"},
	{"6/8 has two beats", []string{"6/8 C F", "6/8 C F@2"}, "1.1 C 1; 1.2 F 1"},
	{"9/8 has three beats", []string{"9/8 C / F"}, "1.1 C 2; 1.3 F 1"},
	{"7/8 has seven beats", []string{"7/8 C F@5"}, "1.1 C 4; 1.5 F 3"},
	{"Harte's syntax", []string{"| C:min7 | F:(1,3,6)/3:|", "C:min7|F:(1,3,6)/3 :|"}, "1.1 C:min7 4; 2.1 F:(1,3,6)/3 4; 1.1 C:min7 4; 2.1 F:(1,3,6)/3 4"},
	{"no space about bar lines", []string{"|:C|1. F:|2. G||"}, "1.1 C 4; 2.1 F 4; 1.1 C 4; 3.1 G 4"},
	{"a section of a long name", []string{"[" + strings.Repeat("A", 200) + "] C"}, "1.1 C 4"},
	{"signs of more than a byte", []string{"[Überleitung]| B♭Δ | F♯ø7 |"}, "1.1 B♭Δ 4; 2.1 F♯ø7 4"},
}

// Common practice, no source.
func TestParse(t *testing.T) {
	for _, tt := range notation {
		for _, in := range tt.in {
			t.Run(tt.name+"/"+in, func(t *testing.T) {
				c, err := Parse(in)
				require.NoError(t, err)
				assert.Equal(t, tt.want, told(c))
				assert.NoError(t, c.Validate())
				first, err := Parse(tt.in[0])
				require.NoError(t, err)
				for i := range c.Bars {
					assert.Equal(t, first.Bars[i].Chords, c.Bars[i].Chords)
				}
				again, err := Parse(c.String())
				require.NoError(t, err, c)
				assert.True(t, again.Equal(c), "%s\n%s", c, again)
				assert.Equal(t, c.String(), again.String())
			})
		}
	}
}

func TestParseFields(t *testing.T) {
	c, err := Parse("Title:  Night Bus \nKey: F\nMeter: 4/4\nPickup: 1\n\n[A]\n|: C | [ Verse 2 ] 3/4 F | 1. G :| 2. Am ||")
	require.NoError(t, err)
	assert.Equal(t, "Night Bus", c.Title)
	assert.Equal(t, Meter{4, 4}, c.Meter)
	assert.Equal(t, key.MustParse("F major"), c.Key)
	assert.Equal(t, B(1, 1), c.Pickup)
	chordAt := func(symbol string, at, length Beats) []Slot {
		return []Slot{{Chord: chord.MustParse(symbol), Symbol: symbol, At: at, Len: length}}
	}
	assert.Equal(t, []Bar{
		{Number: 0, Meter: Meter{4, 4}, Section: "A", Chords: chordAt("C", B(3, 1), B(1, 1)), RepeatStart: true},
		{Number: 1, Meter: Meter{3, 4}, Section: "Verse 2", Chords: chordAt("F", Beats{}, B(3, 1))},
		{Number: 2, Meter: Meter{3, 4}, Chords: chordAt("G", Beats{}, B(3, 1)), RepeatEnd: true, Ending: []int{1}},
		{Number: 3, Meter: Meter{3, 4}, Chords: chordAt("Am", Beats{}, B(3, 1)), Double: true, Ending: []int{2}},
	}, c.Bars)
	assert.Empty(t, c.Warnings)
	bare, err := Parse("3/4 C")
	require.NoError(t, err)
	assert.Equal(t, Meter{3, 4}, bare.Meter, "the meter at the start")
	assert.False(t, bare.Key.IsValid())
	bare, err = Parse("C")
	require.NoError(t, err)
	assert.Equal(t, Meter{4, 4}, bare.Meter)
}

// said is what the parser of chord symbols says of one that is wrong, with our
// hint where it has none.
func said(symbol string, hint ...string) string {
	_, err := chord.Parse(symbol)
	e := Error{BarIndex: -1}
	e.explain(err)
	if e.Hint == "" {
		e.Hint = strings.Join(hint, "")
	}
	return e.Error()
}

// badNotation is what is refused, each for one reason but the last.
var badNotation = []struct {
	name, in string
	want     []string
}{
	{"empty", "", []string{"line 1, column 1: the chart has no bars (write chords between bar lines: | C | F G |)"}},
	{"only a header", "Title: X\n", []string{"line 2, column 1: the chart has no bars (write chords between bar lines: | C | F G |)"}},
	{"numerals", "| ii7 V7 | Imaj7 |", []string{
		`bar 1, line 1, column 3, "ii7": expected a root A to G or N.C. (this looks like a numeral, not like a chord symbol)`,
		`bar 1, line 1, column 7, "V7": expected a root A to G or N.C. (this looks like a numeral, not like a chord symbol)`,
		`bar 2, line 1, column 12, "Imaj7": expected a root A to G or N.C. (this looks like a numeral, not like a chord symbol)`,
	}},
	{"an empty bar", "| C | | D |", []string{`bar 2, line 1, column 7, "| |": the bar is empty (% writes the bar before again, N.C. is silence; if two bars were joined, drop one of the lines)`}},
	{"an empty bar without space", "C || | D", []string{`bar 2, line 1, column 6, "|| |": the bar is empty (% writes the bar before again, N.C. is silence; if two bars were joined, drop one of the lines)`}},
	{"an empty repeat", "|: :|", []string{`bar 1, line 1, column 4, "|: :|": the bar is empty (% writes the bar before again, N.C. is silence)`}},
	{"an empty repeat over two lines", "|:\n:| C", []string{`bar 1, line 2, column 1, ":|": no bar stands before the repeat sign that could be repeated`}},
	{"too few beats", "| C | C / F |", []string{"bar 2, line 1, column 7: the bar has 3 of 4 beats (in a bar with / each chord and each / is one beat)"}},
	{"too many beats", "| C / / F / |", []string{"bar 1, line 1, column 11: the bar has 5 beats instead of 4 (in a bar with / each chord and each / is one beat)"}},
	{"beats of a pickup", "Pickup: 2\n| C / / |", []string{"bar 0, line 2, column 7: the bar has 3 beats instead of 2 (in a bar with / each chord and each / is one beat)"}},
	{"slashes in a group", "| C // F |", []string{`bar 1, line 1, column 5, "//": expected one / (write / /)`}},
	{"% in a group", "| C | %% |", []string{`bar 2, line 1, column 7, "%%": expected one % (it stands alone in its bar, | % | % |)`}},
	{"nothing to hold", "| / C F G |", []string{`bar 1, line 1, column 3, "/": no chord stands before / that could be held (write N.C. for silence)`}},
	{"nothing to hold in a whole bar", "| / / / / | C |", []string{`bar 1, line 1, column 3, "/": no chord stands before / that could be held (write N.C. for silence)`}},
	{"@ and /", "| C F@3 / / |", []string{`bar 1, line 1, column 5, "F": @ and / stand in one bar (give the place of every chord with @, or count all beats with /)`}},
	{"a place behind the bar", "| C F@5 |", []string{`bar 1, line 1, column 5, "F": beat 5 lies behind the bar (its last beat is 4)`}},
	{"a place before the bar", "| C F@0.5 |", []string{`bar 1, line 1, column 7, "F@0.5": beat 1/2 lies before the bar (beats count from 1)`}},
	{"a place at zero", "| C@0 |", []string{`bar 1, line 1, column 5, "C@0": beat 0 lies before the bar (beats count from 1)`}},
	{"a place before the pickup", "Pickup: 1\n| G7@2 | C |", []string{`bar 0, line 2, column 3, "G7": beat 2 lies before the bar (it starts on beat 4)`}},
	{"places out of order", "| C@3 F@2 |", []string{`bar 1, line 1, column 7, "F": beat 2 does not come after beat 3`}},
	{"one place twice", "| C@3 F@3 |", []string{`bar 1, line 1, column 7, "F": beat 3 does not come after beat 3`}},
	{"no time before a place", "| C F@1 |", []string{`bar 1, line 1, column 3, "C": no time is left for the chord before beat 1 (there are 0 beats before beat 1)`}},
	{"no place behind @", "| C@ |", []string{`bar 1, line 1, column 5, "C@": expected a number of beats`}},
	{"a word behind @", "| C@x |", []string{`bar 1, line 1, column 5, "C@x": expected a number of beats`}},
	{"trailing text behind @", "| C@3x |", []string{`bar 1, line 1, column 6, "C@3x": expected the end of the number of beats`}},
	{"nothing before @", "| @3 |", []string{`bar 1, line 1, column 3, "@3": expected a chord symbol before @ (for example C@3)`}},
	{"% with another chord", "| C | % F |", []string{`bar 2, line 1, column 7, "%": % stands alone in its bar (it writes the whole bar before again)`}},
	{"% in the first bar", "| % | C |", []string{`bar 1, line 1, column 3, "%": no bar stands before % to be written again`}},
	{"% in another meter", "| C | 3/4 % |", []string{`bar 2, line 1, column 11, "%": the bar before has 4 beats, this one 3 (write its chords)`}},
	{"% behind a pickup", "Pickup: 1\n| C | % |", []string{`bar 1, line 2, column 7, "%": the bar before has 1 beat, this one 4 (write its chords)`}},
	{"% behind a bad bar says nothing", "| H | % |", []string{`bar 1, line 1, column 3, "H": ` + said("H")}},
	{"nothing to repeat", ":| C |", []string{`bar 1, line 1, column 1, ":|": no bar stands before the repeat sign that could be repeated`}},
	{"repeated twice", "| C :|\n:| F |", []string{`bar 2, line 2, column 1, ":|": no bar stands before the repeat sign that could be repeated`}},
	{"two repeat signs", "|:\n|: C :|", []string{`bar 1, line 2, column 1, "|:": no bar stands between two repeat signs`}},
	{"a repeat not closed", "| C |: F |", []string{"bar 2, line 1, column 5: the repeat is not closed (write :| at its end)"}},
	{"a repeat in a repeat", "|: C |: F :| G :|", []string{"bar 2, line 1, column 6: the repeat of bar 1 is still open (close it with :| first; repeats do not nest)"}},
	{"a repeat sign at the end", "| C |:", []string{"bar 2, line 1, column 5, \"|:\": no bar stands behind the mark"}},
	{"only the pickup to repeat", "Pickup: 1\n| G7 :| C |", []string{"bar 0, line 2, column 6: no bar stands before the pickup that could be repeated (write |: before the pickup to repeat it)"}},
	{"an ending not closed", "|: C | 1. F | 2. G :|", []string{
		`bar 2, line 1, column 8, "1.": ending 1. is not closed (write :| where it goes back)`}},
	{"a second ending alone", "|: C | 2. F :|", []string{`bar 2, line 1, column 8, "2.": ending 2. follows no other ending (ending 1. comes first, and each follows the :| of the one before)`}},
	{"a second ending too late", "|: C | 1. F :| G | 2. A |", []string{`bar 4, line 1, column 20, "2.": ending 2. follows no other ending (ending 1. comes first, and each follows the :| of the one before)`}},
	{"a missing ending", "|: C | 1. F :| 3. G |", []string{`bar 3, line 1, column 16, "3.": the repeat has an ending 3. but no ending 2.`}},
	{"endings out of order", "|: C | 1,3. F :| 2. G |", []string{`bar 3, line 1, column 18, "2.": ending 2. stands last but is not played last`}},
	{"an ending twice", "|: C | 1,2. F :| 2. G |", []string{`bar 3, line 1, column 18, "2.": ending 2. stands twice`}},
	{"a last ending for two passes not closed", "|: C | 1. F :| 2,3. G |", []string{`bar 3, line 1, column 16, "2,3.": ending 2,3. is not closed (write :| where it goes back)`}},
	{"ending 0", "|: C | 0. F :|", []string{`bar 2, line 1, column 8, "0.": endings are numbered from 1 to 99`}},
	{"an ending that runs into its chord", "|: C | 1.F :|", []string{`bar 2, line 1, column 9, "1.F": expected a chord, an ending as 1. or 1,2. or a meter as 3/4 (write 1. F)`}},
	{"an ending without its point", "|: C | 1 F :|", []string{`bar 2, line 1, column 9, "1": expected a chord, an ending as 1. or 1,2. or a meter as 3/4 (an ending is written 1.)`}},
	{"a section in the middle of a bar", "| C [B] F |", []string{`bar 1, line 1, column 5, "[B]": a section mark stands first in its bar (write | before it)`}},
	{"a meter in the middle of a bar", "| C 3/4 F |", []string{`bar 1, line 1, column 5, "3/4": a meter stands first in its bar (write | before it)`}},
	{"an ending in the middle of a bar", "| C 1. F :|", []string{`bar 1, line 1, column 5, "1.": an ending stands first in its bar (write | before it)`}},
	{"a section without a bar", "| C | [A] [B] F |", []string{`bar 2, line 1, column 7, "[A]": no bar stands between the mark and [B]`}},
	{"a section at the end", "| C | [A]", []string{"bar 2, line 1, column 7, \"[A]\": no bar stands behind the mark"}},
	{"a section without a name", "[ ] C", []string{`bar 1, line 1, column 1, "[ ]": the section has no name (for example [A])`}},
	{"a section not closed in reach", "[A " + strings.Repeat("H", 200) + "] C", []string{
		`bar 1, line 1, column 1, "[A": the section mark is not closed (write ] behind the name, which has at most 200 bytes)`,
		`bar 1, line 1, column 4, "` + strings.Repeat("H", 200) + `]": ` + said(strings.Repeat("H", 200)+"]", "a section is written [A]")}},
	{"a section not closed", "[A C | F", []string{`bar 1, line 1, column 1, "[A": the section mark is not closed (write ] behind the name, which has at most 200 bytes)`}},
	{"a section of a long name", "[" + strings.Repeat("A", 201) + "] C", []string{`bar 1, line 1, column 1, "[` + strings.Repeat("A", 201) + `]": the name of the section has more than 200 bytes (for example [A])`}},
	{"a control character in a section", "[A\x00] C", []string{`bar 1, line 1, column 1, "[A\x00]": the name of the section holds a line break or another control character (for example [A])`}},
	{"a meter that is none", "| 3/5 C |", []string{`bar 1, line 1, column 5, "3/5": expected 1, 2, 4, 8, 16 or 32 as the lower number of a meter`}},
	{"a group not closed", "| C (F | G |", []string{`bar 1, line 1, column 5, "(": the optional group is not closed (write ) behind its last chord)`}},
	{"a group not opened", "| C | F) |", []string{`bar 2, line 1, column 8, ")": nothing opens the group that ) closes (write ( before its first chord)`}},
	{"a group in a group", "| (C (F) G) |", []string{`bar 1, line 1, column 6, "(": optional groups do not nest (close the one before with ))`}},
	{"brackets in brackets", "| ((C)) |", []string{`bar 1, line 1, column 4, "(": optional groups do not nest (close the one before with ))`}},
	{"an empty group", "| C () | ( ) |\n", []string{
		`bar 1, line 1, column 6, ")": no chord stands in the brackets`, `bar 2, line 1, column 12, ")": no chord stands in the brackets`}},
	{"a bracket inside a symbol", "| C7(b9 F | G) |", []string{
		`bar 1, line 1, column 5, "C7(b9": ` + said("C7(b9"),
		`bar 2, line 1, column 14, ")": nothing opens the group that ) closes (write ( before its first chord)`}},
	{"an unknown header", "Composer: X\nC", []string{`line 1, column 1, "Composer:": unknown header (Title, Meter, Key or Pickup; a section is written [Composer], anything else behind #)`}},
	{"an unknown header behind bars", "| C |\nVerse:\n| F |", []string{`line 2, column 1, "Verse:": unknown header (Title, Meter, Key or Pickup; a section is written [Verse], anything else behind #)`}},
	{"a header behind bars", "| C |\nKey: F\n| F |", []string{`line 2, column 1, "Key:": a header stands before the first bar`}},
	{"a header twice", "Key: F\nKey: F\nC", []string{`line 2, column 1, "Key:": the header stands twice`}},
	{"a bad meter", "Meter: 4\nC", []string{`line 1, column 8, "4": expected a meter (for example 3/4)`}},
	{"a bad pickup", "Pickup: x\nC", []string{`line 1, column 9, "x": expected a number of beats`}},
	{"a negative pickup", "Pickup: -1\nC", []string{`line 1, column 9, "-1": a pickup has more than 0 beats`}},
	{"a pickup as long as its bar", "Pickup: 3\n3/4 C | F", []string{`line 1, column 9, "3": a pickup is shorter than a bar (the bar has 3 beats)`}},
	{"a control character in the title", "Title: A\x01B\nC", []string{`line 1, column 8: the title holds a line break or another control character`}},
	{"a comment behind a bar", "| C | # end", []string{
		`bar 2, line 1, column 7, "#": ` + said("#", "a comment is a line of its own"),
		`bar 2, line 1, column 9, "end": ` + said("end")}},
	{"a bass alone", "| C /B |", []string{`bar 1, line 1, column 5, "/B": ` + said("/B", "write the whole chord, as C/B")}},
	{"invalid UTF-8", "| C |\n| F\xff |", []string{"line 2, column 4: the text is not valid UTF-8"}},
	{"a word too long", "| C | " + strings.Repeat("(", 600), []string{"bar 2, line 1, column 7: a word of more than 512 bytes is no chord symbol"}},
	{"too many chords in a bar", "| " + strings.Repeat("C ", 65) + "|", []string{"bar 1, line 1, column 131: a bar holds at most 64 chords (bar lines are written |)"}},
	{"all faults at once", "Key: H\n| c7 | C / |\n| F | | [B] Xy (G\n", []string{
		`line 1, column 6, "H": expected a note name A to G (the German H is B)`,
		`bar 1, line 2, column 3, "c7": ` + said("c7"),
		`bar 2, line 2, column 8: the bar has 2 of 4 beats (in a bar with / each chord and each / is one beat)`,
		`bar 4, line 3, column 7, "| |": the bar is empty (% writes the bar before again, N.C. is silence; if two bars were joined, drop one of the lines)`,
		`bar 4, line 3, column 13, "Xy": ` + said("Xy"),
		`bar 4, line 3, column 16, "(": the optional group is not closed (write ) behind its last chord)`}},
}

func TestParseErrors(t *testing.T) {
	for _, tt := range badNotation {
		t.Run(tt.name, func(t *testing.T) {
			_, err := Parse(tt.in)
			var list ErrorList
			require.ErrorAs(t, err, &list)
			var got []string
			for _, e := range list {
				got = append(got, e.Error())
			}
			assert.Equal(t, tt.want, got)
		})
	}
}

// Places count from the start of the text in bytes, columns in code points.
func TestParseErrorPlaces(t *testing.T) {
	const text = "Title: Überfahrt\n| B♭Δ | F♯q7 |\n| C F@9 |\n"
	_, err := Parse(text)
	var list ErrorList
	require.ErrorAs(t, err, &list)
	require.Len(t, list, 2)
	e := list[0]
	assert.Equal(t, Error{Bar: 2, BarIndex: 1, Chord: 0, Symbol: "F♯q7", SymbolOffset: len("F♯"), Line: 2, Column: 11, Offset: strings.Index(text, "q7"),
		Msg: e.Msg, Hint: e.Hint, cause: e.cause}, *e)
	var syntax *pitch.SyntaxError
	require.True(t, errors.As(err, &syntax))
	assert.Equal(t, "F♯q7", syntax.Input)
	e = list[1]
	assert.Equal(t, []int{3, 2, 1, 3, 5, strings.Index(text, "F@9")}, []int{e.Bar, e.BarIndex, e.Chord, e.Line, e.Column, e.Offset})
}

func TestParseTellsSoManyFaults(t *testing.T) {
	_, err := Parse(strings.Repeat("| H ", 3000))
	var list ErrorList
	require.ErrorAs(t, err, &list)
	assert.Len(t, list, MaxErrors)
	assert.Equal(t, 11, strings.Count(err.Error(), "\n")+1)
	assert.True(t, strings.HasSuffix(err.Error(), "\nand 990 more"))
}

// Text of a megabyte that is one fault after the other is done with. A reader that
// went back over it would still be at it when the tests time out.
func TestParseIsLinear(t *testing.T) {
	const size = 1 << 20
	for _, piece := range []string{"(", "( ", ")", "(((())))", "[A] ", "[ ", "[", "| ", "/ ", "C@1 ", "Key: F\n", "a:\n", "#\n", "\n", "1,", ":|", "|: C :|", "% |", "x"} {
		_, err := Parse(strings.Repeat(piece, size/len(piece)))
		assert.Error(t, err, piece)
	}
}

func TestParseTooLong(t *testing.T) {
	bars := strings.Repeat("C | ", 200)
	for name, in := range map[string]string{
		"bars":   strings.Repeat("C|", MaxPlayedBars+1),
		"passes": "|: " + bars + "1,2,3,4,5,6,7,8,9,10,11,12,13,14,15,16,17,18,19,20,21,22,23,24,25,26,27,28,29,30. " + bars + "C :|",
		"chords": strings.Repeat("| C F G A C F G A ", MaxPlayedChords/8+1),
	} {
		t.Run(name, func(t *testing.T) {
			c, err := Parse(in)
			require.ErrorIs(t, err, ErrTooLong)
			assert.Len(t, err, 1)
			assert.NotEmpty(t, c.Bars)
			assert.LessOrEqual(t, len(c.Played()), MaxPlayedChords)
		})
	}
	c, err := Parse(strings.Repeat("C|", MaxPlayedBars))
	require.NoError(t, err)
	assert.Len(t, c.Played(), MaxPlayedBars)
}

func TestWarnings(t *testing.T) {
	tests := []struct {
		name, in string
		want     []Warning
	}{
		{"three in 4/4", "| C | C F G | % |", []Warning{{2, "3 chords share 4 beats evenly, 4/3 beats each"}}},
		{"two in 3/4", "3/4 C F", []Warning{{1, "2 chords share 3 beats evenly, 3/2 beats each"}}},
		{"three in 6/8", "6/8 C F G", []Warning{{1, "3 chords share 2 beats evenly, 2/3 beats each"}}},
		{"before a place", "C F G@3.5", []Warning{{1, "2 chords share 5/2 beats evenly, 5/4 beats each"}}},
		{"three in 3/4", "3/4 C F G", nil},
		{"eight in 4/4", "C F G A C F G A", nil},
		{"six in 6/8, an eighth each", "6/8 C F G A C F", nil},
		{"one chord for less than a beat", "C@4.25", []Warning{{1, "nothing sounds before beat 17/4; N.C. or a pickup would say so"}}},
		{"in a pickup", "Pickup: 2\nC@4 | F", []Warning{{0, "nothing sounds before beat 4; N.C. or a pickup would say so"}}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			c, err := Parse(tt.in)
			require.NoError(t, err)
			assert.Equal(t, tt.want, c.Warnings)
		})
	}
}

func TestParseWith(t *testing.T) {
	const text = "Title: Night Bus\nMeter: 4/4\nKey: F\n| C / F |"
	c, err := ParseWith(text, Header{Title: "Day Bus", Meter: Meter{3, 4}, Key: key.MustParse("F major")})
	require.NoError(t, err)
	assert.Equal(t, "Day Bus", c.Title)
	assert.Equal(t, Meter{3, 4}, c.Meter)
	assert.Equal(t, "1.1 C 2; 1.3 F 1", told(c))
	assert.Equal(t, []Warning{
		{1, "the title in the text, Night Bus, gives way to Day Bus"},
		{1, "the meter in the text, 4/4, gives way to 3/4"},
	}, c.Warnings)
	c, err = ParseWith("C", Header{Key: key.MustParse("D minor")})
	require.NoError(t, err)
	assert.Equal(t, key.MustParse("D minor"), c.Key)
	_, err = ParseWith("H", Header{Title: "A\nB", Meter: Meter{4, 3}})
	assert.EqualError(t, err, "the title holds a line break or another control character\n4/3 is no meter\n"+
		`bar 1, line 1, column 1, "H": `+said("H"))
}
