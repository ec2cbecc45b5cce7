package function_test

import (
	"regexp"
	"strings"
	"testing"
	"unicode"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fifthwise/pkg/function"
	"fifthwise/pkg/pitch"
)

// Reasons are sentences: never empty for a chord that sounds, with no mark left
// unfilled, upper case first, a full stop last.
func TestReasonsAreSentences(t *testing.T) {
	charts := ruledCharts()
	require.Greater(t, len(charts), 40)
	roles := map[function.Role]bool{}
	for _, text := range charts {
		a := analyze(t, text)
		for i := range a.Chords {
			if a.Chords[i].Event.Chord.IsSilence() {
				assert.Empty(t, a.Reason(i))
				continue
			}
			roles[a.Chords[i].Role] = true
			assertSentence(t, a.Reason(i), text)
			for _, alt := range a.Alternatives(i, function.MaxAlternatives) {
				assertSentence(t, alt.Reason(), text)
				assert.NotEqual(t, a.Reason(i), alt.Reason(), text)
			}
		}
		for r := range a.Regions {
			said := a.Evidence(r)
			assert.NotEmpty(t, said, text)
			for _, s := range said {
				assert.NotEmpty(t, s, text)
				assert.NotContains(t, s, "{", text)
				assert.NotContains(t, s, "invalid", text)
			}
		}
	}
	for r := function.Diatonic; r <= function.Chromatic; r++ {
		assert.True(t, roles[r], "no chart shows a %v", r)
	}
}

// doubled finds a word or a mark twice over, as a bad template leaves them.
var doubled = regexp.MustCompile(`  |; ;|\.\.|;\.| [,;.]|%!`)

func assertSentence(t *testing.T, s, text string) {
	t.Helper()
	if !assert.NotEmpty(t, s, text) {
		return
	}
	assert.NotRegexp(t, `[{}]`, s, text)
	assert.NotContains(t, s, "invalid", text)
	assert.NotRegexp(t, doubled, s, text)
	assert.True(t, unicode.IsUpper([]rune(s)[0]), "%s: %s", s, text)
	assert.Equal(t, ".", s[len(s)-1:], "%s: %s", s, text)
}

// spoken are charts for what is said of chords: the rules' own and the idioms
// that these leave out.
func spoken() []string {
	return append(ruledCharts(),
		"C C+ | C6 C+ | F Fm6 | C/G G7 | C",
		"Dm Dm(maj7) | Dm7 G7/B | Cmaj7 | C6",
		"Cmaj7 | Ebm7 | Dm7 | Dbmaj7 | Cmaj7 | Gbmaj7 | Fmaj7 | Bm7 | Cmaj7",
		"C | Gm | F | C | Cm | G | C | B7 | C",
		"C Cdim7 | C | Dm7 Ddim7 | Dm7 G7 | C F#dim7 | C/G G7 | C",
		"Gsus4 G7 | C | D7sus4 D7 | G7sus4 G7 | C | A7sus4 A7 | Dm7 | F/G | C5",
		"D5 | G5 | C5 | G5 | C5",
		"Cm | Db/F | G7 | Cm | Ab7 | G7 | Cm | Ab7 G7 | C",
		"Bm7b5 | Bb7 | Am7 | D7 | G7 | C",
		"Cm | Bbmaj7 | Am7b5 | Abmaj7 | G+ | Cm(maj7) | F7 | Cm7 | Eb+ | Cm",
	)
}

// eachReason gives every chord that sounds with its reason.
func eachReason(t *testing.T, do func(a *function.Analysis, i int, said string)) {
	for _, text := range spoken() {
		a := analyze(t, text)
		for i := range a.Chords {
			if said := a.Reason(i); said != "" {
				do(&a, i, said)
			}
		}
	}
}

// particular finds the names in a sentence: chords, keys, notes and degrees.
var particular = regexp.MustCompile(`[A-G][b#]*(?: (?:major|minor|dorian|phrygian|lydian|mixolydian))|[b#]*\b(?:VII|VI|V|IV|III|II|I)\b|\b[A-G][b#]*(?:[^a-z\s,;:.]|\b)[^\s,;:]*`)

func TestRolesHaveSentencesOfTheirOwn(t *testing.T) {
	roles := map[string]function.Role{}
	eachReason(t, func(a *function.Analysis, i int, said string) {
		idiom, _, _ := strings.Cut(strings.TrimSuffix(said, "."), ";")
		r := &a.Chords[i]
		template := particular.ReplaceAllStringFunc(strings.ReplaceAll(idiom, r.Event.Symbol, "C"), func(name string) string {
			_, mode, _ := strings.Cut(name, " ")
			return "<" + mode + ">"
		})
		if role, ok := roles[template]; ok {
			assert.Equal(t, role, r.Role, "one sentence for two roles: %s", template)
		}
		roles[template] = r.Role
	})
	assert.Greater(t, len(roles), 40)
}

