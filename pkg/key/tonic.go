package key

import (
	"errors"
	"strings"

	"fifthwise/pkg/pitch"
)

// scanTonic reads the tonic at the front of a key or a scale and returns what
// follows it.
func scanTonic(s string) (tonic pitch.Note, rest string, err error) {
	start := indent(s)
	tonic, rest, err = pitch.Scan(s[start:])
	if err != nil {
		return pitch.Note{}, s, withTonicHint(pitch.Within(err, s, start), s[start:])
	}
	sign := ""
	switch word := strings.ToLower(strings.TrimLeft(rest, " -")); {
	case strings.HasPrefix(word, "flat"):
		sign = "b"
	case strings.HasPrefix(word, "sharp"):
		sign = "#"
	default:
		return tonic, rest, nil
	}
	return pitch.Note{}, s, &pitch.SyntaxError{
		Input:  s,
		Offset: len(s) - len(rest) + indent(rest),
		Msg:    "expected an accidental as b or #",
		Hint:   "write " + tonic.String() + sign,
	}
}

// withTonicHint gives a better hint where text, in which no tonic was found, is
// the name of a scale alone or a tonic in lower case alone.
func withTonicHint(err error, text string) error {
	var e *pitch.SyntaxError
	if text == "" || !errors.As(err, &e) {
		return err
	}
	if _, ok := scaleByName[fold(text)]; ok {
		e.Hint = "write the tonic first"
	}
	upper := strings.TrimSpace(strings.ToUpper(text[:1]) + text[1:])
	if tonic, err := pitch.Parse(upper); err == nil {
		e.Hint = "write " + tonic.String() + " major or " + tonic.String() + " minor"
	}
	return e
}
