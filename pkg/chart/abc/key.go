package abc

import (
	"slices"
	"strings"

	"fifthwise/pkg/key"
	"fifthwise/pkg/pitch"
)

// keyModes are the modes by the first three letters of their names, in lower
// case (The abc music standard 2.1, section 3.1.14).
var keyModes = map[string]key.Mode{
	"maj": key.Major, "ion": key.Major,
	"min": key.Minor, "m": key.Minor, "aeo": key.Minor,
	"dor": key.Dorian, "phr": key.Phrygian, "lyd": key.Lydian, "mix": key.Mixolydian,
}

// modeNames are what modes are written as behind the tonic.
var modeNames = map[key.Mode]string{
	key.Major: "", key.Minor: "m", key.Dorian: "dor", key.Phrygian: "phr", key.Lydian: "lyd", key.Mixolydian: "mix",
}

// parseKey reads the value of a K: field. The key is invalid where none is
// stated: the field is empty, none, of the bagpipe, has only a clef or writes
// its accidentals out. The note says what was not understood.
func parseKey(value string) (k key.Key, note string) {
	words := strings.Fields(value)
	if len(words) == 0 || isKeyProperty(words[0]) {
		return key.Key{}, ""
	}
	tonic, rest, err := pitch.Scan(words[0])
	if err != nil {
		return key.Key{}, "the key " + quote(value) + " is not understood; expected a tonic A to G and a mode, for example Ebmaj or F#dor"
	}
	words = words[1:]
	if rest == "" && len(words) > 0 && !isKeyProperty(words[0]) {
		rest, words = words[0], words[1:]
	}
	switch {
	case rest == "exp", slices.Contains(words, "exp"):
		return key.Key{}, ""
	case rest == "" && !slices.ContainsFunc(words, isAccidental):
		return key.New(tonic, key.Major), ""
	case rest == "", isAccidental(rest):
		return key.Key{}, "the key " + quote(value) + " has accidentals and no mode; no key is read"
	}
	mode := modeName(rest)
	if mode == "loc" {
		return key.Key{}, "the key " + quote(value) + " is locrian, in which no key is read"
	}
	m, ok := keyModes[mode]
	if !ok {
		return key.Key{}, "the mode of the key " + quote(value) + " is not understood; expected one as maj, min, dor, phr, lyd or mix"
	}
	return key.New(tonic, m), ""
}

// modeName is the part of a mode's name that tells it from others, in whatever
// case it is written; but a single M is major to some.
func modeName(w string) string {
	if w == "M" {
		return w
	}
	w = strings.ToLower(w)
	return w[:min(len(w), 3)]
}

// isAccidental reports whether a word of a K: field sets an accidental.
func isAccidental(w string) bool { return strings.IndexByte("^_=", w[0]) >= 0 }

// isKeyProperty reports whether a word of a K: field is none of the key's name:
// clefs, accidentals and settings.
func isKeyProperty(w string) bool {
	switch w {
	case "none", "HP", "Hp", "clef", "exp":
		return true
	}
	for _, clef := range [...]string{"treble", "bass", "alto", "tenor", "perc"} {
		if strings.HasPrefix(w, clef) {
			return true
		}
	}
	return strings.Contains(w, "=") || strings.HasPrefix(w, "+8") || strings.HasPrefix(w, "-8") || isAccidental(w)
}

// formatKey is the value of a K: field.
func formatKey(k key.Key) string {
	if !k.IsValid() {
		return "none"
	}
	return k.Tonic().String() + modeNames[k.Mode()]
}
