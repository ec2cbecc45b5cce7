package abc

import "strings"

// symbols reads the value of an s: field, which puts symbols to the notes of
// the line before: one each, * for none, | for the next bar (The abc music
// standard 2.1, section 4.15).
func (r *reader) symbols(value string, p place) {
	v := r.current()
	for s := value; s != ""; {
		size := 1
		switch c := s[0]; {
		case c == ' ' || c == '\t':
		case c == '|':
			v.barOf++
			for v.nextS < len(v.aligned) && v.aligned[v.nextS].bar < v.barOf {
				v.nextS++
			}
		case c == '"':
			text, n := unquote(s)
			if n < 0 {
				r.fault(p, clip(s), "the quotes are not closed", `write " behind the chord`)
				return
			}
			size = n
			to := p
			to.offset += len(value) - len(s)
			r.put(text, to)
		case c == '!' || c == '+':
			if end := strings.IndexByte(s[1:], c); end >= 0 {
				size = end + 2
				r.putSign(decorations[s[1:end+1]])
				break
			}
			v.nextS++
		default:
			v.nextS++
		}
		s = s[size:]
	}
}

// put puts a text in quotes to the next note of the line before.
func (r *reader) put(text string, p place) {
	v := r.current()
	if v.nextS >= len(v.aligned) {
		p.offset++
		r.fault(p, clip(text), "the symbol line has more symbols than the line before has notes", "write * for a note without one")
		return
	}
	to := v.aligned[v.nextS]
	v.nextS++
	waiting, signs := v.pending, v.signs
	v.pending, v.signs = nil, nil
	p.voice, p.bar = v, to.bar
	r.quoted(text, p)
	b := &v.now
	if to.bar < len(v.bars) {
		b = &v.bars[to.bar]
	}
	for _, s := range v.pending {
		s.at = to.at
		b.stand = append(b.stand, s)
		v.chords++
	}
	for _, s := range v.signs {
		b.sign(s)
	}
	v.pending, v.signs = waiting, signs
}

// putSign puts a sign to the bar of the next note of the line before.
func (r *reader) putSign(s sign) {
	v := r.current()
	if v.nextS >= len(v.aligned) {
		return
	}
	to := v.aligned[v.nextS].bar
	v.nextS++
	switch {
	case s == codaSign:
		v.codas = append(v.codas, codaMark{to, to})
	case to < len(v.bars):
		v.bars[to].sign(s)
	default:
		v.now.sign(s)
	}
}
