package chord

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fifthwise/pkg/pitch"
)

// Spellings as handbooks list them: R. Hutchinson, Music Theory for the
// 21st-Century Classroom, ch. 6, 8, 31; Wikipedia, "Chord notation"; Material
// Armonia (class handout); the symbols of MusicXML 4.0's kinds; ABC standard
// 2.1, 4.18. The first spelling is the one we print. Rows marked * add to the
// lists what is common practice, no source.
func TestSpellings(t *testing.T) {
	tests := []struct{ degrees, spellings string }{
		{"1 3 5", "C CM Cmaj CMaj"},
		{"1 b3 5", "Cm Cmin Cmi C- C− C–"},
		{"1 b3 b5", "Cdim C° Co Cm(b5) C-(b5)"},
		{"1 3 #5", "Caug C+ C(#5) C(♯5) C+5"},
		{"1 5", "C5"},
		{"1 4 5", "Csus4 Csus"},
		{"1 2 5", "Csus2 Csus9"},
		{"1 3 5 9", "Cadd9 C(add9) C2 Cadd2 C(9)"},
		{"1 3 5 6", "C6 CM6 Cmaj6"},
		{"1 b3 5 6", "Cm6 Cmin6 Cmi6 C-6"},
		{"1 3 5 6 9", "C6/9 C69 C6(9) C6add9 C(6/9)"},
		{"1 b3 5 6 9", "Cm6/9 Cm69 C-6/9"},
		{"1 3 5 b7", "C7 Cdom7 Cx"},
		{"1 3 5 7", "Cmaj7 CMaj7 CM7 CMa7 Cma7 CΔ7 CΔ C∆7 C△7 Cj7 CMA7"},
		{"1 b3 5 b7", "Cm7 Cmin7 Cmi7 C-7 C−7"},
		{"1 b3 b5 b7", "Cm7b5 Cm7(b5) Cmin7(b5) Cmi7(b5) C-7(b5) C-7b5 Cm7-5 Cm7(-5) Cø Cø7 C∅7 C∅ CØ7 Cm7♭5"},
		{"1 b3 b5 bb7", "Cdim7 C°7 Co7 Cº7"},
		{"1 b3 5 7", "Cm(maj7) CmM7 Cm/M7 Cm(M7) Cminmaj7 Cmin(maj7) Cmi(maj7) C-(maj7) CmΔ7 Cm(#7) Cm(+7) CmΔ C-Δ7 Cm/maj7"},
		{"1 3 #5 b7", "C7#5 C+7 Caug7 C7(#5) C7(+5) C7+ C7+5 C7aug"},
		{"1 3 b5 b7", "C7b5 C7(b5) C7(-5) C7-5"},
		{"1 3 #5 7", "Cmaj7#5 Cmaj7(#5) CΔ7(#5) CM7(#5) Cmaj7(+5) CaugM7 C+M7 C+Δ7"},
		{"1 3 b5 7", "Cmaj7b5 Cmaj7(b5) CΔ7(b5) Cmaj7(-5)"},
		{"1 4 5 b7", "C7sus4 C7sus C7(sus4) Csus7"},
		{"1 4 5 b7 9", "C9sus4 C9sus C7sus4(9)"},
		{"1 4 5 b7 9 13", "C13sus4 C13sus"},
		{"1 4 5 b7 b9", "C7sus4b9 C7sus(b9) C7b9sus4 C7sus4(b9)"},
		{"1 4 5 b7 b9 13", "C13sus4b9 C13sus(b9)"},
		{"1 3 5 b7 9", "C9 C7(9)"},
		{"1 3 5 7 9", "Cmaj9 CM9 CΔ9 CMaj9"},
		{"1 b3 5 b7 9", "Cm9 Cmin9 C-9"},
		{"1 b3 b5 b7 9", "Cm9b5 Cm9(b5) Cø9"},
		{"1 b3 5 7 9", "Cm(maj9) CmM9 CmΔ9"},
		{"1 3 5 b7 9 11", "C11 C9(11)"},
		{"1 b3 5 b7 9 11", "Cm11 Cm7(11) C-11"},
		{"1 b3 b5 b7 9 11", "Cm11b5 Cm11(b5) Cø11"},
		{"1 3 5 b7 9 13", "C13 C9(13)"},
		{"1 b3 5 b7 9 11 13", "Cm13 C-13"},
		{"1 3 5 7 9 #11 13", "Cmaj13#11 CΔ13(#11)"},
		{"1 3 5 b7 9 #11 13", "C13#11 C13(#11)"},
		{"1 3 b5 #5 b7 b9 #9", "C7alt Calt C7(alt) C7altered"},
		{"1 3 5 b7 b9", "C7b9 C7(b9) C7-9 C7(-9) C9(b9)"},
		{"1 3 5 b7 #9", "C7#9 C7(#9) C7+9 C7(+9)"},
		{"1 3 #5 b7 b9", "C7#5b9 C7(b9,#5) C7b9#5 C+7b9 C7(b9)(#5)"},
		{"1 3 5 b7 b13", "C7b13 C7(b13)"},
		{"1 3 5 b7 #11", "C7#11 C7(#11) C7+11 C7(#4)"},
		{"1 3 5 b7 9 #11", "C9#11 C9(#11)"},
		{"1 b3 b5 7", "Cdim(maj7) Cdim(Δ7) CoM7 C°M7"},
		// * from here on
		{"1 3 5 7 #11", "Cmaj7#11 CΔ#11 CM7(#11) Cmaj7♯11"},
		{"1 3 5 b7 b9 #11", "C7b9#11 C7(#11,b9) C7♭9♯11 C7(b9/#11)"},
		{"1 3 5 b7 #9 b13", "C7#9b13 C7(#9,b13)"},
		{"1 3 5 b7 b9 13", "C13b9 C7(b9,13) C7(13,b9)"},
		{"1 3 b5 #5 b7", "C7b5#5 C7(b5,#5)"},
		{"1 3 5 b7 13", "C7add13 C7(add13)"},
		{"1 b3 5 b7 9 13", "Cm9add13"},
		{"1 3 5 b7 9 11 13", "C13add11"},
		{"1 3 5 b9", "C(b9) Caddb9 C(addb9)"},
		{"1 3 5 b9 #11", "C(b9,#11) C(b9#11)"},
		{"1 3 5 9 #11", "Cadd9(#11)"},
		{"1 b3 5 9", "Cmadd9 Cm(add9) C-add9 Cm2"},
		{"1 3 5 11", "Cadd11 Cadd4 C(11)"},
		{"1 b3 5 b6", "Cm(b6) Cmb6 C-(♭6)"},
		{"1 b3 #5", "Cm(#5) Cm+"},
		{"1 3 b5", "C(b5)"},
		{"1 4 5 b9", "Csus4(b9) Csus(b9)"},
		{"1 2 4 5", "Csus2sus4 Csus24 Csus4sus2 Csus42"},
		{"1 2 5 b7", "C7sus2"},
		{"1 4 5 7", "Cmaj7sus4 CΔsus"},
		{"1 3 5 b7 b10", "C7b10"},
		{"1 3 5 6 #11", "C6#11"},
		{"1 3 5 7 9 11", "Cmaj11"},
		{"1 3 5 7 9 13", "Cmaj13 CΔ13"},
		{"1 b3 b5 bb7 9", "Cdim9 C°9"},
		{"1 3 b7", "C:(1,3,b7) C7no5 C7(no5) C7omit5 C7(omit5)"},
		{"1 5 b7", "C:(1,5,b7) C7no3 C7(no3) C7omit3"},
		{"1 3", "C:(1,3) Cno5 Comit5 C(omit5)"},
		{"3 5 b7", "C:(*1,3,5,b7) C7no1 C7noroot"},
		{"1 3 4 5 b7", "C:(1,3,4,5,b7)"},
	}
	for _, tt := range tests {
		words := strings.Fields(tt.spellings)
		for _, in := range words {
			t.Run(in, func(t *testing.T) {
				c, err := Parse(in)
				require.NoError(t, err)
				assert.Equal(t, tt.degrees, spaced(c.Quality()))
				assert.Equal(t, words[0], c.String())
				flat, err := Parse("G♭" + in[1:])
				require.NoError(t, err)
				assert.Equal(t, New(pitch.MustParse("Gb"), c.Quality()), flat)
			})
		}
	}
}

