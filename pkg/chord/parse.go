package chord

import (
	"strings"

	"fifthwise/pkg/pitch"
)

// maxLength bounds a symbol in bytes; the longest list of degrees fits.
const maxLength = 256

// What the tables become for reading.
var (
	kindWords = lexiconOf(kinds, func(k kind) (string, stack) {
		s := stack{triad: only(root) | degreesOf(k.triad), seventh: degreesOf(k.seventh)}
		for i, n := range numbers {
			for _, taken := range strings.Fields(k.numbers) {
				if taken == strings.Fields(n.words)[0] {
					s.takes |= 1 << i
				}
			}
		}
		s.alone = k.alone != ""
		return k.words, s
	})
	majorWords   = lexiconOf(kinds[2:4], func(k kind) (string, bool) { return k.words, k.alone != "" })
	numberWords  = lexiconOf(numberRows(), func(f figures) (string, figures) { return f.words, f })
	modWords     = lexiconOf(modifiers, func(m modifier) (string, change) { return m.words, change{m.op, degreesOf(m.degrees)} })
	naturalWords = func() (table [maxDegree + 1]degreeSet) {
		for _, n := range naturals {
			table[D(mustNumber(n.words), 0).Number()] = degreesOf(n.degree)
		}
		return table
	}()
	degreeSigns = lexiconOf(signTable, func(s sign) (string, int) { return s.word, s.step })
	leadSigns   = lexiconOf(append(append([]sign{}, signTable...), leadSignTable...), func(s sign) (string, int) { return s.word, s.step })
)

// stack is a row of kinds for reading.
type stack struct {
	triad, seventh degreeSet
	alone          bool   // the seventh is understood
	takes          uint16 // rows of numbers
}

// figures is a row of numbers for reading.
type figures struct {
	words        string
	row          int
	seventh      bool
	major, minor degreeSet
}

type change struct {
	op      op
	degrees degreeSet
}

func lexiconOf[R, T any](rows []R, read func(R) (string, T)) *lexicon[T] {
	l := &lexicon[T]{}
	for _, r := range rows {
		l.add(read(r))
	}
	return l
}

func numberRows() []figures {
	rows := make([]figures, len(numbers))
	for i, n := range numbers {
		major, seventh := strings.CutPrefix(n.major, "s")
		rows[i] = figures{n.words, i, seventh, degreesOf(major), degreesOf(strings.TrimPrefix(n.minor, "s"))}
	}
	return rows
}

func mustNumber(word string) int {
	p := parser{in: word}
	n, ok := p.figure()
	if !ok {
		panic(word)
	}
	return n
}

// Parse reads a chord symbol, as lead sheets write it or in Harte's syntax, or
// silence: N.C., NC or N. The error is a [pitch.SyntaxError].
func Parse(s string) (Chord, error) {
	switch s {
	case "N.C.", "NC", "N", "N.C":
		return Chord{}, nil
	}
	p := parser{in: s}
	if len(s) > maxLength {
		return Chord{}, p.fail(maxLength, "a chord symbol has at most 256 bytes", "")
	}
	on, rest, err := pitch.Scan(s)
	if err != nil {
		return Chord{}, p.noRoot(err)
	}
	p.pos = len(s) - len(rest)
	if err := p.quality(); err != nil {
		return Chord{}, err
	}
	bass, err := p.bass(on)
	if err != nil {
		return Chord{}, err
	}
	return New(on, p.made()).WithBass(bass), nil
}

// MustParse is [Parse] for symbols known to be good; it panics on others.
func MustParse(s string) Chord {
	c, err := Parse(s)
	if err != nil {
		panic(err)
	}
	return c
}

// ParseQuality reads what stands behind the root of a symbol and before its
// bass: "m7b5", ":min7", "" for the major triad.
func ParseQuality(s string) (Quality, error) {
	p := parser{in: s}
	if len(s) > maxLength {
		return Quality{}, p.fail(maxLength, "a chord symbol has at most 256 bytes", "")
	}
	if err := p.quality(); err != nil {
		return Quality{}, err
	}
	if p.pos < len(s) {
		return Quality{}, p.fail(p.pos, "expected the end of the quality", "")
	}
	return p.made(), nil
}

// made is the quality that was read.
func (p *parser) made() Quality {
	q := qualityOf(p.set)
	if p.alt && p.set == altered.set() {
		return altered
	}
	return q
}

// parser reads a symbol from front to back.
type parser struct {
	in       string
	pos      int
	harteish bool      // a degree may stand in the bass
	set      degreeSet // as read so far
	implied  degreeSet // what the kind and number brought, to be replaced by alterations
	alt      bool
}

