package chord

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"unicode/utf8"

	"fifthwise/pkg/pitch"
)

// maxLength bounds a symbol in bytes; a list of all degrees fits.
const maxLength = 256

// Parse reads a chord symbol, in the spellings of lead sheets or, with a colon
// behind the root or a degree as the bass of a bare root, in Harte's syntax;
// or silence: N.C., NC, N. Errors are of type [*pitch.SyntaxError].
func Parse(s string) (Chord, error) {
	if slices.Contains(silences, s) {
		return Chord{}, nil
	}
	p := parser{in: s, reads: isSymbol}
	c, err := p.chord()
	if err != nil {
		return Chord{}, err
	}
	return c, nil
}

// MustParse is [Parse] for symbols known to be good; it panics on others.
func MustParse(s string) Chord {
	c, err := Parse(s)
	if err != nil {
		panic(err)
	}
	return c
}

// ParseQuality reads what stands in a symbol behind the root and before the
// bass: "m7b5", ":min7", "" for the major triad.
func ParseQuality(s string) (Quality, error) {
	p := parser{in: s, alone: true, reads: isQuality}
	if err := p.wholeQuality(); err != nil {
		return Quality{}, err
	}
	return p.made(), nil
}

func (p *parser) wholeQuality() error {
	if err := p.bounded(); err != nil {
		return err
	}
	if err := p.quality(); err != nil {
		return err
	}
	if p.pos < len(p.in) {
		return p.fail(p.pos, "expected the end of the quality", "")
	}
	return nil
}

func isSymbol(s string) bool {
	p := parser{in: s}
	_, err := p.chord()
	return err == nil
}

func isQuality(s string) bool {
	p := parser{in: s}
	return p.wholeQuality() == nil
}

// parser reads a symbol from front to back.
type parser struct {
	in      string
	pos     int
	set     degreeSet // the chord so far
	implied degreeSet // what of it the kind and number brought
	alt     bool
	inHarte bool              // a bass may be a degree
	alone   bool              // a quality without a root, and so without a bass
	reads   func(string) bool // whether a text would be read, for hints; nil: none is tried
}

func (p *parser) chord() (Chord, error) {
	if err := p.bounded(); err != nil {
		return Chord{}, err
	}
	on, rest, err := pitch.Scan(p.in)
	if err != nil {
		return Chord{}, p.noRoot(err)
	}
	p.pos = len(p.in) - len(rest)
	if err := p.quality(); err != nil {
		return Chord{}, err
	}
	bass, err := p.bass(on)
	if err != nil {
		return Chord{}, err
	}
	return New(on, p.made()).WithBass(bass), nil
}

func (p *parser) bounded() error {
	if len(p.in) > maxLength {
		return p.fail(maxLength, fmt.Sprintf("a chord symbol has at most %d bytes", maxLength), "")
	}
	return nil
}

// noRoot explains a symbol that does not begin with a root.
func (p *parser) noRoot(err error) error {
	const msg = "expected a root A to G or N.C."
	var first byte
	if p.in != "" {
		first = p.in[0]
	}
	switch {
	case 'A' <= first && first <= 'G':
		return err // its accidentals are at fault
	case numeralForm.MatchString(p.in):
		return p.fail(0, msg, NumeralHint)
	case 'a' <= first && first <= 'g':
		return p.fail(0, "expected the root in upper case", hintLowerCase(string(first-'a'+'A'), p.in[1:]))
	case first == 'H':
		return p.fail(0, msg, "the German H is B")
	case strings.EqualFold(p.in, "n.c."), strings.EqualFold(p.in, "nc"):
		return p.fail(0, msg, "write N.C.")
	}
	return p.fail(0, msg, "")
}

// NumeralHint is the hint of a [pitch.SyntaxError] for what begins as a Roman
// numeral does: "ii7", "bVII".
const NumeralHint = "this looks like a numeral, not like a chord symbol"

var numeralForm = regexp.MustCompile(`^[b#♭♯]*(?:sub)?(?:VI{0,2}|IV|I{1,3}|vi{0,2}|iv|i{1,3})(?:$|[^\pL]|[ø△Δ]|m|maj|Maj|M|dim|o|aug|sus|add|alt)`)

// hintLowerCase names the chords that a lower-case root may have meant.
func hintLowerCase(root, rest string) string {
	meant := []string{root + rest}
	_, quality, _ := pitch.ScanAccidentals(rest)
	if quality == "" || isFigure(quality[0]) {
		meant = append(meant, root+strings.TrimSuffix(rest, quality)+"m"+quality)
	}
	meant = slices.DeleteFunc(meant, func(s string) bool {
		_, err := Parse(s)
		return err != nil
	})
	if len(meant) == 0 {
		return ""
	}
	return "write " + strings.Join(meant, " or ")
}

