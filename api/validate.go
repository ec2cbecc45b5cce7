package api

import (
	"reflect"
	"slices"
	"strconv"
	"strings"
	"sync"
)

// field is a field of a request, with what its validate tag asks of it:
//
//	required            it is neither missing nor empty
//	min=1 max=5 gt=0    bounds of a number, or of the length of a list
//	oneof=upper cased   one of these words
//
// The last two are asked of what is there.
type field struct {
	index    int
	pointer  string // "/" and its name; nothing for an embedded struct
	required bool
	rules    []rule
	within   []field // of the struct, or of each in the list, that it holds
}

// rule is a word of a validate tag. The number is that of the bound, if it has one.
type rule struct {
	word, bound string
	number      float64
}

// boundedTypes are the fields of each type of request.
var boundedTypes sync.Map

// ranges adds the faults of values out of their bounds.
func (f *faults) ranges(request any) {
	v := reflect.ValueOf(request).Elem()
	fields, ok := boundedTypes.Load(v.Type())
	if !ok {
		fields, _ = boundedTypes.LoadOrStore(v.Type(), bounded(v.Type()))
	}
	f.inStruct(fields.([]field), v)
}

// bounded are the fields of a struct of which something is asked.
func bounded(t reflect.Type) (list []field) {
	for _, at := range reflect.VisibleFields(t) {
		if len(at.Index) > 1 {
			continue // of an embedded struct
		}
		b := field{index: at.Index[0]}
		if name := jsonName(at); name != "" {
			b.pointer = "/" + name
		}
		for word := range strings.FieldsFuncSeq(at.Tag.Get("validate"), func(r rune) bool { return r == ',' }) {
			word, bound, _ := strings.Cut(word, "=")
			number, err := strconv.ParseFloat(bound, 64)
			switch {
			case word == "required":
				b.required = true
			case word == "oneof", err == nil && (word == "min" || word == "max" || word == "gt"):
				b.rules = append(b.rules, rule{word, bound, number})
			default:
				panic("api: validate tag: unknown " + word + "=" + bound)
			}
		}
		held := at.Type
		for held.Kind() == reflect.Pointer || held.Kind() == reflect.Slice {
			held = held.Elem()
		}
		if held.Kind() == reflect.Struct {
			b.within = bounded(held)
		}
		if b.required || len(b.rules)+len(b.within) > 0 {
			list = append(list, b)
		}
	}
	return list
}

func (f *faults) inStruct(fields []field, v reflect.Value) {
	for i := range fields {
		from := len(*f)
		f.inField(&fields[i], v.Field(fields[i].index))
		f.below(fields[i].pointer, from)
	}
}

// below puts the faults from some number on below a pointer.
func (f *faults) below(pointer string, from int) {
	for i := from; i < len(*f); i++ {
		(*f)[i].Pointer = pointer + (*f)[i].Pointer
	}
}

// inItem puts the faults from some number on below an item of a list.
func (f *faults) inItem(item, from int) {
	if len(*f) > from {
		f.below("/"+strconv.Itoa(item), from)
	}
}

func (f *faults) inField(b *field, v reflect.Value) {
	if v.Kind() != reflect.Struct && v.IsZero() {
		if b.required {
			f.add("", "the field is missing or empty", "")
		}
		return
	}
	v = reflect.Indirect(v)
	for i := range b.rules {
		if r := &b.rules[i]; !r.holds(v) {
			detail, hint := r.wants(v)
			f.add("", detail, hint)
			return
		}
	}
	switch {
	case b.within == nil:
	case v.Kind() == reflect.Struct:
		f.inStruct(b.within, v)
	default:
		for i := range v.Len() {
			from := len(*f)
			f.inStruct(b.within, v.Index(i))
			f.inItem(i, from)
		}
	}
}

func (r *rule) holds(v reflect.Value) bool {
	switch r.word {
	case "oneof":
		return slices.Contains(strings.Fields(r.bound), v.String())
	case "min":
		return size(v) >= r.number
	case "max":
		return size(v) <= r.number
	}
	return size(v) > r.number
}

// size is a number, or the length of a list.
func size(v reflect.Value) float64 {
	switch v.Kind() {
	case reflect.Slice:
		return float64(v.Len())
	case reflect.Int:
		return float64(v.Int())
	}
	return v.Float()
}

// wants says what a value that breaks the rule should have been.
func (r *rule) wants(v reflect.Value) (detail, hint string) {
	what := "expected "
	if v.Kind() == reflect.Slice {
		what = "expected a list of "
	}
	switch r.word {
	case "oneof":
		words := strings.Fields(r.bound)
		return what + inWords(words, "or"), nearest(v.String(), words)
	case "min":
		return what + r.bound + " or more", ""
	case "max":
		return what + r.bound + " or less", ""
	}
	return what + "more than " + r.bound, ""
}
