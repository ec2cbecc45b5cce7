package function_test

// A progression and the labels that its source gives the chords.
type progression struct {
	// chart is in the text notation; where it has no bar lines each chord is a
	// bar of its own.
	chart string
	// labels are the published numerals in our counting: degrees from the major
	// scale of the tonic in both modes, no quality, no inversion, the target of
	// an applied chord behind a slash. A key stands before the first label in
	// it: "Am:I bVI D:V". Between chords of which the source gives two readings
	// at once, as of pivots, stands "=".
	labels string
	// published is what is printed.
	published string
	where     string
}

// Sources, all open. Hutchinson: Robert Hutchinson, Music Theory for the
// 21st-Century Classroom. OMT 1: Kris Shaffer, Bryn Hughes and Brian Moseley,
// Open Music Theory. OMT 2: Mark Gotham and others, Open Music Theory, version
// 2. Wikipedia: the English one, by article.
//
// Converted by hand. III, VI and VII of a minor key get their flats. An augmented
// sixth is bVI7 in a minor key and subV7/V in a major one. A dominant seventh
// that is printed by its bare degree is named by the chord it goes to, with its
// related two, as the same source or another one names it: III7 before VI7 is
// V7/VI. A pivot counts in both keys if both numerals are printed.
var published = []progression{
	// Diatonic chords and cadences.
	{"F Bb/D F Bb Bb/D Gm Cm7b5/Gb Bb/F F7 Bb", "Bb:V I V I I VI II I V I", "V I/3rd V I I/3rd vi iiø7/5th I/5th V7 I", "Hutchinson §7.4, Fig. 7.4.1"},
	{"B C# | F# D#m | B C# | F#", "F#:IV V I VI IV V I", "IV V I vi IV V I", "Hutchinson §7.4, Fig. 7.4.2"},
	{"G | C Em | C | G", "G:I IV VI IV I", "I IV vi IV I", "Hutchinson §7.4, Fig. 7.4.4"},
	{"G D G C G D", "G:I V I IV I V", "I V I IV I V", "Hutchinson §7.5 ex. 3a"},
	{"Dbm7 Abm Eb7 Abm", "Abm:IV I V I", "iv7 i V7 i", "Hutchinson §8.4 ex. 3a"},
	{"C G7/D C F/C C G7/B C", "C:I V I IV I V I", "I V7/5th I IV/5th I V7/3rd I", "Hutchinson §8.4 ex. 3b"},
	{"A Bm E A", "A:I II V I", "I ii V I", "Hutchinson §9.4, Fig. 9.4.12"},
	{"F#m/C# C#7/B F#m/A C#7/G#", "F#m:I V I V", "i64 V42 i6 V43", "Hutchinson §23.2, Fig. 23.2.3 B"},
	{"F G Am", "Am:bVI bVII I", "bVI bVII I, roots only", "OMT 1, Pop/rock harmony: minor"},
	{"Dm Em Am", "Am:IV V I", "IV V I, roots only", "OMT 1, Pop/rock harmony: minor"},
	{"Am E Am G C G Am E Am E Am G C G Am E Am", "Am:I V I bVII bIII bVII I V I V I bVII bIII bVII I V I",
		"i V i VII III VII i V i V i VII III VII i V i", "Wikipedia, List of chord progressions: folia"},

	// Circles of fifths and other sequences.
	{"C F Bdim Em Am Dm G C", "C:I IV VII III VI II V I", "I IV viio iii vi ii V I", "Hutchinson §9.1"},
	{"Am Dm G C F Bdim E Am", "Am:I IV bVII bIII bVI II V I", "i iv VII III VI iio V i", "Hutchinson §9.1"},
	{"Am7 | Dm7 | G7 | Cmaj7 | Fmaj7 | Bm7b5 | E7sus4 | E7", "Am:I IV bVII bIII bVI II V V", "i7 iv7 VII7 IIIMA7 VIMA7 iiø7 V7sus4 V7", "Hutchinson §9.1, Fig. 9.1.8"},
	{"C#m | F#m | B | E | A | D#m7b5 | G#7 | C#m", "C#m:I IV bVII bIII bVI II V I", "i iv VII III VI iiø7 V7 i", "Hutchinson §9.1, Fig. 9.1.9"},
	{"Bm | F#7 | Asus2 | E9 | G | D | Em7 | F#7", "Bm:I V bVII IV bVI bIII IV V", "i V7 VII IV9 VI III iv7 V7", "Hutchinson §9.5, Fig. 9.5.3"},
	{"Bm7 Em7 A7 Dmaj7 Gmaj7 C#m7b5 F#7 Bm", "Bm:I IV bVII bIII bVI II V I", "i7 iv7 VII7 IIIM7 VIM7 iiø7 V7 i", "Hutchinson §27.6 ex. 2"},
	{"Gmaj7/B Cmaj7/B F#m7b5/A Bm7/A Em7/G Am7/G D7/F# Gmaj7/F#", "G:I IV VII III VI II V I", "IM65 IVM42 viiø65 iii42 vi65 ii42 V65 IM42", "Hutchinson §27.6 ex. 3"},
	{"C G Bb F", "C:I V bVII IV", "I V bVII IV", "Wikipedia, List of chord progressions: chromatic descending 5–6 sequence"},
	{"C G D A E", "E:bVI bIII bVII IV I", "bVI bIII bVII IV I", "OMT 1, Pop/rock harmony: plagal"},

	// Two-fives and turnarounds.
	{"Dm7 | G9 | C6", "C:II V I", "ii7 V9 I", "Hutchinson §9.3, Fig. 9.3.1"},
	{"Em7 | A7 | Dmaj7", "D:II V I", "ii7 V7 IMA7", "Hutchinson §9.3, Fig. 9.3.2"},
	{"Ebm Ab7 | Ebm7 Ab13 | Db6 Ab9#5 | Db6", "Db:II V II V I V I", "ii V7 ii7 V13 I V+9 I", "Hutchinson §9.3, Fig. 9.3.3"},
	{"C#m F#m | B E | C#m F#m | Bsus4 B", "E:VI II V I VI II V V", "vi ii V I vi ii Vsus4 V", "Hutchinson §9.3, Fig. 9.3.6"},
	{"F6 Dm7 | Gm7 C7 | F6 Dm7 | Gm7 C7", "F:I VI II V I VI II V", "I vi7 ii7 V7 I vi7 ii7 V7", "Hutchinson §9.3, Fig. 9.3.8"},
	{"F# D#m | G#m C# | F# D#m | G#m C#", "F#:I VI II V I VI II V", "I vi ii V I vi ii V", "Hutchinson §9.3, Fig. 9.3.9"},
	{"Gm7 | C13 | Fmaj9 | Dm9", "F:II V I VI", "ii7 V7 IMA7 vi7", "Hutchinson §9.3, Fig. 9.3.10, abridged"},
	{"C#m7 F#m7 | Bm E@3 E/D@4", "A:III VI II V V", "iii7 vi7 ii V V7/7th", "Hutchinson §9.3, Fig. 9.3.11"},
	{"Ebm7 Ab Fm7 Bbm", "Db:II V III VI", "ii7 V iii7 vi", "Hutchinson §9.3, Fig. 9.3.13"},
	{"Dm7b5 G7alt Cm6/9", "Cm:II V I", "II V I, roots only", "Hutchinson §31.8.1, Fig. 31.8.2"},
	{"Em7 Am9 Dm9 G9(13)", "C:III VI II V", "iii vi ii V", "Hutchinson §31.8.2, Fig. 31.8.3"},
	{"Dm7 G7 Cmaj7", "C:II V I", "ii7 V7 Imaj7", "OMT 2, Jazz: ii–V–I, Example 1, first cadence"},
	{"Gm7 C7 F", "F:II V I", "ii7 V7 I", "OMT 2, Jazz: ii–V–I, Example 1, fourth cadence"},
	{"Dm7b5 G7 Cm7", "Cm:II V I", "iiø7 V7 i7", "OMT 2, Jazz: ii–V–I, key takeaways"},
	{"Cmaj7 Am7 | Dm7 G7", "C:I VI II V", "I vi ii V", "Wikipedia, Tadd Dameron turnaround, row 1"},
	{"Am Dm G C", "C:VI II V I", "vi ii V I", "Wikipedia, List of chord progressions: circle progression"},

	// Pop and rock.
	{"Gb Ab Db Bbm", "Db:IV V I VI", "IV V I vi", "Hutchinson §9.4, Fig. 9.4.18"},
	{"F | Eb | Bb | F", "F:I bVII IV I", "I bVII IV I", "Hutchinson §9.6, Fig. 9.6.2"},
	{"E | D | A | D", "E:I bVII IV bVII", "I bVII IV bVII", "Hutchinson §9.6, Fig. 9.6.4"},
	{"D A | Bm G", "D:I V VI IV", "I V vi IV", "Hutchinson §9.7, Fig. 9.7.1"},
	{"Fm Db Ab Eb", "Ab:VI IV I V", "vi IV I V", "Hutchinson §9.7, Fig. 9.7.5"},
	{"Cm Bb Ab Bb", "Cm:I bVII bVI bVII", "i VII VI VII", "Hutchinson §9.8, Fig. 9.8.2"},
	{"Bb C | Dm | Bb C | Dm", "Dm:bVI bVII I bVI bVII I", "VI VII i VI VII i", "Hutchinson §9.8, Fig. 9.8.4"},
	{"C#m A E B", "E:VI IV I V", "vi IV I V", "Hutchinson ch. 9, exercises day two, ex. 6"},
	{"C Am F G", "C:I VI IV V", "I VI IV V, roots only", "OMT 1, Pop/rock harmony: doo-wop"},
	{"F G C Am", "C:IV V I VI", "IV V I VI, roots only", "OMT 1, Pop/rock harmony: doo-wop"},
	{"C G Am F", "C:I V VI IV", "I V vi IV", "Wikipedia, List of chord progressions"},
	{"F C G Am", "C:IV I V VI", "IV I V VI, roots only", "OMT 1, Pop/rock harmony: singer-songwriter"},
	{"Am G", "Am:I bVII", "i bVII", "OMT 2, Popular music: modal schemas"},
	{"Am G F G", "Am:I bVII bVI bVII", "i bVII bVI bVII", "OMT 2, Popular music: modal schemas"},
	{"Dm G", "Ddorian:I IV", "i IV", "OMT 2, Popular music: modal schemas"},
	{"F G", "Flydian:I II", "I II#", "OMT 2, Popular music: modal schemas"},
	{"G Bb F", "Flydian:II IV I", "II# IV I", "OMT 2, Popular music: modal schemas"},

	// Blues.
	{"C C C C F F C C G F C C", "C:I I I I IV IV I I V IV I I", "I I I I IV IV I I V IV I I", "Hutchinson §12.4, Table 12.4.1"},
	{"C C C C C C C C F F C C G F C C", "C:I I I I I I I I IV IV I I V IV I I", "I I I I I I I I IV IV I I V IV I I", "OMT 1, Pop/rock harmony: blues"},
	{"C6/9 | F9(13) | C9(13) | C7#5#9 | F9(13) | % | C9(13) | A7#5#9 | Dm9 | G7#5#9 | C9(13) Eb9(13) | D9(13) Db9(13)",
		"C:I IV I I=V/IV IV IV I V/II II V I bII/II V/V bII", "I6/9 IV7 I7 I7alt IV7 IV7 I7 VI7 ii7 V7alt I7 bIII7 II7 bII7; bIII7 for VI7, bII7 for V7", "Hutchinson §31.8.3, figures A and B"},
	{"Cmaj7 | Bm7b5 E7 | Am7 D7 | Gm7 C7 | F7 | Fm7 Bb7 | Em7 A7 | Ebm7 Ab7 | Dm7 | G7 | Cmaj7 A7 | Dm7 G7",
		"C:I II/VI V/VI VI V/V II/IV V/IV IV IV bVII III V/II II/bII bII/V II V I V/II II V",
		"IM7 viiø7 III7 vi7 II7 v7 I7 IV7 iv7 bVII7 iii7 VI7 biii7 bVI7 ii7 V7 IM7 VI7 ii7 V7; viiø7 III7 ii V of A minor, v7 I7 of F, biii7 bVI7 subii subV", "Wikipedia, Bird changes"},

	// Secondary dominants.
	{"G Bb F", "F:V/V IV I", "V/V IV I", "Hutchinson §17.6, Fig. 17.6.1, without its first chord"},
	{"C D7 F C", "C:I V/V IV I", "I V7/V IV I", "Hutchinson §17.6, Fig. 17.6.2"},
	{"G B C A", "G:I V/VI IV V/V", "I V/vi IV V/V", "Hutchinson §17.6, Fig. 17.6.5"},
	{"F G | C E@3 E7@4 | F G | C E@3 E7@4", "C:IV V I V/VI V/VI IV V I V/VI V/VI", "IV V I V/vi V7/vi IV V I V/vi V7/vi", "Hutchinson §17.6, Fig. 17.6.6"},
	{"E B7 C#m G#7 A", "E:I V VI V/VI IV", "I V vi V7/vi IV", "Hutchinson §17.6, Fig. 17.6.7"},
	{"C E7 Am A7 Dm D7 G", "C:I V/VI VI V/II II V/V V", "I V7/vi vi V7/ii ii V7/V V", "Hutchinson §17.7 ex. 1, line 1"},
	{"C C7 F E7 Am D7 G", "C:I V/IV IV V/VI VI V/V V", "I V7/IV IV V7/vi vi V7/V V", "Hutchinson §17.7 ex. 1, line 2"},
	{"Cm | Fm | D7/F# | G", "Cm:I IV V/V V", "i iv V65/V V", "Hutchinson §17.7 ex. 3"},
	{"F | Dm | G7/B | C", "F:I VI V/V V", "I vi V7/V V", "Hutchinson §17.7 ex. 5"},
	{"F7 Bb", "Eb:V/V V", "V7/V V", "OMT 1, Applied chords"},
	{"Ab C7 F7 Bb7 Eb Edim7 Fm", "Ab:I V/VI V/II V/V V VII/VI VI", "I V7/vi V7/ii V7/V V viio7/vi vi", "Hutchinson §29.5 ex. 1"},
	{"B7 E7 A7 D7", "C:V/III V/VI V/II V/V", "V7/iii V7/vi V7/ii V7/V", "Hutchinson §29.1"},
	{"E7 A7 D7 G7", "C:V/VI V/II V/V V", "V7/vi V7/ii V7/V V7, or III7 VI7 II7 V7", "Hutchinson §31.8.2"},
	{"D7 | / / / / | G7 | / / / / | C7 | / / / / | F7 | / / / /", "Bb:V/VI V/II V/V V", "III7 VI7 II7 V7", "Wikipedia, Rhythm changes: bridge"},
	{"C7 F7 Dm7 G7", "C:I=V/IV IV II V", "I7 IV7 ii7 V7", "Wikipedia, Montgomery-Ward bridge"},
	{"Gm7 | C7 | F | % | Am7 | D7 | Dm7 | G7", "C:II/IV V/IV IV IV VI V/V II V", "v7 I7 IV IV vi7 II7 ii7 V7", "Wikipedia, Montgomery-Ward bridge, eight bars"},

	// Secondary leading-tone chords and passing diminished ones.
	{"Bm7b5 C C#dim7 Dm D#dim7 Em Em7b5 F F#m7b5 G G#dim7 Am Bm7b5 C", "C:VII I VII/II II VII/III III VII/IV IV VII/V V VII/VI VI VII I",
		"viiø7 I viio7/ii ii viio7/iii iii viiø7/IV IV viiø7/V V viio7/vi vi viiø7 I", "Hutchinson §18.1, Fig. 18.1.1"},
	{"F Am Bb F#dim7 D/F# Gm", "F:I III IV VII/II V/II II", "I iii IV viio7/ii V6/ii ii", "Hutchinson §18.5 ex. 3"},
	{"A A#dim7 Bm E7/D A/C# B7/D# E", "A:I VII/II II V I V/V V", "I viio7/ii ii V42 I6 V65/V V", "Hutchinson §29.5 ex. 2"},
	{"F#dim G C", "C:VII/V V I", "viio/V V I", "OMT 1, Applied chords"},
	{"F#dim7 G C", "C:VII/V V I", "viio7/V V I", "Wikipedia, List of chord progressions"},

	// Modal mixture.
	{"F Dm7b5/F C/G", "C:IV II I", "IV iiø65 I64", "Hutchinson §19.1, Fig. 19.1.3"},
	{"G | / / / / | B | / / / / | C | / / / / | Cm | / / / /", "G:I V/VI IV IV", "I V/vi IV iv", "Hutchinson §19.1, Fig. 19.1.7"},
	{"D5 F#5 | B5 G5 | Bb5 C5 | A5 C5", "D:I III VI IV bVI bVII V bVII", "I iii vi IV bVI bVII V bVII", "Hutchinson §19.1, Fig. 19.1.8"},
	{"C Bdim7/C C Bdim7/C C C/E F Bdim", "C:I VII I VII I I IV VII", "I viio7 I viio7 I I6 IV viio", "Hutchinson §19.1, Fig. 19.1.9"},
	{"Eb | Db7 | Eb | Db7", "Eb:I bVII I bVII", "I bVII7 I bVII7", "Hutchinson §19.1, Fig. 19.1.10"},
	{"D | Gm | D", "D:I IV I", "I iv I", "Hutchinson §19.1, Fig. 19.1.12"},
	{"E/B Bsus4 B C D E", "E:I V V bVI bVII I", "I64 Vsus4 V bVI bVII I", "Hutchinson §19.4, Fig. 19.4.2, without its first chord"},
	{"D#m G#m7b5/D F#/C# C#7 D E F#", "F#:VI II I V bVI bVII I", "vi iiø43 I64 V7 bVI bVII I", "Hutchinson §19.4, Fig. 19.4.3"},
	{"Dm Bbm C", "F:VI IV V", "vi iv V", "Hutchinson §29.5 ex. 3.1"},
	{"Am7 F#dim7 G", "G:II VII I", "ii7 viio7 I", "Hutchinson §29.5 ex. 3.3"},
	{"Ab Bb C", "C:bVI bVII I", "bVI bVII I", "OMT 1, Pop/rock harmony: Everett's system 3"},
	{"C Eb F", "C:I bIII IV", "I bIII IV", "OMT 1, Pop/rock harmony: Everett's system 5"},
	{"Fm7 Bb7 C", "C:IV bVII I", "iv7 bVII7 I", "Wikipedia, Backdoor progression"},
	{"Abmaj7 Bb7 C", "C:bVI bVII I", "bVIM7 bVII7 I", "Wikipedia, Backdoor progression: IV–V form"},
	{"F#m7b5 B7b9 Cmaj9", "C:II/III V/III I", "#ivø7 VII7 Imaj9, from iiø7/iii V7/iii", "Wikipedia, Backdoor progression: alternative usage"},
	{"Dm Db7 C", "C:II bII I", "ii bII7 I", "Wikipedia, List of chord progressions: ii–V–I with tritone substitution"},

	// The Neapolitan and augmented sixths.
	{"C#m C#m/B A D/F# G#7 C#m/G# G#7 C#m", "C#m:I I bVI bII V I V I", "i i42 VI N6 V7 i64 V7 i", "Hutchinson §20.2, Fig. 20.2.1"},
	{"C Db G7", "C:I bII V", "I N V7", "Hutchinson §20.2, Fig. 20.2.2"},
	{"Em C7 B7 Em", "Em:I bVI V I", "i It+6 V7 i", "Hutchinson §21.5, Fig. 21.5.2"},
	{"Cm | Ab7 | G7 | Cm", "Cm:I bVI V I", "i Ger+6 V i", "Hutchinson §21.5, Fig. 21.5.5"},
	{"Em C7", "Em:I bVI", "i Ger+6", "Hutchinson §21.5, Fig. 21.5.6"},
	{"C Bb | Ab7 | G | F7 | Ab", "C:I bVII bII/V V IV bVI", "I bVII Ger+6 V IV7 bVI", "Hutchinson §21.5, Fig. 21.5.7"},
	{"Am F7 E", "Am:I bVI V", "i Ger+6 V", "Hutchinson §21.5"},
	{"F#m F#m7/E D7 F#m/C# C#7 F#m", "F#m:I I bVI I V I", "i i42 Ger+6 i64 V7 i", "Hutchinson §23.2, Fig. 23.2.3 C"},
	{"D Bb7b5 A", "D:I bII/V V", "I Fr+6 V", "Hutchinson §29.5 ex. 4.1"},
	{"Bb/D Db7 Fm/C", "Fm:IV bVI I", "IV6 Ger+6 i64", "Hutchinson §29.5 ex. 4.2"},
	{"A7/E Eb7 G/D", "G:V/V bII/V=bVI I", "V43/V EnGer+6 I64", "Hutchinson §29.5 ex. 4.3"},
	{"Fm Fb7b5 Eb7 Fb Bbb/Db Ddim7 Eb Fm", "Ab:VI bII/V V bVI bII VII/V V VI", "vi Fr+6 V7 bVI N6 viio7/V V vi", "Hutchinson ch. 29, homework"},

	// Descending chromatic basses.
	{"Gm | Gm/F | C7/E | Eb", "Gm:I I IV bVI", "i i42 IV65 VI", "Hutchinson §21.7, Fig. 21.7.4"},
	{"Am C+maj7/G# Am/G D/F# Fmaj7", "Am:I bIII I IV bVI", "i III+M43 i42 IV6 VIM7", "Hutchinson §21.7, Fig. 21.7.5"},
	{"Fm Cm/Eb Dm7b5 Dbmaj7#11 Fm", "Fm:I V VI bVI I", "i v6 #viø7 VIM7 i", "Hutchinson §21.7, Fig. 21.7.6"},
	{"C#m G#/B# C#7/B A#m7b5", "C#m:I V V/IV VI", "i V6 V42/iv #viø7", "Hutchinson §21.7, Fig. 21.7.7"},
	{"Cm G/B Cm/Bb F/A", "Cm:I V I IV", "i V6 i42 IV6", "Hutchinson §21.7, Fig. 21.7.8"},
	{"Cm G/B C7/Bb F/A Ab7 Cm/G", "Cm:I V V/IV IV bVI I", "i V6 V42/iv IV6 Ger+6 i64", "Hutchinson §21.7, Table 21.7.9"},

	// Modulations.
	{"G Em C/E D7 G A7/G D/F# A A7 D", "G:I VI IV V I=D:IV D:V I V V I", "I vi IV6 V7, IV V42 I6 V V7 I in D; the fifth chord is I and IV", "Hutchinson §22.4, Fig. 22.4.1"},
	{"A E/G# D/F# A/E E7 A D A A E/G# A E/B B7 E", "A:I V IV I V I IV I I V=E:I I=E:IV E:I V I", "I V6 IV6 I64 V7 I IV I I, I6 IV I64 V7 I in E; two pivots", "Hutchinson §22.2, Fig. 22.2.7"},
	{"Eb Fm/Ab Bb Eb C7 Db Ab/Eb Eb7 Ab/Eb Eb Ab", "Eb:I II V I V/II=Ab:V/VI Ab:IV I V I V I", "I ii6 V I, V7/vi IV I64 V7 I64 V I in A flat; the fifth chord is V7/ii and V7/vi", "Hutchinson §22.6, Fig. 22.6.1"},
	{"Dm Edim/G Dm/A A Dm Eb7/G Abm Eb", "Dm:I II I V I bII=Abm:V Abm:I V", "i iio6 i64 V i, V65 i V in A flat minor; the sixth chord is N65 and V65", "Hutchinson §22.6, Fig. 22.6.3"},
	{"C Dm/F G7 Bm/F# F#7 Bm", "C:I II V=Bm:bVI Bm:I V I", "I ii6, Ger+6 i64 V7 i in B minor; the third chord is V7 and Ger+6", "Hutchinson §23.1, Fig. 23.1.1"},
	{"Eb Cb Ab F7 Am/E E7/D C#dim7 Dm E", "Eb:I bVI IV V/V=Am:bVI Am:I V VII/IV IV V", "I bVI IV, Ger+6 i64 V42 viio7/iv iv V in A minor; the fourth chord is V7/V and Ger+6", "Hutchinson §23.4 ex. 2"},
	{"Gm D7/C Gm/Bb Eb7 | Fm Eb7 Ab", "Gm:I V I bVI=Ab:V Ab:VI V I", "i V42 i6, V7 vi V7 I in A flat; the fourth chord is Ger+6 and V7", "Hutchinson §23.4 ex. 3"},
	{"Dm C#dim7 Dm Gdim7/Db Eb7/Db Abm/Cb Gdim7/Bb Eb7/Bb Abm", "Dm:I VII I VII=Abm:VII Abm:V I VII V I", "i viio7 i, viio43 V42 i6 viio65 V43 i in A flat minor; the fourth chord is viio7 respelled", "Hutchinson §23.4 ex. 5"},
	{"Am7 C7 F", "Em:IV bVI=F:V F:I", "iv7 of E minor, V7 I in F; the second chord is Ger+6 and V7", "Hutchinson §23.2, Fig. 23.2.5"},
	{"Cm/G G Cm G || Ab", "Cm:I V I V Ab:I", "i64 V i V, I in A flat", "Hutchinson §22.7.1, Fig. 22.7.2: a new phrase"},
	{"A || F", "Dm:V F:I", "V of D minor, I of F", "Hutchinson §22.7.2, Fig. 22.7.5: common tone"},
	{"C Eb7 | Ab B7 | E G7 | C", "C:I Ab:V I E:V I C:V I", "I V7 I V7 I V7 I, in C, A flat, E, C", "Wikipedia, Coltrane changes"},
}