// quality reads from behind the root to the bass or the end.
func (p *parser) quality() error {
	if p.next(":") {
		p.inHarte = true
		return p.harte()
	}
	p.inHarte = p.rest() == "" || p.rest()[0] == '/'
	if err := p.head(); err != nil {
		return err
	}
	return p.modifiers()
}

// made is the quality that was read.
func (p *parser) made() Quality {
	if p.alt && p.set == altered.set() {
		return altered
	}
	return qualityOf(p.set)
}

// head reads kind and number.
func (p *parser) head() error {
	k, size, ok := readKind.match(p.rest())
	if !ok {
		k = &plainKind
	}
	p.pos += size
	p.set, p.implied = k.triad, k.triad
	f, size, ok := readNumber.match(p.rest())
	switch {
	case ok && k.takes>>f.row&1 != 0:
		p.pos += size
		p.stack(f, k.seventh)
	case p.pos < len(p.in) && isFigure(p.in[p.pos]):
		return p.wrongNumber(k)
	case k.alone:
		p.bring(k.seventh)
	}
	return nil
}

// stack adds what a number brings.
func (p *parser) stack(f *figure, seventh degreeSet) {
	p.bring(f.over(p.set))
	if f.seventh {
		p.bring(seventh)
	}
}

func (p *parser) bring(s degreeSet) {
	p.set |= s
	p.implied |= s
}

func (p *parser) wrongNumber(k *reading) error {
	msg := "expected the end or a modifier"
	if k.numbers != "" {
		msg = "expected one of the numbers " + k.numbers
	}
	hint := ""
	switch p.in[p.pos] {
	case '4':
		hint = "write sus4 or add11"
	case '5':
		hint = "write (b5) for a flat fifth"
	}
	return p.fail(p.pos, msg, hint)
}

// modifiers reads what stands behind the head, up to the bass.
func (p *parser) modifiers() error {
	for p.pos < len(p.in) {
		switch p.in[p.pos] {
		case '(':
			if err := p.bracket(); err != nil {
				return err
			}
		case '/':
			if _, _, ok := readMajor.match(p.in[p.pos+1:]); !ok {
				return nil
			}
			p.pos++ // Cm/maj7
		default:
			if err := p.modifier(false); err != nil {
				return err
			}
		}
	}
	return nil
}

// bracket reads modifiers in round brackets, divided by commas, slashes,
// spaces or not at all.
func (p *parser) bracket() error {
	open := p.pos
	p.pos++
	for {
		if p.pos == len(p.in) {
			return p.fail(open, "the bracket is not closed", "")
		}
		if err := p.modifier(true); err != nil {
			return err
		}
		if p.next(")") {
			return nil
		}
		if p.next(",") || p.next("/") || p.next(" ") {
			p.next(" ")
		}
	}
}

func (p *parser) modifier(inBracket bool) error {
	at := p.pos
	if k, size, ok := readMajor.match(p.rest()); ok {
		p.pos += size
		return p.majorSeventh(at, k)
	}
	if p.seesSignedDegree() {
		return p.alteration(at)
	}
	if c, size, ok := readModifier.match(p.rest()); ok {
		p.pos += size
		return p.change(at, c)
	}
	if n, ok := p.figure(); ok {
		return p.plainDegree(at, n, inBracket)
	}
	return p.noModifier(inBracket)
}

// noModifier explains what is no modifier.
func (p *parser) noModifier(inBracket bool) error {
	if _, size, ok := readSheetSign.match(p.rest()); ok {
		return p.fail(p.pos+size, "expected a degree after the sign", "")
	}
	if inBracket {
		return p.fail(p.pos, "expected a degree, maj7, add, no, sus or alt in the bracket", "")
	}
	hint := ""
	switch p.in[p.pos] {
	case ' ':
		hint = "write the symbol without spaces"
	case '[', '{':
		hint = "use round brackets"
	case '|', '\\':
		hint = chordOverChord
	default:
		hint = p.hintQuality()
	}
	if p.alone {
		return p.fail(p.pos, "expected an altered degree, maj7, add, no, sus, alt or a bracket", hint)
	}
	return p.fail(p.pos, "expected an altered degree, maj7, add, no, sus, alt, a bracket or a bass", hint)
}

