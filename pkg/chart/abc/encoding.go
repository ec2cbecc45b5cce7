package abc

import (
	"bytes"
	"fmt"
	"regexp"
	"strings"
	"unicode/utf8"
)

// MaxBytes is how large a file may be.
const MaxBytes = 8 << 20

const byteOrderMark = "\ufeff"

// charset is where a file says its encoding (The abc music standard 2.1,
// section 11.5, from memory).
var charset = regexp.MustCompile(`(?m)^(?:%%|I:[ \t]*)abc-charset[ \t]+([^\s%]+)`)

// decode is the text of a file, which is in UTF-8 or, as older files are, in
// Latin-1. The note says what was guessed.
func decode(data []byte) (text, note string, err *Error) {
	fault := func(msg, hint string) (string, string, *Error) {
		return "", "", &Error{Bar: -1, Msg: msg, Hint: hint}
	}
	const convert = "save it in UTF-8"
	if len(data) > MaxBytes {
		return fault(fmt.Sprintf("the file has more than %d bytes", MaxBytes), "divide it")
	}
	if isUTF16(data) {
		return fault("the file is in UTF-16, expected UTF-8", convert)
	}
	said := ""
	if m := charset.FindSubmatch(data); m != nil {
		said = strings.ToLower(string(m[1]))
	}
	if utf8.Valid(data) {
		return strings.TrimPrefix(string(data), byteOrderMark), "", nil
	}
	switch said {
	case "":
		return latin1(data), "the file is not in UTF-8 and is read as Latin-1", nil
	case "iso-8859-1", "latin1", "latin-1", "us-ascii":
		return latin1(data), "", nil
	case "utf-8", "utf8":
		line := 1 + bytes.Count(data[:invalid(data)], []byte("\n"))
		return fault(fmt.Sprintf("the file says that it is in UTF-8, but line %d is not", line), convert)
	}
	return fault(fmt.Sprintf("the file says that it is in %q, expected utf-8 or iso-8859-1", said), convert)
}

// isUTF16 looks for a byte order mark, or for text of which every other byte
// is zero.
func isUTF16(data []byte) bool {
	if bytes.HasPrefix(data, []byte{0xff, 0xfe}) || bytes.HasPrefix(data, []byte{0xfe, 0xff}) {
		return true
	}
	front := data[:min(len(data), 64)]
	return len(front) >= 4 && bytes.Count(front, []byte{0})*3 >= len(front)
}

// invalid is the offset of the first byte that is not UTF-8.
func invalid(data []byte) int {
	at := 0
	for at < len(data) {
		r, size := utf8.DecodeRune(data[at:])
		if r == utf8.RuneError && size == 1 {
			break
		}
		at += size
	}
	return at
}

func latin1(data []byte) string {
	var b strings.Builder
	b.Grow(len(data) + len(data)/8)
	for _, c := range data {
		b.WriteRune(rune(c))
	}
	return b.String()
}
