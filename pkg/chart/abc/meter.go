package abc

import (
	"regexp"
	"strconv"
	"strings"

	"fifthwise/pkg/chart"
	"fifthwise/pkg/pitch"
)

// meter is a time signature as notation has it. The zero value is free meter.
type meter struct {
	chart.Meter
}

func (m meter) isFree() bool { return m.Meter == (chart.Meter{}) }

// whole is the length of a bar in whole notes; in free meter, where bars are as
// long as what they hold, one.
func (m meter) whole() chart.Beats {
	if m.isFree() {
		return chart.B(1, 1)
	}
	return chart.B(int(m.Num), int(m.Den))
}

// unitNote is the length of notes without a number: a sixteenth where a bar is
// shorter than three quarters, else an eighth (The abc music standard 2.1,
// section 3.1.7).
func (m meter) unitNote() chart.Beats {
	if !m.isFree() && m.whole().Less(chart.B(3, 4)) {
		return chart.B(1, 16)
	}
	return chart.B(1, 8)
}

// beats is a length in whole notes in beats of a meter.
func beats(m chart.Meter, whole chart.Beats) chart.Beats {
	if m.IsCompound() {
		return scaled(whole, 8, 3)
	}
	return scaled(whole, int(m.Den), 1)
}

// wholes is the inverse of beats.
func wholes(m chart.Meter, b chart.Beats) chart.Beats {
	if m.IsCompound() {
		return scaled(b, 3, 8)
	}
	return scaled(b, 1, int(m.Den))
}

// scaled is num/den of a length.
func scaled(b chart.Beats, num, den int) chart.Beats {
	n, d := b.Fraction()
	return chart.B(n*num, d*den)
}

// meterSum is "3/4", "2+3/8", "(2+3+2)/8", with text around, as "C=4/4" or a
// second meter.
var meterSum = regexp.MustCompile(`^\(?\s*(\d{1,4}(?:\s*\+\s*\d{1,4})*)\s*\)?(?:\s*/\s*(\d{1,4}))?(?:[\s(]|$)`)

// parseMeter reads the value of an M: field (The abc music standard 2.1,
// section 3.1.6).
func parseMeter(value string) (meter, error) {
	value = strings.TrimSpace(value)
	switch strings.ToLower(value) {
	case "", "none", "free":
		return meter{}, nil
	case "c":
		return meter{chart.Meter{Num: 4, Den: 4}}, nil
	case "c|":
		return meter{chart.Meter{Num: 2, Den: 2}}, nil
	}
	_, equals, found := strings.Cut(value, "=")
	if !found {
		equals = value
	}
	sum := meterSum.FindStringSubmatch(equals)
	if sum == nil {
		return meter{}, &pitch.SyntaxError{Input: value, Msg: "expected a meter", Hint: "for example 3/4, 2+3/8, C, C| or none"}
	}
	num := 0
	for n := range strings.SplitSeq(sum[1], "+") {
		k, _ := strconv.Atoi(strings.TrimSpace(n))
		num += k
	}
	lower := sum[2]
	if lower == "" {
		lower = "4"
	}
	m, err := chart.ParseMeter(strconv.Itoa(num) + "/" + lower)
	return meter{m}, err
}

// parseUnit reads the value of an L: field, a length in whole notes.
func parseUnit(value string) (chart.Beats, bool) {
	value, _, _ = strings.Cut(strings.TrimSpace(value), " ")
	over, under, found := strings.Cut(value, "/")
	if !found {
		under = "1"
	}
	n, err1 := strconv.Atoi(over)
	d, err2 := strconv.Atoi(under)
	if err1 != nil || err2 != nil || n < 1 || n > 64 || d < 1 || d > 4096 {
		return chart.Beats{}, false
	}
	return chart.B(n, d), true
}

// meterAs is a meter for a bar of free meter, as long as what the bar holds.
func meterAs(whole chart.Beats) (chart.Meter, bool) {
	num, den := whole.Fraction()
	for _, lower := range []int{4, 8, 16, 32} {
		if n := num * lower; n%den == 0 && n/den >= 1 && n/den <= 64 {
			return chart.Meter{Num: uint8(n / den), Den: uint8(lower)}, true
		}
	}
	return chart.Meter{}, false
}
