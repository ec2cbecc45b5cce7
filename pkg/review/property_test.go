package review_test

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"fifthwise/pkg/chart"
	"fifthwise/pkg/function"
	"fifthwise/pkg/pitch"
	"fifthwise/pkg/review"
)

var styles = []function.NumeralStyle{function.Upper, function.Cased, function.Arabic}

// own is a reading given as an answer in a style.
func own(a *function.Analysis, style function.NumeralStyle, signs pitch.Accidentals) (answer review.Answer) {
	answer.Numerals = []string{}
	for i := range a.Chords {
		if r := &a.Chords[i]; r.Region >= 0 {
			answer.Numerals = append(answer.Numerals, r.Numeral.Text(style, r.Key.Mode(), signs))
		}
	}
	for _, g := range a.Regions {
		e := a.Chords[g.First].Event
		answer.Regions = append(answer.Regions, review.Region{Key: g.Key, Bar: e.Bar, Beat: e.Beat, Pass: e.Pass})
	}
	return answer
}

var drawnSymbols = []string{
	"C", "Cm", "C7", "Cmaj7", "Cm7", "Cm7b5", "Cdim7", "Cdim", "Caug", "C6", "Cm6", "C7b9", "C9", "C13", "C7alt", "C7sus4", "Csus4", "Csus2", "C5",
	"Cm(maj7)", "C7#5", "Cmaj7#11", "Cadd9", "N.C.",
}

// drawnChart is a chart of any chords, or one that goes as corpora do: in steps of
// the circle of fifths, in one key.
func drawnChart(t *rapid.T) chart.Chart {
	var text strings.Builder
	roots := []string{"C", "Db", "D", "Eb", "E", "F", "F#", "G", "Ab", "A", "Bb", "B"}
	natural := []string{"C", "Dm7", "Em7", "F", "G7", "Am", "Bm7b5", "Fm6", "Bb7", "E7", "A7", "D7", "Ab", "C/E", "C/G", "Dm7/G", "F/G", "G/F"}
	isTonal := rapid.Bool().Draw(t, "tonal")
	repeat := rapid.Bool().Draw(t, "repeat")
	if repeat {
		text.WriteString("|: ")
	}
	for range rapid.IntRange(1, 12).Draw(t, "bars") {
		for range rapid.IntRange(1, 2).Draw(t, "chords") {
			if isTonal {
				text.WriteString(rapid.SampledFrom(natural).Draw(t, "chord") + " ")
				continue
			}
			symbol := rapid.SampledFrom(drawnSymbols).Draw(t, "symbol")
			if symbol != "N.C." {
				symbol = rapid.SampledFrom(roots).Draw(t, "root") + symbol[1:]
			}
			text.WriteString(symbol + " ")
		}
		text.WriteString("| ")
	}
	written := strings.TrimSuffix(text.String(), "| ")
	if repeat {
		written += ":|"
	}
	c, err := chart.Parse(written)
	if err != nil {
		t.Fatalf("%s: %v", written, err)
	}
	return c
}

// Our own reading, given as an answer in any style and either sort of signs,
// agrees everywhere.
func TestOwnReadingAgrees(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := function.Analyze(drawnChart(t))
		for _, style := range styles {
			for _, signs := range []pitch.Accidentals{pitch.ASCII, pitch.Unicode} {
				answer := own(&a, style, signs)
				r, err := review.Of(&a, answer)
				if err != nil {
					t.Fatal(err)
				}
				for i, m := range r.Chords {
					if m.Verdict != review.Agrees {
						t.Errorf("%s for %s: %v: %s", answer.Numerals[i], a.Chords[m.Chord].Event.Symbol, m.Verdict, m.Reason)
					}
				}
				for i, m := range r.Regions {
					if m.Verdict != review.Agrees {
						t.Errorf("%v: %v: %s", answer.Regions[i], m.Verdict, m.Reason)
					}
				}
				if len(r.Chords) > 0 && r.Score != 1 {
					t.Errorf("score %v", r.Score)
				}
			}
		}
	})
}

// Keys alone, as read, are all right, and blanks all wrong.
func TestKeysAloneAndBlanks(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := function.Analyze(drawnChart(t))
		answer := own(&a, function.Upper, pitch.ASCII)
		sounding := len(answer.Numerals)
		r, err := review.Of(&a, review.Answer{Regions: answer.Regions})
		if err != nil {
			t.Fatal(err)
		}
		if sounding > 0 && r.Score < 1-1e-9 {
			t.Errorf("keys alone: %v", r.Score)
		}
		r, err = review.Of(&a, review.Answer{Regions: answer.Regions, Numerals: make([]string, sounding)})
		if err != nil {
			t.Fatal(err)
		}
		if r.Score != 0 {
			t.Errorf("blanks: %v", r.Score)
		}
		for _, m := range r.Chords {
			if m.Verdict != review.Blank || m.Expected == "" || m.Reason == "" {
				t.Errorf("%+v", m)
			}
		}
	})
}

