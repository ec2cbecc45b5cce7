package api

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/go-json-experiment/json/jsontext"
)

// syntaxFault says in the API's own words why a body is no JSON.
func syntaxFault(body []byte, e *jsontext.SyntacticError) Fault {
	f := Fault{Pointer: string(e.JSONPointer)}
	switch {
	case errors.Is(e, jsontext.ErrDuplicateName):
		f.Detail = fmt.Sprintf("the field %q stands twice", e.JSONPointer.LastToken())
		return f
	case errors.Is(e, io.ErrUnexpectedEOF):
		f.Detail = "the JSON ends too early"
		return f
	}
	at := min(int(e.ByteOffset), len(body))
	switch cause := e.Err.Error(); {
	case cause == "exceeded max depth":
		f.Pointer, f.Detail = "", "lists and objects are nested too deeply"
	case cause == "invalid UTF-8":
		f.Detail = cause
	case strings.HasPrefix(cause, "invalid surrogate"):
		f.Detail = "half of a surrogate pair in a string"
	case strings.HasPrefix(cause, "invalid escape"):
		f.Detail, f.Hint = "no such escape in a string", `a backslash is written \\`
	case strings.Contains(cause, "in string"):
		f.Detail, f.Hint = "a control character in a string", `a line break is written \n, a tab \t`
	case isLastComma(body[at:]):
		f.Detail, f.Hint = "a comma with nothing behind it", "leave it out"
	default:
		if strings.Contains(cause, "in literal") { // it may have begun well
			at = len(bytes.TrimRightFunc(body[:at], unicode.IsLetter))
		}
		found := wordAt(body[at:])
		f.Detail = fmt.Sprintf("expected %s, found %s", wanted(body, cause), found)
		f.Hint = foundHint(found, cause)
	}
	line, column := place(body, at)
	f.Detail += fmt.Sprintf(", line %d, column %d of the JSON", line, column)
	return f
}

// expectations are what JSON demands, by what the decoder says of a character
// that is not it.
var expectations = []struct{ cause, wanted string }{
	{"expecting ':'", "a colon behind the name of the field"},
	{"expecting ',' or '}'", "a comma or } behind the value"},
	{"expecting ',' or ']'", "a comma or ] behind the value"},
	{"after top-level value", "nothing behind the JSON value"},
	{"in number", "a digit of the number"},
	{"member name", fieldName},
}

const (
	fieldName    = "the name of a field in double quotes"
	doubleQuotes = `names and strings stand in double quotes, "`
)

// wanted is what JSON demands where the decoder stopped.
func wanted(body []byte, cause string) string {
	for _, e := range expectations {
		if strings.Contains(cause, e.cause) {
			return e.wanted
		}
	}
	decoder := jsontext.NewDecoder(bytes.NewReader(body))
	for {
		if _, err := decoder.ReadToken(); err != nil {
			break
		}
	}
	if kind, read := decoder.StackIndex(decoder.StackDepth()); kind == '{' && read%2 == 0 {
		return fieldName
	}
	return "a JSON value"
}

// foundHint is what is right where something stands that others write.
func foundHint(found, cause string) string {
	hint := map[string]string{
		"'":      doubleQuotes,
		"“":      doubleQuotes,
		"”":      doubleQuotes,
		"U+FEFF": "leave out the byte order mark",
		"True":   "write true",
		"False":  "write false",
		"None":   "leave the field out",
	}[found]
	if found == "{" && strings.Contains(cause, "after top-level") {
		hint = "send one object, or with " + mediaLines + " one a line; curl keeps line ends with --data-binary"
	}
	return hint
}

// isLastComma reports whether a comma comes that only the end of a list or an
// object follows.
func isLastComma(rest []byte) bool {
	behind, ok := bytes.CutPrefix(rest, []byte(","))
	behind = bytes.TrimLeft(behind, " \t\r\n")
	return ok && len(behind) > 0 && (behind[0] == '}' || behind[0] == ']')
}

// wordAt is what a text begins with, for a message: a word or one character.
func wordAt(text []byte) string {
	const longest = 20
	word := text[:len(text)-len(bytes.TrimLeftFunc(text, unicode.IsLetter))]
	if n := utf8.RuneCount(word); 0 < n && n <= longest {
		return string(word)
	}
	r, _ := utf8.DecodeRune(text)
	if unicode.IsGraphic(r) && !unicode.IsSpace(r) {
		return string(r)
	}
	return fmt.Sprintf("%U", r)
}

// place is the line and column of an offset in a text, both from 1.
func place(text []byte, at int) (line, column int) {
	before := text[:at]
	return bytes.Count(before, []byte("\n")) + 1, utf8.RuneCount(before[bytes.LastIndexByte(before, '\n')+1:]) + 1
}
