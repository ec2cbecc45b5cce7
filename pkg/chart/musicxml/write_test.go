package musicxml

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"fifthwise/pkg/chart"
	"fifthwise/pkg/chord"
	"fifthwise/pkg/key"
	"fifthwise/pkg/pitch"
)

// Charts that use all that the text notation has.
var written = []struct{ name, text string }{
	{"bars and rests", "Title: Slow Fan & Fast <Fan>\nKey: Eb major\n[A] | Ebmaj7 | Cm7 F9 | % | N.C. | Fm7 / / Bb7 | [B] Ab | Ab ||"},
	{"repeats", "|: C | F :| Am | D7 :| G ||"},
	{"endings", "|: C | 1. F :| 2. G || Am |"},
	{"three endings", "|: C | 1,2. F :| 3. G | Am |"},
	{"a first ending alone", "C |: F | 1. G :| Am |"},
	{"sections that repeat", "[A] | C | F :| [B] | G | Am :| [A] | C ||"},
	{"a section that the repeat goes back to", "[A] C | F :| [B] G | Am :|"},
	{"a section behind an open one", "[A] | C | F || [B] | G | Am :|"},
	{"a section that starts with a first ending", "| C | F | [A] 1. G :|"},
	{"a repeat behind the double bar of an ending", "|: C | 1. F :| 2. G || Am :| D :|"},
	{"a pickup", "Pickup: 1\n| G7 | C | F | 3/4 C |"},
	{"a repeated pickup", "Pickup: 3/2\n|: G7 | C | F :|"},
	{"meters", "Meter: 3/4\n| C | 4/4 F G | 6/8 Am D7 | 7/8 G@1 C@4.5 | 12/8 F G C | 5/4 C@1 F@4 |"},
	{"fractions", "| C F G | C F@7/3 G@3.75 | Am@1 D7@1.5 G@4.9 |"},
	{"groups", "| C | (Em7 A7(b9) | Dm7 G7) | (C) (F) | Bm7(b5) |"},
	{"symbols", "| C7alt | C6/9 Cm(maj9) | C7sus4 C9sus4 | C7b9#11 | Bb/Ab | F#m7b5 | Cmaj7#11 C13 | C5 Cadd9 C(b9) | C:(1,5,b7) Ebaug | (G7alt C7b9/E) |"},
	{"a section's silence", "[Intro] | N.C. | N.C. C |"},
}

func TestWriteIsReadBack(t *testing.T) {
	for _, tt := range written {
		t.Run(tt.name, func(t *testing.T) {
			want, err := chart.Parse(tt.text)
			require.NoError(t, err)
			d, err := Read(Write(want, nil))
			require.NoError(t, err)
			assert.Equal(t, want.String(), d.Chart().String())
			assert.Empty(t, d.Chart().Warnings)
		})
	}
}

// A chart made in Go that leaves out what may be left out.
func TestWriteOfAChartMadeInGo(t *testing.T) {
	c := chart.Chart{Bars: []chart.Bar{
		{Chords: []chart.Slot{{Chord: chord.MustParse("C"), Len: chart.B(4, 1)}}},
		{},
		{Meter: chart.MustParseMeter("3/4"), Chords: []chart.Slot{{Chord: chord.MustParse("F"), At: chart.B(1, 1), Len: chart.B(2, 1)}}},
	}}
	require.NoError(t, c.Validate())
	d, err := Read(Write(c, nil))
	require.NoError(t, err)
	assert.Equal(t, c.String(), d.Chart().String())
	assert.True(t, c.Equal(d.Chart()))
}

// validator checks files by the schema of MusicXML 4.0 (W3C Music Notation
// Community Group). It is not part of the project: FIFTHWISE_MUSICXML names the
// folder that holds it.
func validator(t *testing.T) func(name string, data []byte) {
	folder := os.Getenv("FIFTHWISE_MUSICXML")
	if folder == "" {
		t.Skip("FIFTHWISE_MUSICXML does not name a folder with the schema of MusicXML 4.0")
	}
	xmllint, err := exec.LookPath("xmllint")
	if err != nil {
		t.Skip("xmllint is not installed (Debian: libxml2-utils)")
	}
	file := filepath.Join(t.TempDir(), "score.musicxml")
	return func(name string, data []byte) {
		require.NoError(t, os.WriteFile(file, data, 0o600))
		lint := exec.Command(xmllint, "--nonet", "--noout", "--schema", filepath.Join(folder, "musicxml.xsd"), file)
		lint.Env = append(os.Environ(), "XML_CATALOG_FILES="+filepath.Join(folder, "catalog.xml"))
		out, err := lint.CombinedOutput()
		assert.NoError(t, err, "%s: %s", name, out)
	}
}

