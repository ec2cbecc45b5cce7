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
// are read as well. fifths is the signature on the tonic C: Open Music Theory
// and any handbook give dorian as minor with a raised sixth, and so on.
var modes = [...]struct {
	names  []string
	fifths int
	minor  bool // a minor third above the tonic
}{
	Major:      {names: []string{"major", "maj", "ionian", "ion"}, fifths: 0},
	Minor:      {names: []string{"minor", "min", "aeolian", "aeo"}, fifths: -3, minor: true},
	Dorian:     {names: []string{"dorian", "dor"}, fifths: -2, minor: true},
	Phrygian:   {names: []string{"phrygian", "phr"}, fifths: -4, minor: true},
	Lydian:     {names: []string{"lydian", "lyd"}, fifths: 1},
	Mixolydian: {names: []string{"mixolydian", "mix"}, fifths: -1},
}

// IsValid reports whether m is one of the modes above.
func (m Mode) IsValid() bool { return m >= Major && m <= Mixolydian }

// IsMinor reports whether the mode has a minor third: minor, dorian, phrygian.
func (m Mode) IsMinor() bool { return m.IsValid() && modes[m].minor }

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
	case "m":
		return Minor, nil
	case "M":
		return Major, nil
	}
	for m := Major; m.IsValid(); m++ {
		for _, name := range modes[m].names {
			if strings.EqualFold(word, name) {
				return m, nil
			}
		}
	}
	return 0, &pitch.SyntaxError{
		Input:  s,
		Offset: len(s) - len(strings.TrimLeft(s, " \t")),
		Msg:    "expected a mode: major, minor, dorian, phrygian, lydian or mixolydian",
	}
}
