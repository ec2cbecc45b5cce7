package abc

import "strings"

// sign is where a tune goes on.
type sign uint8

const (
	noSign sign = iota
	segnoSign
	codaSign
	toCodaSign
	daCapoSign
	dalSegnoSign
	fineSign
)

// decorations are the signs among the decorations (The abc music standard 2.1,
// section 4.14).
var decorations = map[string]sign{
	"segno": segnoSign, "coda": codaSign, "dacoda": toCodaSign, "fine": fineSign,
	"D.C.": daCapoSign, "dacapo": daCapoSign, "D.C.alcoda": daCapoSign, "D.C.alfine": daCapoSign,
	"D.S.": dalSegnoSign, "D.S.alcoda": dalSegnoSign, "D.S.alfine": dalSegnoSign,
}

// words are the signs written in words, in lower case without spaces and
// points (common practice, no source).
var words = map[string]sign{
	"dc": daCapoSign, "dacapo": daCapoSign, "dcalfine": daCapoSign, "dcalcoda": daCapoSign, "dacapoalfine": daCapoSign, "dacapoalcoda": daCapoSign,
	"ds": dalSegnoSign, "dalsegno": dalSegnoSign, "dsalfine": dalSegnoSign, "dsalcoda": dalSegnoSign, "dalsegnoalfine": dalSegnoSign, "dalsegnoalcoda": dalSegnoSign,
	"fine": fineSign, "tocoda": toCodaSign, "dacoda": toCodaSign, "coda": codaSign, "segno": segnoSign,
}

// signOf is the sign that a text says.
func signOf(text string) sign {
	const longest = 40
	if len(text) > longest {
		return noSign
	}
	return words[strings.ToLower(strings.Map(func(r rune) rune {
		if r == '.' || r == ' ' {
			return -1
		}
		return r
	}, text))]
}

// isBehind reports whether the sign is followed when its bar has been played.
func (s sign) isBehind() bool { return s >= toCodaSign }

// addSign notes a sign that stands before the next note or bar line.
func (v *voice) addSign(s sign) {
	const most = 16
	if s != noSign && len(v.signs) < most {
		v.signs = append(v.signs, s)
	}
}

// putSigns gives the signs before a note to its bar.
func (v *voice) putSigns() {
	for _, s := range v.signs {
		switch {
		case s == codaSign && !v.isOpen():
			v.codas = append(v.codas, codaMark{v.here(), v.here() - 1})
		case s == codaSign:
			v.codas = append(v.codas, codaMark{v.here(), v.here()})
		default:
			v.now.sign(s)
		}
	}
	v.signs = v.signs[:0]
}

// leaveSigns gives the signs before a bar line to the bar before it, and keeps
// those for the next that start something.
func (v *voice) leaveSigns(isOpen bool) {
	kept := v.signs[:0]
	for _, s := range v.signs {
		switch {
		case s == codaSign && isOpen:
			v.codas = append(v.codas, codaMark{v.here() + 1, v.here()})
		case !s.isBehind():
			kept = append(kept, s)
		case isOpen:
			v.now.sign(s)
		case len(v.bars) > 0:
			v.bars[len(v.bars)-1].sign(s)
		}
	}
	v.signs = kept
}

// The names of signs, of which a tune has one each.
const (
	segnoName = "segno"
	codaName  = "coda"
)

func (b *bar) sign(s sign) {
	switch s {
	case segnoSign:
		b.Segno = segnoName
	case toCodaSign:
		b.ToCoda = codaName
	case daCapoSign:
		b.DaCapo = true
	case dalSegnoSign:
		b.DalSegno = segnoName
	case fineSign:
		b.Fine = true
	}
}