func TestWriteIsValid(t *testing.T) {
	validate := validator(t)
	for _, tt := range written {
		c, err := chart.Parse(tt.text)
		require.NoError(t, err)
		validate(tt.name, Write(c, marksOf(c)))
	}
}

func TestAnnotatedIsValid(t *testing.T) {
	validate := validator(t)
	doctype := regexp.MustCompile(`<!DOCTYPE[^>]*>`)
	for _, file := range scores(t) {
		d := readFile(t, file)
		validate(file, doctype.ReplaceAll(d.Score(marksOf(d.Chart())), nil)) // xmllint would look for it
	}
}

// Any chart comes back as it was, bars, repeats, chords and places.
func TestAnyChartIsReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		want := anyChart(t)
		if err := want.Validate(); err != nil {
			t.Skip(err)
		}
		data := Write(want, nil)
		d, err := Read(data)
		require.NoError(t, err)
		require.Equal(t, want.String(), d.Chart().String(), string(data))
		require.True(t, want.Equal(d.Chart()))
		again, err := chart.Parse(d.Chart().String())
		require.NoError(t, err)
		third, err := Read(Write(again, nil))
		require.NoError(t, err)
		require.Equal(t, want.String(), third.Chart().String())
	})
}

// names are chord symbols without their roots.
var names = []string{"", "m", "7", "maj7", "m7", "m7b5", "dim7", "6", "m6", "9", "13", "7b9", "7#5#9", "7alt", "sus4", "7sus4", "9sus4", "aug", "m(maj7)", "maj7#11", "maj7#5", "9#5", "7b9b13", "m(maj9)", "add9", "madd9", "6/9", "5", "11", "m11b5", "(b9)", ":(1,b7)"}

func anyChart(t *rapid.T) chart.Chart {
	meters := []chart.Meter{{Num: 4, Den: 4}, {Num: 3, Den: 4}, {Num: 6, Den: 8}, {Num: 12, Den: 8}, {Num: 7, Den: 8}, {Num: 2, Den: 2}}
	c := chart.Chart{Title: rapid.StringMatching(`([A-Z][a-z]{1,5}( & [A-Z]<[a-z]"')?)?`).Draw(t, "title"), Meter: rapid.SampledFrom(meters).Draw(t, "meter")}
	if rapid.Bool().Draw(t, "keyed") {
		c.Key = key.New(pitch.At(rapid.IntRange(-5, 5).Draw(t, "tonic")), rapid.SampledFrom([]key.Mode{key.Major, key.Minor, key.Dorian, key.Mixolydian}).Draw(t, "mode")).Simplify() // no more than seven signs
	}
	meter := c.Meter
	repeat, ending := false, 0
	n := rapid.IntRange(1, 9).Draw(t, "bars")
	for i := range n {
		b := chart.Bar{Meter: meter}
		if i > 0 && ending == 0 && rapid.IntRange(0, 5).Draw(t, "new meter") == 0 {
			meter = rapid.SampledFrom(meters).Draw(t, "meter")
			b.Meter = meter
		}
		switch {
		case ending == 1: // the second follows
			b.Ending, ending = []int{2}, 2
			b.Double = rapid.Bool().Draw(t, "double")
			ending = 0
		case !repeat && i+3 < n && rapid.IntRange(0, 3).Draw(t, "repeat") == 0:
			b.RepeatStart, repeat = true, true
		case repeat && i+1 < n && rapid.IntRange(0, 2).Draw(t, "ending") == 0:
			b.Ending, b.RepeatEnd = []int{1}, true
			repeat, ending = false, 1
		case repeat && (i+1 == n || rapid.IntRange(0, 3).Draw(t, "close") == 0):
			b.RepeatEnd, repeat = true, false
		default:
			b.Double = rapid.IntRange(0, 4).Draw(t, "double") == 0
		}
		if !b.RepeatEnd && ending == 0 && !repeat && rapid.IntRange(0, 5).Draw(t, "implied") == 0 {
			b.RepeatEnd, b.Double = true, false
		}
		if ending == 0 && len(b.Ending) == 0 && rapid.IntRange(0, 4).Draw(t, "section") == 0 {
			b.Section = rapid.SampledFrom([]string{"A", "B", "Intro", "Last time"}).Draw(t, "name")
		}
		k := rapid.IntRange(0, 4).Draw(t, "chords")
		if i == 0 {
			k = max(k, 1)
		}
		share := b.Meter.Beats().Share(max(k, 1))
		at := chart.Beats{}
		for range k {
			s := chart.Slot{At: at, Len: share}
			if rapid.IntRange(0, 9).Draw(t, "silent") > 0 {
				s.Chord = chord.MustParse(pitch.At(rapid.IntRange(-6, 6).Draw(t, "root")).String() + rapid.SampledFrom(names).Draw(t, "quality"))
				if rapid.IntRange(0, 4).Draw(t, "over") == 0 {
					s.Chord = s.Chord.WithBass(pitch.At(rapid.IntRange(-6, 6).Draw(t, "bass")))
				}
			}
			s.Optional = rapid.IntRange(0, 4).Draw(t, "optional") == 0
			b.Chords = append(b.Chords, s)
			at = at.Add(share)
		}
		c.Bars = append(c.Bars, b)
	}
	if repeat {
		c.Bars[n-1].RepeatEnd = true
	}
	if n > 1 && rapid.IntRange(0, 3).Draw(t, "upbeat") == 0 {
		c.Pickup = upbeatOf(&c.Bars[0])
	}
	return c
}

