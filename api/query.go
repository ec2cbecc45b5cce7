package api

import (
	"cmp"
	"maps"
	"net/http"
	"net/url"
	"reflect"
	"slices"
	"unicode/utf8"

	"github.com/go-json-experiment/json/jsontext"
)

// query reads the parameters of a URL into a struct of optional strings and
// adds what is wrong with them to the faults. Like a field of a body, a
// parameter that is not known is refused: a slip in its name would otherwise
// go unseen. The error is the refusal of what is no query at all.
func (f *faults) query(r *http.Request, options any) error {
	given, err := url.ParseQuery(r.URL.RawQuery)
	if err != nil {
		return badSyntax(Fault{Detail: "the query is not as a URL demands", Hint: "write % as %25, ; as %3B"})
	}
	fields := reflect.ValueOf(options).Elem()
	known := make([]string, fields.NumField())
	for i := range known {
		known[i] = jsonName(fields.Type().Field(i))
		values := given[known[i]]
		if len(values) > 1 {
			f.add("/"+known[i], "the parameter stands more than once", "")
		}
		if len(values) > 0 {
			fields.Field(i).Set(reflect.ValueOf(&values[0]))
		}
		delete(given, known[i])
	}
	for _, name := range slices.Sorted(maps.Keys(given)) {
		if !utf8.ValidString(name) {
			return badSyntax(Fault{Detail: "the URL is not UTF-8"})
		}
		hint := cmp.Or(nearest(name, known), "the parameters are "+inWords(known, "and"))
		f.add(string(jsontext.Pointer("").AppendToken(name)), "unknown parameter", hint)
	}
	f.ranges(options)
	return nil
}
