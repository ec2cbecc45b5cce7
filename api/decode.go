package api

import (
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"reflect"
	"strconv"
	"strings"

	"github.com/go-json-experiment/json"
	"github.com/go-json-experiment/json/jsontext"
)

// decode reads a JSON object into v and tells the fields that v does not have.
// The error is a refusal of what is no such JSON.
func decode[T any](body []byte, v *T) (faults, error) {
	if len(bytes.TrimSpace(body)) == 0 {
		return nil, badSyntax(Fault{Detail: "the body is empty", Hint: "send a JSON object"})
	}
	err := json.Unmarshal(body, v, json.RejectUnknownMembers(true))
	if err == nil && !bytes.Contains(body, []byte("null")) {
		return nil, nil
	}
	// Read again, slowly, to tell all unknown fields at once, and null, which
	// passes for any type.
	*v = *new(T)
	if err := json.Unmarshal(body, v); err != nil {
		return nil, undecoded(body, err)
	}
	w := walk{decoder: jsontext.NewDecoder(bytes.NewReader(body))}
	w.value(reflect.TypeFor[T]())
	if w.null != nil {
		return nil, badSyntax(*w.null)
	}
	return w.unknown, nil
}

// undecoded says in the API's own words what the decoder found.
func undecoded(body []byte, err error) error {
	var syntax *jsontext.SyntacticError
	var mismatch *json.SemanticError
	switch {
	case errors.As(err, &mismatch) && errors.Is(err, strconv.ErrRange):
		return faults{{Pointer: string(mismatch.JSONPointer), Detail: "the number is too large"}}.err()
	case errors.As(err, &mismatch):
		return badSyntax(Fault{Pointer: string(mismatch.JSONPointer), Detail: mismatchDetail(mismatch)})
	case errors.As(err, &syntax):
		return badSyntax(syntaxFault(body, syntax))
	}
	return err
}

func mismatchDetail(e *json.SemanticError) string {
	given := kindNames[e.JSONKind]
	if e.JSONKind == '0' && e.GoType.Kind() == reflect.Int {
		given = "one with a fraction or an exponent"
	}
	return fmt.Sprintf("expected %s, not %s", expected(e.GoType), given)
}

// expected is what of JSON a type is read from.
func expected(t reflect.Type) string {
	switch t.Kind() {
	case reflect.Pointer:
		return expected(t.Elem())
	case reflect.String:
		return "a string"
	case reflect.Bool:
		return "true or false"
	case reflect.Int:
		return "a whole number"
	case reflect.Float64:
		return "a number"
	case reflect.Slice:
		return "a list"
	}
	return "an object"
}

var kindNames = map[jsontext.Kind]string{
	't': "true", 'f': "false", '"': "a string", '0': "a number", '{': "an object", '[': "a list",
}

// walk goes through sound JSON beside the type that it was read into.
type walk struct {
	decoder *jsontext.Decoder
	unknown faults // every field that the type does not have
	null    *Fault // the first null in the place of a value
}

func (w *walk) value(t reflect.Type) {
	for t.Kind() == reflect.Pointer {
		t = t.Elem()
	}
	switch kind := w.decoder.PeekKind(); {
	case kind == 'n':
		w.isNull(t)
	case kind == '{' && t.Kind() == reflect.Struct:
		w.object(t)
	case kind == '[' && t.Kind() == reflect.Slice:
		_, _ = w.decoder.ReadToken()
		for w.decoder.PeekKind() != ']' {
			if w.decoder.PeekKind() == 'n' && t.Elem().Kind() == reflect.Pointer { // a place left empty
				_ = w.decoder.SkipValue()
				continue
			}
			w.value(t.Elem())
		}
		_, _ = w.decoder.ReadToken()
	default:
		_ = w.decoder.SkipValue()
	}
}

func (w *walk) object(t reflect.Type) {
	fields := fieldsOf(t)
	_, _ = w.decoder.ReadToken()
	for w.decoder.PeekKind() != '}' {
		token, _ := w.decoder.ReadToken()
		name := token.String()
		if field, ok := fields[name]; ok {
			w.value(field)
			continue
		}
		hint := ""
		if len(w.unknown) < maxFaults { // others are only counted
			hint = cmp.Or(nearest(name, fieldNames(t)), "the fields are "+inWords(fieldNames(t), "and"))
		}
		w.unknown.add(string(w.decoder.StackPointer()), "unknown field", hint)
		_ = w.decoder.SkipValue()
	}
	_, _ = w.decoder.ReadToken()
}

func (w *walk) isNull(t reflect.Type) {
	_, _ = w.decoder.ReadToken()
	if w.null != nil {
		return
	}
	pointer := w.decoder.StackPointer()
	w.null = &Fault{Pointer: string(pointer), Detail: fmt.Sprintf("expected %s, not null", expected(t))}
	if name := pointer.LastToken(); name != "" && (name[0] < '0' || name[0] > '9') {
		w.null.Hint = "leave the field out"
	}
}

// fieldsOf are the types of a struct's fields by their JSON names.
func fieldsOf(t reflect.Type) map[string]reflect.Type {
	fields := map[string]reflect.Type{}
	for _, f := range reflect.VisibleFields(t) {
		if name := jsonName(f); name != "" {
			fields[name] = f.Type
		}
	}
	return fields
}

// fieldNames are the JSON names of a struct's fields, in its order.
func fieldNames(t reflect.Type) []string {
	var names []string
	for _, f := range reflect.VisibleFields(t) {
		if name := jsonName(f); name != "" {
			names = append(names, name)
		}
	}
	return names
}

// jsonName is the field's name in JSON; empty for an embedded struct.
func jsonName(f reflect.StructField) string {
	name, _, _ := strings.Cut(f.Tag.Get("json"), ",")
	return name
}