// upbeatOf leaves the last chord of a bar, or its second half, and says how long
// it is.
func upbeatOf(b *chart.Bar) chart.Beats {
	b.Number = 0
	last := b.Chords[len(b.Chords)-1]
	if len(b.Chords) == 1 {
		last.Len = last.Len.Share(2)
		last.At = last.Len
	}
	b.Chords = []chart.Slot{last}
	return last.Len
}

func TestKindOfEveryQuality(t *testing.T) {
	for _, name := range names {
		q, err := chord.ParseQuality(name)
		require.NoError(t, err)
		got, err := readChord(harmonyOf(chord.New(pitch.Note{}, q)))
		require.NoError(t, err)
		assert.Equal(t, chord.New(pitch.Note{}, q).String(), got)
	}
}

// What programs print of a written chord is its symbol: the text of the kind and
// behind it the degrees that are shown, each with the text of its type (MusicXML
// 4.0, degree-type: it "specifies how the type of the degree should be
// displayed"), in brackets or not.
func TestPrintedChordsAreTheSymbols(t *testing.T) {
	flat := strings.NewReplacer("(", "", ")", "")
	degree := regexp.MustCompile(`<degree><degree-value>(\d+)</degree-value><degree-alter>(-?\d)</degree-alter><degree-type text="(.*?)">`)
	hidden := 0
	for _, name := range names {
		if strings.HasPrefix(name, ":") {
			continue // has no symbol
		}
		q, err := chord.ParseQuality(name)
		require.NoError(t, err)
		written := harmonyOf(chord.New(pitch.Note{}, q))
		printed := regexp.MustCompile(`<kind text="(.*?)">`).FindStringSubmatch(written)[1]
		for _, d := range degree.FindAllStringSubmatch(written, -1) {
			alter, err := strconv.Atoi(d[2])
			require.NoError(t, err)
			printed += d[3] + accidentals(alter) + d[1]
		}
		assert.Equal(t, flat.Replace(q.String()), flat.Replace(printed), written)
		if strings.Contains(written, "print-object") {
			hidden++
			assert.Contains(t, []string{"7alt", "7sus4", "9sus4", "6/9", "m11b5", "m(maj9)"}, q.String(), written)
		}
	}
	assert.Positive(t, hidden)
}

func harmonyOf(c chord.Chord) string {
	w := writer{}
	w.chord(c, false, false)
	return fmt.Sprintf("<harmony>%s</harmony>", w.out.String())
}
