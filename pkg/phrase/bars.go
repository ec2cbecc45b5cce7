package phrase

import (
	"encoding/binary"
	"math"
	"strings"

	"fifthwise/pkg/chart"
	"fifthwise/pkg/chord"
	"fifthwise/pkg/pitch"
)

// A bar is one bar of the tune as played: what sounds in it, with roots counted
// from its first chord's, so that bars in different keys compare equal.
type bar struct {
	shape  int32       // equal for bars of the same families, lengths and root motions
	plain  int32       // the same, without twos that only prepare a dominant of the same bar
	root   pitch.Class // of its first chord; of the last chord before where it is silent
	silent bool        // no chord sounds
	lead   pitch.Class // the same of plain
	front  chart.Beats // where it begins, from the first beat of bar 1
	sounds []sound     // equal neighbours once
	needed int         // how many of these, without twos that only prepare a dominant
	first  int         // event that sounds as it begins
	last   int         // event that sounds as it ends
	opens  bool        // a section begins here, or a repeat returns to here
	soft   bool        // a double bar or repeat sign stands before it
	named  bool        // it lies in a section with a name
	letter string      // the letter that is that name, if it is one; for A' and A2 it is A
}

// A sound is a chord within a bar.
type sound struct {
	at     chart.Beats // from the front of the bar
	root   pitch.Class
	family chord.Family
}

// firstRoot is the root of the first chord among sounds; false if all is silent.
func firstRoot(sounds []sound) (root pitch.Class, ok bool) {
	for i := range sounds {
		if sounds[i].family != chord.None {
			return sounds[i].root, true
		}
	}
	return 0, false
}

// shapes numbers what bars may hold, by their contents.
type shapes struct {
	numbers map[string]int32
	room    []byte
}

// number is that of a bar's sounds; new ones get the next.
func (s *shapes) number(sounds []sound, length chart.Beats) int32 {
	s.room = appendContents(s.room[:0], sounds, length)
	n, ok := s.numbers[string(s.room)]
	if ok {
		return n
	}
	if s.numbers == nil {
		s.numbers = map[string]int32{}
	}
	n = int32(len(s.numbers))
	s.numbers[string(s.room)] = n
	return n
}

// appendContents appends to key what is equal for bars of the same families,
// lengths and root motions.
func appendContents(key []byte, sounds []sound, length chart.Beats) []byte {
	root, _ := firstRoot(sounds)
	key = binary.LittleEndian.AppendUint64(key, math.Float64bits(length.Float64()))
	for i := range sounds {
		key = binary.LittleEndian.AppendUint64(key, math.Float64bits(sounds[i].at.Float64()))
		up := sounds[i].root.Plus(-int(root))
		if sounds[i].family == chord.None {
			up = 0
		}
		key = append(key, byte(sounds[i].family), byte(up))
	}
	return key
}

// barsOf lists the bars of a tune as played. A pickup belongs to none.
func barsOf(events []chart.Event) []bar { return barsNumbered(events, new(shapes).number) }

// barsNumbered lists bars, their shapes numbered in some way.
func barsNumbered(events []chart.Event, number func([]sound, chart.Beats) int32) (bars []bar) {
	if len(events) == 0 {
		return nil
	}
	bars = make([]bar, 0, max(0, lastMeasure(events, len(events)-1)+1))
	root := opening(events)
	early := false // a section has begun late in the bar before
	all := make([]sound, 0, 2*len(events))
	var plain []sound
	for i := range events {
		e := &events[i]
		for m := len(bars); m <= lastMeasure(events, i); m++ {
			b := bar{first: i, root: root}
			front := frontOf(e)
			for range m - e.Measure {
				front = front.Add(e.BarLen)
			}
			if m == e.Measure && i > 0 && front.Less(e.Start) {
				b.first = i - 1 // held from the bar before
			}
			n := len(all)
			all = b.listen(all, events, front, e.BarLen)
			sounds := all[n:]
			if r, ok := firstRoot(sounds); ok {
				b.root = r
			} else {
				b.silent = true
			}
			root = b.root
			b.front, b.sounds, b.lead = front, sounds, b.root
			plain = withoutTwos(plain[:0], sounds)
			b.shape = number(sounds, e.BarLen)
			b.plain = b.shape
			if len(plain) < len(sounds) {
				b.plain = number(plain, e.BarLen)
			}
			b.needed = len(plain)
			if r, ok := firstRoot(plain); ok {
				b.lead = r
			}
			b.named, b.letter = events[b.last].Section != "", letterOf(events[b.last].Section)
			early = b.mark(events, m, early)
			bars = append(bars, b)
		}
	}
	openRepeats(bars, events)
	return bars
}