// Chords on their own, of which the sources give the numeral: spelling alone.
var publishedChords = []struct{ key, chords, numerals, published, where string }{
	{"C minor", "C D F", "V/IV V/V V/bVII", "V/iv V/V V/VII", "Hutchinson §17.3, Fig. 17.3.3"},
	{"Bb major", "Ebm", "IVm", "iv6", "Hutchinson §19.6 ex. 1.5"},
	{"C minor", "D", "V/V", "V6/V", "Hutchinson §19.6 ex. 1.6"},
	{"A major", "Dm", "IVm", "iv", "Hutchinson §19.6 ex. 2.1"},
	{"F major", "Gm7b5", "IIm7b5", "iiø65", "Hutchinson §19.6 ex. 2.4"},
	{"C minor", "Db", "bII", "N6", "Hutchinson §20.3 ex. 1.1"},
	{"Bb major", "Cdim", "IIdim", "iio6", "Hutchinson §20.3 ex. 1.3"},
	{"C# minor", "D", "bII", "N6", "Hutchinson §20.3 ex. 1.4"},
	{"D major", "F", "bIII", "bIII", "Hutchinson §20.3 ex. 2.3"},
	{"C minor", "F#dim7", "VIIdim7/V", "viio7/V", "Hutchinson §20.3 ex. 2.4"},
	{"Bb major", "Cm7b5", "IIm7b5", "iiø42", "Hutchinson §20.3 ex. 2.5"},
	{"G major", "G Bm D Em", "I IIIm V VIm", "I iii V vi", "Hutchinson §22.4, Figs 22.4.2–3"},
	{"D major", "G Bm D Em", "IV VIm I IIm", "IV vi I ii", "Hutchinson §22.4, Figs 22.4.2–3"},
	{"F major", "C", "V", "V", "OMT 1, Modulation"},
	{"D minor", "C", "bVII", "VII", "OMT 1, Modulation"},
}
