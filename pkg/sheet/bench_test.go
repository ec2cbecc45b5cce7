package sheet

import (
	"testing"

	"fifthwise/pkg/phrase"
	"fifthwise/pkg/study"
)

// long is the chart of 120 bars.
func long(b testing.TB) sample { return sampleOf(b, "hundredtwenty") }

func BenchmarkSVG120Bars(b *testing.B) {
	s := long(b)
	for b.Loop() {
		SVG(s.chart, &s.analysis, Style{})
	}
}

func BenchmarkSVG120BarsWithSteps(b *testing.B) {
	s := long(b)
	for b.Loop() {
		SVG(s.chart, &s.analysis, Style{Steps: true})
	}
}

func BenchmarkPages120BarsWithSteps(b *testing.B) {
	s := long(b)
	for b.Loop() {
		Pages(s.chart, &s.analysis, Style{Steps: true}, A4)
	}
}

func BenchmarkText120Bars(b *testing.B) {
	s := long(b)
	for b.Loop() {
		Text(s.chart, &s.analysis, Style{})
	}
}

// The part of the study plan in drawing, and of the form in that.
func BenchmarkPlan120Bars(b *testing.B) {
	s := long(b)
	for b.Loop() {
		study.Of(&s.analysis)
	}
}

func BenchmarkForm120Bars(b *testing.B) {
	s := long(b)
	played := s.chart.Played()
	for b.Loop() {
		phrase.FormOf(played)
	}
}
