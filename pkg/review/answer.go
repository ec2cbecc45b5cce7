package review

import (
	"errors"
	"fmt"
	"regexp"
	"slices"
	"strings"

	"fifthwise/pkg/chart"
	"fifthwise/pkg/function"
	"fifthwise/pkg/internal/complaint"
	"fifthwise/pkg/key"
	"fifthwise/pkg/pitch"
)

// Answer is somebody's analysis of a chart.
type Answer struct {
	// Regions are the keys in the order of play. Chords before the first, or
	// all where there is none, are taken in the key of the reading.
	Regions []Region
	// Numerals are one for each sounding chord as played, in any style; empty:
	// left blank. Nil: none was asked for.
	Numerals []string
}

// Region is a key from a place on.
type Region struct {
	Key  key.Key
	Bar  int         // as numbered; its first chord on Beat or later begins the region
	Beat chart.Beats // from 1; zero: the first
	Pass int         // times through that bar; 0: the first

	// NoMode says that the key was written without m or a mode, as "C" is, and so
	// taken as major.
	NoMode bool
}

// ParseKey reads a region's key as [key.Parse] does, and whether it was written
// without a mode.
func ParseKey(s string) (k key.Key, noMode bool, err error) {
	k, err = key.Parse(s)
	_, isMore := pitch.Parse(strings.TrimSpace(s))
	return k, err == nil && isMore == nil, err
}

// Error is a fault of an answer.
type Error struct {
	Field  string // regions or numerals
	Index  int    // in that list; -1: the list as a whole
	Part   string // key, bar, beat or pass of a region; empty: all of it
	Offset int    // bytes into a numeral where the fault begins
	Msg    string // what is wrong, in lower case
	Hint   string // what would be right; may be empty
	cause  error
}

// Error says where the fault is, what is wrong and what would be right:
//
//	numerals 3: expected a degree I to VII or 1 to 7 (a chord symbol is no numeral)
func (e *Error) Error() string {
	where := e.Field
	if e.Index >= 0 {
		where += fmt.Sprintf(" %d", e.Index)
	}
	if e.Part != "" {
		where += " " + e.Part
	}
	return complaint.Text([]string{where}, e.Msg, e.Hint)
}

// Unwrap is the numeral parser's own error, or nil.
func (e *Error) Unwrap() error { return e.cause }

// ErrorList is all faults of an answer, regions first.
type ErrorList []*Error

// Error says the faults one a line, at most ten.
func (l ErrorList) Error() string { return complaint.Lines(l) }

// Unwrap gives errors.Is and errors.As the single faults.
func (l ErrorList) Unwrap() []error { return complaint.Each(l) }

// stated is what an answer says of one chord.
type stated struct {
	text      string // as written; empty: blank
	numeral   function.Numeral
	bare      bool    // it states no quality
	figures   string  // as written, that say what is in the bass; empty: none
	isSeventh bool    // it states a seventh chord, and not what seventh that is
	region    int     // of the answer; -1: none
	key       key.Key // that it is read in
	chance    float64 // of that key, in the passage where another is heard
	counted   key.Key // in which the passage's numerals seem to be counted; invalid: in key
}

// reading is an answer laid beside the chords of a chart.
type reading struct {
	*function.Analysis
	chords     []int // the sounding chords, as indexes into Chords
	stated     []stated
	starts     []int // of the answer's regions, as indexes into chords
	caseTells  bool  // lower case is used, so that capitals mean major
	hasFigures bool  // a numeral has figures that can be nothing but thoroughbass
	faults     ErrorList
}

// read lays an answer beside a reading. The error is an ErrorList.
func read(a *function.Analysis, answer Answer) (*reading, error) {
	r := &reading{Analysis: a}
	for i := range a.Chords {
		if a.Chords[i].Region >= 0 {
			r.chords = append(r.chords, i)
		}
	}
	r.stated = make([]stated, len(r.chords))
	r.begin(answer.Regions)
	r.parse(answer.Numerals)
	if len(r.faults) > 0 {
		return nil, r.faults
	}
	next := 0
	for i, c := range r.chords {
		s := &r.stated[i]
		for next < len(r.starts) && r.starts[next] <= i {
			next++
		}
		s.region, s.key = next-1, a.Chords[c].Key
		if s.region >= 0 {
			s.key = answer.Regions[s.region].Key
		}
	}
	r.weighKeys()
	return r, nil
}

// weighKeys gives the chords of each passage that lies in one region of the answer
// and in one of the reading the probability of the key stated for them, and the key
// in which their numerals are counted.
func (r *reading) weighKeys() {
	others := r.keys()
	for first := 0; first < len(r.stated); {
		last := first
		for last+1 < len(r.stated) && r.stated[last+1].region == r.stated[first].region && r.Chords[r.chords[last+1]].Region == r.Chords[r.chords[first]].Region {
			last++
		}
		chance := r.chance(r.stated[first].key, first, last)
		counted := r.countedIn(others, first, last)
		for ; first <= last; first++ {
			r.stated[first].chance, r.stated[first].counted = chance, counted
		}
	}
}

// keys are those of the reading, each once, home first.
func (r *reading) keys() (keys []key.Key) {
	add := func(k key.Key) {
		if k.IsValid() && !slices.ContainsFunc(keys, func(o key.Key) bool { return sameKey(o, k) }) {
			keys = append(keys, k)
		}
	}
	add(r.Home)
	for i := range r.Analysis.Regions {
		add(r.Analysis.Regions[i].Key)
	}
	return keys
}