// hintQuality names the symbol that is meant, or the one without the character that
// was not understood, if that is one, and what may stand there.
func (p *parser) hintQuality() string {
	const such = "a quality such as m7, maj7 or 7b9"
	_, size := utf8.DecodeRuneInString(p.rest())
	s := ""
	if meant := p.meant(); meant != "" {
		s = p.in[:p.pos] + meant
	} else if p.pos > 0 {
		s = p.in[:p.pos] + p.in[p.pos+size:]
	}
	if p.reads != nil && s != "" && p.reads(s) {
		return "write " + s + ", or " + such
	}
	return "write " + such
}

// meant is what stands for signs of other hands in place of the rest: ^ for a
// triangle, h for half-diminished; "" for others. Common practice, no source.
func (p *parser) meant() string {
	rest := p.rest()
	switch {
	case strings.HasPrefix(rest, "^") && len(rest) > 1 && isFigure(rest[1]):
		return "maj" + rest[1:]
	case strings.HasPrefix(rest, "^"):
		return "maj7" + rest[1:]
	case strings.HasPrefix(rest, "h"):
		return "m7b5" + strings.TrimPrefix(rest[1:], "7")
	}
	return ""
}

const chordOverChord = "a chord over a chord is written as one, such as C:(1,3,5,b7,9)"

// majorSeventh reads what follows a second word for major, as in Cm(maj7).
func (p *parser) majorSeventh(at int, k *reading) error {
	f, size, ok := readNumber.match(p.rest())
	switch {
	case ok && !f.seventh, !ok && !k.alone:
		return p.fail(p.pos, "expected 7, 9, 11 or 13 after the word for major", "")
	case p.set&every(7) != 0:
		return p.fail(at, "the chord has a seventh already", "")
	case ok:
		p.pos += size
		p.stack(f, k.seventh)
	default:
		p.bring(k.seventh)
	}
	return nil
}

// seesSignedDegree reports whether signs and a figure come next.
func (p *parser) seesSignedDegree() bool {
	s := p.rest()
	for {
		_, size, ok := readSheetSign.match(s)
		if !ok {
			break
		}
		s = s[size:]
	}
	return s != "" && isFigure(s[0]) && len(s) < len(p.rest())
}

// signedDegree reads a degree with signs as lead sheets have it.
func (p *parser) signedDegree(at int) (Degree, error) {
	d, err := p.degree(readSheetSign)
	if err != nil {
		return Degree{}, err
	}
	row := bySheetNumber[d.Number()]
	if !row.signed {
		return Degree{}, p.fail(at, fmt.Sprintf("%v is no degree of a chord symbol", d), "")
	}
	return D(row.stands, d.Alter()), nil
}

// alteration reads a signed degree, which takes the place of the natural one
// if kind or number brought that.
func (p *parser) alteration(at int) error {
	d, err := p.signedDegree(at)
	if err != nil {
		return err
	}
	if d.Number() == 7 && d.Alter() > 0 {
		if d.Alter() > 1 || p.set&every(7) != 0 {
			return p.fail(at, "the chord has a seventh already", "")
		}
		d = D(7, 0)
	}
	p.set &^= p.implied & only(D(d.Number(), 0))
	p.set |= only(d)
	return nil
}

// plainDegree adds the degree of a figure in brackets. Behind a seventh it
// counts as the chord's number and brings what lies below.
func (p *parser) plainDegree(at, n int, inBracket bool) error {
	if !inBracket {
		return p.fail(at, "a degree behind the number wants a sign or brackets", fmt.Sprintf("write (%d)", n))
	}
	d, err := p.addedDegree(at, n)
	if err != nil {
		return err
	}
	f, _, ok := readNumber.match(p.in[at:p.pos])
	if !ok || !f.seventh || p.set&every(7) == 0 {
		p.set |= only(d)
		return nil
	}
	for below := range f.over(p.set).all() {
		if p.set&every(below.Number()) == 0 || below == d {
			p.bring(only(below))
		}
	}
	return nil
}

// addedDegree is what an unsigned figure stands for.
func (p *parser) addedDegree(at, n int) (Degree, error) {
	if n == 7 {
		return Degree{}, p.fail(at, "a seventh that is added is minor or major", "write b7 or maj7")
	}
	if n > maxDegree || !bySheetNumber[n].plain {
		return Degree{}, p.fail(at, "expected a degree 2 to 6, 9, 10, 11 or 13", "")
	}
	return D(bySheetNumber[n].stands, 0), nil
}

