package chart

import (
	"fmt"
	"math"
	"math/bits"
	"strconv"
	"strings"

	"fifthwise/pkg/pitch"
)

// Beats is a length or a place in beats, an exact fraction kept reduced. The
// zero value is no beats. Values are comparable.
//
// Numerator and denominator fit 32 bits. A sum that would not, because many
// unlike fractions met, becomes the nearest 1/20160 of a beat, and beyond
// two thousand million beats the largest value; the bars of a chart come
// nowhere near either.
type Beats struct {
	num  int32
	over int32 // the denominator less one, so that the zero value is 0/1
}

// grid is what sums are rounded to that have no room: a multiple of the
// divisions by 2 to 10, 12, 14, 15, 16, 18, 20, 21, 24, 32 and 64.
const grid = 20160

// B is num/den beats: B(4, 3) is a third of four beats. It panics if den is 0.
func B(num, den int) Beats {
	if den == 0 {
		panic("chart: beats over zero")
	}
	if den < 0 {
		num, den = -num, -den
	}
	return fraction(int64(num), int64(den))
}

// BeatsOf is the fraction that a number stands for, by the rule of [ParseBeats].
func BeatsOf(f float64) (Beats, error) {
	if f >= 0 && f < math.MaxInt32 && f == math.Trunc(f) && !math.Signbit(f) {
		return B(int(f), 1), nil
	}
	return ParseBeats(strconv.FormatFloat(f, 'f', -1, 64))
}

// fraction reduces num/den, den positive, and brings it into range.
func fraction(num, den int64) Beats {
	if g := gcd(num, den); g > 1 {
		num, den = num/g, den/g
	}
	if num == int64(int32(num)) && num > math.MinInt32 && den <= math.MaxInt32 {
		return Beats{int32(num), int32(den - 1)}
	}
	if num < 0 {
		b := nearest(uint64(-num), uint64(den))
		return Beats{-b.num, b.over}
	}
	return nearest(uint64(num), uint64(den))
}

// nearest rounds num/den to the grid, or to whole beats where the grid leaves
// the range.
func nearest(num, den uint64) Beats {
	whole, rest := num/den, num%den
	if whole >= math.MaxInt32/grid {
		return Beats{num: int32(min(whole, math.MaxInt32))}
	}
	hi, lo := bits.Mul64(rest, grid)
	part, _ := bits.Div64(hi, lo, den)
	return fraction(int64(whole*grid+part), grid)
}

