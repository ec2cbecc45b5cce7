package api

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"reflect"
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
	// Read again, slowly, to tell a null, which passes for any type, and all
	// unknown fields at once.
	*v = *new(T)
	if err := json.Unmarshal(body, v, refuseNull); err != nil {
		return nil, badSyntax(faultOf(err))
	}
	var unknown faults
	unknown.names(jsontext.NewDecoder(bytes.NewReader(body)), reflect.TypeFor[T]())
	return unknown, nil
}

var errNull = errors.New("null")

var refuseNull = json.WithUnmarshalers(json.UnmarshalFromFunc(func(d *jsontext.Decoder, _ any) error {
	if d.PeekKind() == 'n' {
		return errNull
	}
	return errors.ErrUnsupported // go on as if nothing had been asked
}))

// faultOf says in the API's own words what the decoder found.
func faultOf(err error) Fault {
	var syntax *jsontext.SyntacticError
	var mismatch *json.SemanticError
	switch {
	case errors.As(err, &mismatch):
		return Fault{Pointer: string(mismatch.JSONPointer), Detail: mismatchDetail(mismatch)}
	case errors.As(err, &syntax):
		return Fault{Pointer: string(syntax.JSONPointer), Detail: syntaxDetail(syntax)}
	}
	return Fault{Detail: "expected a JSON object"}
}

func syntaxDetail(e *jsontext.SyntacticError) string {
	switch {
	case errors.Is(e, jsontext.ErrDuplicateName):
		return fmt.Sprintf("the field %q stands twice", e.JSONPointer.LastToken())
	case errors.Is(e, io.ErrUnexpectedEOF):
		return "the JSON ends too early"
	}
	return fmt.Sprintf("%v, at byte %d of the JSON", e.Err, e.ByteOffset)
}

func mismatchDetail(e *json.SemanticError) string {
	expected := "an object"
	switch e.GoType.Kind() {
	case reflect.String:
		expected = "a string"
	case reflect.Bool:
		expected = "true or false"
	case reflect.Int:
		expected = "a whole number"
	case reflect.Float64:
		expected = "a number"
	case reflect.Slice:
		expected = "a list"
	}
	switch {
	case errors.Is(e, errNull):
		return "null is not read; leave the field out"
	case e.JSONKind == '0' && e.GoType.Kind() == reflect.Int:
		return "expected a whole number in its digits, and not too large"
	case e.JSONKind == '0' && e.GoType.Kind() == reflect.Float64:
		return "the number is too large"
	}
	return fmt.Sprintf("expected %s, not %s", expected, kindNames[e.JSONKind])
}

var kindNames = map[jsontext.Kind]string{
	't': "true", 'f': "false", '"': "a string", '0': "a number", '{': "an object", '[': "a list",
}

// names adds a fault for every field of the next JSON value that type t does
// not have. The JSON is known to be sound.
func (f *faults) names(d *jsontext.Decoder, t reflect.Type) {
	for t.Kind() == reflect.Pointer {
		t = t.Elem()
	}
	switch kind := d.PeekKind(); {
	case kind == '{' && t.Kind() == reflect.Struct:
		fields := fieldsOf(t)
		d.ReadToken()
		for d.PeekKind() != '}' {
			name, _ := d.ReadToken()
			if field, ok := fields[name.String()]; ok {
				f.names(d, field)
				continue
			}
			f.add(string(d.StackPointer()), "unknown field", nearest(name.String(), t))
			d.SkipValue()
		}
		d.ReadToken()
	case kind == '[' && t.Kind() == reflect.Slice:
		d.ReadToken()
		for d.PeekKind() != ']' {
			f.names(d, t.Elem())
		}
		d.ReadToken()
	default:
		d.SkipValue()
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

// jsonName is the field's name in JSON; empty for an embedded struct.
func jsonName(f reflect.StructField) string {
	name, _, _ := strings.Cut(f.Tag.Get("json"), ",")
	return name
}
