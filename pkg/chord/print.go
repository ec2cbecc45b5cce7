package chord

import "fifthwise/pkg/pitch"

// printed is a row of heads for printing.
type printed struct {
	name        string
	degrees     degreeSet
	replaceable degreeSet // natural degrees that an altered one may replace
	figured     bool      // its tensions need no brackets
}

var (
	printedHeads = func() []printed {
		rows := make([]printed, len(heads))
		for i, h := range heads {
			rows[i] = printedOf(h)
		}
		return rows
	}()
	// naturals are the degrees whose alterations are printed as tensions.
	naturals     = degreesOf("5 6 9 10 11 13")
	printedAfter = degreesOf(tensions)
)

func printedOf(h head) printed {
	s := degreesOf(h.degrees)
	replaceable := s & degreesOf("5 9 11")
	// The number that names the chord must sound: C9#11 is not C11#11.
	switch {
	case s.has(D(13, 0)):
	case s.has(D(11, 0)):
		replaceable &^= only(D(11, 0))
	default:
		replaceable &^= only(D(9, 0))
	}
	return printed{h.name, only(root) | s, replaceable, s&(every(6)|every(7)) != 0}
}

// tensions are what must be printed behind the head to make s; ok is false if
// the two together would be read as another chord.
func (h *printed) tensions(s degreeSet) (extra degreeSet, ok bool) {
	missing := h.degrees &^ s
	extra = s &^ h.degrees
	if missing&^h.replaceable != 0 || extra&^printedAfter != 0 {
		return 0, false
	}
	flat, sharp := extra&(naturals>>1), extra&(naturals<<1)
	replaced := (flat<<1 | sharp>>1) & h.degrees
	return extra, missing == replaced
}

// AppendTo prints what [Quality.String] gives, behind dst.
func (q Quality) AppendTo(dst []byte, a pitch.Accidentals) []byte {
	dst, ok := q.appendName(dst, a)
	if !ok {
		return q.appendHarte(dst, a)
	}
	return dst
}

// AppendTo prints what [Chord.String] gives, behind dst.
func (c Chord) AppendTo(dst []byte, a pitch.Accidentals) []byte {
	if !c.sounds {
		return append(dst, silences[0]...)
	}
	start := len(dst)
	dst, ok := c.quality.appendName(c.root.AppendTo(dst, a), a)
	if !ok {
		return c.appendHarte(dst[:start], a)
	}
	if c.HasBass() {
		dst = c.bass.AppendTo(append(dst, '/'), a)
	}
	return dst
}

// appendName prints the quality in the words of lead sheets, or nothing if
// they have none.
func (q Quality) appendName(dst []byte, a pitch.Accidentals) ([]byte, bool) {
	switch q {
	case altered:
		return append(dst, "7alt"...), true
	case power:
		return append(dst, '5'), true
	}
	s := q.set()
	for i := range printedHeads {
		h := &printedHeads[i]
		if extra, ok := h.tensions(s); ok {
			return h.appendTo(dst, extra, a), true
		}
	}
	return dst, false
}

// power is the fifth alone; nothing is added to its name.
var power = QualityOf(D(5, 0))

func (h *printed) appendTo(dst []byte, extra degreeSet, a pitch.Accidentals) []byte {
	dst = append(dst, h.name...)
	if h.figured {
		return appendTensions(dst, extra, "", a)
	}
	dst = appendTensions(dst, extra&naturals, "", a)
	if signed := extra &^ naturals; signed != 0 {
		dst = append(appendTensions(append(dst, '('), signed, ",", a), ')')
	}
	return dst
}

// appendTensions prints degrees upward, the natural ones with add.
func appendTensions(dst []byte, s degreeSet, separator string, a pitch.Accidentals) []byte {
	first := true
	for d := range s.all() {
		if !first {
			dst = append(dst, separator...)
		}
		first = false
		if d.Alter() == 0 {
			dst = append(dst, "add"...)
		}
		dst = d.AppendTo(dst, a)
	}
	return dst
}
