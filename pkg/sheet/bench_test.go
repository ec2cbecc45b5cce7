package sheet

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"fifthwise/pkg/phrase"
	"fifthwise/pkg/study"
)

// long is the chart of 120 bars.
func long(b testing.TB) *sample {
	for _, s := range samples(b) {
		if len(s.chart.Bars) == 120 {
			return &s
		}
	}
	b.Fatal("no chart of 120 bars")
	return nil
}

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

// TestDrawingIsQuick holds the best of several drawings of 120 bars, reading not
// included, against five milliseconds, as the project promises it.
func TestDrawingIsQuick(t *testing.T) {
	if raced {
		t.Skip("the race detector slows all down")
	}
	s := long(t)
	best := time.Hour
	for range 20 {
		start := time.Now()
		SVG(s.chart, &s.analysis, Style{})
		best = min(best, time.Since(start))
	}
	assert.Less(t, best, 5*time.Millisecond)
}
