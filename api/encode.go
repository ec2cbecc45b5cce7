package api

import (
	"fmt"
	"math"
	"reflect"
	"strconv"
	"strings"
	"sync"

	"github.com/go-json-experiment/json/jsontext"
)

// An encoder appends the JSON of a value of its type.
type encoder func(dst []byte, v reflect.Value) ([]byte, error)

// encoders are those of the types of answers.
var encoders sync.Map

// appendJSON appends to dst what json.Marshal makes of *v, a struct of package
// wire, in a third of its time, which is a good part of an answer's: how each type
// is written is settled once.
func appendJSON(dst []byte, v any) ([]byte, error) {
	value := reflect.ValueOf(v).Elem()
	encode, ok := encoders.Load(value.Type())
	if !ok {
		encode, _ = encoders.LoadOrStore(value.Type(), encoderOf(value.Type()))
	}
	return encode.(encoder)(dst, value)
}

func encoderOf(t reflect.Type) encoder {
	switch t.Kind() {
	case reflect.String:
		return func(dst []byte, v reflect.Value) ([]byte, error) { return jsontext.AppendQuote(dst, v.String()) }
	case reflect.Bool:
		return func(dst []byte, v reflect.Value) ([]byte, error) { return strconv.AppendBool(dst, v.Bool()), nil }
	case reflect.Int:
		return func(dst []byte, v reflect.Value) ([]byte, error) { return strconv.AppendInt(dst, v.Int(), 10), nil }
	case reflect.Float64:
		return func(dst []byte, v reflect.Value) ([]byte, error) { return appendNumber(dst, v.Float()) }
	case reflect.Pointer:
		return encodePointer(encoderOf(t.Elem()))
	case reflect.Slice:
		return encodeList(encoderOf(t.Elem()))
	case reflect.Struct:
		return encodeStruct(t)
	}
	panic("api: no JSON of a " + t.String())
}

// appendNumber writes numbers that are far from 1 with an exponent.
func appendNumber(dst []byte, n float64) ([]byte, error) {
	switch size := math.Abs(n); {
	case math.IsInf(n, 0), math.IsNaN(n):
		return dst, fmt.Errorf("JSON has no %v", n)
	case size >= 1 && size < 1e15 && n == math.Trunc(n):
		return strconv.AppendInt(dst, int64(n), 10), nil
	case size == 0, size >= 1e-6 && size < 1e21:
		return strconv.AppendFloat(dst, n, 'f', -1, 64), nil
	}
	return append(dst, jsontext.Float(n).String()...), nil
}

func encodePointer(encode encoder) encoder {
	return func(dst []byte, v reflect.Value) ([]byte, error) {
		if v.IsNil() {
			return append(dst, "null"...), nil
		}
		return encode(dst, v.Elem())
	}
}

func encodeList(encode encoder) encoder {
	return func(dst []byte, v reflect.Value) (_ []byte, err error) {
		dst = append(dst, '[')
		for i := range v.Len() {
			if i > 0 {
				dst = append(dst, ',')
			}
			if dst, err = encode(dst, v.Index(i)); err != nil {
				return dst, err
			}
		}
		return append(dst, ']'), nil
	}
}

// member is a field of a struct.
type member struct {
	index     int
	name      string // in quotes, with the comma before it and the colon behind
	encode    encoder
	omitEmpty bool
	omitZero  bool
}

func encodeStruct(t reflect.Type) encoder {
	var members []member
	for i := range t.NumField() {
		f := t.Field(i)
		if f.Anonymous {
			panic("api: no JSON of the embedded " + f.Name)
		}
		options := f.Tag.Get("json") + ","
		members = append(members, member{
			index:     i,
			name:      `,"` + jsonName(f) + `":`,
			encode:    encoderOf(f.Type),
			omitEmpty: strings.Contains(options, ",omitempty,"),
			omitZero:  strings.Contains(options, ",omitzero,"),
		})
	}
	return func(dst []byte, v reflect.Value) (_ []byte, err error) {
		dst = append(dst, '{')
		start := len(dst)
		for i := range members {
			m := &members[i]
			value := v.Field(m.index)
			if m.omitZero && value.IsZero() {
				continue
			}
			before := len(dst)
			name := m.name
			if before == start {
				name = name[1:] // no comma
			}
			dst = append(dst, name...)
			from := len(dst)
			if dst, err = m.encode(dst, value); err != nil {
				return dst, err
			}
			if m.omitEmpty && isEmpty(dst[from:]) {
				dst = dst[:before]
			}
		}
		return append(dst, '}'), nil
	}
}

// isEmpty: a member with this value is left out by omitempty.
func isEmpty(text []byte) bool {
	switch string(text) {
	case `""`, "null", "[]", "{}":
		return true
	}
	return false
}
