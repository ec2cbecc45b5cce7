package chord

import "fifthwise/pkg/pitch"

// harte reads what follows the colon up to the bass: a shorthand, a list of
// degrees, or both.
func (p *parser) harte() error {
	s, size, ok := readShorthand.match(p.rest())
	p.set = only(root)
	if ok {
		p.set = *s
	}
	p.pos += size
	if p.next("(") {
		return p.degreeList()
	}
	if !ok {
		return p.fail(p.pos, "expected a shorthand or a list of degrees after the colon", "such as C:min7 or C:(1,b3,5)")
	}
	return nil
}

// degreeList reads degrees up to the closing bracket. Each is added to the
// chord; one with a star before it is left out.
func (p *parser) degreeList() error {
	for {
		at := p.pos
		starred := p.next("*")
		d, err := p.degree(readSign)
		switch {
		case err != nil:
			return err
		case !starred:
			p.set |= only(d)
		case !p.set.has(d):
			return p.fail(at, "the chord has no "+d.String()+" to leave out", "")
		default:
			p.set &^= only(d)
		}
		if p.next(")") {
			return nil
		}
		if !p.next(",") {
			return p.fail(p.pos, "expected a comma or a closing bracket", "")
		}
	}
}

// degreeBass reads the bass as a degree, counted from the root.
func (p *parser) degreeBass(on pitch.Note) (pitch.Note, error) {
	at := p.pos
	if !p.inHarte {
		return on, p.fail(at, "expected a note in the bass", "a degree is added in brackets; it is the bass in Harte's syntax, such as C:min7/b3")
	}
	alter, err := p.signs(readSign)
	if err != nil {
		return on, err
	}
	n, ok := p.figure()
	if !ok || n < 1 || n > maxDegree {
		return on, p.fail(at, "expected a degree from 1 to 13", "")
	}
	if p.pos < len(p.in) {
		return on, p.fail(p.pos, "expected the end of the symbol after the bass", "")
	}
	return on.Add(pitch.Degree(n, alter)), nil
}

// Harte prints the chord in the syntax of Harte et al.: "Eb:maj7/3", with one
// of their sixteen shorthands or a list of degrees; silence is "N". That a chord
// was written alt cannot be said there.
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

// appendHarte prints a colon and the shorthand or list.
func (q Quality) appendHarte(dst []byte, a pitch.Accidentals) []byte {
	dst = append(dst, ':')
	if word, ok := shorthandOf[q.set()]; ok {
		return append(dst, word...)
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

var shorthandOf = func() map[degreeSet]string {
	words := map[degreeSet]string{}
	for _, s := range shorthands {
		words[only(root)|degreesOf(s.degrees)] = s.word
	}
	return words
}()
