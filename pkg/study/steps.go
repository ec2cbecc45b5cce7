package study

import (
	"sort"
	"strconv"
	"strings"

	"fifthwise/pkg/chart"
	"fifthwise/pkg/function"
	"fifthwise/pkg/phrase"
	"fifthwise/pkg/pitch"
)

// Steps tell the tune in sentences, from the whole to the detail: the form, the
// phrases in the order of play, the moves of the key, the odd chords out.
func (p *Plan) Steps() []string {
	if len(p.Parts) == 0 {
		return []string{}
	}
	steps := append(make([]string, 0, len(p.Parts)+len(p.analysis.Regions)+mostOdd), p.formStep())
	for i := range p.Parts {
		steps = append(steps, p.partStep(&p.Parts[i]))
	}
	steps = append(steps, p.keySteps()...)
	return append(steps, p.oddSteps()...)
}

func (p *Plan) formStep() string {
	said := "The form is " + p.Form.Letters
	if name := p.formName(); name != "" {
		said += ", " + name
	}
	return said + ": " + count(p.ToRemember, "chord") + " to remember of " + strconv.Itoa(p.Chords) + "."
}

// partStep tells one occurrence of a phrase.
func (p *Plan) partStep(part *Part) string {
	f := &p.Form.Phrases[part.Phrase]
	o := p.at(part)
	where := p.bars("Bar", o.First, o.First+f.Bars-1)
	if part.Occurrence == 0 && f.Of >= 0 {
		first, last := o.First+f.Varied[0]-1, o.First+f.Varied[len(f.Varied)-1]-1
		return where + ": " + f.Name + ", like " + p.Form.Phrases[f.Of].Name + " but for " + p.bars("bar", first, last) + ": " + p.numeralsOfBars(first, last)
	}
	if part.Occurrence == 0 {
		return where + ": " + f.Name + ", in " + p.keyAt(o.FirstChord) + ": " + p.numerals(o.FirstChord, o.LastChord, o.First, o.First+f.Bars-1) + p.sequences(f)
	}
	said := where + ": " + f.Name + " again"
	if o.Motion != 0 {
		said += ", " + o.Motion.String()
	}
	switch {
	case len(o.Differences) > 0:
		first, last := o.First+o.Differences[0]-1, o.First+o.Differences[len(o.Differences)-1]-1
		said += ", but for " + p.bars("bar", first, last) + ": " + p.numeralsOfBars(first, last)
	case !o.Exact:
		said += ", with ornaments"
	}
	return strings.TrimSuffix(said, ".") + "."
}

// sequences tells the groups of a phrase that come again at once on other roots.
func (p *Plan) sequences(f *phrase.Phrase) (said string) {
	first := f.Occurrences[0].First - 1
	for _, g := range f.Groups {
		if g.Motion != 0 && g.Bars > 1 {
			said += "; " + p.bars("bar", first+g.Bar, first+g.Bar+g.Bars-1) + ": a sequence, " + g.Motion.String()
		}
	}
	return said
}

// keySteps tell where the key moves.
func (p *Plan) keySteps() (steps []string) {
	for i := 1; i < len(p.analysis.Regions); i++ {
		r := &p.analysis.Regions[i]
		moves := "the key moves " + r.Motion.String() + ", to "
		if r.Motion == 0 {
			moves = p.analysis.Move(i) + " the key becomes "
		}
		steps = append(steps, p.barOf("Bar", r.First)+": "+moves+p.analysis.KeyName(r.Key)+".")
	}
	return steps
}

// mostOdd bounds the odd chords that are told.
const mostOdd = 6

// oddSteps tell the chords that stand out, once each and where they first come.
func (p *Plan) oddSteps() (steps []string) {
	for _, i := range p.odd() {
		r := &p.analysis.Chords[i]
		steps = append(steps, "Odd one out: "+p.barOf("bar", i)+", "+r.Event.Symbol+", "+p.analysis.NumeralOf(i)+" in "+p.analysis.KeyName(r.Key)+".")
	}
	return steps
}

// odd lists the chords of phrases first played whose roles surprise.
func (p *Plan) odd() (list []int) {
	seen := map[string]bool{}
	for i := range p.analysis.Chords {
		if !surprises(p.analysis.Chords[i].Role) || !p.isNew(i) {
			continue
		}
		name := p.analysis.NumeralOf(i)
		if len(list) < mostOdd && !seen[name] {
			seen[name] = true
			list = append(list, i)
		}
	}
	return list
}

func surprises(r function.Role) bool {
	switch r {
	case function.Diatonic, function.SecondaryDominant, function.RelatedTwo, function.BluesDominant, function.Silence:
		return false
	}
	return true
}

// isNew: chord i is played in a phrase's first occurrence.
func (p *Plan) isNew(i int) bool {
	m := p.analysis.Chords[i].Event.Measure
	for k := range p.Form.Phrases {
		f := &p.Form.Phrases[k]
		if o := &f.Occurrences[0]; m >= o.First && m < o.First+f.Bars {
			return true
		}
	}
	return false
}

func (p *Plan) keyAt(i int) string {
	for ; i < len(p.analysis.Chords); i++ {
		if k := p.analysis.Chords[i].Key; k.IsValid() {
			return p.analysis.KeyName(k)
		}
	}
	return "no key"
}