// A reason is about its chord: it names the chord, one of its notes, or, of the
// key that it is heard in, the tonic, the fifth or the leading tone.
func TestReasonsAreAboutTheirChord(t *testing.T) {
	key := regexp.MustCompile(`[A-G][b#]* (major|minor|dorian|phrygian|lydian|mixolydian)`)
	eachReason(t, func(a *function.Analysis, i int, said string) {
		r := &a.Chords[i]
		idiom, _, _ := strings.Cut(strings.TrimSuffix(said, "."), ";")
		goal := r.Key.Tonic()
		if r.Target.IsValid() {
			goal = r.Target.Above(goal)
		}
		about := r.Event.Chord.Classes() | 1<<goal.Class() | 1<<goal.Add(pitch.PerfectFifth).Class() | 1<<goal.Sub(pitch.MinorSecond).Class()
		named := strings.Contains(idiom, r.Event.Symbol)
		for _, word := range strings.FieldsFunc(key.ReplaceAllString(idiom, ""), func(r rune) bool { return strings.ContainsRune(" ,:", r) }) {
			n, err := pitch.Parse(word)
			named = named || err == nil && about>>n.Class()&1 != 0
		}
		assert.True(t, named, "%s, %v: %s", r.Event.Symbol, r.Numeral, said)
	})
}

// What a reason says of the chord after is so.
func TestReasonsLeadToTheNextChord(t *testing.T) {
	leads := regexp.MustCompile(`(?:it goes|is turned aside|(?:slides|moves) (?:up|down) a (?:half step|whole step|fifth)) to (.*)|does not resolve: (.*) follows`)
	count := 0
	eachReason(t, func(a *function.Analysis, i int, said string) {
		m := leads.FindStringSubmatch(said)
		if m == nil {
			return
		}
		count++
		r := &a.Chords[i]
		j := (i + 1) % len(a.Chords)
		for ; a.Chords[j].Role == function.Silence || a.Chords[j].Event.Chord.Root() == r.Event.Chord.Root() && a.Chords[j].Numeral.Degree() == r.Numeral.Degree() && a.Chords[j].Role == r.Role; j = (j + 1) % len(a.Chords) {
		}
		assert.True(t, strings.HasPrefix(m[1]+m[2], a.Chords[j].Event.Symbol), "%s before %s: %s", r.Event.Symbol, a.Chords[j].Event.Symbol, said)
		if p := r.ResolvesTo; p >= 0 {
			assert.NotContains(t, said, "does not resolve", "it resolves to %s", a.Chords[p].Event.Symbol)
		}
	})
	assert.Greater(t, count, 100)
}

// A moving voice is followed through the chords on one root and by a half step
// beyond; common practice, no source.
func TestLine(t *testing.T) {
	tests := []struct{ name, chart, want string }{
		{"down from the root", "Dm Dm(maj7) | Dm7 G7/B | Cmaj7 | C6", "D C# C B"},
		{"up from the fifth", "C C+ | C6 | F | G7 | C", "G G# A"},
		{"a third that falls", "F Fm | C | G7 | C", "A Ab G"},
		{"from the major seventh", "Cmaj7 C7 | F | G7 | C", "B Bb A"},
		{"a chord struck again", "Cm | Cm | Cm(maj7) | Cm(maj7) | Cm7 | G7 | Cm", "C B Bb"},
		{"a resolved suspension is none", "Gsus4 G7 | C | F | C", ""},
		{"two notes are none", "Cm(maj7) Cm7 | Fm | G7 | Cm", ""},
		{"a voice that turns back is none", "Cmaj7 C6 | Cmaj7 | Dm7 G7 | C", ""},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			a := analyze(t, tt.chart)
			notes, at := a.Line(0)
			var names []string
			for _, n := range notes {
				names = append(names, n.String())
			}
			assert.Equal(t, tt.want, strings.Join(names, " "))
			assert.Zero(t, at)
		})
	}
	a := analyze(t, "Dm Dm(maj7) | Dm7 G7/B | Cmaj7 | C6")
	_, at := a.Line(2)
	assert.Equal(t, 2, at)
	notes, _ := a.Line(-1)
	assert.Nil(t, notes)
	var none function.Analysis
	notes, _ = none.Line(0)
	assert.Nil(t, notes)
}

