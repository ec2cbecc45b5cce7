package key

import (
	"fifthwise/pkg/chord"
	"fifthwise/pkg/pitch"
)

// Scale is a kind of scale on a tonic. The zero value is invalid and holds no
// notes. Scales are comparable: == means the same spelling.
type Scale struct {
	tonic pitch.Note
	kind  ScaleKind
}

// IsValid reports whether s is a scale, which the zero value is not.
func (s Scale) IsValid() bool { return s.kind.IsValid() }

// Tonic is the note the scale starts on.
func (s Scale) Tonic() pitch.Note { return s.tonic }

// Kind is the scale's kind; 0 if it is invalid.
func (s Scale) Kind() ScaleKind { return s.kind }

// Degrees are the scale's degrees as [ScaleKind.Degrees] gives them.
func (s Scale) Degrees() []chord.Degree { return s.kind.Degrees() }

// Notes are the scale's notes, spelled, from the tonic up.
func (s Scale) Notes() []pitch.Note { return s.AppendNotes(nil) }

// AppendNotes appends the scale's notes to dst.
func (s Scale) AppendNotes(dst []pitch.Note) []pitch.Note {
	for _, d := range scaleDegrees[s.kind] {
		dst = append(dst, s.tonic.Add(d.Interval()))
	}
	return dst
}

// Classes has bit n set if the scale holds pitch class n.
func (s Scale) Classes() uint16 {
	c := uint32(scaleClasses[s.kind]) << s.tonic.Class()
	return uint16((c | c>>12) & 0xfff)
}

// Contains reports whether the scale holds a note that sounds as n does.
func (s Scale) Contains(n pitch.Note) bool { return s.Classes()>>n.Class()&1 == 1 }

// ContainsChord reports whether the scale holds every tone of the chord and the
// bass written under it, by sound. Silence has no tones and is held by every
// scale.
func (s Scale) ContainsChord(c chord.Chord) bool {
	return c.Classes()&^s.Classes() == 0 && (!c.HasBass() || s.Contains(c.Bass()))
}

// DegreeOf is the degree of the scale that sounds as n does; false if there is
// none. In the altered scale on C both Fb and E are b4.
func (s Scale) DegreeOf(n pitch.Note) (chord.Degree, bool) {
	up := s.tonic.To(n).Semitones()
	for _, d := range scaleDegrees[s.kind] {
		if d.Interval().Semitones() == up {
			return d, true
		}
	}
	return chord.Degree{}, false
}

// Transpose is the scale an interval above.
func (s Scale) Transpose(i pitch.Interval) Scale { return s.kind.On(s.tonic.Add(i)) }

// String is the scale's name, "D phrygian dominant"; "invalid scale" for the
// zero value.
func (s Scale) String() string {
	if !s.IsValid() {
		return s.kind.String()
	}
	return string(s.AppendTo(nil, pitch.ASCII))
}

// AppendTo prints the scale behind dst, accidentals in the kind's name too
// ("C dorian ♭2"); nothing if it is invalid.
func (s Scale) AppendTo(dst []byte, a pitch.Accidentals) []byte {
	if !s.IsValid() {
		return dst
	}
	dst = append(s.tonic.AppendTo(dst, a), ' ')
	return s.kind.appendTo(dst, a)
}

// MarshalText prints as [Scale.String] does; nothing for the zero value.
func (s Scale) MarshalText() ([]byte, error) { return s.AppendTo([]byte{}, pitch.ASCII), nil }

// UnmarshalText reads what [ParseScale] reads; nothing is the zero value.
func (s *Scale) UnmarshalText(text []byte) (err error) {
	if len(text) == 0 {
		*s = Scale{}
		return nil
	}
	*s, err = ParseScale(string(text))
	return err
}

// ParseScale reads a tonic in upper case, a space and the name of a scale as
// [ParseScaleKind] reads it: "D phrygian dominant", "B♭ lydian ♭7".
func ParseScale(s string) (Scale, error) {
	tonic, rest, err := scanTonic(s)
	if err != nil {
		return Scale{}, err
	}
	if rest != "" && indent(rest) == 0 {
		return Scale{}, &pitch.SyntaxError{Input: s, Offset: len(s) - len(rest), Msg: "expected a space and the name of a scale"}
	}
	kind, err := ParseScaleKind(rest)
	if err != nil {
		return Scale{}, pitch.Within(err, s, len(s)-len(rest))
	}
	return Scale{tonic, kind}, nil
}

// MustParseScale is [ParseScale] for scales known to be good; it panics on
// others.
func MustParseScale(s string) Scale {
	scale, err := ParseScale(s)
	if err != nil {
		panic(err)
	}
	return scale
}
