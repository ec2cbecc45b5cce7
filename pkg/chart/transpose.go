package chart

import (
	"errors"
	"fmt"
	"slices"

	"fifthwise/pkg/chord"
	"fifthwise/pkg/key"
	"fifthwise/pkg/pitch"
)

// Transpose is the chart an interval higher. A chart that states its key is
// spelled in the new one as [Chart.TransposeTo] spells it. In another each root
// moves by the interval, and one that would carry two accidentals is named
// plainly.
func (c Chart) Transpose(i pitch.Interval) Chart {
	if c.Key.IsValid() {
		c, _ = c.TransposeTo(c.Key, c.Key.Transpose(i)) // of one mode, so without error
		return c
	}
	c.Bars = copied(c.Bars)
	for n := range c.Bars {
		for k := range c.Bars[n].Chords {
			s := &c.Bars[n].Chords[k]
			s.rename(withoutDoubles(s.Chord.Transpose(i)))
		}
	}
	return c
}

// withoutDoubles names a root that carries two accidentals or more plainly.
func withoutDoubles(c chord.Chord) chord.Chord {
	if distance(c.Root().Accidental(), 0) > 1 {
		return c.Simplify()
	}
	return c
}

// copied is the bars with chords of their own.
func copied(bars []Bar) []Bar {
	bars = slices.Clone(bars)
	for n := range bars {
		bars[n].Chords = slices.Clone(bars[n].Chords)
	}
	return bars
}

func (s *Slot) rename(c chord.Chord) { s.Chord, s.Symbol = c, c.String() }

// Passage is where a chart goes on in another key than it stands in.
type Passage struct {
	Bar   int // of its first chord: index into Chart.Bars
	Chord int // index into the bar's Chords
	Key   key.Key
}

// TransposeTo is the chart, which stands in one key, in another of the same
// mode, spelled as players write it. Title, meters, sections, repeats, endings,
// optional groups and silences stay; symbols are the canonical ones, and the key
// is stated. A key beyond seven sharps or flats is written as [key.Key.Simplify]
// gives it. The error says that a key is invalid or the modes differ.
//
// A chord keeps its degree: what was bVI is bVI again, in the name that
// [key.Key.Spell] gives it, so that bVImaj7 is Dmaj7 in Gb major. Where one name
// is written for two degrees, as D in Gb major for bVI and #V, or where the chart
// names a root by a degree beyond bV and #IV, as D#maj7 in C, the chord decides. A
// diminished one is a leading tone or passes: its root is the one nearer, on the
// line of fifths, to that of the next chord, the first coming after the last; a
// tritone above the tonic it is #IV. Any other is flat, unless the next root is the
// same or a fifth below the sharp one, as in a chain of dominants. The bass moves
// along with its root, named as the chord tone that it sounds like.
//
// Passages, in order, say where a tune that modulates is in which key. They are
// spelled each in its own key, of two names the one whose signature is nearer to
// that of the tune: a passage in E major of a tune in C is written in Eb major where
// the tune goes to B. No root in them carries two accidentals.
//
// Down again where it came from, a chart is what it was, but for degrees that
// were named otherwise than by these rules.
func (c Chart) TransposeTo(from, to key.Key, passages ...Passage) (Chart, error) {
	switch {
	case !from.IsValid() || !to.IsValid():
		return Chart{}, errors.New("expected a key to transpose from and one to transpose to")
	case from.Mode() != to.Mode():
		return Chart{}, fmt.Errorf("the chart is in %v: expected a key in %v, not %v", from, from.Mode(), to)
	}
	to = to.Simplify()
	by := from.Tonic().To(to.Tonic())
	c.Key, c.Bars = to, copied(c.Bars)
	places := keyed(c.Bars, from, passages)
	for i := len(places) - 1; i >= 0; i-- {
		p := &places[i]
		p.degree(&places[(i+1)%len(places)])
		target := to
		if p.key != from {
			target = beside(to, p.key.Transpose(by))
		}
		moved := withToneInBass(p.slot.Chord)
		moved = moved.Transpose(moved.Root().To(target.Tonic().Add(p.above)))
		moved = target.Spell(moved)
		if target != to {
			moved = withoutDoubles(moved)
		}
		p.slot.rename(moved)
	}
	return c, nil
}

