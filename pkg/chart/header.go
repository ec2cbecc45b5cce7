package chart

import (
	"fmt"
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

// maxSection bounds the name of a section, in bytes.
const maxSection = 200

// sectionFault says why a section cannot have a name, or "".
func sectionFault(name string) string {
	switch {
	case name == "":
		return "the section has no name"
	case len(name) > maxSection:
		return fmt.Sprintf("the name of the section has more than %d bytes", maxSection)
	case strings.Contains(name, "]"):
		return "the name of the section holds ]"
	}
	return nameFault(name, "name of the section")
}
