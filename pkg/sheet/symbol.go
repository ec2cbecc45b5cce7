package sheet

import "strings"

// chordType is a chord symbol as it is set: the root large, what follows it
// small, the bass in between.
type chordType struct{ before, root, quality, bass, after string }

func setChord(m *mark) chordType {
	var t chordType
	if m.opens {
		t.before = "("
	}
	if m.closes {
		t.after = ")"
	}
	s := m.symbol
	if s == "" || s[0] < 'A' || s[0] > 'G' {
		t.root = s // silence
		return t
	}
	n := 1
	for _, sign := range []string{"b", "#", "♭", "♯", "♭", "♯"} {
		if strings.HasPrefix(s[n:], sign) {
			n += len(sign)
		}
	}
	t.root, t.quality = s[:n], s[n:]
	if i := strings.LastIndexByte(t.quality, '/'); i >= 0 && i+1 < len(t.quality) && t.quality[i+1] >= 'A' && t.quality[i+1] <= 'G' {
		t.quality, t.bass = t.quality[:i], t.quality[i:]
	}
	return t
}

// Sizes of type on a drawn sheet, in pixels.
const (
	titleSize   = 26
	factsSize   = 14
	rootSize    = 25
	qualitySize = 16
	bassSize    = 18
	numeralSize = 16
	pivotSize   = 13
	beatSize    = 11
	meterSize   = 14
	labelSize   = 13
	numberSize  = 12
	phraseSize  = 22
	noteSize    = 14
)

func (t chordType) width() float64 {
	return bold.width(t.before+t.root+t.after, rootSize) + bold.width(t.quality, qualitySize) + bold.width(t.bass, bassSize)
}
