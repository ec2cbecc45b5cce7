package abc

import (
	"fmt"
	"slices"
	"strings"

	"fifthwise/pkg/chart"
)

// place is where something stands in a tune.
type place struct {
	voice  *voice // nil: none
	bar    int    // the bar's place in the voice; -1: in none
	line   int    // of the file; 0: none
	offset int    // in the line
}

// reader reads a tune.
type reader struct {
	tune     Tune
	head     settings // as the header of the tune leaves them
	order    []string // of parts
	voices   []*voice
	voice    *voice // that the music belongs to
	bars     int    // of all voices
	titled   bool
	inBody   bool
	last     byte   // the field that +: goes on with
	skip     string // the directive whose end is awaited
	goesOn   bool   // the header's line goes on in the next
	tooMany  bool   // it was said that the tune has too many bars
	faults   []fault
	warnings []chart.Warning
	warned   map[chart.Warning]bool
	texts    map[string]bool // that were said to be no chords
}

// fault is an error whose bar is not numbered yet.
type fault struct {
	*Error
	voice *voice
}

func readTune(b block, head settings, note string) (Tune, error) {
	r := reader{head: head, tune: Tune{Line: b.line}, warned: map[chart.Warning]bool{}, texts: map[string]bool{}}
	if note != "" {
		r.warn(-1, "%s", note)
	}
	if !b.isTune {
		r.warn(-1, "the tune does not begin with X:")
	}
	for l := range b.lines() {
		r.line(l)
	}
	if b.lost > 0 {
		r.warn(-1, "line %d stands behind the empty line that ends the tune and is not read", b.lost)
	}
	r.chart()
	return r.tune, r.errors(b)
}

// fault notes an error; beyond the bound it is forgotten.
func (r *reader) fault(p place, symbol, msg, hint string) *Error {
	e := &Error{Tune: r.tune.Number, Bar: p.bar, Line: p.line, Symbol: symbol, Msg: msg, Hint: hint, offset: p.offset}
	if len(r.faults) < MaxErrors {
		r.faults = append(r.faults, fault{e, p.voice})
	}
	return e
}

// maxWarnings bounds the warnings of a tune.
const maxWarnings = 200

// warn notes a warning of a bar, by its place in the voice; -1: of none.
func (r *reader) warn(bar int, format string, args ...any) {
	w := chart.Warning{Bar: bar, Message: fmt.Sprintf(format, args...)}
	if r.warned[w] || len(r.warnings) >= maxWarnings {
		return
	}
	r.warned[w] = true
	r.warnings = append(r.warnings, w)
}

// errors is the faults in the order of the file, as an error.
func (r *reader) errors(b block) error {
	if len(r.faults) == 0 {
		return nil
	}
	list := make(ErrorList, len(r.faults))
	for i, f := range r.faults {
		if list[i] = f.Error; f.voice != nil && f.Bar >= 0 {
			f.Bar += f.voice.firstNumber()
		}
	}
	list.sort()
	list.locate(b)
	return list
}

