package api

import (
	"errors"
	"fmt"
	"reflect"
	"strings"

	"github.com/go-playground/validator/v10"
)

var validate = func() *validator.Validate {
	v := validator.New(validator.WithRequiredStructEnabled())
	v.RegisterTagNameFunc(jsonName)
	return v
}()

// ranges adds the faults of values out of their bounds.
func (f *faults) ranges(request any) {
	err := validate.Struct(request)
	if err == nil {
		return
	}
	var list validator.ValidationErrors
	errors.As(err, &list)
	for _, e := range list {
		detail, hint := boundOf(e)
		f.add(pointerOf(e.Namespace()), detail, hint)
	}
}

// boundOf says which bound a value breaks.
func boundOf(e validator.FieldError) (detail, hint string) {
	switch e.Tag() {
	case "required":
		return "the field is missing or empty", ""
	case "oneof":
		words := strings.Fields(e.Param())
		return "expected " + inWords(words, "or"), nearest(fmt.Sprint(e.Value()), words)
	case "gt":
		return "expected more than " + e.Param(), ""
	}
	bound := e.Param() + map[string]string{"min": " or more", "max": " or less"}[e.Tag()]
	switch e.Kind() {
	case reflect.String:
		return "expected " + bound + " characters", ""
	case reflect.Slice:
		return "expected a list of " + bound, ""
	}
	return "expected " + bound, ""
}

// pointerOf turns the validator's path, AnalysisRequest.Chart.bars[3].number,
// into a JSON Pointer. Names in upper case are those of types, which JSON does
// not show.
func pointerOf(path string) string {
	var b strings.Builder
	for part := range strings.SplitSeq(path, ".") {
		if part[0] >= 'A' && part[0] <= 'Z' {
			continue
		}
		b.WriteByte('/')
		b.WriteString(strings.ReplaceAll(strings.TrimSuffix(part, "]"), "[", "/"))
	}
	return b.String()
}