func spaced(q Quality) string {
	var words []string
	for _, d := range q.Degrees() {
		words = append(words, d.String())
	}
	return strings.Join(words, " ")
}

func TestBracketSeparators(t *testing.T) {
	for _, in := range []string{"C7(#9,b13)", "C7(#9, b13)", "C7(#9 b13)", "C7(#9/b13)", "C7(#9b13)", "C7(#9)(b13)"} {
		assert.Equal(t, "C7#9b13", MustParse(in).String(), in)
	}
}

func TestParseRootAndBass(t *testing.T) {
	tests := []struct{ name, in, root, quality, bass, want string }{
		{"note in the bass", "C/E", "C", "", "E", "C/E"},
		{"foreign bass", "Bb/C", "Bb", "", "C", "Bb/C"},
		{"the root as bass is no bass", "C7/C", "C", "7", "C", "C7"},
		{"enharmonic root as bass is one", "Db7/C#", "Db", "7", "C#", "Db7/C#"},
		{"six-nine over a bass", "C6/9/E", "C", "6/9", "E", "C6/9/E"},
		{"six over a bass", "C6/A", "C", "6", "A", "C6/A"},
		{"slash before the major seventh", "Cm/maj7/G", "C", "m(maj7)", "G", "Cm(maj7)/G"},
		{"accidentals go to the root", "Cb9", "Cb", "9", "Cb", "Cb9"},
		{"and not to the ninth", "C(b9)", "C", "(b9)", "C", "C(b9)"},
		{"Unicode", "E♭m7/B𝄫", "Eb", "m7", "Bbb", "Ebm7/Bbb"},
		{"bare root over a degree is Harte's", "C/3", "C", "", "E", "C/E"},
		{"also a flat one", "C/b7", "C", "", "Bb", "C/Bb"},
		{"degree in the bass", "Eb:min7/b3", "Eb", "m7", "Gb", "Ebm7/Gb"},
		{"degree beyond the octave", "D:9/9", "D", "9", "E", "D9/E"},
		{"note in Harte's bass", "C:maj/E", "C", "", "E", "C/E"},
		{"list with a bass", "C:(1,b5)/b5", "C", ":(1,b5)", "Gb", "C:(1,b5)/b5"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			c, err := Parse(tt.in)
			require.NoError(t, err)
			assert.Equal(t, tt.root, c.Root().String())
			assert.Equal(t, tt.quality, c.Quality().String())
			assert.Equal(t, tt.bass, c.Bass().String())
			assert.Equal(t, tt.want, c.String())
		})
	}
}