func gcd(a, b int64) int64 {
	if a < 0 {
		a = -a
	}
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

func (b Beats) den() int64 { return int64(b.over) + 1 }

// Add is the sum.
func (b Beats) Add(c Beats) Beats {
	if b.over|c.over == 0 {
		return fraction(int64(b.num)+int64(c.num), 1)
	}
	return fraction(int64(b.num)*c.den()+int64(c.num)*b.den(), b.den()*c.den())
}

// Sub is the difference.
func (b Beats) Sub(c Beats) Beats { return b.Add(Beats{-c.num, c.over}) }

// Share is what each of n gets; n is at least 1.
func (b Beats) Share(n int) Beats { return fraction(int64(b.num), b.den()*int64(int32(n))) }

// Cmp is -1, 0 or 1 as b is less than, equal to or more than c.
func (b Beats) Cmp(c Beats) int {
	left, right := int64(b.num)*c.den(), int64(c.num)*b.den()
	switch {
	case left < right:
		return -1
	case left > right:
		return 1
	}
	return 0
}

// Less reports whether b is less than c.
func (b Beats) Less(c Beats) bool { return b.Cmp(c) < 0 }

// IsZero reports whether b is no beats.
func (b Beats) IsZero() bool { return b == Beats{} }

// IsWhole reports whether b is a whole number of beats.
func (b Beats) IsWhole() bool { return b.over == 0 }

// Int is the whole beats in b, rounded down.
func (b Beats) Int() int {
	q := int64(b.num) / b.den()
	if b.num < 0 && !b.IsWhole() {
		q--
	}
	return int(q)
}

// Fraction is b as a reduced fraction; den is at least 1.
func (b Beats) Fraction() (num, den int) { return int(b.num), int(b.den()) }

// Float64 is the nearest number.
func (b Beats) Float64() float64 { return float64(b.num) / float64(b.den()) }

// String is "3", "4/3", "-1/2".
func (b Beats) String() string { return string(b.AppendTo(nil)) }

// AppendTo prints b behind dst as [Beats.String] does.
func (b Beats) AppendTo(dst []byte) []byte {
	dst = strconv.AppendInt(dst, int64(b.num), 10)
	if !b.IsWhole() {
		dst = strconv.AppendInt(append(dst, '/'), b.den(), 10)
	}
	return dst
}

// Place is b as the text notation writes where a chord stands: halves, quarters and
// eighths as decimals, "2.5", the rest as [Beats.String] does.
func (b Beats) Place() string { return string(b.appendPlace(nil)) }

func (b Beats) appendPlace(dst []byte) []byte {
	switch b.den() {
	case 2, 4, 8:
		return strconv.AppendFloat(dst, b.Float64(), 'f', -1, 64)
	}
	return b.AppendTo(dst)
}

// MarshalText prints as [Beats.String] does.
func (b Beats) MarshalText() ([]byte, error) { return b.AppendTo(nil), nil }

// UnmarshalText reads what [ParseBeats] reads.
func (b *Beats) UnmarshalText(text []byte) (err error) {
	*b, err = ParseBeats(string(text))
	return err
}

// MustParseBeats is [ParseBeats] for text known to be good; it panics on other.
func MustParseBeats(s string) Beats {
	b, err := ParseBeats(s)
	if err != nil {
		panic(err)
	}
	return b
}

// Bounds of what is read; sums may go beyond.
const (
	maxDigits = 10 // of a numerator or a denominator
	decimals  = 9  // that are looked at
	maxDen    = 10_000
)

// ParseBeats reads a whole number, a fraction or a decimal: "3", "4/3", "3.5".
// One or two decimals are exact. Three or more stand for the simplest fraction
// they may be rounded or cut from, if that is simple enough to be told from
// others by so many: its denominator 15 at most for three decimals, 50 for four,
// 158 for five, and so on. 1.333 is 4/3, and 1.123 is 1123/1000; more decimals
// that stand for no such fraction are refused.
func ParseBeats(s string) (Beats, error) {
	body, negative := strings.CutPrefix(s, "-")
	sign := int64(1)
	if negative {
		sign = -1
	}
	whole, rest := digits(body)
	fault := func(offset int, msg string) (Beats, error) {
		return Beats{}, &pitch.SyntaxError{Input: s, Offset: offset, Msg: msg}
	}
	if whole == "" {
		return fault(len(s)-len(body), "expected a number of beats")
	}
	if len(whole) > maxDigits {
		return fault(len(s)-len(body), "more beats than a tune has")
	}
	num, _ := strconv.ParseInt(whole, 10, 64)
	exactly := func(num, den int64) (Beats, error) {
		if g := gcd(num, den); num/g > math.MaxInt32 {
			return fault(len(s)-len(body), "more beats than a tune has")
		}
		return fraction(sign*num, den), nil
	}
	if rest == "" {
		return exactly(num, 1)
	}
	part, tail := digits(rest[1:])
	at := len(s) - len(rest)
	switch {
	case rest[0] != '.' && rest[0] != '/':
		return fault(at, "expected the end of the number of beats")
	case part == "":
		return fault(at+1, "expected a digit")
	case tail != "":
		return fault(len(s)-len(tail), "expected the end of the number of beats")
	}
	if rest[0] == '/' {
		den, _ := strconv.ParseInt(part[:min(len(part), maxDigits)], 10, 64)
		if den == 0 || den > maxDen || len(part) > maxDigits {
			return fault(at+1, fmt.Sprintf("expected a denominator from 1 to %d", maxDen))
		}
		return exactly(num, den)
	}
	n, d, ok := decimal(part)
	if vanished := num == 0 && n == 0 && strings.Trim(part, "0") != ""; !ok || vanished {
		return Beats{}, &pitch.SyntaxError{Input: s, Offset: at + 1,
			Msg: "these decimals stand for no simple fraction of a beat", Hint: "write a fraction, 4/3, or more decimals of it"}
	}
	return exactly(num*d+n, d)
}

// digits cuts the decimal digits from the front of s.
func digits(s string) (front, rest string) {
	i := 0
	for i < len(s) && s[i] >= '0' && s[i] <= '9' {
		i++
	}
	return s[:i], s[i:]
}

// decimal is the fraction that digits behind a point stand for.
func decimal(part string) (num, den int64, ok bool) {
	up := int64(0)
	if len(part) > decimals {
		if part[decimals] >= '5' {
			up = 1
		}
		part = part[:decimals]
	}
	num, _ = strconv.ParseInt(part, 10, 64)
	num += up
	den = 1
	for range part {
		den *= 10
	}
	exact := gcd(num, den)
	if exact == 0 || den/exact <= 100 {
		return num / max(exact, 1), den / max(exact, 1), true
	}
	// Rounded: from half a step below; cut off: to nearly a step above.
	n, d := simplest(10*num-5, 10*den, 10*num+9, 10*den)
	if d <= maxDen && 4*d*d <= den {
		return n, d, true
	}
	return num / exact, den / exact, den/exact <= 1000
}

// simplest is the fraction with the least denominator from n1/d1 to n2/d2, by
// continued fractions (Graham, Knuth, Patashnik, Concrete Mathematics, 4.5;
// from memory).
func simplest(n1, d1, n2, d2 int64) (num, den int64) {
	whole := n1 / d1
	if whole*d1 == n1 {
		return whole, 1
	}
	if (whole+1)*d2 <= n2 {
		return whole + 1, 1
	}
	den, num = simplest(d2, n2-whole*d2, d1, n1-whole*d1)
	return whole*den + num, den
}