// openRepeats opens the bars to which a repeat returns later.
func openRepeats(bars []bar, events []chart.Event) {
	written := 0
	for i := range events {
		written = max(written, events[i].BarIndex+1)
	}
	played := make([]int, written) // where a written bar is first played, from 1; 0 for nowhere yet
	for i := range bars {
		first := bars[i].first
		e := &events[first]
		if e.Measure != i || e.Beat != chart.B(1, 1) {
			continue
		}
		before := played[e.BarIndex]
		if before == 0 {
			played[e.BarIndex] = i + 1
			continue
		}
		if e.BarIndex <= events[first-1].BarIndex {
			bars[before-1].opens = true
		}
	}
}

// opening is the root of the first chord of all.
func opening(events []chart.Event) pitch.Class {
	for i := range events {
		if !events[i].Chord.IsSilence() {
			return events[i].Chord.Root().Class()
		}
	}
	return 0
}

// lastMeasure is the last measure of which event i is the first to start in it
// or is held through all of it.
func lastMeasure(events []chart.Event, i int) int {
	e := &events[i]
	if i+1 < len(events) {
		next := &events[i+1]
		if next.Beat == chart.B(1, 1) {
			return next.Measure - 1
		}
		return max(e.Measure, next.Measure-1)
	}
	end, m := e.Start.Add(e.Len), e.Measure
	front := frontOf(e)
	for front = front.Add(e.BarLen); front.Less(end); front = front.Add(e.BarLen) {
		m++
	}
	return m
}

// frontOf is where the bar begins in which a chord starts.
func frontOf(e *chart.Event) chart.Beats { return e.Start.Sub(e.Beat.Sub(chart.B(1, 1))) }

// listen appends what sounds in a bar, equal neighbours once.
func (b *bar) listen(dst []sound, events []chart.Event, front, length chart.Beats) []sound {
	from := len(dst)
	end := front.Add(length)
	b.last = b.first
	for j := b.first; j < len(events) && events[j].Start.Less(end); j++ {
		e := &events[j]
		b.last = j
		s := sound{chart.Beats{}, e.Chord.Root().Class(), e.Chord.Family()}
		if e.Chord.IsSilence() {
			s = sound{family: chord.None}
		}
		if front.Less(e.Start) {
			s.at = e.Start.Sub(front)
		}
		if n := len(dst); n > from && dst[n-1].root == s.root && dst[n-1].family == s.family {
			continue
		}
		dst = append(dst, s)
	}
	return dst
}

// withoutTwos appends the sounds to an empty list, without minor and
// half-diminished chords that only prepare the dominant a fourth above them.
func withoutTwos(plain, sounds []sound) []sound {
	for i := range sounds {
		s := sounds[i]
		if n := len(plain); n > 0 && s.family == chord.Dominant && s.root == plain[n-1].root.Plus(5) &&
			(plain[n-1].family == chord.Minor || plain[n-1].family == chord.HalfDiminished) {
			s.at = plain[n-1].at
			plain = plain[:n-1]
		}
		plain = append(plain, s)
	}
	return plain
}

// letterOf is the letter that a section's name is, but for primes and figures behind
// it; "" for other names.
func letterOf(section string) string {
	letter := strings.TrimRight(section, "'′’ 0123456789")
	if len(letter) != 1 || letter[0] < 'A' || letter[0] > 'Z' {
		return ""
	}
	return letter
}

// mark notes what the chart says of a bar: whether a section begins with it, or
// in its first half; one that begins in its second half, with a chord that comes
// early, begins with the next.
func (b *bar) mark(events []chart.Event, measure int, early bool) (next bool) {
	b.opens = early
	for j := b.first; j <= b.last; j++ {
		e := &events[j]
		if e.Measure != measure {
			continue
		}
		into := e.Beat.Sub(chart.B(1, 1))
		if into.IsZero() {
			b.soft = e.Boundary
			b.opens = b.opens || j > 0 && e.BarIndex <= events[j-1].BarIndex
		}
		switch {
		case !e.SectionStart:
		case into.Add(into).Less(e.BarLen):
			b.opens = true
		default:
			next = true
		}
	}
	return next
}