// A verdict and its reason do not depend on the style of writing, whatever the
// numeral says of the chord. Left out are bare degrees of major chords, which state
// no quality but beside lower case, and 6, which behind a Roman numeral may be the
// figure of a first inversion.
func TestStyleMakesNoDifference(t *testing.T) {
	qualities := []string{"m", "7", "m7", "maj7", "m7b5", "dim7", "9", "m9", "sus", "7alt", "7sus"}
	heads := []string{"I", "bII", "II", "bIII", "III", "IV", "#IV", "V", "bVI", "VI", "bVII", "VII"}
	rapid.Check(t, func(t *rapid.T) {
		a := function.Analyze(drawnChart(t))
		answer := own(&a, function.Upper, pitch.ASCII)
		numerals := make([]function.Numeral, len(answer.Numerals))
		for i := range numerals {
			s := rapid.SampledFrom(heads).Draw(t, "degree") + rapid.SampledFrom(qualities).Draw(t, "quality")
			if rapid.Bool().Draw(t, "applied") {
				s += "/" + rapid.SampledFrom(heads[1:]).Draw(t, "target")
			}
			if rapid.IntRange(0, 9).Draw(t, "sub") == 0 {
				s = "subV7"
			}
			numerals[i] = function.MustParseNumeral(s)
		}
		var first review.Review
		for n, style := range styles {
			for i := range numerals {
				answer.Numerals[i] = numerals[i].Text(style, a.Chords[0].Key.Mode(), pitch.ASCII)
			}
			r, err := review.Of(&a, answer)
			if err != nil {
				t.Fatal(err)
			}
			for i := range r.Chords {
				r.Chords[i].Reason = strings.TrimPrefix(r.Chords[i].Reason, answer.Numerals[i])
			}
			if n == 0 {
				first = r
			} else if fmt.Sprint(r) != fmt.Sprint(first) {
				t.Errorf("%v\n%v\n%v", answer.Numerals, first, r)
			}
		}
	})
}

// FuzzAnswer holds that every answer is marked or refused at a place that it has.
func FuzzAnswer(f *testing.F) {
	for _, tt := range marked {
		var numerals []string
		for _, s := range tt.marks {
			numerals = append(numerals, s.numeral)
		}
		f.Add(strings.Join(numerals, ";"), int64(1), int64(4), 1, "F major")
	}
	f.Add("V65/x;;N6;\xff;V⁷;viio6/ii;sub;/3rd;I/7th", int64(0), int64(-3), -1, "H")
	c, err := chart.Parse("| Cmaj7 A7/C# | Dm7 G7 |: C/E Ebdim7 | Dm7/G Db7 :| N.C. | Fm6 C/G G F#dim7 | C |")
	require.NoError(f, err)
	a := function.Analyze(c)
	f.Fuzz(func(t *testing.T, text string, bar, beat int64, pass int, name string) {
		answer := review.Answer{Numerals: strings.Split(text, ";")}
		for len(answer.Numerals) < 16 {
			answer.Numerals = append(answer.Numerals, "V7")
		}
		g := review.Region{Bar: int(bar), Pass: pass, Beat: chart.B(int(beat%1000), 3)}
		_ = g.Key.UnmarshalText([]byte(name))
		answer.Regions = []review.Region{g}
		for _, regions := range [][]review.Region{nil, answer.Regions} {
			answer.Regions = regions
			r, err := review.Of(&a, answer)
			var list review.ErrorList
			if errors.As(err, &list) {
				for _, e := range list {
					assert.NotEmpty(t, e.Msg)
					if e.Field == "numerals" && e.Index >= 0 {
						assert.LessOrEqual(t, e.Offset, len(answer.Numerals[e.Index]), "%q: %v", answer.Numerals[e.Index], e)
						assert.GreaterOrEqual(t, e.Offset, 0)
					}
				}
				continue
			}
			require.NoError(t, err)
			assert.Len(t, r.Chords, len(answer.Numerals))
			assert.True(t, 0 <= r.Score && r.Score <= 1)
			for _, m := range append(r.Chords, r.Regions...) {
				assert.NotEmpty(t, m.Reason)
				assert.NotEmpty(t, m.Expected)
			}
		}
	})
}

func BenchmarkOf(b *testing.B) {
	text := "[A] Fmaj7 | Em7b5 A7b9 | Dm7 G7 | Cm7 F7 | Bb7 | Bbm7 Eb7 | Am7 | Abm7 Db7 | Gm7 | C7 | Fmaj7 D7 | Gm7 C7 |"
	c, err := chart.Parse(strings.Repeat(text, 3))
	require.NoError(b, err)
	a := function.Analyze(c)
	answer := own(&a, function.Cased, pitch.ASCII)
	for i := range answer.Numerals {
		if i%4 == 3 {
			answer.Numerals[i] = "V7/VI"
		}
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := review.Of(&a, answer); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(len(answer.Numerals)), "chords")
}
