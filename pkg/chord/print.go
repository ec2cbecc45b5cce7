package chord

import "fifthwise/pkg/pitch"

// head is a row of the table of printed names: what is printed behind the root
// and the degrees it stands for, which are those it is read as.
type head struct{ name, degrees string }

// heads are the names to which tensions are added, those that say most first.
var heads = []head{
	{"13", "3 5 b7 9 13"},
	{"maj13", "3 5 7 9 13"},
	{"m13", "b3 5 b7 9 11 13"},
	{"m(maj13)", "b3 5 7 9 11 13"},
	{"13sus4", "4 5 b7 9 13"},
	{"maj13sus4", "4 5 7 9 13"},

	{"11", "3 5 b7 9 11"},
	{"maj11", "3 5 7 9 11"},
	{"m11", "b3 5 b7 9 11"},
	{"m(maj11)", "b3 5 7 9 11"},
	{"dim11", "b3 b5 bb7 9 11"},

	{"9", "3 5 b7 9"},
	{"maj9", "3 5 7 9"},
	{"m9", "b3 5 b7 9"},
	{"dim(maj9)", "b3 b5 7 9"},
	{"m(maj9)", "b3 5 7 9"},
	{"dim9", "b3 b5 bb7 9"},
	{"9sus4", "4 5 b7 9"},
	{"maj9sus4", "4 5 7 9"},

	{"7", "3 5 b7"},
	{"maj7", "3 5 7"},
	{"m7", "b3 5 b7"},
	{"dim(maj7)", "b3 b5 7"},
	{"m(maj7)", "b3 5 7"},
	{"dim7", "b3 b5 bb7"},
	{"7sus4", "4 5 b7"},
	{"maj7sus4", "4 5 7"},
	{"7sus2", "2 5 b7"},
	{"maj7sus2", "2 5 7"},
	{"7sus2sus4", "2 4 5 b7"},

	{"6/9", "3 5 6 9"},
	{"m6/9", "b3 5 6 9"},
	{"6/9sus4", "4 5 6 9"},
	{"6", "3 5 6"},
	{"m6", "b3 5 6"},
	{"6sus4", "4 5 6"},
	{"6sus2", "2 5 6"},

	{"dim", "b3 b5"},
	{"aug", "3 #5"},
	{"", "3 5"},
	{"m", "b3 5"},
	{"sus4", "4 5"},
	{"sus2", "2 5"},
	{"sus2sus4", "2 4 5"},
}

var (
	headStacks = func() []headStack {
		stacks := make([]headStack, len(heads))
		for i, h := range heads {
			stacks[i] = readHead(h)
		}
		return stacks
	}()
)

// headStack is a row of heads for printing.
type headStack struct {
	name        string
	degrees     degreeSet
	replaceable degreeSet // natural degrees that an alteration may take the place of
	figured     bool      // it has a number, so that tensions need no brackets
}

func readHead(h head) headStack {
	s := degreesOf(h.degrees)
	replaceable := s & degreesOf("5 9 11")
	// The number that gives the name must sound: C9#11 is not C11#11.
	switch {
	case s.has(D(13, 0)):
	case s.has(D(11, 0)):
		replaceable &^= only(D(11, 0))
	default:
		replaceable &^= only(D(9, 0))
	}
	return headStack{h.name, s | only(root), replaceable, s&(every(6)|every(7)) != 0}
}

// Degrees that can be printed behind a head: natural ones with add, and
// altered ones, which take the place of the natural degree.
var (
	addable   = degreesOf("9 11 13")
	alterable = degreesOf("b5 #5 b6 b9 #9 b11 #11 b13 #13")
	altering  = degreesOf("5 6 9 11 13")
)

// extras is what must be printed behind the head to make s; ok is false if the
// two together would be read otherwise.
func (h *headStack) extras(s degreeSet) (extra degreeSet, ok bool) {
	missing := h.degrees &^ s
	extra = s &^ h.degrees
	if missing&^h.replaceable != 0 || extra&^(addable|alterable) != 0 {
		return 0, false
	}
	flats, sharps := extra&(altering>>1), extra&(altering<<1)
	replaced := (flats<<1 | sharps>>1) & h.degrees
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
		return append(dst, "N.C."...)
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
	for i := range headStacks {
		h := &headStacks[i]
		if extra, ok := h.extras(s); ok {
			return h.appendTo(dst, extra, a), true
		}
	}
	return dst, false
}

// power is the fifth alone; nothing is added to its name.
var power = QualityOf(D(5, 0))

func (h *headStack) appendTo(dst []byte, extra degreeSet, a pitch.Accidentals) []byte {
	dst = append(dst, h.name...)
	if h.figured {
		return appendTensions(dst, extra, "", a)
	}
	dst = appendTensions(dst, extra&addable, "", a)
	if signed := extra &^ addable; signed != 0 {
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
