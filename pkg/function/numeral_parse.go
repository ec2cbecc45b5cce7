package function

import (
	"slices"
	"strings"

	"fifthwise/pkg/chord"
	"fifthwise/pkg/pitch"
)

// maxNumeral bounds a numeral in bytes: the longest quality and what stands
// around it.
const maxNumeral = 300

// classical names of the handbooks and the numerals they are read as: the
// Neapolitan (Hutchinson, Music Theory for the 21st-Century Classroom, §20.2)
// and the augmented sixths in their lead-sheet form (§21.4), the enharmonic German
// one (§29.5) with them. Without figures they are common practice, no source. The
// inversion and the missing fifth of the Italian sixth are not kept.
var classical = map[string]string{
	"N": "bII", "N6": "bII",
	"It": "bVI7", "It+6": "bVI7", "It6": "bVI7",
	"Ger": "bVI7", "Ger+6": "bVI7", "Ger6": "bVI7", "Ger65": "bVI7", "EnGer+6": "bVI7",
	"Fr": "bVI7b5", "Fr+6": "bVI7b5", "Fr6": "bVI7b5", "Fr43": "bVI7b5",
}

// wanted is what to say where a degree is missing, and where a note's letter
// stands in its place.
type wanted struct{ msg, letter string }

var (
	wantDegree = wanted{"expected a degree I to VII or 1 to 7", "a chord symbol is no numeral"}
	wantTarget = wanted{"expected the tonicised degree, I to VII or 1 to 7", noBass}
)

const noBass = "a bass or an inversion is no part of a numeral"

// ParseNumeral reads a numeral in any [NumeralStyle], as printed or as players
// and students write it:
//
//   - A degree with its accidentals in front: bIII, ♭III, b3. It counts from
//     the major scale in minor too, where some handbooks leave out the flats of
//     bIII, bVI and bVII. A lower-case degree has a minor third: ii7 is IIm7,
//     i(maj7) Im(maj7), viiø7 and viio7 are what they say. In capitals and
//     figures the quality says it all.
//   - The quality as [chord.ParseQuality] reads it, a space before it or not:
//     "5 7" and "57" are V7. So a 6 is an added sixth, as on lead sheets, and
//     not the first inversion of the handbooks: iv6 is IVm6. Other figures of
//     inversion are refused.
//   - The target behind a slash or " of ", in either case, in figures if the
//     degree is: V7/II, V7/ii, "V of II", 5 7/2. A target has no quality, and
//     no target of its own. It is never a bass.
//   - A tritone substitute as subV7, "sub V7/V", sub5 7.
//   - N.C. for silence; N6, It+6, Ger+6 and Fr+6 for bII, bVI7, bVI7 and bVI7b5.
//     N, It, Ger and Fr alone are the same.
//
// The error is a [pitch.SyntaxError].
func ParseNumeral(s string) (Numeral, error) {
	if len(s) > maxNumeral {
		return Numeral{}, &pitch.SyntaxError{Input: s, Offset: maxNumeral, Msg: "a numeral has at most 300 bytes"}
	}
	switch strings.TrimSpace(s) {
	case "N.C.", "N.C", "NC":
		return Numeral{}, nil
	}
	p := numeralParser{in: s, end: len(strings.TrimRight(s, " \t"))}
	return p.numeral()
}

// MustParseNumeral is [ParseNumeral] for numerals known to be good; it panics
// on others.
func MustParseNumeral(s string) Numeral {
	n, err := ParseNumeral(s)
	if err != nil {
		panic(err)
	}
	return n
}

// numeralParser reads a numeral: first the target is cut off its end, then the
// head is read from front to back.
type numeralParser struct {
	in       string
	pos, end int // what is not read yet
}

func (p *numeralParser) rest() string { return p.in[p.pos:p.end] }

func (p *numeralParser) skipSpace() {
	p.pos = p.end - len(strings.TrimLeft(p.rest(), " \t"))
}

func (p *numeralParser) fail(msg, hint string) error {
	return &pitch.SyntaxError{Input: p.in, Offset: p.pos, Msg: msg, Hint: hint}
}

func (p *numeralParser) numeral() (Numeral, error) {
	p.skipSpace()
	head := *p
	at, behind := findTarget(p.rest())
	if at < 0 {
		n, _, err := head.head()
		return n, err
	}
	head.end = p.pos + at
	n, in, err := head.head()
	if err != nil {
		return Numeral{}, err
	}
	p.pos += behind
	target, err := p.target(in)
	if err != nil {
		return Numeral{}, err
	}
	return NewNumeral(n.degree, n.quality, target, n.sub), nil
}

// findTarget is where the head ends and where the target begins; -1 if there is
// no target. A slash in 6/9 or in brackets belongs to the quality.
func findTarget(s string) (at, behind int) {
	if i := strings.Index(s+" ", " of "); i >= 0 {
		return i, i + len(" of")
	}
	i := strings.LastIndexByte(s, '/')
	if i < 0 || strings.HasSuffix(s[:i], "6") && strings.HasPrefix(s[i+1:], "9") || strings.Contains(s[i:], ")") {
		return -1, -1
	}
	return i, i + 1
}

// figures is how a degree is written.
type figures uint8

const (
	capitals figures = iota
	lowerCase
	arabicFigures
)

