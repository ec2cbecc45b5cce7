package chart

import (
	"strconv"

	"fifthwise/pkg/pitch"
)

// Meter is a time signature. The zero value is none: a bar's is then that of
// the bar before, a chart's 4/4.
type Meter struct {
	Num uint8 // 1 to 64
	Den uint8 // 1, 2, 4, 8, 16 or 32
}

var commonTime = Meter{4, 4}

// IsValid reports whether both numbers are in range.
func (m Meter) IsValid() bool {
	return m.Num >= 1 && m.Num <= 64 && m.Den >= 1 && m.Den <= 32 && m.Den&(m.Den-1) == 0
}

// IsCompound reports whether the beat is the dotted quarter: in 6/8, 9/8 and 12/8.
func (m Meter) IsCompound() bool {
	return m.Den == 8 && (m.Num == 6 || m.Num == 9 || m.Num == 12)
}

// Beats is the length of a bar as players count it, in the meter's lower
// number, but in dotted quarters where that is the beat: 4 in 4/4, 2 in 6/8.
func (m Meter) Beats() Beats {
	if m.IsCompound() {
		return B(int(m.Num)/3, 1)
	}
	return B(int(m.Num), 1)
}

// String is "3/4"; "0/0" where there is none.
func (m Meter) String() string { return string(m.AppendTo(nil)) }

// AppendTo prints m behind dst as [Meter.String] does.
func (m Meter) AppendTo(dst []byte) []byte {
	dst = strconv.AppendUint(dst, uint64(m.Num), 10)
	return strconv.AppendUint(append(dst, '/'), uint64(m.Den), 10)
}

// MarshalText prints as [Meter.String] does.
func (m Meter) MarshalText() ([]byte, error) { return m.AppendTo(nil), nil }

// UnmarshalText reads what [ParseMeter] reads.
func (m *Meter) UnmarshalText(text []byte) (err error) {
	*m, err = ParseMeter(string(text))
	return err
}

// MustParseMeter is [ParseMeter] for text known to be good; it panics on other.
func MustParseMeter(s string) Meter {
	m, err := ParseMeter(s)
	if err != nil {
		panic(err)
	}
	return m
}

// ParseMeter reads "3/4", "12/8".
func ParseMeter(s string) (Meter, error) {
	upper, rest := digits(s)
	if upper == "" || rest == "" || rest[0] != '/' {
		return Meter{}, &pitch.SyntaxError{Input: s, Msg: "expected a meter", Hint: "for example 3/4"}
	}
	lower, tail := digits(rest[1:])
	if lower == "" || tail != "" {
		return Meter{}, &pitch.SyntaxError{Input: s, Offset: len(s) - len(tail), Msg: "expected a meter", Hint: "for example 3/4"}
	}
	num, err := strconv.ParseUint(upper, 10, 8)
	if err != nil || num < 1 || num > 64 {
		return Meter{}, &pitch.SyntaxError{Input: s, Msg: "expected 1 to 64 as the upper number of a meter"}
	}
	den, err := strconv.ParseUint(lower, 10, 8)
	m := Meter{uint8(num), uint8(den)}
	if err != nil || !m.IsValid() {
		return Meter{}, &pitch.SyntaxError{Input: s, Offset: len(upper) + 1, Msg: "expected 1, 2, 4, 8, 16 or 32 as the lower number of a meter"}
	}
	return m, nil
}
