package key

import (
	"fmt"
	"strings"

	"fifthwise/pkg/pitch"
)

// Cycle is an order in which players take a tune through all keys. The zero
// value is invalid.
type Cycle uint8

// The cycles.
const (
	Fourths   Cycle = iota + 1 // each key a fourth above the one before
	Fifths                     // a fifth
	Chromatic                  // a half step
)

// cycles by constant: the name, and the step in semitones.
var cycles = [...]struct {
	name string
	step int
}{
	Fourths:   {"fourths", 5},
	Fifths:    {"fifths", 7},
	Chromatic: {"chromatic", 1},
}

// Keys are the twelve keys of the cycle, home first. Home keeps its name, unless
// it is theoretical; all others have the name with the fewest sharps or flats, and
// that with flats where six tie: Db major, Gb major, C# minor, Eb minor. Home's mode
// is that of all. An invalid key or cycle has none.
func (c Cycle) Keys(home Key) []Key {
	if !c.IsValid() || !home.IsValid() {
		return nil
	}
	keys := []Key{home.Simplify()}
	for n := 1; n < 12; n++ {
		k := Of(home.tonic.Class().Plus(n*cycles[c].step), home.mode)
		if k.Signature() == 6 {
			k = k.Transpose(pitch.IntervalAt(-enharmonic))
		}
		keys = append(keys, k)
	}
	return keys
}

// IsValid reports whether c is a cycle, which the zero value is not.
func (c Cycle) IsValid() bool { return c >= Fourths && c <= Chromatic }

// String is the cycle's name: "fourths", "fifths" or "chromatic".
func (c Cycle) String() string {
	if c.IsValid() {
		return cycles[c].name
	}
	return fmt.Sprintf("cycle(%d)", uint8(c))
}

// ParseCycle reads a cycle's name.
func ParseCycle(s string) (Cycle, error) {
	name := strings.TrimSpace(s)
	for c := Fourths; c <= Chromatic; c++ {
		if name == cycles[c].name {
			return c, nil
		}
	}
	return 0, &pitch.SyntaxError{Input: s, Msg: "expected a cycle: fourths, fifths or chromatic"}
}

// MarshalText prints as [Cycle.String] does; nothing for the zero value.
func (c Cycle) MarshalText() ([]byte, error) {
	if c == 0 {
		return []byte{}, nil
	}
	return []byte(c.String()), nil
}

// UnmarshalText reads what [ParseCycle] reads; nothing is the zero value.
func (c *Cycle) UnmarshalText(text []byte) (err error) {
	if len(text) == 0 {
		*c = 0
		return nil
	}
	*c, err = ParseCycle(string(text))
	return err
}
