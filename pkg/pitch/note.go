package pitch

import "strings"

// Class is a pitch class: what sounds, without a name. C is 0, C# and Db are
// 1, B is 11.
type Class uint8

// Plus is the class a number of semitones above (below, where negative).
func (c Class) Plus(semitones int) Class {
	n := (int(c) + semitones) % 12
	if n < 0 {
		n += 12
	}
	return Class(n)
}

// Note is a spelled note without an octave, kept as its place on the line of
// fifths: … Bb -2, F -1, C 0, G 1, D 2 …. Db and C# are two notes of one
// pitch class. The zero value is C. Notes are comparable: == means the same
// spelling; [Note.Sounds] compares what is heard.
type Note struct{ fifths int8 }

// maxFifths bounds the line of fifths: from F with seven flats to B with seven
// sharps. No music needs the ends; arithmetic that would leave them takes
// the enharmonic neighbour twelve fifths nearer.
const (
	minFifths = -50
	maxFifths = 54
	// MaxAccidentals is how many flats or sharps a note may carry.
	MaxAccidentals = 7
)

// letters in their order on the line of fifths, F being place -1.
const letters = "FCGDAEB"

// At is the note at a place on the line of fifths, C being 0. Places beyond
// seven flats or sharps give the enharmonic note within them.
func At(fifths int) Note {
	for fifths < minFifths {
		fifths += 12
	}
	for fifths > maxFifths {
		fifths -= 12
	}
	return Note{int8(fifths)}
}

// plain spells the twelve classes with flats on the black keys but F#, as keys
// are named where nothing else decides (common practice, no source).
var plain = [12]Note{{0}, {-5}, {2}, {-3}, {4}, {-1}, {6}, {1}, {-4}, {3}, {-2}, {5}}

// Of is the plainest spelling of a pitch class: C Db D Eb E F F# G Ab A Bb B.
func Of(c Class) Note { return plain[c%12] }

// Fifths is the note's place on the line of fifths, from -50 to 54; C is 0.
func (n Note) Fifths() int { return int(n.fifths) }

// Class is the pitch class: 7 semitones for every fifth, modulo 12.
func (n Note) Class() Class { return Class(0).Plus(7 * int(n.fifths)) }

// Letter is the note's letter, 'A' to 'G'.
func (n Note) Letter() byte { return letters[(int(n.fifths)+1+49)%7] }

// Accidental counts sharps (positive) or flats (negative), -7 to 7.
func (n Note) Accidental() int { return (int(n.fifths)+1+49)/7 - 7 }

// Add is the note an interval above.
func (n Note) Add(i Interval) Note { return At(int(n.fifths) + int(i.fifths)) }

// Sub is the note an interval below.
func (n Note) Sub(i Interval) Note { return At(int(n.fifths) - int(i.fifths)) }

// To is the interval from n up to m.
func (n Note) To(m Note) Interval { return IntervalAt(int(m.fifths) - int(n.fifths)) }

// Sounds reports whether both notes are the same pitch class.
func (n Note) Sounds(m Note) bool { return n.Class() == m.Class() }

// Simplify respells a note that carries two accidentals or more, and E#, B#,
// Cb and Fb, with the fewest: B## becomes C#, Fb becomes E.
func (n Note) Simplify() Note {
	f := int(n.fifths)
	for f > 10 { // A# is the last sharp on a black key
		f -= 12
	}
	for f < -6 { // Gb is the last flat on one
		f += 12
	}
	return Note{int8(f)}
}

// Accidentals chooses the signs for flats and sharps in print.
type Accidentals uint8

const (
	// ASCII prints b and #.
	ASCII Accidentals = iota
	// Unicode prints ♭ and ♯, doubles as two signs.
	Unicode
)

// Append prints count sharps (flats where negative) behind dst.
func (a Accidentals) Append(dst []byte, count int) []byte {
	sharp, flat := "#", "b"
	if a == Unicode {
		sharp, flat = "♯", "♭"
	}
	for ; count > 0; count-- {
		dst = append(dst, sharp...)
	}
	for ; count < 0; count++ {
		dst = append(dst, flat...)
	}
	return dst
}

