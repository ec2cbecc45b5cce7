package function

import (
	"bytes"
	"fmt"
	"slices"
	"strings"

	"fifthwise/pkg/chord"
	"fifthwise/pkg/key"
	"fifthwise/pkg/pitch"
)

// Numeral names a chord by its place in a key: a degree, a quality and, for an
// applied chord, the degree that is tonicised. In V7/VI the degree is V,
// counted in the key of VI. Numerals are comparable. The zero value is silence,
// "N.C.".
type Numeral struct {
	quality        chord.Quality
	degree, target Degree
	sub            bool
}

// substituteDegree is where the tritone substitute of V stands.
var substituteDegree = D(2, -1)

// NewNumeral is the chord of a quality on a degree, of the target if that is a
// degree. Of I means of the key itself, so that V7/I is V7. A tritone
// substitute prints as the dominant it stands for, subV7; its degree is bII,
// whatever d is. A d that is no degree gives silence.
func NewNumeral(d Degree, q chord.Quality, target Degree, sub bool) Numeral {
	if sub {
		d = substituteDegree
	}
	if !d.IsValid() {
		return Numeral{}
	}
	if target == D(1, 0) {
		target = Degree{}
	}
	return Numeral{quality: q, degree: d, target: target, sub: sub}
}

// IsSilence reports whether n is the numeral of no chord.
func (n Numeral) IsSilence() bool { return !n.degree.IsValid() }

// Degree is where the root stands, in the key of the target for an applied
// chord; bII for a tritone substitute; none for silence.
func (n Numeral) Degree() Degree { return n.degree }

// Target is the tonicised degree of an applied chord, none for others.
func (n Numeral) Target() Degree { return n.target }

// Quality is the chord without its root.
func (n Numeral) Quality() chord.Quality { return n.quality }

// IsSubstitute reports whether n is written as a tritone substitute, subV.
func (n Numeral) IsSubstitute() bool { return n.sub }

// NumeralStyle is a way of writing numerals. All styles say the same, and
// [ParseNumeral] reads them all.
type NumeralStyle uint8

// The styles.
const (
	Upper  NumeralStyle = iota // IIm7, V7/VI: capitals, the quality in full
	Cased                      // ii7, V7/vi: lower case for a minor third
	Arabic                     // 2m7, 5 7/6: figures, the quality in full
)

var numeralStyles = [...]string{"upper", "cased", "arabic"}

// String is the style's name: "upper", "cased", "arabic".
func (s NumeralStyle) String() string {
	if int(s) < len(numeralStyles) {
		return numeralStyles[s]
	}
	return fmt.Sprintf("style(%d)", uint8(s))
}

// ParseNumeralStyle reads the name of a style in any case.
func ParseNumeralStyle(s string) (NumeralStyle, error) {
	for i, name := range numeralStyles {
		if strings.EqualFold(s, name) {
			return NumeralStyle(i), nil
		}
	}
	return 0, &pitch.SyntaxError{Input: s, Msg: "expected a style of numerals: upper, cased or arabic"}
}

// MarshalText prints as [NumeralStyle.String] does.
func (s NumeralStyle) MarshalText() ([]byte, error) {
	if int(s) >= len(numeralStyles) {
		return nil, fmt.Errorf("style %d of numerals does not exist", s)
	}
	return []byte(s.String()), nil
}

// UnmarshalText reads what [ParseNumeralStyle] reads.
func (s *NumeralStyle) UnmarshalText(text []byte) (err error) {
	*s, err = ParseNumeralStyle(string(text))
	return err
}

// String is the numeral in [Upper] style and ASCII: "IIm7b5", "V7/VI",
// "subV7", "N.C.".
func (n Numeral) String() string { return n.Text(Upper, key.Major, pitch.ASCII) }

// MarshalText prints as [Numeral.String] does.
func (n Numeral) MarshalText() ([]byte, error) {
	return n.AppendText(nil, Upper, key.Major, pitch.ASCII), nil
}