func (p *parser) change(at int, c *change) error {
	switch c.op {
	case suspend:
		p.set = p.set&^every(3) | c.degrees
	case raise:
		if !p.set.has(D(5, 0)) {
			return p.fail(at, "there is no natural fifth to raise", "")
		}
		p.set = p.set&^only(D(5, 0)) | c.degrees
	case alter:
		if p.set != plainKind.triad && p.set != plainKind.triad|plainKind.seventh {
			return p.fail(at, "alt belongs behind a plain 7", "write 7alt")
		}
		p.set, p.alt = only(root)|c.degrees, true
	case add:
		return p.addition()
	case leaveOut:
		return p.omission(at)
	case leaveRoot:
		p.set &^= only(root)
	}
	return nil
}

func (p *parser) addition() (err error) {
	at := p.pos
	var d Degree
	if p.seesSignedDegree() {
		d, err = p.signedDegree(at)
	} else if n, ok := p.figure(); ok {
		d, err = p.addedDegree(at, n)
	} else {
		err = p.fail(at, "expected the degree to add", "")
	}
	p.set |= only(d)
	return err
}

func (p *parser) omission(at int) error {
	n, ok := p.figure()
	switch {
	case !ok || n < 1 || n > maxDegree:
		return p.fail(p.pos, "expected the degree to leave out", "")
	case p.set&every(n) == 0:
		return p.fail(at, fmt.Sprintf("the chord has no %d to leave out", n), "")
	}
	p.set &^= every(n)
	return nil
}

// bass reads a slash and the bass, to the end of the symbol. Without them the
// bass is the root.
func (p *parser) bass(on pitch.Note) (pitch.Note, error) {
	if p.pos == len(p.in) {
		return on, nil
	}
	if !p.next("/") {
		return on, p.fail(p.pos, "expected a bass or the end of the symbol", "")
	}
	if p.seesSignedDegree() || p.rest() != "" && isFigure(p.rest()[0]) {
		return p.degreeBass(on)
	}
	bass, rest, err := pitch.Scan(p.rest())
	if err != nil {
		return on, pitch.Within(err, p.in, p.pos)
	}
	if rest != "" {
		return on, p.fail(len(p.in)-len(rest), "expected the end of the symbol after the bass", chordOverChord)
	}
	return bass, nil
}

// degree reads signs and a figure.
func (p *parser) degree(signs *lexicon[int]) (Degree, error) {
	at := p.pos
	alter, err := p.signs(signs)
	if err != nil {
		return Degree{}, err
	}
	n, ok := p.figure()
	if !ok || n < 1 || n > maxDegree {
		return Degree{}, p.fail(p.pos, "expected a degree from 1 to 13", "")
	}
	if d, ok := degreeAt(n, alter); ok {
		return d, nil
	}
	if n == 1 {
		return Degree{}, p.fail(at, "the root cannot be altered", "write the octave, b8 or #8")
	}
	return Degree{}, p.fail(at, "a degree has at most two flats or sharps", "")
}

// maxSigns is the most that a bass can be altered against a root: from seven
// flats to seven sharps.
const maxSigns = 15

// signs counts semitones up or down.
func (p *parser) signs(table *lexicon[int]) (alter int, err error) {
	for {
		step, size, ok := table.match(p.rest())
		if !ok {
			return alter, nil
		}
		if *step*alter < 0 {
			return 0, p.fail(p.pos, "flats and sharps mixed on one degree", "")
		}
		if alter += *step; alter > maxSigns || alter < -maxSigns {
			return 0, p.fail(p.pos, fmt.Sprintf("more than %d flats or sharps on one degree", maxSigns), "")
		}
		p.pos += size
	}
}

// figure reads a number of one or two figures, without a leading zero.
func (p *parser) figure() (n int, ok bool) {
	for range 2 {
		if p.pos == len(p.in) || !isFigure(p.in[p.pos]) || ok && n == 0 {
			break
		}
		n, ok = 10*n+int(p.in[p.pos]-'0'), true
		p.pos++
	}
	return n, ok
}

func isFigure(c byte) bool { return '0' <= c && c <= '9' }

func (p *parser) rest() string { return p.in[p.pos:] }

// next reads s if it comes next.
func (p *parser) next(s string) bool {
	if !strings.HasPrefix(p.rest(), s) {
		return false
	}
	p.pos += len(s)
	return true
}

func (p *parser) fail(offset int, msg, hint string) error {
	return &pitch.SyntaxError{Input: p.in, Offset: offset, Msg: msg, Hint: hint}
}
