package chart

import (
	"fmt"

	"fifthwise/pkg/chord"
)

// MaxChords is how many chords a bar may hold.
const MaxChords = 64

// Entry is a chord as a list of the chords of a bar gives it.
//
// With Beat it starts there; with Beats it lasts so long; else it starts where
// the one before ends. Entries without Beats share evenly what is left, up to
// the next one with Beat or to the end of the bar. Where the first one starts
// late, the chord before the bar goes on until then.
type Entry struct {
	Symbol   string
	Beat     Beats // from 1; zero: not given
	Beats    Beats // zero: not given
	Optional bool
}

// FillBar reads the symbols of a bar in a valid meter and gives each chord its
// place. The error is an [ErrorList] with the place of each bad entry as Chord.
// The chords may end before the bar does; [Chart.Validate] says where they may.
func FillBar(m Meter, entries []Entry) ([]Slot, error) {
	var faults ErrorList
	slots := fillBar(m, entries, func(e Error) { faults = append(faults, &e) }, func(string) {})
	faults.sort()
	if err := faults.orNil(); err != nil {
		return nil, err
	}
	return slots, nil
}

func fillBar(m Meter, entries []Entry, fault func(Error), warn func(string)) []Slot {
	if len(entries) > MaxChords {
		fault(Error{BarIndex: -1, Chord: MaxChords, Msg: fmt.Sprintf("a bar holds at most %d chords", MaxChords)})
		return nil
	}
	slots := make([]Slot, len(entries))
	for i, e := range entries {
		c, err := chord.Parse(e.Symbol)
		if err != nil {
			f := Error{BarIndex: -1, Chord: i, Symbol: e.Symbol}
			f.explain(err)
			fault(f)
		}
		slots[i] = Slot{Chord: c, Symbol: e.Symbol, Optional: e.Optional}
	}
	f := filling{meter: m, to: m.Beats(), entries: entries, slots: slots, warn: warn,
		fault: func(i int, msg, hint string) {
			fault(Error{BarIndex: -1, Chord: i, Symbol: entries[i].Symbol, Msg: msg, Hint: hint})
		}}
	f.fill()
	return slots
}

// filling gives the chords of a bar their places.
type filling struct {
	meter    Meter
	from, to Beats // what the chords fill, from the start of the bar
	entries  []Entry
	slots    []Slot // one an entry; At and Len are set
	fault    func(entry int, msg, hint string)
	warn     func(msg string)
}

func (f *filling) fill() {
	if !f.anchored() {
		return
	}
	for i := 0; i < len(f.entries); {
		next := i + 1
		for next < len(f.entries) && f.entries[next].Beat.IsZero() {
			next++
		}
		f.share(i, next)
		i = next
	}
}

// anchored reports whether the beats given are in order and in the bar.
func (f *filling) anchored() bool {
	ok := true
	last := -1
	for i, e := range f.entries {
		switch at := e.Beat.Sub(B(1, 1)); {
		case e.Beats.Less(Beats{}):
			f.fault(i, fmt.Sprintf("a chord of %v beats", e.Beats), "")
		case e.Beat.IsZero():
			continue
		case at.Less(f.from):
			f.fault(i, fmt.Sprintf("beat %v lies before the bar", e.Beat), fmt.Sprintf("it starts on beat %v", f.from.Add(B(1, 1))))
		case !at.Less(f.to):
			f.fault(i, fmt.Sprintf("beat %v lies behind the bar", e.Beat), fmt.Sprintf("its last beat is %v", f.to))
		case last >= 0 && !f.entries[last].Beat.Less(e.Beat):
			f.fault(i, fmt.Sprintf("beat %v does not come after beat %v", e.Beat, f.entries[last].Beat), "")
		default:
			last = i
			continue
		}
		ok = false
	}
	return ok
}

// share places the entries from i up to next, of which only the first may have
// a beat, in what lies between it and the next beat given.
func (f *filling) share(i, next int) {
	at, limit := f.from, f.to
	if b := f.entries[i].Beat; !b.IsZero() {
		at = b.Sub(B(1, 1))
	}
	if next < len(f.entries) {
		limit = f.entries[next].Beat.Sub(B(1, 1))
	}
	room := limit.Sub(at)
	left, free, last := room, 0, i
	for k := i; k < next; k++ {
		left = left.Sub(f.entries[k].Beats)
		if f.entries[k].Beats.IsZero() {
			free++
			last = k
		}
	}
	if msg, hint, k := f.misfit(left, room, free > 0, last, next); msg != "" {
		f.fault(k, msg, hint)
		return
	}
	share := left
	if free > 1 {
		share = left.Share(free)
		if !f.meter.divides(share) {
			f.warn(fmt.Sprintf("%d chords share %s evenly, %s each", free, beats(left), beats(share)))
		}
	}
	for k := i; k < next; k++ {
		length := f.entries[k].Beats
		if length.IsZero() {
			length = share
		}
		f.slots[k].At, f.slots[k].Len = at, length
		if at.den() > maxDen || length.den() > maxDen {
			f.fault(k, tooFine, "")
		}
		at = at.Add(length)
	}
}

var tooFine = fmt.Sprintf("the beat is divided into more than %d parts", maxDen)

// misfit says why chords that leave so much of their room, open or not to
// others, do not fit before entry next, and at which entry.
func (f *filling) misfit(left, room Beats, open bool, last, next int) (msg, hint string, entry int) {
	none := Beats{}
	if open && none.Less(left) || !open && (left.IsZero() || none.Less(left) && next == len(f.entries)) {
		return "", "", 0
	}
	end, to := "the end of the bar", fmt.Sprintf("the bar has %s", beats(f.to))
	if next < len(f.entries) {
		end = fmt.Sprintf("beat %v", f.entries[next].Beat)
		to = fmt.Sprintf("there are %s before %s", beats(room), end)
	}
	switch {
	case open:
		return "no time is left for the chord before " + end, to, last
	case left.Less(none):
		return fmt.Sprintf("the chord lasts %s beyond %s", beats(none.Sub(left)), end), to, next - 1
	}
	return fmt.Sprintf("no chord for %s before %s", beats(left), end), "let the chord before last until then, or write N.C.", next
}

// beats is "1 beat", "4/3 beats".
func beats(b Beats) string {
	if b == B(1, 1) {
		return "1 beat"
	}
	return b.String() + " beats"
}

// divides reports whether a length is whole beats or a part into which the
// beat is usually divided: halves, quarters, or in compound meters thirds,
// sixths and so on.
func (m Meter) divides(length Beats) bool {
	num, den := length.Fraction()
	if den == 1 {
		return true
	}
	if m.IsCompound() {
		if den%3 != 0 {
			return false
		}
		den /= 3
	}
	return num == 1 && den&(den-1) == 0
}