func (p *parser) rest() string { return p.in[p.pos:] }

// next reads s if it stands next.
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

func (p *parser) noRoot(err error) error {
	s := p.in
	if s != "" && s[0] >= 'a' && s[0] <= 'g' {
		up := string(s[0]-'a'+'A') + s[1:]
		return p.fail(0, "expected a root A to G in upper case", "write "+up+" or "+up[:1]+"m"+up[1:])
	}
	return err
}

// quality reads from behind the root to the bass or the end.
func (p *parser) quality() error {
	p.harteish = p.pos == len(p.in) || p.in[p.pos] == '/'
	if p.next(":") {
		p.harteish = true
		return p.harte()
	}
	if err := p.head(); err != nil {
		return err
	}
	return p.modifiers()
}

// head reads the kind and the number.
func (p *parser) head() error {
	k, size, named := kindWords.match(p.rest())
	if !named {
		k = plain
	}
	p.pos += size
	p.set = k.triad
	f, size, ok := numberWords.match(p.rest())
	switch {
	case ok && k.takes>>f.row&1 == 0:
		return p.fail(p.pos, "expected another number or none here", "")
	case ok:
		p.pos += size
		p.stack(f, k.seventh)
	case k.alone:
		p.set |= k.seventh
	}
	p.implied = p.set
	return nil
}

var plain, _, _ = kindWords.match("omit")

// stack adds what a number brings.
func (p *parser) stack(f figures, seventh degreeSet) {
	added := f.major
	if p.set.has(D(3, -1)) {
		added = f.minor
	}
	if f.seventh {
		added |= seventh
	}
	p.set |= added
	p.implied |= added
}

// modifiers reads everything behind the head.
func (p *parser) modifiers() error {
	for p.pos < len(p.in) {
		if p.in[p.pos] == '/' && !p.majorAfterSlash() {
			return nil
		}
		if p.in[p.pos] == '(' {
			if err := p.bracket(); err != nil {
				return err
			}
			continue
		}
		if err := p.modifier(false); err != nil {
			return err
		}
	}
	return nil
}

// majorAfterSlash skips the slash of Cm/maj7.
func (p *parser) majorAfterSlash() bool {
	if _, _, ok := majorWords.match(p.in[p.pos+1:]); !ok {
		return false
	}
	p.pos++
	return true
}

func (p *parser) bracket() error {
	open := p.pos
	p.pos++
	for {
		if err := p.modifier(true); err != nil {
			return err
		}
		if p.next(")") {
			return nil
		}
		if p.next(",") {
			p.next(" ")
		} else if p.next("/") || p.next(" ") {
			continue
		}
		if p.pos == len(p.in) {
			return p.fail(open, "bracket is not closed", "")
		}
	}
}

func (p *parser) modifier(inBracket bool) error {
	at := p.pos
	if standsAlone, size, ok := majorWords.match(p.rest()); ok {
		p.pos += size
		return p.majorSeventh(at, standsAlone)
	}
	if p.isAltered() {
		return p.alteration()
	}
	if c, size, ok := modWords.match(p.rest()); ok {
		p.pos += size
		return p.change(at, c)
	}
	if n, ok := p.figure(); ok && inBracket {
		return p.natural(at, n)
	}
	return p.fail(at, "expected an alteration, add, no, sus, alt or a bass", "")
}

// majorSeventh reads the number behind a second word for major, as in Cm(maj7).
func (p *parser) majorSeventh(at int, standsAlone bool) error {
	f, size, ok := numberWords.match(p.rest())
	if !ok && standsAlone {
		f, size, ok = sevenFigures, 0, true
	}
	if !ok || !f.seventh {
		return p.fail(p.pos, "expected 7, 9, 11 or 13 behind major", "")
	}
	p.pos += size
	if p.set&every(7) != 0 {
		return p.fail(at, "the chord has a seventh already", "")
	}
	p.stack(f, only(D(7, 0)))
	return nil
}

var sevenFigures, _, _ = numberWords.match("7")

// isAltered reports whether signs and a figure come next.
func (p *parser) isAltered() bool {
	s := p.rest()
	signed := false
	for s != "" {
		_, size, ok := leadSigns.match(s)
		if !ok {
			break
		}
		s, signed = s[size:], true
	}
	return signed && s != "" && '0' <= s[0] && s[0] <= '9'
}