// target reads the tonicised degree, written as the head is.
func (p *numeralParser) target(head figures) (Degree, error) {
	p.skipSpace()
	start := p.pos
	d, in, err := p.degree(wantTarget)
	if err != nil {
		return Degree{}, err
	}
	if (in == arabicFigures) != (head == arabicFigures) {
		p.pos = start
		return Degree{}, p.mixedFigures(head)
	}
	if p.pos < p.end {
		return Degree{}, p.fail("expected the end of the numeral behind the tonicised degree", "a target has no quality")
	}
	return d, nil
}

func (p *numeralParser) mixedFigures(head figures) error {
	if head == arabicFigures {
		return p.fail("expected the tonicised degree in figures, as the degree before it", "")
	}
	return p.fail("expected the tonicised degree in Roman numerals, as the degree before it", noBass)
}

// head reads all but the target.
func (p *numeralParser) head() (Numeral, figures, error) {
	p.end = p.pos + len(strings.TrimRight(p.rest(), " \t"))
	if plain, ok := classical[p.rest()]; ok {
		return MustParseNumeral(plain), capitals, nil
	}
	if at, _ := findTarget(p.rest()); at >= 0 {
		p.pos += at
		return Numeral{}, 0, p.fail("an applied chord has one target", "name it by the chord it goes to")
	}
	sub := p.sub()
	start := p.pos
	d, in, err := p.degree(wantDegree)
	if err != nil {
		return Numeral{}, in, err
	}
	if sub && (d != D(5, 0) || in == lowerCase) {
		p.pos = start
		return Numeral{}, in, p.fail("expected V or 5 behind sub", "a substitute bears the name of its dominant, subV7")
	}
	q, err := p.quality(in)
	if err != nil {
		return Numeral{}, in, err
	}
	return NewNumeral(d, q, Degree{}, sub), in, nil
}

// sub reads the mark of a tritone substitute.
func (p *numeralParser) sub() bool {
	const mark = "sub"
	if len(p.rest()) < len(mark) || !strings.EqualFold(p.rest()[:len(mark)], mark) {
		return false
	}
	p.pos += len(mark)
	p.skipSpace()
	return true
}

// degree reads accidentals and a number in any figures.
func (p *numeralParser) degree(want wanted) (Degree, figures, error) {
	start := p.pos
	alter, rest, err := pitch.ScanAccidentals(p.rest())
	if err != nil {
		return Degree{}, 0, pitch.Within(err, p.in, p.pos)
	}
	p.pos = p.end - len(rest)
	number, in, err := p.number(want)
	if err != nil {
		return Degree{}, in, err
	}
	d := D(number, alter)
	if !d.IsValid() {
		p.pos = start
		return d, in, p.fail("a degree has at most two flats or sharps", "")
	}
	return d, in, nil
}

func (p *numeralParser) number(want wanted) (int, figures, error) {
	s := p.rest()
	if s != "" && '1' <= s[0] && s[0] <= '7' {
		p.pos++
		return int(s[0] - '0'), arabicFigures, nil
	}
	word := s[:len(s)-len(strings.TrimLeft(s, "IViv"))]
	if word == "" {
		if s != "" && 'A' <= s[0] && s[0] <= 'G' {
			return 0, 0, p.fail(want.msg, want.letter)
		}
		return 0, 0, p.fail(want.msg, "")
	}
	for in, names := range [...]*[8]string{capitals: &romans, lowerCase: &lowerRomans} {
		if i := slices.Index(names[:], word); i > 0 {
			p.pos += len(word)
			return i, figures(in), nil
		}
	}
	if up := strings.ToUpper(word); slices.Contains(romans[:], up) {
		return 0, 0, p.fail("upper and lower case are mixed in one degree", "write "+up+" or "+strings.ToLower(word))
	}
	return 0, 0, p.fail(want.msg, "VII is the highest")
}

// quality reads the rest of the head.
func (p *numeralParser) quality(in figures) (chord.Quality, error) {
	degree := strings.TrimSpace(p.in[:p.pos])
	p.skipSpace()
	text := p.rest()
	q, err := chord.ParseQuality(text)
	if in == lowerCase {
		if m, ok := withMinorThird(q, err, text); ok {
			return m, nil
		}
	}
	switch {
	case err != nil && isInversion(text):
		return q, p.fail("inversion figures are not read", noBass)
	case err != nil && text == "53":
		return q, p.fail("figures of a root position are not read", "write "+degree)
	case err != nil:
		return q, pitch.Within(err, p.in, p.pos)
	case in == lowerCase:
		return q, p.fail("a lower-case degree has a minor third", "write the degree in capitals")
	}
	return q, nil
}

// withMinorThird is the quality of a lower-case degree, if it may have text
// behind it: text may say that the third is minor, or that there is none, or
// leave it to the case.
func withMinorThird(q chord.Quality, err error, text string) (chord.Quality, bool) {
	if alter, ok := q.Third(); err == nil && (!ok || alter < 0) {
		return q, true
	}
	q, err = chord.ParseQuality("m" + text)
	return q, err == nil && hasMinorThird(q)
}

// isInversion reports whether text ends with the figures of an inverted chord.
func isInversion(text string) bool {
	return slices.ContainsFunc([]string{"6", "63", "64", "65", "43", "42"}, func(f string) bool { return strings.HasSuffix(text, f) })
}
