package function_test

// held is four bars more of the chord before.
const held = " | / / / / | / / / / | / / / / | / / / /"

// Idioms that every player knows: common practice, no source. The labels follow
// our conventions: a related two that is diatonic keeps its diatonic name, the
// half-diminished on VII before V7/VI is II/VI, bVI7 before V is subV7/V in major.
// "=" stands between two names in equal use.
var practice = []progression{
	// Two-fives.
	{chart: "Dm7 G7 Cmaj7", labels: "C:II V I"},
	{chart: "Dm7b5 G7b9 Cm6", labels: "Cm:II V I"},
	{chart: "Dm7b5 G7b9 Cm(maj7)", labels: "Cm:II V I"},
	{chart: "Dm7b5 G7b9 Cmaj7", labels: "C:II V I"},
	{chart: "Dm7 G7sus4 G7 Cmaj7", labels: "C:II V V I"},
	{chart: "Fm7 Bb7 | Ebmaj7 C7", labels: "Eb:II V I V/II"},
	{chart: "Am7 | D7 | Gmaj7 | E7", labels: "G:II V I V/II"},
	{chart: "Bm7 E7 | Amaj7 F#7alt | Bm7 E7 | A6", labels: "A:II V I V/II II V I"},

	// Secondary dominants with their twos.
	{chart: "Em7b5 A7 Dm7", labels: "C:II/II V/II II"},
	{chart: "F#m7b5 B7 Em7", labels: "C:II/III V/III III"},
	{chart: "Bm7b5 E7 Am7", labels: "C:II/VI V/VI VI"},
	{chart: "Gm7 C7 Fmaj7", labels: "C:II/IV V/IV IV"},
	{chart: "Am7 D7 G7", labels: "C:VI V/V V"},
	{chart: "Em7 A7 Dm7", labels: "C:III V/II II"},
	{chart: "E7 A7 D7 G7 Cmaj7", labels: "C:V/VI V/II V/V V I"},
	{chart: "Gm7 C7 Fmaj7 Am7 D7 Dm7 G7", labels: "C:II/IV V/IV IV VI V/V II V"},

	// Tritone substitutes.
	{chart: "Db7 Cmaj7", labels: "C:bII I"},
	{chart: "Eb7 Dm7", labels: "C:bII/II II"},
	{chart: "F7 Em7", labels: "C:bII/III III"},
	{chart: "Gb7 Fmaj7", labels: "C:bII/IV IV"},
	{chart: "Ab7 G7", labels: "C:bII/V V"},
	{chart: "Bb7 Am7", labels: "C:bII/VI VI"},
	{chart: "Abm7 Db7 Cmaj7", labels: "C:II/bV bII I"},
	{chart: "Em7 Eb7 Dm7 Db7 Cmaj7", labels: "C:III bII/II II bII I"},
	{chart: "Em7 A7 Ebm7 Ab7 Dm7 G7 Cmaj7", labels: "C:III V/II II/bII bII/V II V I"},

	// Turnarounds.
	{chart: "Cmaj7 A7 Dm7 G7", labels: "C:I V/II II V"},
	{chart: "Em7 A7 Dm7 G7", labels: "C:III V/II II V"},
	{chart: "Cmaj7 Eb7 Abmaj7 Db7", labels: "C:I V/bVI bVI bII"},
	{chart: "Cmaj7 Ebmaj7 Abmaj7 Dbmaj7", labels: "C:I bIII bVI bII"},

	// Modal mixture and the backdoor.
	{chart: "Fm7 Bb7 Cmaj7", labels: "C:IV bVII I"},
	{chart: "Fmaj7 Fm7 Bb7 Cmaj7", labels: "C:IV IV bVII I"},
	{chart: "Fmaj7 Fm Em7", labels: "C:IV IV III"},
	{chart: "Abmaj7 Dm7b5 G7 Cmaj7", labels: "C:bVI II V I"},
	{chart: "C Em F Fm", labels: "C:I III IV IV"},

	// The Neapolitan and bVI7.
	{chart: "Dbmaj7 Cmaj7", labels: "C:bII I"},
	{chart: "Db/F G7 Cm", labels: "Cm:bII V I"},
	{chart: "Ab7 G7 Cm", labels: "Cm:bVI V I"},
	{chart: "Ab7 G7 Cmaj7", labels: "C:bII/V V I"},

	// Diminished sevenths.
	{chart: "Cmaj7 C#dim7 Dm7 D#dim7 Em7", labels: "C:I VII/II=#I II VII/III=#II III"},
	{chart: "Em7 Ebdim7 Dm7 G7", labels: "C:III bIII II V"},
	{chart: "Fmaj7 F#dim7 C/G A7", labels: "C:IV #IV I V/II"},
	{chart: "G7 G#dim7 Am7", labels: "C:V VII/VI=#V VI"},
	{chart: "Cmaj7 Cdim7 Cmaj7", labels: "C:I I I"},
	{chart: "G7 Gdim7 G7", labels: "C:V V V"},
	{chart: "C D#dim7/C C", labels: "C:I #II I"},

	// Deceptive cadences.
	{chart: "Dm7 G7 Em7 A7", labels: "C:II V III V/II"},
	{chart: "Dm7 G7 Am7", labels: "C:II V VI"},
	{chart: "Dm7 G7 Abmaj7", labels: "C:II V bVI"},
	{chart: "Dm7 G7 Fmaj7", labels: "C:II V IV"},

	// Blues and rhythm changes.
	{chart: "C7 F7 C7 C7 F7 F7 C7 C7 G7 F7 C7 C7", labels: "C:I IV I I=V/IV IV IV I I V IV I I"},
	{chart: "Cm7 Cm7 Cm7 Cm7 Fm7 Fm7 Cm7 Cm7 Ab7 G7 Cm7 Cm7", labels: "Cm:I I I I IV IV I I bVI V I I"},
	{chart: "Cm7 Fm7 Cm7 C7 Fm7 Fm7 Cm7 Cm7 Dm7b5 G7 Cm7 G7", labels: "Cm:I IV I V/IV IV IV I I II V I V"},
	{chart: "Bb G7 | Cm7 F7 | Dm7 G7 | Cm7 F7 | Bb7 | Eb7 Edim7 | Bb/F G7 | Cm7 F7", labels: "Bb:I V/II II V III V/II II V V/IV IV #IV I V/II II V"},
	{chart: "D7 | / / / / | G7 | / / / / | C7 | / / / / | F7 | / / / /", labels: "Bb:V/VI V/II V/V V"},
	{chart: "Am7 D7 Dm7 G7 Gm7 C7 Cm7 F7", labels: "Bb:II/VI V/VI III V/II VI V/V II V"},
	{chart: "D7 | / / / / | Db7 | / / / / | C7 | / / / / | B7 | / / / /", labels: "Bb:V/VI=bII/bIII bII/II V/V bII"},

	// Circles of fifths, a moving line, pop.
	{chart: "Am7 Dm7 G7 Cmaj7 Fmaj7 Bm7b5 E7 Am7", labels: "Am:I IV bVII bIII bVI II V I"},
	{chart: "Cmaj7 Fmaj7 Bm7b5 Em7 Am7 Dm7 G7 Cmaj7", labels: "C:I IV VII III VI II V I"},
	{chart: "Am G F E7", labels: "Am:I bVII bVI V"},
	{chart: "Cm Cm(maj7) Cm7 Cm6", labels: "Cm:I I I I"},
	{chart: "C Am F G", labels: "C:I VI IV V"},
	{chart: "C G Am F", labels: "C:I V VI IV"},

	// Modal vamps.
	{chart: "Dm7 Em7 | Dm7 Em7 | Dm7 Em7 | Dm7 Em7", labels: "Ddorian:I II I II I II I II"},
	{chart: "Dm7 | G7 | Dm7 | G7", labels: "Ddorian:I IV I IV"},
	{chart: "G7 | F | G7 | F", labels: "Gmixolydian:I bVII I bVII"},
	{chart: "Em | F | Em | F", labels: "Ephrygian:I bII I bII"},
	{chart: "[A] Dm7" + held + held + held + held + " | [B] Ebm7" + held + held + " | [A] Dm7" + held + held, labels: "Ddorian:I Ebdorian:I Ddorian:I"},

	// Changes of key.
	{chart: "Em7 A7 | Dmaj7 | Dm7 G7 | Cmaj7 | Cm7 F7 | Bbmaj7", labels: "D:II V I C:II V I Bb:II V I"},
	{chart: "Bmaj7 D7 | Gmaj7 Bb7 | Ebmaj7 | Am7 D7", labels: "B:I G:V I Eb:V I G:II V"},
	{chart: "Dm7 Eb7 | Abmaj7 B7 | Emaj7 G7 | Cmaj7", labels: "C:II Ab:V I E:V I C:V I"},
	{chart: "Cmaj7 Am7 D7 Gmaj7", labels: "C:I G:II=C:VI G:V I"},
	{chart: "Cmaj7 | / / / / | Ebm7 | Ab7 | Dbmaj7 | / / / /", labels: "C:I Db:II V I"},
	{chart: "Cmaj7 | / / / / | Fm7 | Bb7 | Ebmaj7 | / / / /", labels: "C:I Eb:II V I"},
	{chart: "Cmaj7 | / / / / | Cm7 | F7 | Bbmaj7 | / / / /", labels: "C:I Bb:II V I"},
}
