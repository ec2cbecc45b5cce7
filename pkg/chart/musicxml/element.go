package musicxml

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"strings"
	"unicode"
)

// element is a small part of a file as a tree.
type element struct {
	tag      string
	attrs    []xml.Attr
	chars    string // all its own text
	children []element
}

func (e *element) name() string { return e.tag }

func (e *element) text() string { return strings.TrimSpace(e.chars) }

// attr is the value of an attribute, and whether it is there.
func (e *element) attr(name string) (string, bool) { return attrOf(e.attrs, name) }

func attrOf(attrs []xml.Attr, name string) (string, bool) {
	for _, a := range attrs {
		if a.Name.Local == name {
			return strings.TrimSpace(a.Value), true
		}
	}
	return "", false
}

// child is the first child of a name, or nil, on which all methods answer
// nothing.
func (e *element) child(name string) *element {
	for i := range e.children {
		if e.children[i].name() == name {
			return &e.children[i]
		}
	}
	return nil
}

// textOf is the text of the first child of a name.
func (e *element) textOf(name string) string {
	if c := e.child(name); c != nil {
		return c.text()
	}
	return ""
}

// tree reads an element whole.
func (s *score) tree(start xml.StartElement) (element, error) {
	left := maxTree
	return s.treeOf(start, &left)
}

func (s *score) treeOf(start xml.StartElement, left *int) (element, error) {
	e := element{tag: start.Name.Local, attrs: start.Attr}
	if *left--; *left < 0 {
		err := s.fault("", fmt.Sprintf("an element holds more than %d others, which none of a score does", maxTree), "")
		err.cause = ErrTooLarge
		return e, err
	}
	var chars []byte
	for {
		token, err := s.decoder.Token()
		if err != nil {
			return e, err
		}
		switch t := token.(type) {
		case xml.EndElement:
			e.chars = string(chars)
			return e, nil
		case xml.CharData:
			chars = append(chars, t...)
		case xml.StartElement:
			child, err := s.treeOf(t, left)
			if err != nil {
				return e, err
			}
			e.children = append(e.children, child)
		}
	}
}

// oneLine is text without line breaks and other control characters.
func oneLine(text string) string {
	words := strings.FieldsFunc(text, func(r rune) bool { return unicode.IsSpace(r) || unicode.IsControl(r) })
	return strings.Join(words, " ")
}

// Bounds of a file, so that none takes more memory than its size warrants.
const (
	maxDepth      = 100     // of elements in each other
	maxElements   = 2 << 20 // in all
	maxAttributes = 200     // of one element
	maxTree       = 10_000  // elements in one that is read whole
)

// checkBounds reads the tags of a file without keeping any. What is no sound
// XML is left to the decoder.
func checkBounds(text []byte) error {
	depth, elements := 0, 0
	for at := 0; ; {
		next := bytes.IndexByte(text[at:], '<')
		if next < 0 {
			return nil
		}
		at += next
		rest, skip := text[at:], ""
		switch {
		case bytes.HasPrefix(rest, []byte("<!--")):
			skip = "-->"
		case bytes.HasPrefix(rest, []byte("<![CDATA[")):
			skip = "]]>"
		case bytes.HasPrefix(rest, []byte("<?")), bytes.HasPrefix(rest, []byte("<!")):
			skip = ">"
		}
		if skip != "" {
			n := bytes.Index(rest, []byte(skip))
			if n < 0 {
				return nil
			}
			at += n + len(skip)
			continue
		}
		end, attributes := tagEnd(rest)
		if end < 0 {
			return nil
		}
		elements++
		switch {
		case rest[1] == '/':
			depth--
		case rest[end-1] != '/':
			depth++
		}
		msg := ""
		switch {
		case depth > maxDepth:
			msg = fmt.Sprintf("elements stand in each other %d deep, which no score does", depth)
		case elements > 2*maxElements:
			msg = fmt.Sprintf("the file has more than %d elements", maxElements)
		case attributes > maxAttributes:
			msg = fmt.Sprintf("an element has %d attributes, which none of a score does", attributes)
		}
		if msg != "" {
			return &Error{Line: 1 + bytes.Count(text[:at], []byte("\n")), Msg: msg, cause: ErrTooLarge}
		}
		at += end + 1
	}
}

// tagEnd is the place of the > that ends the tag at the start of text, -1 if
// none does, and the number of quoted values in it.
func tagEnd(text []byte) (end, attributes int) {
	for i := 1; i < len(text); i++ {
		switch c := text[i]; c {
		case '>':
			return i, attributes
		case '"', '\'':
			n := bytes.IndexByte(text[i+1:], c)
			if n < 0 {
				return -1, attributes
			}
			attributes++
			i += n + 1
		}
	}
	return -1, attributes
}
