package musicxml

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"regexp"
	"strings"
	"unicode/utf16"
	"unicode/utf8"
)

// encoding is how the characters of a file are written as bytes.
type encoding uint8

const (
	utf8Encoding encoding = iota
	utf16Big
	utf16Little
	latin1
)

// starts are how files in UTF-16 begin: with a byte order mark or, without one,
// with "<?" (XML 1.0, appendix F.1).
var starts = []struct {
	bytes    string
	encoding encoding
}{
	{"\xfe\xff", utf16Big}, {"\xff\xfe", utf16Little},
	{"\x00<\x00?", utf16Big}, {"<\x00?\x00", utf16Little},
}

var declared = regexp.MustCompile(`^(?:\x{feff})?<\?xml[^>]*?\sencoding\s*=\s*["']([A-Za-z0-9._-]+)["']`)

// decode is the file's text, byte order mark and all, so that encode gives back
// the same bytes.
func decode(data []byte) (text []byte, e encoding, err error) {
	for _, s := range starts {
		if bytes.HasPrefix(data, []byte(s.bytes)) {
			text, err := s.encoding.decodeUTF16(data)
			return text, s.encoding, err
		}
	}
	name := ""
	if m := declared.FindSubmatch(data[:min(len(data), 1024)]); m != nil {
		name = strings.ToUpper(string(m[1]))
	}
	switch name {
	case "", "UTF-8", "UTF8", "US-ASCII", "ASCII":
		if at := invalidUTF8(data); at >= 0 {
			return nil, e, &Error{Line: 1 + bytes.Count(data[:at], []byte("\n")),
				Msg: fmt.Sprintf("byte 0x%02x is no UTF-8", data[at]), Hint: "save the file as UTF-8, or state its encoding in its first line"}
		}
		return data, utf8Encoding, nil
	case "ISO-8859-1", "LATIN1", "ISO_8859-1":
		text := make([]byte, 0, len(data)+len(data)/16)
		for _, b := range data {
			text = utf8.AppendRune(text, rune(b))
		}
		return text, latin1, nil
	case "UTF-16":
		return nil, e, &Error{Line: 1, Msg: "the file says that it is UTF-16 but is not", Hint: "save it as UTF-8"}
	}
	return nil, e, &Error{Line: 1, Msg: fmt.Sprintf("the encoding %q is not known", name), Hint: "save the file as UTF-8"}
}

func invalidUTF8(data []byte) int {
	if utf8.Valid(data) {
		return -1
	}
	for at := 0; ; {
		r, n := utf8.DecodeRune(data[at:])
		if r == utf8.RuneError && n <= 1 {
			return at
		}
		at += n
	}
}

func (e encoding) order() binary.ByteOrder {
	if e == utf16Big {
		return binary.BigEndian
	}
	return binary.LittleEndian
}

func (e encoding) decodeUTF16(data []byte) ([]byte, error) {
	broken := &Error{Msg: "the file is no sound UTF-16", Hint: "save it as UTF-8"}
	if len(data)%2 != 0 {
		return nil, broken
	}
	order := e.order()
	text := make([]byte, 0, len(data)/2+len(data)/16)
	for i := 0; i < len(data); i += 2 {
		r := rune(order.Uint16(data[i:]))
		if utf16.IsSurrogate(r) {
			if i += 2; i == len(data) {
				return nil, broken
			}
			if r = utf16.DecodeRune(r, rune(order.Uint16(data[i:]))); r == utf8.RuneError {
				return nil, broken
			}
		}
		text = utf8.AppendRune(text, r)
	}
	return text, nil
}

// encode is text in the encoding. What Latin-1 does not have becomes a
// character reference.
func (e encoding) encode(text []byte) []byte {
	switch e {
	case utf16Big, utf16Little:
		var out []byte
		order := e.order().(binary.AppendByteOrder)
		for _, r := range string(text) {
			if a, b := utf16.EncodeRune(r); a != utf8.RuneError {
				out = order.AppendUint16(order.AppendUint16(out, uint16(a)), uint16(b))
			} else {
				out = order.AppendUint16(out, uint16(r))
			}
		}
		return out
	case latin1:
		out := make([]byte, 0, len(text))
		for _, r := range string(text) {
			if r < 256 {
				out = append(out, byte(r))
			} else {
				out = fmt.Appendf(out, "&#%d;", r)
			}
		}
		return out
	}
	return text
}