// countedIn is the first key in which most numerals of a passage spell their
// chords. It is invalid if they do in the key that they are read in.
func (r *reading) countedIn(others []key.Key, first, last int) key.Key {
	most := func(k key.Key) bool {
		said, fitting := 0, 0
		for i := first; i <= last; i++ {
			if s := &r.stated[i]; s.text != "" {
				said++
				if _, _, fits := r.readIn(k, s, &r.Chords[r.chords[i]]); fits {
					fitting++
				}
			}
		}
		return 2*fitting > said
	}
	if most(r.stated[first].key) {
		return key.Key{}
	}
	for _, k := range others {
		if most(k) {
			return k
		}
	}
	return key.Key{}
}

func (r *reading) fault(e Error) { r.faults = append(r.faults, &e) }

// parse reads the numerals.
func (r *reading) parse(numerals []string) {
	if numerals == nil {
		return
	}
	if len(numerals) != len(r.chords) {
		r.fault(Error{Field: "numerals", Index: -1, Msg: fmt.Sprintf("%d numerals for %d sounding chords", len(numerals), len(r.chords)),
			Hint: "one for each chord as played, repeats unfolded, silences left out, blanks included"})
		r.stated = make([]stated, len(numerals)) // to find the other faults
	}
	for i, s := range numerals {
		_, figures := withoutInversion(s, r.isOverThird(i))
		r.caseTells = r.caseTells || isLower(s)
		r.hasFigures = r.hasFigures || r.inFigures(i, figures)
	}
	for i, text := range numerals {
		if strings.TrimSpace(text) == "" {
			continue
		}
		plain, figures := withoutInversion(text, r.isOverThird(i))
		n, err := function.ParseNumeral(plain)
		if err == nil && n.IsSilence() {
			err = &pitch.SyntaxError{Input: text, Msg: "the chord sounds", Hint: "silences have no place in the list"}
		}
		if err != nil {
			r.fault(numeralError(i, text, plain, err))
			continue
		}
		s := &r.stated[i]
		s.text, s.numeral = strings.TrimSpace(text), n
		s.bare = !r.caseTells && statesNoQuality(plain)
		s.figures, s.isSeventh = figures, seventh.MatchString(strings.TrimSpace(plain))
	}
}

// numeralError is the fault of a numeral that was read without its figures of
// inversion, at its place in the text as written.
func numeralError(i int, text, plain string, err error) Error {
	e := Error{Field: "numerals", Index: i, Msg: err.Error(), cause: err}
	var syntax *pitch.SyntaxError
	if !errors.As(err, &syntax) {
		return e
	}
	e.Offset, e.Msg, e.Hint = syntax.Offset, syntax.Msg, syntax.Hint
	if at := joined.FindStringSubmatchIndex(plain); at != nil && at[2] == e.Offset {
		e.Msg, e.Hint = "another numeral begins here", "write one a chord, with a space between"
	}
	same := 0
	for same < min(len(text), len(plain)) && text[same] == plain[same] {
		same++
	}
	if e.Offset > same {
		e.Offset += len(text) - len(plain)
	}
	return e
}

// joined finds where a numeral that is joined to the one before begins: ii-V.
var joined = regexp.MustCompile(`^[^/]*?-([b#♭♯]*[IViv])`)

// isLower reports whether a numeral's degree is in lower case.
func isLower(s string) bool {
	s = strings.TrimLeft(s, " b#♭♯")
	return s != "" && (s[0] == 'i' || s[0] == 'v')
}

// statesNoQuality reports whether a numeral is a degree, with its target, and
// nothing more.
func statesNoQuality(s string) bool {
	head, _, _ := strings.Cut(s, "/")
	head, _, _ = strings.Cut(head, " of ")
	head = strings.TrimLeft(strings.TrimSpace(head), "b#♭♯")
	return strings.Trim(head, "IV") == "" || len(head) == 1 && head >= "1" && head <= "7"
}

// begin finds the chords with which the answer's regions begin.
func (r *reading) begin(regions []Region) {
	after := 0
	for n, g := range regions {
		fault := func(part, msg, hint string) {
			r.fault(Error{Field: "regions", Index: n, Part: part, Msg: msg, Hint: hint})
		}
		if !g.Key.IsValid() {
			fault("key", "the region has no key", "such as F major")
			continue
		}
		beat, pass := g.Beat, max(1, g.Pass)
		if beat.IsZero() {
			beat = chart.B(1, 1)
		}
		first, last := r.inBar(g.Bar, pass)
		switch {
		case first < 0 && !r.hasBar(g.Bar):
			fault("bar", fmt.Sprintf("no chord starts in bar %d", g.Bar), "a region begins with a chord")
			continue
		case first < 0:
			fault("pass", fmt.Sprintf("bar %d is not played %d times", g.Bar, pass), "")
			continue
		}
		at := first
		for at <= last && r.Chords[r.chords[at]].Event.Beat.Less(beat) {
			at++
		}
		if at > last {
			fault("beat", fmt.Sprintf("no chord of bar %d starts on beat %v or later", g.Bar, beat), "a region begins with a chord")
			continue
		}
		if n > 0 && at < after {
			fault("", "the region does not begin after the one before", "regions stand in the order of play")
			continue
		}
		r.starts = append(r.starts, at)
		after = at + 1
	}
}

// inBar is the chords that start in a bar on a pass; first is -1 if none does.
func (r *reading) inBar(bar, pass int) (first, last int) {
	first = -1
	for i, c := range r.chords {
		if e := &r.Chords[c].Event; e.Bar == bar && e.Pass == pass {
			if first < 0 {
				first = i
			}
			last = i
		}
	}
	return first, last
}

func (r *reading) hasBar(bar int) bool {
	first, _ := r.inBar(bar, 1)
	return first >= 0
}
