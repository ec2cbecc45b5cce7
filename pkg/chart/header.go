package chart

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"fifthwise/pkg/key"
)

// Header is what is said of a chart beside its bars. What is zero is not said.
type Header struct {
	Title string
	Meter Meter
	Key   key.Key
}

// nameFault says why a title or the name of a section cannot be written, or "".
func nameFault(name, what string) string {
	switch {
	case !utf8.ValidString(name):
		return "the " + what + " is not valid UTF-8"
	case strings.ContainsFunc(name, func(r rune) bool { return unicode.IsControl(r) && r != '\t' }):
		return "the " + what + " holds a line break or another control character"
	}
	return ""
}
