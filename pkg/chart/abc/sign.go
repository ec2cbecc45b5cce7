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
