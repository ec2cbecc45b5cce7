package key

import (
	"strings"

	"fifthwise/pkg/pitch"
)

// Key is a tonic and a mode. The zero value is invalid. Keys are comparable:
// == means the same spelling; [Key.Sounds] compares what is heard.
type Key struct {
	tonic pitch.Note
	mode  Mode
}

// New is the key of a tonic in a mode; the zero Key if the mode is invalid.
func New(tonic pitch.Note, m Mode) Key {
	if !m.IsValid() {
		return Key{}
	}
	return Key{tonic, m}
}

// IsValid reports whether k is a key, which the zero value is not.
func (k Key) IsValid() bool { return k.mode.IsValid() }

// Tonic is the key's first degree.
func (k Key) Tonic() pitch.Note { return k.tonic }

// Mode is the key's mode; 0 if the key is invalid.
func (k Key) Mode() Mode { return k.mode }

// IsMinor reports whether the tonic carries a minor third.
func (k Key) IsMinor() bool { return k.mode.IsMinor() }

// Relative is the key with the same signature: the relative minor of a major
// key, the relative major of any other.
func (k Key) Relative() Key {
	switch k.mode {
	case 0:
		return Key{}
	case Major:
		return Key{k.tonic.Sub(pitch.MinorThird), Minor}
	}
	return Key{pitch.At(k.Signature()), Major}
}

// Parallel is the key on the same tonic: minor for a mode with a major third,
// major for one with a minor third.
func (k Key) Parallel() Key {
	switch {
	case !k.IsValid():
		return Key{}
	case k.IsMinor():
		return Key{k.tonic, Major}
	}
	return Key{k.tonic, Minor}
}

// Transpose is the key an interval above, in the same mode.
func (k Key) Transpose(i pitch.Interval) Key {
	if !k.IsValid() {
		return Key{}
	}
	return Key{k.tonic.Add(i), k.mode}
}

// Sounds reports whether both keys are heard alike: F# major and Gb major.
func (k Key) Sounds(l Key) bool {
	return k.mode == l.mode && k.tonic.Sounds(l.tonic)
}

// Related are the closely related keys: the major and minor keys whose
// signatures differ by one sharp or flat at most, k itself left out. They come
// by signature: the same first, then a fifth up, then a fifth down, major
// before minor. A major or minor key has five (Hutchinson, Music Theory for the
// 21st-Century Classroom, §22.3), a key in another mode six.
func (k Key) Related() []Key {
	if !k.IsValid() {
		return nil
	}
	related := make([]Key, 0, 6)
	for _, step := range [...]int{0, 1, -1} {
		major := Key{pitch.At(k.Signature() + step), Major}
		for _, l := range [...]Key{major, major.Relative()} {
			if l != k {
				related = append(related, l)
			}
		}
	}
	return related
}

// String is the key's name, "Eb major"; "invalid key" for the zero value.
func (k Key) String() string {
	if !k.IsValid() {
		return "invalid key"
	}
	return string(k.AppendTo(nil, pitch.ASCII))
}

// AppendTo prints the key behind dst; nothing if it is invalid.
func (k Key) AppendTo(dst []byte, a pitch.Accidentals) []byte {
	if !k.IsValid() {
		return dst
	}
	return append(append(k.tonic.AppendTo(dst, a), ' '), k.mode.String()...)
}

// MarshalText prints as [Key.String] does; nothing for the zero value.
func (k Key) MarshalText() ([]byte, error) { return k.AppendTo([]byte{}, pitch.ASCII), nil }

// UnmarshalText reads what [Parse] reads; nothing is the zero value.
func (k *Key) UnmarshalText(text []byte) (err error) {
	if len(text) == 0 {
		*k = Key{}
		return nil
	}
	*k, err = Parse(string(text))
	return err
}

// Parse reads a key: a tonic in upper case and the name of a mode as
// [ParseMode] reads it, with or without a space between them. A tonic alone is
// major: "Eb major", "F# minor", "D dorian", "Eb", "Ebm", "F#min". A tonic in
// lower case is refused, since c alone means C minor to some and C major to
// others.
func Parse(s string) (Key, error) {
	tonic, rest, err := scanTonic(s)
	if err != nil {
		return Key{}, err
	}
	if strings.TrimSpace(rest) == "" {
		return Key{tonic, Major}, nil
	}
	m, err := ParseMode(rest)
	if err != nil {
		return Key{}, pitch.Within(err, s, len(s)-len(rest))
	}
	return Key{tonic, m}, nil
}

// MustParse is [Parse] for keys known to be good; it panics on others.
func MustParse(s string) Key {
	k, err := Parse(s)
	if err != nil {
		panic(err)
	}
	return k
}