// line reads a line of the tune.
func (r *reader) line(l line) {
	switch {
	case r.skip != "":
		if strings.HasPrefix(l.text, "%%end"+r.skip) {
			r.skip = ""
		}
		return
	case l.begun() != "":
		r.skip = l.begun()
		return
	case strings.HasPrefix(l.text, "%"), l.isBlank():
		return
	}
	text := withoutComment(l.text)
	goesOn := strings.HasSuffix(strings.TrimRight(text, " \t"), `\`)
	field := l.field()
	switch {
	case field == 0 && r.goesOn && !r.inBody:
		r.more(strings.TrimRight(text, " \t\\"), place{})
	case field == 0:
		r.beginBody()
		r.music(text, l.number)
	case field == '+':
		r.more(text[2:], place{r.voice, -1, l.number, 2})
	default:
		r.last = field
		value := strings.TrimLeft(text[2:], " \t")
		r.field(field, strings.TrimSpace(value), place{r.voice, -1, l.number, len(text) - len(value)})
	}
	r.goesOn = goesOn && field != 0
}

// maxTitle is how long a title may be to be gone on with, in bytes.
const maxTitle = 2000

// more goes on with the field before.
func (r *reader) more(text string, p place) {
	switch r.last {
	case 'T':
		if !r.titled && len(r.tune.Chart.Title) < maxTitle {
			r.tune.Chart.Title = name(strings.TrimSuffix(r.tune.Chart.Title, `\`) + " " + strings.TrimSpace(text))
		}
	case 's', 'd':
		r.symbols(text, p)
	}
}

// field reads a field on a line of its own or in brackets.
func (r *reader) field(letter byte, value string, p place) {
	if !r.inBody {
		r.headerField(letter, value, p)
		return
	}
	if letter == 'V' {
		r.voice = r.voiceNamed(value)
		return
	}
	v := r.current()
	switch letter {
	case 'L':
		if u, ok := parseUnit(value); ok {
			v.unit = u
		} else {
			r.badUnit(value, p)
		}
	case 'M':
		v.unitNote()
		v.meter = r.meter(value, p)
	case 'P':
		v.part(name(value))
	case 'K':
		if k, _ := parseKey(value); k.IsValid() && k != r.tune.Chart.Key {
			r.warn(p.bar, "the key changes to %v; only the first one is a hint for the reading", k)
		}
	case 'U':
		v.userSymbol(value)
	case 's', 'd':
		r.symbols(value, p)
	case 'm':
		r.macro()
	}
}

func (r *reader) headerField(letter byte, value string, p place) {
	switch letter {
	case 'X':
		r.tune.Number = tuneNumber(value)
	case 'T':
		if r.tune.Chart.Title == "" {
			r.tune.Chart.Title = name(strings.TrimSuffix(value, `\`))
		} else {
			r.titled = true
		}
	case 'M':
		r.head.meter = r.meter(value, p)
	case 'L':
		u, ok := parseUnit(value)
		if !ok {
			r.badUnit(value, p)
		}
		r.head.unit = u
	case 'P':
		if r.order = parseOrder(value); r.order == nil && value != "" {
			r.warn(-1, "the order of parts, P:%s, is not understood; expected letters as ABA or A3(BC)2", value)
		}
	case 'U':
		r.head.userSymbol(value)
	case 'm':
		r.macro()
	case 'K':
		k, note := parseKey(value)
		if note != "" {
			r.warn(-1, "%s", note)
		}
		r.tune.Chart.Key = k
		r.beginBody()
	}
}

func (r *reader) meter(value string, p place) meter {
	m, err := parseMeter(value)
	if err != nil {
		r.fault(p, value, "", "").explain(err)
	}
	return m
}

func (r *reader) badUnit(value string, p place) {
	r.fault(p, value, "expected the length of a note", "for example L:1/8")
}

func (r *reader) macro() { r.warn(-1, "macros are not expanded; their notes are read as written") }

func (r *reader) beginBody() {
	if !r.inBody {
		r.inBody = true
		r.head.unitNote()
	}
}

// current is the voice that the music belongs to.
func (r *reader) current() *voice {
	if r.voice == nil {
		r.voice = r.voiceNamed("")
	}
	return r.voice
}

// voiceNamed is the voice of a V: field, whose first word is its name.
func (r *reader) voiceNamed(value string) *voice {
	id, _, _ := strings.Cut(strings.TrimSpace(value), " ")
	i := slices.IndexFunc(r.voices, func(v *voice) bool { return v.id == id })
	if i >= 0 {
		return r.voices[i]
	}
	if len(r.voices) == maxVoices {
		r.warn(-1, "there are more than %d voices; the notes of others are read as those of voice %s", maxVoices, r.voices[0].id)
		return r.voices[0]
	}
	v := &voice{settings: r.head, id: id, r: r}
	r.voices = append(r.voices, v)
	return v
}
