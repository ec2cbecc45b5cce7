package function_test

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fifthwise/pkg/chart"
	"fifthwise/pkg/function"
)

// song is an invented tune of 32 bars.
const song = `Title: Ferry at Six
[A] Ebmaj7 | Gm7 C7b9 | Fm7 | Bb7sus4 Bb7 | Gm7 C7 | Fm7 Bb7 | Ebmaj7 | Fm7 Bb7 |
[A] Ebmaj7 | Gm7 C7b9 | Fm7 | Bb7sus4 Bb7 | Gm7 C7 | Fm7 Bb7 | Eb6 | Eb6 |
[B] Bbm7 | Eb7 | Abmaj7 | Ab6 | Am7b5 | D7b9 | Gm7 C7 | Fm7 Bb7 |
[A] Ebmaj7 | Gm7 C7b9 | Fm7 | Bb7sus4 Bb7 | Gm7 C7 | Fm7 Bb7 | Eb6 Abm6 | (Gm7 C7 Fm7 Bb7)`

func benchmarkChart(b *testing.B, choruses int) chart.Chart {
	b.Helper()
	c, err := chart.Parse(song)
	require.NoError(b, err)
	bars := c.Bars
	require.Len(b, bars, 32)
	for range choruses - 1 {
		c.Bars = append(c.Bars, bars...)
	}
	for i := range c.Bars {
		c.Bars[i].Number = i + 1
	}
	return c
}

func BenchmarkAnalyze32Bars(b *testing.B) { benchmarkAnalyze(b, 1) }

func BenchmarkAnalyze320Bars(b *testing.B) { benchmarkAnalyze(b, 10) }

func benchmarkAnalyze(b *testing.B, choruses int) {
	c := benchmarkChart(b, choruses)
	b.ReportAllocs()
	for b.Loop() {
		function.Analyze(c)
	}
}

// BenchmarkAnalyzeGrowth tells how the time grows with the chart, up to the
// bound of chords as played.
func BenchmarkAnalyzeGrowth(b *testing.B) {
	for _, choruses := range []int{1, 10, 100, 1000} {
		c := benchmarkChart(b, choruses)
		chords := len(c.Played())
		b.Run(fmt.Sprintf("%d chords", chords), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				function.Analyze(c)
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(chords), "ns/chord")
		})
	}
}

// BenchmarkAnalyze32BarsTold adds what a full answer says besides: reasons and
// alternatives.
func BenchmarkAnalyze32BarsTold(b *testing.B) {
	c := benchmarkChart(b, 1)
	b.ReportAllocs()
	for b.Loop() {
		a := function.Analyze(c)
		for i := range a.Chords {
			a.Reason(i)
			a.Alternatives(i, 2)
		}
	}
}

// What a service reads and writes for the same tune, to compare with.
type (
	request struct {
		Title string       `json:"title"`
		Meter string       `json:"meter"`
		Bars  []requestBar `json:"bars"`
	}
	requestBar struct {
		Section string         `json:"section,omitempty"`
		Chords  []requestChord `json:"chords"`
	}
	requestChord struct {
		Symbol string  `json:"symbol"`
		Beats  float64 `json:"beats"`
	}
	answer struct {
		Title   string         `json:"title"`
		HomeKey string         `json:"home_key"`
		Regions []answerRegion `json:"regions"`
		Chords  []answerChord  `json:"chords"`
	}
	answerRegion struct {
		Key        string  `json:"key"`
		First      int     `json:"first_chord"`
		Last       int     `json:"last_chord"`
		Confidence float64 `json:"confidence"`
	}
	answerChord struct {
		Index      int      `json:"index"`
		Bar        int      `json:"bar"`
		Beat       float64  `json:"beat"`
		Beats      float64  `json:"beats"`
		Section    string   `json:"section"`
		Symbol     string   `json:"symbol"`
		Key        string   `json:"key"`
		Numeral    string   `json:"numeral"`
		Degree     string   `json:"degree"`
		AppliedTo  string   `json:"applied_to"`
		Function   string   `json:"function"`
		Role       string   `json:"role"`
		ResolvesTo int      `json:"resolves_to"`
		Notes      []string `json:"notes"`
		Confidence float64  `json:"confidence"`
	}
)

func requestOf(c chart.Chart) request {
	r := request{Title: c.Title, Meter: "4/4"}
	for _, b := range c.Bars {
		bar := requestBar{Section: b.Section}
		for _, s := range b.Chords {
			bar.Chords = append(bar.Chords, requestChord{s.Chord.String(), s.Len.Float64()})
		}
		r.Bars = append(r.Bars, bar)
	}
	return r
}

func answerOf(a *function.Analysis) answer {
	out := answer{HomeKey: a.Home.String()}
	for _, r := range a.Regions {
		out.Regions = append(out.Regions, answerRegion{r.Key.String(), r.First, r.Last, r.Confidence})
	}
	for i, r := range a.Chords {
		e := &r.Event
		out.Chords = append(out.Chords, answerChord{
			i, e.Bar, e.Beat.Float64(), e.Len.Float64(), e.Section, e.Symbol, r.Key.String(), r.Numeral.String(), r.Degree.String(), r.Target.String(),
			r.Function.String(), r.Role.String(), r.ResolvesTo, strings.Fields(strings.Trim(fmt.Sprint(e.Chord.Notes()), "[]")), r.Confidence,
		})
	}
	return out
}

func BenchmarkJSON32Bars(b *testing.B) {
	c := benchmarkChart(b, 1)
	a := function.Analyze(c)
	in, err := json.Marshal(requestOf(c))
	require.NoError(b, err)
	out := answerOf(&a)
	var text []byte
	b.ReportAllocs()
	for b.Loop() {
		var r request
		if err := json.Unmarshal(in, &r); err != nil {
			b.Fatal(err)
		}
		if text, err = json.Marshal(out); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(len(in)), "bytes-in")
	b.ReportMetric(float64(len(text)), "bytes-out")
}