// beside is the key of a passage in the name whose signature is nearer to home's,
// then in the one with fewer sharps or flats.
func beside(home, k key.Key) key.Key {
	k = k.Simplify()
	other, ok := k.Enharmonic()
	if !ok {
		return k
	}
	a, b := distance(k.Signature(), home.Signature()), distance(other.Signature(), home.Signature())
	if b < a || b == a && distance(other.Signature(), 0) < distance(k.Signature(), 0) {
		return other
	}
	return k
}

// standing is a sounding chord and where it stands in its key.
type standing struct {
	slot  *Slot
	key   key.Key
	root  pitch.Note     // as the chart writes it
	above pitch.Interval // the root's distance from the tonic
}

// keyed lists the sounding chords, each in the key that it stands in.
func keyed(bars []Bar, k key.Key, passages []Passage) (places []standing) {
	for i := range bars {
		for n := range bars[i].Chords {
			for len(passages) > 0 && !passages[0].after(i, n) {
				if passages[0].Key.IsValid() {
					k = passages[0].Key
				}
				passages = passages[1:]
			}
			s := &bars[i].Chords[n]
			if s.Chord.IsSilence() {
				s.rename(s.Chord)
				continue
			}
			root := s.Chord.Root()
			places = append(places, standing{slot: s, key: k, root: root, above: k.Tonic().To(root)})
		}
	}
	return places
}

func (p Passage) after(bar, chord int) bool {
	return p.Bar > bar || p.Bar == bar && p.Chord > chord
}

// Degrees as fifths above the tonic: those that keys name without regard to what
// follows, and the sharpest of the leading tones to them.
const (
	flatFifth   = -6
	sharpFourth = 6
	sharpSixth  = 10
	octave      = 12 // from a name to the other of the same sound
)

// isLeading reports whether a chord may stand on a leading tone.
func isLeading(c chord.Chord) bool {
	return c.Family() == chord.Diminished || c.Family() == chord.HalfDiminished
}

// degree finds the degree that the root stands for: of two names for it the one
// that fits what follows.
func (p *standing) degree(next *standing) {
	written := p.above.Fifths()
	usual := written >= flatFifth && written <= sharpFourth
	var names []int
	for _, f := range [...]int{written - octave, written, written + octave} {
		if f >= flatFifth && f <= sharpSixth && !(usual && p.name(f) != p.root) {
			names = append(names, f)
		}
	}
	switch {
	case len(names) == 2 && p.isSharp(names[0], names[1], next):
		p.above = pitch.IntervalAt(names[1])
	case len(names) > 0:
		p.above = pitch.IntervalAt(names[0])
	}
}

func (p *standing) at(fifths int) pitch.Note { return p.key.Tonic().Add(pitch.IntervalAt(fifths)) }

// name is the root that is written for a degree.
func (p *standing) name(fifths int) pitch.Note {
	return p.key.Spell(chord.New(p.at(fifths), p.slot.Chord.Quality())).Root()
}

// isSharp decides between two names of a degree. A chord on a leading tone takes
// the one nearer to the root that follows, the sharp one where both are as near,
// and #IV in any case. Another takes the sharp one only if the next root is the same
// or follows a fifth below, unless the flat one is of the key.
func (p *standing) isSharp(flat, sharp int, next *standing) bool {
	goal, known := next.above.Fifths(), next.key == p.key && next != p
	switch {
	case isLeading(p.slot.Chord):
		return !known || sharp == sharpFourth || distance(sharp, goal) <= distance(flat, goal)
	case p.key.Has(p.at(flat)):
		return false
	}
	return known && (goal == sharp || goal == sharp-1)
}

func distance(f, g int) int { return max(f-g, g-f) }

// withToneInBass names a bass as the chord tone that it sounds like.
func withToneInBass(c chord.Chord) chord.Chord {
	if !c.HasBass() {
		return c
	}
	var room [16]pitch.Note
	for _, n := range c.AppendNotes(room[:0]) {
		if n.Sounds(c.Bass()) {
			return c.WithBass(n)
		}
	}
	return c
}
