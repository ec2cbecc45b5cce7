package chord

import (
	"strings"

	"fifthwise/pkg/pitch"
)

// shorthand is a row of Harte's table: a name and the degrees it stands for
// besides the root.
type shorthand struct{ word, degrees string }

// shorthands are the sixteen of Harte et al. 2005, table 1, in its order. They
// are printed; all others are only read.
var shorthands = []shorthand{
	{"maj", "3 5"},
	{"min", "b3 5"},
	{"dim", "b3 b5"},
	{"aug", "3 #5"},
	{"maj7", "3 5 7"},
	{"min7", "b3 5 b7"},
	{"7", "3 5 b7"},
	{"dim7", "b3 b5 bb7"},
	{"hdim7", "b3 b5 b7"},
	{"minmaj7", "b3 5 7"},
	{"maj6", "3 5 6"},
	{"min6", "b3 5 6"},
	{"9", "3 5 b7 9"},
	{"maj9", "3 5 7 9"},
	{"min9", "b3 5 b7 9"},
	{"sus4", "4 5"},
}

// laterShorthands are those of later corpora, as mir_eval (chord.py) and ChoCo
// read them; b9 to b13, 1 and 5 are mir_eval's, from memory. ChoCo's dim11 is
// left out: its eleventh is doubtful.
var laterShorthands = []shorthand{
	{"sus2", "2 5"},
	{"11", "3 5 b7 9 11"},
	{"13", "3 5 b7 9 11 13"},
	{"maj11", "3 5 7 9 11"},
	{"maj13", "3 5 7 9 11 13"},
	{"min11", "b3 5 b7 9 11"},
	{"min13", "b3 5 b7 9 11 13"},
	{"minmaj9", "b3 5 7 9"},
	{"aug7", "3 #5 b7"},
	{"augmaj7", "3 #5 7"},
	{"dom7dim5", "3 b5 b7"},
	{"hdim9", "b3 b5 b7 9"},
	{"dim9", "b3 b5 bb7 9"},
	{"7sus4", "4 5 b7"},
	{"power", "5"},
	{"5", "5"},
	{"pedal", ""},
	{"1", ""},
	{"b9", "3 5 b7 b9"},
	{"#9", "3 5 b7 #9"},
	{"#11", "3 5 b7 9 #11"},
	{"b13", "3 5 b7 9 11 b13"},
}

var (
	shorthandWords = lexiconOf(append(append([]shorthand{}, shorthands...), laterShorthands...), func(s shorthand) (string, degreeSet) {
		return s.word, only(root) | degreesOf(s.degrees)
	})
	shorthandNames = func() map[degreeSet]string {
		names := map[degreeSet]string{}
		for _, s := range shorthands {
			names[only(root)|degreesOf(s.degrees)] = s.word
		}
		return names
	}()
)

// harte reads what follows the root and the colon.
func (p *parser) harte() error {
	set, size, ok := shorthandWords.match(p.rest())
	p.pos += size
	p.set = set | only(root)
	if p.next("(") {
		if err := p.degreeList(); err != nil {
			return err
		}
	} else if !ok {
		return p.fail(p.pos, "expected a Harte shorthand or a list of degrees", "such as C:min7 or C:(1,b3,5)")
	}
	return nil
}

// degreeList reads degrees up to the closing bracket. They are added, or taken
// out where a star stands before them.
func (p *parser) degreeList() error {
	for {
		star := p.next("*")
		at := p.pos
		d, err := p.degree(degreeSigns)
		if err != nil {
			return err
		}
		switch {
		case !star:
			p.set |= only(d)
		case p.set.has(d):
			p.set &^= only(d)
		default:
			return p.fail(at, "the chord has no "+d.String()+" to leave out", "")
		}
		if p.next(")") {
			return nil
		}
		if !p.next(",") {
			return p.fail(p.pos, "expected a comma or ) in the list of degrees", "")
		}
	}
}

// maxBassSigns is the most that a bass can be altered against a root, from
// seven flats to seven sharps.
const maxBassSigns = 15

// degreeBass reads the bass as a degree of the root.
func (p *parser) degreeBass(on pitch.Note) (pitch.Note, error) {
	at := p.pos
	alter, err := p.signs(degreeSigns, maxBassSigns)
	if err != nil {
		return on, err
	}
	n, ok := p.figure()
	if !ok || n < 1 || n > maxDegree {
		return on, p.fail(at, "expected a degree from 1 to 13 or a note in the bass", "")
	}
	return on.Add(pitch.Degree(n, alter)), nil
}

// Harte prints the chord in the syntax of Harte et al. 2005: "Eb:maj7/3", with
// one of its sixteen shorthands or the list of degrees, and "N" for silence.
// That a chord was written alt has no form there; its degrees are listed.
func (c Chord) Harte() string { return string(c.appendHarte(nil, pitch.ASCII)) }

func (c Chord) appendHarte(dst []byte, a pitch.Accidentals) []byte {
	if !c.sounds {
		return append(dst, 'N')
	}
	dst = c.quality.appendHarte(c.root.AppendTo(dst, a), a)
	if !c.HasBass() {
		return dst
	}
	number, alter := c.root.To(c.bass).Degree()
	return appendNumber(a.Append(append(dst, '/'), alter), number)
}

func (q Quality) appendHarte(dst []byte, a pitch.Accidentals) []byte {
	dst = append(dst, ':')
	if name, ok := shorthandNames[q.set()]; ok {
		return append(dst, name...)
	}
	dst = append(dst, '(')
	if !q.Has(root) {
		dst = append(dst, "*1,"...)
	}
	for d := range q.All() {
		dst = append(d.AppendTo(dst, a), ',')
	}
	dst[len(dst)-1] = ')'
	return dst
}

// isDegree reports whether s begins with a degree: signs and a figure.
func isDegree(s string) bool {
	for s != "" {
		_, size, ok := degreeSigns.match(s)
		if !ok {
			break
		}
		s = s[size:]
	}
	return s != "" && strings.IndexByte("0123456789", s[0]) >= 0
}