// numerals of chords, with a stroke between bars; a bar through which a chord is only
// held has a slash, as a chart does. The bars are those as played from one to
// another; the first chord may have begun before.
func (p *Plan) numerals(first, last, bar, end int) string {
	var room [256]byte
	said := room[:0]
	for i := first; i <= last; i++ {
		starts := p.analysis.Chords[i].Event.Measure
		switch {
		case i == first:
		case starts <= bar:
			said = append(said, ' ')
		default:
			said = append(appendHeld(said, starts-bar-1), " | "...)
			bar = starts
		}
		said = p.analysis.AppendNumeral(said, i)
	}
	return string(appendHeld(said, end-bar))
}

// appendHeld appends bars through which a chord is held.
func appendHeld(said []byte, bars int) []byte {
	for range bars {
		said = append(said, " | /"...)
	}
	return said
}

// numeralsOfBars are those of the chords that sound in some bars as played.
func (p *Plan) numeralsOfBars(first, last int) string {
	from, to := -1, -1
	for i := range p.analysis.Chords {
		if m := p.analysis.Chords[i].Event.Measure; m <= first && (from < 0 || m < first || p.analysis.Chords[from].Event.Measure < first) {
			from = i
		} else if m > last {
			break
		}
		to = i
	}
	return p.numerals(max(0, from), to, first, last)
}

// bars names bars as played, by the word for one, their printed numbers and the
// time through them where it is not the first.
func (p *Plan) bars(bar string, first, last int) string {
	a, pass := p.printed(first)
	b, _ := p.printed(last)
	if a == b {
		return bar + " " + strconv.Itoa(a) + time(pass)
	}
	return bar + "s " + strconv.Itoa(a) + "–" + strconv.Itoa(b) + time(pass)
}

// barOf names the bar in which chord i starts.
func (p *Plan) barOf(bar string, i int) string {
	e := &p.analysis.Chords[i].Event
	return bar + " " + strconv.Itoa(e.Bar) + time(e.Pass)
}

func time(pass int) string {
	if pass < 2 {
		return ""
	}
	return " (time " + strconv.Itoa(pass) + ")"
}

// printed is the printed number of a bar as played, and the time through it.
func (p *Plan) printed(measure int) (number, pass int) {
	after := sort.Search(len(p.analysis.Chords), func(i int) bool { return p.analysis.Chords[i].Event.Measure > measure })
	if after == 0 {
		return measure + 1, 1
	}
	at := &p.analysis.Chords[after-1].Event
	return at.Bar + measure - at.Measure, at.Pass
}

func count(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return strconv.Itoa(n) + " " + what + "s"
}

// formName is what players call a form, "" for none.
func (p *Plan) formName() string {
	switch {
	case p.isBlues():
		return "a twelve-bar blues"
	case p.Form.Letters == "AABA" && p.hasRhythmBridge():
		return "a rhythm form"
	}
	return ""
}

// isBlues: all phrases have twelve bars, and the first stands on I in bars 1, 7
// and on IV in bar 5, in one key, with V or its preparation in bar 9 or 10. See
// R. Hutchinson, Music Theory for the 21st-Century Classroom, 12.4.
func (p *Plan) isBlues() bool {
	for i := range p.Form.Phrases {
		if p.Form.Phrases[i].Bars != 12 {
			return false
		}
	}
	at := p.Form.Phrases[0].Occurrences[0].First
	ninth, tenth := p.above(at+8), p.above(at+9)
	return p.above(at) == 0 && p.above(at+4) == 5 && p.above(at+6) == 0 &&
		(ninth == 7 || ninth == 2 || ninth == 8 || tenth == 7)
}

// hasRhythmBridge: B is a chain of dominants on III, VI, II and V, two bars
// each; Open Music Theory 2, jazz chapters.
func (p *Plan) hasRhythmBridge() bool {
	for i := range p.Form.Phrases {
		f := &p.Form.Phrases[i]
		if f.Name != "B" || f.Bars != 8 {
			continue
		}
		at := f.Occurrences[0].First
		return p.above(at) == 4 && p.above(at+2) == 9 && p.above(at+4) == 2 && p.above(at+6) == 7
	}
	return false
}

// above is the root at the front of a bar as played, in semitones above the
// tune's tonic; -1 for none.
func (p *Plan) above(measure int) int {
	root := -1
	for i := range p.analysis.Chords {
		e := &p.analysis.Chords[i].Event
		if e.Measure > measure || e.Measure == measure && e.Beat != chart.B(1, 1) {
			break
		}
		if e.Chord.IsSilence() {
			root = -1
			continue
		}
		root = int(e.Chord.Root().Class().Plus(-int(p.analysis.Home.Tonic().Class())))
	}
	return root
}

// returns tells where a phrase comes back.
func (p *Plan) returns(f *phrase.Phrase) string {
	var said []string
	for _, o := range f.Occurrences[1:] {
		s := p.bars("bar", o.First, o.First+f.Bars-1)
		if o.Motion != pitch.Motion(0) {
			s += ", " + o.Motion.String()
		}
		said = append(said, s)
	}
	return strings.Join(said, "; ")
}
