package sheet

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"regexp"
	"strconv"
	"strings"
)

// element is an element of a drawing.
type element struct {
	name       string
	attributes map[string]string // its own
	parent     *element
	text       string // all that is written in it, for text elements with their spans
	before     int    // elements that are drawn before it
}

// given is an attribute of the element or of the nearest around it.
func (e *element) given(name string) string {
	for ; e != nil; e = e.parent {
		if v, ok := e.attributes[name]; ok {
			return v
		}
	}
	return ""
}

func (e *element) number(name string) float64 {
	f, err := strconv.ParseFloat(e.attributes[name], 64)
	if err != nil {
		panic(fmt.Sprintf("%s %s=%q", e.name, name, e.attributes[name]))
	}
	return f
}

// drawable are the elements of a drawing with their attributes. What is not
// here does not occur: no scripts, links, styles, images, handlers of events.
var drawable = map[string]string{
	"svg":    "xmlns width height viewBox role font-family fill",
	"title":  "",
	"desc":   "",
	"rect":   "x y width height rx fill stroke",
	"g":      "role aria-label font-family transform",
	"text":   "x y font-size font-weight font-family font-style fill text-anchor",
	"tspan":  "font-size dy",
	"path":   "d fill stroke stroke-width stroke-dasharray",
	"circle": "cx cy r fill",
}

// value is what attributes other than labels consist of: numbers, colours,
// path commands, names of fonts. No colon, no bracket, so neither addresses nor
// functions.
var value = regexp.MustCompile(`^[-#%., '\w]*$`)

// elements reads a drawing and complains of all that is not well-formed or not
// drawable.
func elements(svg []byte) (all []*element, err error) {
	d := xml.NewDecoder(bytes.NewReader(svg))
	var now *element
	for {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			return all, nil
		}
		if err != nil {
			return nil, err
		}
		switch t := token.(type) {
		case xml.StartElement:
			e := &element{name: t.Name.Local, attributes: map[string]string{}, parent: now, before: len(all)}
			allowed, ok := drawable[e.name]
			if !ok {
				return nil, fmt.Errorf("element %q", e.name)
			}
			for _, a := range t.Attr {
				name := a.Name.Local
				switch {
				case !strings.Contains(" "+allowed+" ", " "+name+" "):
					return nil, fmt.Errorf("attribute %q of %q", name, e.name)
				case name == "transform" && !transform.MatchString(a.Value),
					name != "aria-label" && name != "xmlns" && name != "transform" && !value.MatchString(a.Value):
					return nil, fmt.Errorf("attribute %s=%q", name, a.Value)
				}
				e.attributes[name] = a.Value
			}
			all, now = append(all, e), e
		case xml.EndElement:
			now = now.parent
		case xml.CharData:
			for e := now; e != nil; e = e.parent {
				e.text += string(t)
			}
		default:
			return nil, fmt.Errorf("%T in a drawing", t)
		}
	}
}

// named are the elements of a name.
func named(all []*element, name string) (some []*element) {
	for _, e := range all {
		if e.name == name {
			some = append(some, e)
		}
	}
	return some
}