// asciiNames and unicodeNames are the names of all notes along the line of fifths.
var asciiNames, unicodeNames = namesIn(ASCII), namesIn(Unicode)

func namesIn(a Accidentals) (names [maxFifths - minFifths + 1]string) {
	for i := range names {
		n := At(minFifths + i)
		names[i] = string(a.Append([]byte{n.Letter()}, n.Accidental()))
	}
	return names
}

// String is the note's name in ASCII: "C", "F#", "Bbb".
func (n Note) String() string { return n.Text(ASCII) }

// Text is the note's name: "F#", or "F♯" in [Unicode].
func (n Note) Text(a Accidentals) string {
	if a == Unicode {
		return unicodeNames[n.fifths-minFifths]
	}
	return asciiNames[n.fifths-minFifths]
}

// AppendTo prints the note behind dst.
func (n Note) AppendTo(dst []byte, a Accidentals) []byte { return append(dst, n.Text(a)...) }

// MarshalText prints as [Note.String] does.
func (n Note) MarshalText() ([]byte, error) { return n.AppendTo(nil, ASCII), nil }

// UnmarshalText reads what [Parse] reads.
func (n *Note) UnmarshalText(text []byte) (err error) {
	*n, err = Parse(string(text))
	return err
}

// Parse reads a whole note name: an upper-case letter A to G and at most
// seven accidentals of one kind, in ASCII (b, #) or Unicode (♭ ♯ 𝄫 𝄪).
func Parse(s string) (Note, error) {
	n, rest, err := Scan(s)
	if err != nil {
		return Note{}, err
	}
	if rest != "" {
		return Note{}, &SyntaxError{Input: s, Offset: len(s) - len(rest), Msg: "expected the end of the note name"}
	}
	return n, nil
}

// MustParse is [Parse] for names known to be good; it panics on others.
func MustParse(s string) Note {
	n, err := Parse(s)
	if err != nil {
		panic(err)
	}
	return n
}

// Scan reads a note name from the front of s and returns what follows it.
func Scan(s string) (n Note, rest string, err error) {
	if s == "" {
		return Note{}, s, &SyntaxError{Input: s, Msg: "expected a note name A to G"}
	}
	place := strings.IndexByte(letters, s[0])
	if place < 0 {
		e := &SyntaxError{Input: s, Msg: "expected a note name A to G"}
		switch {
		case s[0] >= 'a' && s[0] <= 'g':
			e.Hint = "write " + string(s[0]-'a'+'A') + " in upper case"
		case s[0] == 'H':
			e.Hint = "the German H is B"
		}
		return Note{}, s, e
	}
	count, rest, err := ScanAccidentals(s[1:])
	if err != nil {
		return Note{}, s, Within(err, s, 1)
	}
	return Note{int8(place - 1 + 7*count)}, rest, nil
}

// ScanAccidentals counts the accidentals at the front of s, sharps positive
// and flats negative, and returns what follows them. Flats and sharps do not
// mix, and there are at most [MaxAccidentals].
func ScanAccidentals(s string) (count int, rest string, err error) {
	for rest = s; rest != ""; {
		step, size := accidental(rest)
		if step == 0 {
			break
		}
		if step*count < 0 {
			return 0, s, &SyntaxError{Input: s, Offset: len(s) - len(rest), Msg: "flats and sharps mixed on one note"}
		}
		if count += step; count > MaxAccidentals || count < -MaxAccidentals {
			return 0, s, &SyntaxError{Input: s, Offset: len(s) - len(rest), Msg: "more than 7 accidentals on one note"}
		}
		rest = rest[size:]
	}
	return count, rest, nil
}

// accidental is the sign at the front of s in semitones and its size in bytes;
// zero if there is none.
func accidental(s string) (step, size int) {
	switch {
	case s[0] == 'b':
		return -1, 1
	case s[0] == '#':
		return 1, 1
	case s[0] < 0x80:
		return 0, 0
	case strings.HasPrefix(s, "♭"):
		return -1, len("♭")
	case strings.HasPrefix(s, "♯"):
		return 1, len("♯")
	case strings.HasPrefix(s, "𝄫"):
		return -2, len("𝄫")
	case strings.HasPrefix(s, "𝄪"):
		return 2, len("𝄪")
	}
	return 0, 0
}