// UnmarshalText reads what [ParseNumeral] reads.
func (n *Numeral) UnmarshalText(text []byte) (err error) {
	*n, err = ParseNumeral(string(text))
	return err
}

// Text is the numeral in a style. The mode is that of the key: in [Cased]
// style it decides the case of a target, which states no quality of its own.
// An invalid mode is taken for major.
func (n Numeral) Text(s NumeralStyle, m key.Mode, a pitch.Accidentals) string {
	var room [48]byte
	return string(n.AppendText(room[:0], s, m, a))
}

// AppendText prints what [Numeral.Text] gives, behind dst.
func (n Numeral) AppendText(dst []byte, s NumeralStyle, m key.Mode, a pitch.Accidentals) []byte {
	if n.IsSilence() {
		return append(dst, "N.C."...)
	}
	d, lower := n.degree, s == Cased && hasMinorThird(n.quality)
	if n.sub {
		dst, d, lower = append(dst, "sub"...), D(5, 0), false
	}
	dst = appendDegree(dst, d, s, lower, a)
	dst = appendQuality(dst, n.quality, s, lower, a)
	if n.target.IsValid() {
		dst = appendDegree(append(dst, '/'), n.target, s, s == Cased && isMinorTarget(m, n.target), a)
	}
	return dst
}

func hasMinorThird(q chord.Quality) bool {
	alter, ok := q.Third()
	return ok && alter == -1
}

var lowerRomans = [...]string{"", "i", "ii", "iii", "iv", "v", "vi", "vii"}

func appendDegree(dst []byte, d Degree, s NumeralStyle, lower bool, a pitch.Accidentals) []byte {
	dst = a.Append(dst, d.Alter())
	switch {
	case s == Arabic:
		return append(dst, byte('0'+d.Number()))
	case lower:
		return append(dst, lowerRomans[d.Number()]...)
	}
	return append(dst, romans[d.Number()]...)
}

// appendQuality prints the quality as chord symbols do, but for the suspended
// fourth, which is plain sus, for the m that a lower-case degree says already,
// and for the space between two figures.
func appendQuality(dst []byte, q chord.Quality, s NumeralStyle, lower bool, a pitch.Accidentals) []byte {
	start := len(dst)
	dst = q.AppendTo(append(dst, ' '), a)
	text := dst[start+1:]
	if i := bytes.Index(text, []byte("sus4")); i >= 0 && !bytes.Contains(text, []byte("sus2")) {
		i += len("sus")
		dst = append(dst[:start+1+i], text[i+1:]...)
	}
	drop := 1
	switch {
	case s == Arabic && len(text) > 0 && '0' <= text[0] && text[0] <= '9':
		drop = 0
	case lower && text[0] == 'm':
		drop = 2
	}
	return slices.Delete(dst, start, start+drop)
}

// minorTargets are the degrees whose chord has a minor third, by mode: those of
// the mode's scale, in minor of its three scales together, and the degrees VII
// and #IV, which carry diminished chords in any mode. The V of minor is not
// among them: where it is tonicised it is the dominant.
var minorTargets = [...][]Degree{
	key.Major:      {D(2, 0), D(3, 0), D(6, 0), D(7, 0), D(4, 1)},
	key.Minor:      {D(2, 0), D(4, 0), D(6, 0), D(7, 0), D(4, 1)},
	key.Dorian:     {D(2, 0), D(5, 0), D(6, 0), D(7, 0), D(4, 1)},
	key.Phrygian:   {D(4, 0), D(5, 0), D(7, -1), D(7, 0), D(4, 1)},
	key.Lydian:     {D(3, 0), D(6, 0), D(7, 0), D(4, 1)},
	key.Mixolydian: {D(2, 0), D(3, 0), D(5, 0), D(6, 0), D(7, 0), D(4, 1)},
}

func isMinorTarget(m key.Mode, d Degree) bool {
	if !m.IsValid() {
		m = key.Major
	}
	return slices.Contains(minorTargets[m], d)
}
