package key

import (
	"fmt"
	"strings"

	"fifthwise/pkg/pitch"
)

// Instrument is a transposing instrument, named by the note that sounds where
// it reads C. The zero value reads what sounds.
type Instrument uint8

// The instruments.
const (
	Concert Instrument = iota // in C, such as the piano
	BFlat                     // such as trumpet and tenor saxophone
	EFlat                     // such as alto and baritone saxophone
	InF                       // such as the horn
)

// instruments by constant: the name, and how far above the sound the part is
// written, the octave left out. Common practice, no source.
var instruments = [...]struct {
	name  string
	above pitch.Interval
}{
	Concert: {"C", pitch.Unison},
	BFlat:   {"Bb", pitch.MajorSecond},
	EFlat:   {"Eb", pitch.MajorSixth},
	InF:     {"F", pitch.PerfectFifth},
}

// Key is the key of the part for a concert key, in the name that players use
// ([Key.InUse]): for an instrument in Eb concert C major is written A major, and
// B major Ab major.
func (i Instrument) Key(concert Key) Key {
	if int(i) >= len(instruments) {
		return Key{}
	}
	return concert.Transpose(instruments[i].above).InUse()
}

// String is the instrument's note: "C", "Bb", "Eb" or "F".
func (i Instrument) String() string {
	if int(i) < len(instruments) {
		return instruments[i].name
	}
	return fmt.Sprintf("instrument(%d)", uint8(i))
}

// ParseInstrument reads an instrument's note, in ASCII or Unicode.
func ParseInstrument(s string) (Instrument, error) {
	name := strings.TrimSpace(strings.ReplaceAll(s, "♭", "b"))
	for i := range instruments {
		if name == instruments[i].name {
			return Instrument(i), nil
		}
	}
	return 0, &pitch.SyntaxError{Input: s, Msg: "expected an instrument in C, Bb, Eb or F"}
}

// MarshalText prints as [Instrument.String] does.
func (i Instrument) MarshalText() ([]byte, error) { return []byte(i.String()), nil }

// UnmarshalText reads what [ParseInstrument] reads.
func (i *Instrument) UnmarshalText(text []byte) (err error) {
	*i, err = ParseInstrument(string(text))
	return err
}