func TestParseSilence(t *testing.T) {
	for _, s := range silences {
		c, err := Parse(s)
		require.NoError(t, err)
		assert.Equal(t, Chord{}, c)
		assert.True(t, c.IsSilence())
	}
	assert.Equal(t, silences[0], Chord{}.String())
}

func TestParseErrors(t *testing.T) {
	tests := []struct{ name, in, wantErr string }{
		{"empty", "", `expected a root A to G or N.C. at offset 0 of ""`},
		{"lower case, seventh", "c7", `expected the root in upper case at offset 0 of "c7" (write C7 or Cm7)`},
		{"lower case, accidental", "bb7", `expected the root in upper case at offset 0 of "bb7" (write Bb7 or Bbm7)`},
		{"lower case, bare", "c", `expected the root in upper case at offset 0 of "c" (write C or Cm)`},
		{"lower case, minor said", "ebm7", `expected the root in upper case at offset 0 of "ebm7" (write Ebm7)`},
		{"lower case, no chord", "dim7", `expected the root in upper case at offset 0 of "dim7"`},
		{"German name", "H7", `expected a root A to G or N.C. at offset 0 of "H7" (the German H is B)`},
		{"silence in lower case", "n.c.", `expected a root A to G or N.C. at offset 0 of "n.c." (write N.C.)`},
		{"silence with a bass", "N.C./E", `expected a root A to G or N.C. at offset 0 of "N.C./E"`},
		{"numeral", "IIm7", `expected a root A to G or N.C. at offset 0 of "IIm7" (this looks like a numeral, not like a chord symbol)`},
		{"numeral with an accidental", "bVII7", `expected a root A to G or N.C. at offset 0 of "bVII7" (this looks like a numeral, not like a chord symbol)`},
		{"no UTF-8", "\xff7", `expected a root A to G or N.C. at offset 0 of "\xff7"`},
		{"mixed accidentals", "Cb#7", `flats and sharps mixed on one note at offset 2 of "Cb#7"`},
		{"too many accidentals", "C########7", `more than 7 accidentals on one note at offset 8 of "C########7"`},
		{"four", "C4", `expected one of the numbers 2, 6, 6/9, 7, 9, 11, 13 at offset 1 of "C4" (write sus4 or add11)`},
		{"minor or flat", "C-5", `expected one of the numbers 2, 6, 6/9, 7, 9, 11, 13 at offset 2 of "C-5" (write (b5) for a flat fifth)`},
		{"diminished sixth", "Cdim6", `expected one of the numbers 7, 9, 11, 13 at offset 4 of "Cdim6"`},
		{"no number behind the fifth", "C57", `expected the end or a modifier at offset 2 of "C57"`},
		{"two numbers", "C713", `a degree behind the number wants a sign or brackets at offset 2 of "C713" (write (13))`},
		{"space", "C7 alt", `expected an altered degree, maj7, add, no, sus, alt, a bracket or a bass at offset 2 of "C7 alt" (write the symbol without spaces)`},
		{"other brackets", "C7[b9]", `expected an altered degree, maj7, add, no, sus, alt, a bracket or a bass at offset 2 of "C7[b9]" (use round brackets)`},
		{"garbage", "Cfoo", `expected an altered degree, maj7, add, no, sus, alt, a bracket or a bass at offset 1 of "Cfoo" (write a quality such as m7, maj7 or 7b9)`},
		{"letter too many", "Fq7", `expected an altered degree, maj7, add, no, sus, alt, a bracket or a bass at offset 1 of "Fq7" (write F7, or a quality such as m7, maj7 or 7b9)`},
		{"letter too many before a bass", "F#m7é/A", `expected an altered degree, maj7, add, no, sus, alt, a bracket or a bass at offset 4 of "F#m7é/A" (write F#m7/A, or a quality such as m7, maj7 or 7b9)`},
		{"letters too many", "F7qq", `expected an altered degree, maj7, add, no, sus, alt, a bracket or a bass at offset 2 of "F7qq" (write a quality such as m7, maj7 or 7b9)`},
		{"another hand's triangle", "Ab^9#11/C", `expected an altered degree, maj7, add, no, sus, alt, a bracket or a bass at offset 2 of "Ab^9#11/C" (write Abmaj9#11/C, or a quality such as m7, maj7 or 7b9)`},
		{"and without a figure", "C^", `expected an altered degree, maj7, add, no, sus, alt, a bracket or a bass at offset 1 of "C^" (write Cmaj7, or a quality such as m7, maj7 or 7b9)`},
		{"another hand's half-diminished", "Bh7", `expected an altered degree, maj7, add, no, sus, alt, a bracket or a bass at offset 1 of "Bh7" (write Bm7b5, or a quality such as m7, maj7 or 7b9)`},
		{"comma outside", "C7b9,b13", `expected an altered degree, maj7, add, no, sus, alt, a bracket or a bass at offset 4 of "C7b9,b13" (write C7b9b13, or a quality such as m7, maj7 or 7b9)`},
		{"bracket not closed", "CΔ7(b9", `the bracket is not closed at offset 4 of "CΔ7(b9"`},
		{"bracket just opened", "C7(", `the bracket is not closed at offset 2 of "C7("`},
		{"bracket not opened", "C7b9)", `expected an altered degree, maj7, add, no, sus, alt, a bracket or a bass at offset 4 of "C7b9)" (write C7b9, or a quality such as m7, maj7 or 7b9)`},
		{"empty bracket", "C7()", `expected a degree, maj7, add, no, sus or alt in the bracket at offset 3 of "C7()"`},
		{"bracket in bracket", "C7((b9))", `expected a degree, maj7, add, no, sus or alt in the bracket at offset 3 of "C7((b9))"`},
		{"sign without degree", "C7b", `expected a degree after the sign at offset 3 of "C7b"`},
		{"degree zero", "C7b0", `expected a degree from 1 to 13 at offset 4 of "C7b0"`},
		{"three flats", "C7bbb9", `a degree has at most two flats or sharps at offset 2 of "C7bbb9"`},
		{"sharp and flat", "C7#b9", `flats and sharps mixed on one degree at offset 3 of "C7#b9"`},
		{"altered third", "C(b3)", `b3 is no degree of a chord symbol at offset 2 of "C(b3)"`},
		{"altered root", "C(#1)", `the root cannot be altered at offset 2 of "C(#1)" (write the octave, b8 or #8)`},
		{"seventh of either kind", "C(7)", `a seventh that is added is minor or major at offset 2 of "C(7)" (write b7 or maj7)`},
		{"octave", "Cadd8", `expected a degree 2 to 6, 9, 10, 11 or 13 at offset 4 of "Cadd8"`},
		{"add nothing", "Cadd", `expected the degree to add at offset 4 of "Cadd"`},
		{"leave out nothing", "C7no", `expected the degree to leave out at offset 4 of "C7no"`},
		{"leave out what is not there", "C7no9", `the chord has no 9 to leave out at offset 2 of "C7no9"`},
		{"second seventh", "C7M7", `the chord has a seventh already at offset 2 of "C7M7"`},
		{"second seventh, raised", "Cm7(#7)", `the chord has a seventh already at offset 4 of "Cm7(#7)"`},
		{"major without a number", "CmMaj", `expected 7, 9, 11 or 13 after the word for major at offset 5 of "CmMaj"`},
		{"alt of a thirteenth", "C13alt", `alt belongs behind a plain 7 at offset 3 of "C13alt" (write 7alt)`},
		{"nothing to raise", "Cdim+", `there is no natural fifth to raise at offset 4 of "Cdim+"`},
		{"no bass", "C7/", `expected a note name A to G at offset 3 of "C7/"`},
		{"bass in lower case", "C/e", `expected a note name A to G at offset 2 of "C/e" (write E in upper case)`},
		{"two basses", "C/E/G", `expected the end of the symbol after the bass at offset 3 of "C/E/G" (a chord over a chord is written as one, such as C:(1,3,5,b7,9))`},
		{"polychord", "D/C7", `expected the end of the symbol after the bass at offset 3 of "D/C7" (a chord over a chord is written as one, such as C:(1,3,5,b7,9))`},
		{"stacked polychord", "D|C", `expected an altered degree, maj7, add, no, sus, alt, a bracket or a bass at offset 1 of "D|C" (a chord over a chord is written as one, such as C:(1,3,5,b7,9))`},
		{"degree as the bass of a lead sheet", "C7/3", `expected a note in the bass at offset 3 of "C7/3" (a degree is added in brackets; it is the bass in Harte's syntax, such as C:min7/b3)`},
		{"nothing behind the colon", "C:", `expected a shorthand or a list of degrees after the colon at offset 2 of "C:" (such as C:min7 or C:(1,b3,5))`},
		{"unknown shorthand", "C:foo", `expected a shorthand or a list of degrees after the colon at offset 2 of "C:foo" (such as C:min7 or C:(1,b3,5))`},
		{"lead-sheet word behind the colon", "C:m7", `expected a shorthand or a list of degrees after the colon at offset 2 of "C:m7" (such as C:min7 or C:(1,b3,5))`},
		{"shorthand with a tail", "C:min7b5", `expected a bass or the end of the symbol at offset 6 of "C:min7b5"`},
		{"empty list", "C:()", `expected a degree from 1 to 13 at offset 3 of "C:()"`},
		{"list not closed", "C:7(*5", `expected a comma or a closing bracket at offset 6 of "C:7(*5"`},
		{"degree beyond 13", "C:(1,14)", `expected a degree from 1 to 13 at offset 7 of "C:(1,14)"`},
		{"leading zero", "C:(03)", `expected a degree from 1 to 13 at offset 4 of "C:(03)"`},
		{"three flats in a list", "C:(1,bbb7)", `a degree has at most two flats or sharps at offset 5 of "C:(1,bbb7)"`},
		{"star without its degree", "C:7(*6)", `the chord has no 6 to leave out at offset 4 of "C:7(*6)"`},
		{"star on another spelling", "C:min(*3)", `the chord has no 3 to leave out at offset 6 of "C:min(*3)"`},
		{"Harte bass beyond 13", "C:maj/14", `expected a degree from 1 to 13 at offset 6 of "C:maj/14"`},
		{"Harte bass with a tail", "C:min7/b3/", `expected the end of the symbol after the bass at offset 9 of "C:min7/b3/"`},
		{"too many signs", "C:maj/" + strings.Repeat("b", 16) + "7", `more than 15 flats or sharps on one degree at offset 21 of "C:maj/bbbbbbbbbbbbbbbb7"`},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			c, err := Parse(tt.in)
			assert.EqualError(t, err, tt.wantErr)
			assert.Equal(t, Chord{}, c)
			assert.IsType(t, &pitch.SyntaxError{}, err)
		})
	}
}