func TestReasonsOutOfRange(t *testing.T) {
	a := analyze(t, "C | N.C. | G7")
	for _, i := range []int{-1, 1, 3, 1 << 40} {
		assert.Empty(t, a.Reason(i))
		assert.Empty(t, a.Alternatives(i, function.MaxAlternatives))
	}
	assert.Nil(t, a.Evidence(-1))
	assert.Nil(t, a.Evidence(len(a.Regions)))
	assert.Empty(t, function.Alternative{}.Reason())
	var none function.Analysis
	assert.Empty(t, none.Reason(0))
	assert.Nil(t, none.Evidence(0))
}

// The notes and names that sentences give are the chord's own; common practice,
// no source.
func TestReasons(t *testing.T) {
	tests := []struct{ chart, chord, want string }{
		{"Cmaj7 | A7 | Dm7 | G7 | C6", "A7", "The dominant of II: C# is the leading tone to D; it goes to Dm7."},
		{"F7 | Bb7 | F7 | F7 | Bb7 | Bb7 | F7 E7 | Eb7 D7 | Gm7 | C7 | F7 D7 | Gm7 C7", "E7", "The dominant of III: G# is the leading tone to A; it goes to Eb7, the substitute of A7."},
		{"Ebmaj7 | Fm7 Bb7 | Ebmaj7 | Ebmaj7", "Bb7", "The dominant of Eb major: D is the leading tone to Eb; it goes to Ebmaj7."},
		{"C | Am | F | G7", "G7", "The dominant of C major: B is the leading tone to C; it goes to C at the top."},
		{"C | F | G7 | Am | F | F | G7 | C", "G7", "The dominant of C major: B is the leading tone to C; it is turned aside to Am, a deceptive resolution."},
		{"Cmaj7 | Fm7 | Bb7 | Cmaj7", "Bb7", "The backdoor dominant: Bb is a whole step below C, and Ab leans down to G; it goes to Cmaj7."},
		{"E | C#m | Am | E", "Am", "The minor subdominant: C, the lowered sixth, is borrowed from E minor."},
		{"Am | Dm | E | Am", "Am", "Am is the tonic: A minor rests here."},
		{"Cmaj7 | Ebm7 | Dm7 | G7 | Cmaj7", "Ebm7", "Eb, Gb, Bb and Db are foreign to C major; it slides down a half step to Dm7."},
		{"G7sus4 G7 | C | F | C", "G7", "The dominant of C major: B is the leading tone to C; the suspended C moves to B; it goes to C."},
	}
	for _, tt := range tests {
		a := analyze(t, tt.chart)
		i := find(&a, tt.chord)
		require.GreaterOrEqual(t, i, 0)
		assert.Equal(t, tt.want, a.Reason(i), tt.chart)
	}
}

func TestEvidence(t *testing.T) {
	tests := []struct {
		name, chart string
		want        [][]string // by region
	}{
		{"a cadence", "C | F | G7 | C", [][]string{{"IV V7 I, bars 2–4"}}},
		{"one of each kind, the earliest", "C | F | G7 | C | F | G7 | C | Fm | C", [][]string{{"IV V7 I, bars 2–4", "IVm I, bars 8–9"}}},
		{"in one bar", "C | F G C C | Dm | C", [][]string{{"IV V I, bar 2"}}},
		{"its tonic first", "Dm7 | / / / / | / / / / | / / / /", [][]string{{"it begins on Im7, bar 1"}}},
		{"its tonic opens a section", "[A] Cmaj7 | F#m7 B7 | Emaj7 | Dm7 G7 | [B] Cmaj7 | % | Ebm7 Ab7 | Dbmaj7", [][]string{
			{"it begins on Imaj7, bar 1"}, {"IIm7 V7 Imaj7, bars 2–3"}, {"V7 leads to Imaj7, bars 4–5"}, {"IIm7 V7 Imaj7, bars 7–8"}}},
		{"its tonic at the top", "[A] Cmaj7 | Am7 | Dm7 G7 | Cmaj7 | [B] Emaj7 | F#m7 B7 | Emaj7 | / / / / | Dm7 | G7", [][]string{
			{"IIm7 V7 Imaj7, bars 3–4"}, {"IIm7 V7 Imaj7, bars 6–7"}, {"V7 goes round to Imaj7, bar 1"}}},
		{"its tonic never", "Gm7 | C7 | Gm7 | C7 | Gm7 | C7 | Gm7 | C7", [][]string{{"F is aimed at and not reached"}}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			a := analyze(t, tt.chart)
			require.Len(t, a.Regions, len(tt.want), numerals(&a))
			for r, want := range tt.want {
				assert.Equal(t, want, a.Evidence(r))
			}
		})
	}
}
