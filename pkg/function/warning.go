package function

import (
	"fmt"
	"slices"
	"strings"

	"fifthwise/pkg/chart"
	"fifthwise/pkg/key"
	"fifthwise/pkg/pitch"
)

// warnRespelled names the chords of a region that are spelled for another, each
// once.
func (a *Analysis) warnRespelled(region int) {
	o := a.outcome
	r := &a.Regions[region]
	var odd []string
	bar := 0
	for i := int(o.events[r.First]); i <= int(o.events[r.Last]); i++ {
		said := a.respelled(i, r.Key.Tonic())
		if said == "" || slices.Contains(odd, said) {
			continue
		}
		if odd = append(odd, said); len(odd) == 1 {
			bar = a.Chords[o.columns[i].first].Event.Bar
		}
	}
	if len(odd) > 0 {
		a.warn(bar, "read in %s, where these chords are respelled: %s", a.written.key(r.Key), strings.Join(odd, ", "))
	}
}

// respelled is how a column's chord is spelled and how it should be in the key
// of tonic; "" where they agree.
func (a *Analysis) respelled(column int, tonic pitch.Note) string {
	e, c := a.outcome.entry(column), a.chordOf(column)
	if !e.spellsKey(c) {
		return ""
	}
	root, _ := e.heard(c, tonic)
	want := e.rootIn(tonic)
	if root == want || !root.Sounds(want) {
		return ""
	}
	return fmt.Sprintf("%s (for %s)", a.symbolOf(column), c.Transpose(root.To(want)).AppendTo(nil, a.written.accidentals))
}

func (a *Analysis) warn(bar int, format string, args ...any) {
	a.Warnings = append(a.Warnings, chart.Warning{Bar: bar, Message: fmt.Sprintf(format, args...)})
}

// doubtful is the probability below which a chord's reading is warned of.
const doubtful = .4

// addWarnings passes on the chart's own warnings and adds the reading's: a
// stated key that is not the home key, and bars read with little confidence.
func (a *Analysis) addWarnings(c chart.Chart) {
	a.Warnings = append(append([]chart.Warning{}, c.Warnings...), a.Warnings...)
	if hint := c.Key; hint.IsValid() && !(a.Home.Tonic().Sounds(hint.Tonic()) && a.Home.IsMinor() == hint.IsMinor()) {
		a.warn(a.Chords[a.Regions[0].First].Event.Bar, "the chart states %s, but the home key is read as %s", a.written.key(hint), a.written.key(a.Home))
	}
	for _, d := range a.doubts() {
		a.warnDoubt(&d)
	}
}

// doubted is a reading that is doubted, and the next likeliest; the key of that
// is invalid where no other is left. Numerals are silent where only the key is
// doubted.
type doubted struct {
	key, other       key.Key
	numeral, instead Numeral
}

// A doubt is a run of neighbouring bars that are doubted alike.
type doubt struct {
	doubted
	first, last int      // bars
	symbols     []string // of the first doubtful chord of each bar, each once
}

// doubts are found in the first doubtful chord of each bar; a bar that is played
// again is doubted once.
func (a *Analysis) doubts() (list []doubt) {
	seen := map[int]bool{}
	for i := range a.Chords {
		r := &a.Chords[i]
		if r.Region < 0 || r.Confidence >= doubtful || seen[r.Event.Bar] {
			continue
		}
		seen[r.Event.Bar] = true
		d := a.doubted(i)
		if n := len(list); n == 0 || !list[n-1].join(d, &r.Event) {
			list = append(list, doubt{d, r.Event.Bar, r.Event.Bar, []string{r.Event.Symbol}})
		}
	}
	return list
}

func (a *Analysis) doubted(i int) doubted {
	d := doubted{key: a.Chords[i].Key, numeral: a.Chords[i].Numeral}
	if alternatives := a.Alternatives(i, 1); len(alternatives) > 0 {
		d.other, d.instead = alternatives[0].Key, alternatives[0].Numeral
	}
	return d
}

// join takes in the bar after, if it is doubted alike: the same numerals, or one
// key against the same other.
func (d *doubt) join(next doubted, played *chart.Event) bool {
	oneKey := d.key == next.key && d.other == next.other && d.other.IsValid() && d.key != d.other
	if played.Bar != d.last+1 || d.doubted != next && !oneKey {
		return false
	}
	if d.doubted != next {
		d.numeral, d.instead = Numeral{}, Numeral{}
	}
	d.last = played.Bar
	if !slices.Contains(d.symbols, played.Symbol) {
		d.symbols = append(d.symbols, played.Symbol)
	}
	return true
}

func (a *Analysis) warnDoubt(d *doubt) {
	name := func(n Numeral, k key.Key) string {
		if n.IsSilence() {
			return a.written.key(k)
		}
		return a.written.numeral(n, k) + " in " + a.written.key(k)
	}
	message := fmt.Sprintf("%s is one of several readings of %s", name(d.numeral, d.key), strings.Join(d.symbols, ", "))
	if d.first < d.last {
		message += ", " + barsInWords(d.first, d.last)
	}
	if d.other.IsValid() {
		message += fmt.Sprintf("; %s is nearly as likely", name(d.instead, d.other))
	}
	a.warn(d.first, "%s", message)
}