// alteration reads a signed degree, which takes the place of the natural one
// if the kind or number brought that.
func (p *parser) alteration() error {
	at := p.pos
	d, err := p.degree(leadSigns)
	if err != nil {
		return err
	}
	if d.Number() == 7 && d.Alter() > 0 {
		if p.set&every(7) != 0 || d.Alter() > 1 {
			return p.fail(at, "the chord has a seventh already", "")
		}
		d = D(7, 0) // raised from the minor seventh
	}
	if natural := D(d.Number(), 0); p.implied.has(natural) {
		p.set &^= only(natural)
	}
	p.set |= only(d)
	return nil
}

// natural adds an unsigned degree.
func (p *parser) natural(at, n int) error {
	if n == 7 {
		return p.fail(at, "a seventh to add is minor or major", "write b7 or maj7")
	}
	if n < 1 || n > maxDegree || naturalWords[n] == 0 {
		return p.fail(at, "expected a degree from 2 to 13", "")
	}
	p.set |= naturalWords[n]
	return nil
}

func (p *parser) change(at int, c change) error {
	switch c.op {
	case suspend:
		p.set = p.set&^every(3) | c.degrees
	case raise:
		p.set = p.set&^only(D(5, 0)) | c.degrees
	case alter:
		if p.set != plain.triad && p.set != plain.triad|plain.seventh {
			return p.fail(at, "alt stands behind a plain seventh", "write C7alt")
		}
		p.set, p.alt = altered.set(), true
	case add:
		return p.addition()
	case leaveRoot:
		p.set &^= only(root)
	case leaveOut:
		return p.omission(at)
	}
	return nil
}

func (p *parser) addition() error {
	at := p.pos
	if p.isAltered() {
		d, err := p.degree(leadSigns)
		if err != nil {
			return err
		}
		p.set |= only(d)
		return nil
	}
	n, ok := p.figure()
	if !ok {
		return p.fail(at, "expected a degree to add", "")
	}
	return p.natural(at, n)
}

func (p *parser) omission(at int) error {
	n, ok := p.figure()
	if !ok || n < 1 || n > maxDegree {
		return p.fail(at, "expected a degree to leave out", "")
	}
	if p.set&every(n) == 0 {
		return p.fail(at, "the chord has no such degree to leave out", "")
	}
	p.set &^= every(n)
	return nil
}

// bass reads a slash and the bass to the end of the symbol; the root is the
// bass if there is none.
func (p *parser) bass(on pitch.Note) (pitch.Note, error) {
	if p.pos == len(p.in) {
		return on, nil
	}
	if !p.next("/") {
		return on, p.fail(p.pos, "expected the bass or the end of the symbol", "")
	}
	if isDegree(p.rest()) {
		if !p.harteish {
			return on, p.fail(p.pos, "expected a note in the bass", "")
		}
		bass, err := p.degreeBass(on)
		if err == nil && p.pos < len(p.in) {
			err = p.fail(p.pos, "expected the end of the symbol", "")
		}
		return bass, err
	}
	bass, rest, err := pitch.Scan(p.rest())
	if err != nil {
		return on, pitch.Within(err, p.in, p.pos)
	}
	if rest != "" {
		return on, p.fail(len(p.in)-len(rest), "expected the end of the symbol behind the bass", "two chords at once are not read")
	}
	return bass, nil
}

// degree reads signs and a figure.
func (p *parser) degree(signs *lexicon[int]) (Degree, error) {
	at := p.pos
	alter, err := p.signs(signs, 8)
	if err != nil {
		return Degree{}, err
	}
	n, ok := p.figure()
	if !ok {
		return Degree{}, p.fail(p.pos, "expected a degree from 1 to 13", "")
	}
	d, ok := degreeAt(n, alter)
	if !ok {
		msg, hint := degreeFault(n, alter)
		return Degree{}, p.fail(at, msg, hint)
	}
	return d, nil
}

// signs counts semitones up or down.
func (p *parser) signs(table *lexicon[int], most int) (alter int, err error) {
	for {
		step, size, ok := table.match(p.rest())
		if !ok {
			return alter, nil
		}
		if step*alter < 0 {
			return 0, p.fail(p.pos, "flats and sharps mixed on one degree", "")
		}
		if alter += step; alter > most || alter < -most {
			return 0, p.fail(p.pos, "too many flats or sharps on one degree", "")
		}
		p.pos += size
	}
}

// figure reads a number of at most two figures.
func (p *parser) figure() (n int, ok bool) {
	for range 2 {
		if p.pos == len(p.in) || p.in[p.pos] < '0' || p.in[p.pos] > '9' {
			break
		}
		n, ok = 10*n+int(p.in[p.pos]-'0'), true
		p.pos++
	}
	return n, ok
}
