package key

import (
	"fmt"
	"strings"

	"fifthwise/pkg/pitch"
)

// Mode is the mode a key is in. The zero value is invalid.
type Mode uint8

// The modes that a key may be in. Minor stands for natural, harmonic and
// melodic minor together; its signature is that of the natural.
const (
	Major Mode = iota + 1
	Minor
	Dorian
	Phrygian
	Lydian
	Mixolydian
)

// modes in the order of the constants. The first name is canonical, the others
// are read as well. fifths is the signature on the tonic C: that of the major
// key whose scale the mode is, Bb major for C dorian (common practice, no
// source).
var modes = [...]struct {
	names  []string
	fifths int
	minor  bool // a minor third above the tonic
	scale  ScaleKind
}{
	Major:      {names: []string{"major", "maj", "ionian", "ion"}, fifths: 0, scale: MajorScale},
	Minor:      {names: []string{"minor", "min", "aeolian", "aeo"}, fifths: -3, minor: true, scale: NaturalMinorScale},
	Dorian:     {names: []string{"dorian", "dor"}, fifths: -2, minor: true, scale: DorianScale},
	Phrygian:   {names: []string{"phrygian", "phr"}, fifths: -4, minor: true, scale: PhrygianScale},
	Lydian:     {names: []string{"lydian", "lyd"}, fifths: 1, scale: LydianScale},
	Mixolydian: {names: []string{"mixolydian", "mix"}, fifths: -1, scale: MixolydianScale},
}

// IsValid reports whether m is one of the modes above.
func (m Mode) IsValid() bool { return m >= Major && m <= Mixolydian }

// IsMinor reports whether the mode has a minor third: minor, dorian, phrygian.
func (m Mode) IsMinor() bool { return m.IsValid() && modes[m].minor }

// Scale is the mode's scale; for minor the natural one. It is 0 if the mode is
// invalid.
func (m Mode) Scale() ScaleKind {
	if !m.IsValid() {
		return 0
	}
	return modes[m].scale
}

// String is the mode's name, "major"; "invalid mode" for others.
func (m Mode) String() string {
	if !m.IsValid() {
		return "invalid mode"
	}
	return modes[m].names[0]
}

// MarshalText prints as [Mode.String] does; nothing for the zero value.
func (m Mode) MarshalText() ([]byte, error) {
	switch {
	case m == 0:
		return []byte{}, nil
	case !m.IsValid():
		return nil, fmt.Errorf("mode %d does not exist", m)
	}
	return []byte(m.String()), nil
}

// UnmarshalText reads what [ParseMode] reads; nothing is the zero value.
func (m *Mode) UnmarshalText(text []byte) (err error) {
	if len(text) == 0 {
		*m = 0
		return nil
	}
	*m, err = ParseMode(string(text))
	return err
}

// ParseMode reads the name of a mode in any case: major (maj, ionian, ion, M),
// minor (min, aeolian, aeo, m), dorian (dor), phrygian (phr), lydian (lyd),
// mixolydian (mix).
func ParseMode(s string) (Mode, error) {
	word := strings.TrimSpace(s)
	switch word {
	case "M":
		return Major, nil
	case "m":
		return Minor, nil
	}
	for m := Major; m.IsValid(); m++ {
		for _, name := range modes[m].names {
			if strings.EqualFold(word, name) {
				return m, nil
			}
		}
	}
	e := &pitch.SyntaxError{
		Input:  s,
		Offset: indent(s),
		Msg:    "expected a mode: major, minor, dorian, phrygian, lydian or mixolydian",
		Hint:   near(fold(word), modeNames()),
	}
	if kind, ok := scaleByName[fold(word)]; ok {
		e.Hint = kind.String() + " is a scale, not the mode of a key"
	}
	if m, ok := elsewhere[fold(word)]; ok {
		e.Hint = "write " + m.String()
	}
	return 0, e
}

// elsewhere are the modes in German, French and Italian. They are told, not read:
// the names of notes differ there too, B and H, and would be taken for others.
var elsewhere = map[string]Mode{
	"dur": Major, "majeur": Major, "maggiore": Major,
	"moll": Minor, "mineur": Minor, "minore": Minor,
}

func modeNames() (rows [][]string) {
	for _, mode := range modes[Major:] {
		rows = append(rows, mode.names)
	}
	return rows
}