func TestParseIsBounded(t *testing.T) {
	long := "C:(" + strings.Repeat("1,", 200) + "3)"
	_, err := Parse(long)
	assert.ErrorContains(t, err, "a chord symbol has at most 256 bytes at offset 256")
	_, err = ParseQuality(long[1:])
	assert.ErrorContains(t, err, "a chord symbol has at most 256 bytes at offset 256")

	// No root, every degree, and the widest bass.
	longest := New(pitch.MustParse("Bbbbbbbb"), qualityOf(1<<61-2)).WithBass(pitch.MustParse("E#######"))
	again, err := Parse(longest.String())
	require.NoError(t, err)
	assert.Equal(t, longest, again)
}

func TestParseQuality(t *testing.T) {
	for in, want := range map[string]string{"": "", "min7b5": "m7b5", ":hdim7": "m7b5", "Δ": "maj7", "b9": "(b9)", ":(5,b7)": ":(1,5,b7)"} {
		q, err := ParseQuality(in)
		require.NoError(t, err, in)
		assert.Equal(t, want, q.String(), in)
	}
	_, err := ParseQuality("7/E")
	assert.EqualError(t, err, `expected the end of the quality at offset 1 of "7/E"`)
	_, err = ParseQuality(":7b9")
	assert.EqualError(t, err, `expected the end of the quality at offset 2 of ":7b9"`)
}

func TestMustParse(t *testing.T) {
	assert.Panics(t, func() { MustParse("c7") })
}
