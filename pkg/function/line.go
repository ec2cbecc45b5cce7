package function

import (
	"fmt"
	"slices"
	"strings"

	"fifthwise/pkg/chord"
	"fifthwise/pkg/pitch"
)

// Line is the moving voice that chord i is part of, and where in it the chord's
// own note stands: D C# C B in Dm Dm(maj7) Dm7 G7. It moves by steps in one
// direction while the root stays, and by a half step into the chord after. It
// is nil where there are fewer than three such notes. Common practice, no source.
func (a *Analysis) Line(i int) (notes []pitch.Note, at int) {
	if !a.sounds(i) {
		return nil, 0
	}
	n := int(a.outcome.strike[i])
	for _, step := range [...]int{n, n + 1} { // the line that reaches it, else the one that it opens
		if a.voiceStep(step).inLine() {
			if notes, first := a.lineAround(step); len(notes) >= 3 {
				return notes, n - first
			}
		}
	}
	return nil, 0
}

// findStrikes numbers the chords that differ from the one before, silence left
// out: a chord struck again moves no voice.
func (o *outcome) findStrikes(chords []Reading) {
	o.strike = make([]int32, len(chords))
	for i := range chords {
		c := chords[i].Event.Chord
		if n := len(o.strikes); !c.IsSilence() && (n == 0 || chords[o.strikes[n-1]].Event.Chord != c) {
			o.strikes = append(o.strikes, int32(i))
		}
		o.strike[i] = int32(len(o.strikes) - 1)
	}
}

// struck is the chord of strike n.
func (a *Analysis) struck(n int) chord.Chord { return a.Chords[a.outcome.strikes[n]].Event.Chord }

// lineAround are the notes of the line that the step into a strike is part of,
// and the strike of the first.
func (a *Analysis) lineAround(step int) (notes []pitch.Note, strike int) {
	first, last := step, step
	for a.voiceStep(first - 1).leadsInto(a.voiceStep(first)) {
		first--
	}
	for a.voiceStep(last).leadsInto(a.voiceStep(last + 1)) {
		last++
	}
	notes = append(notes, a.voiceStep(first).from)
	for i := first; i <= last; i++ {
		notes = append(notes, a.voiceStep(i).to)
	}
	return append(notes, a.lineEnd(last)...), first - 1
}

// lineEnd is the note a half step further in the chord after the line's last, if
// that chord has another root and has left the line's note.
func (a *Analysis) lineEnd(last int) []pitch.Note {
	if last+1 >= len(a.outcome.strikes) {
		return nil
	}
	s, next := a.voiceStep(last), a.struck(last+1)
	if next.Root().Sounds(a.struck(last).Root()) || next.Classes()>>s.to.Class()&1 != 0 {
		return nil
	}
	for _, n := range next.Notes() {
		if d := int(s.to.MotionTo(n)); d*s.size > 0 && max(d, -d) == 1 {
			return []pitch.Note{n}
		}
	}
	return nil
}

// A voiceStep is how one voice moves from a chord to the next on the same root.
type voiceStep struct {
	from, to   pitch.Note
	size       int  // semitones, up or down; 0 for no step
	leaves     bool // the chord after lacks the note that it comes from
	suspension bool // one of the chords is suspended
}

// inLine: a line may have this step.
func (s voiceStep) inLine() bool { return s.size != 0 && !s.suspension }

func (s voiceStep) leadsInto(t voiceStep) bool {
	return s.inLine() && t.inLine() && s.size*t.size > 0 && s.to.Sounds(t.from)
}

// voiceStep is the step into strike n; its size is 0 where more voices move, or
// none.
func (a *Analysis) voiceStep(n int) (s voiceStep) {
	if n < 1 || n >= len(a.outcome.strikes) {
		return s
	}
	before, now := a.struck(n-1), a.struck(n)
	if !before.Root().Sounds(now.Root()) {
		return s
	}
	gained, lost := onlyIn(now, before), onlyIn(before, now)
	if before.Quality().Has(sharp5) {
		gained = slices.DeleteFunc(gained, func(n pitch.Note) bool { return n.Sounds(now.Root().Add(pitch.PerfectFifth)) && len(gained) > 1 })
	}
	if len(gained) != 1 || len(lost) > 1 {
		return s
	}
	s.to, s.leaves, s.suspension = gained[0], len(lost) == 1, isSuspended(before) || isSuspended(now)
	if s.leaves {
		s.from, s.size = lost[0], stepTo(lost[0], s.to, 2)
		return s
	}
	// A note that stays behind is heard to move too: the root by a half step,
	// the fifth by a step.
	s.from, s.size = before.Root(), stepTo(before.Root(), s.to, 1)
	if alter, ok := before.Quality().Fifth(); ok && s.size == 0 {
		s.from = before.Root().Add(pitch.Degree(5, alter))
		s.size = stepTo(s.from, s.to, 2)
	}
	return s
}

// stepTo is the distance in semitones, up or down, if it is at most so many.
func stepTo(from, to pitch.Note, most int) int {
	if d := int(from.MotionTo(to)); max(d, -d) <= most {
		return d
	}
	return 0
}

func isSuspended(c chord.Chord) bool {
	k := kindOf(c.Quality())
	return k == kSus || k == kSus7
}

// onlyIn are the notes of c that d has not.
func onlyIn(c, d chord.Chord) (notes []pitch.Note) {
	classes := d.Classes()
	for _, n := range c.Notes() {
		if classes>>n.Class()&1 == 0 {
			notes = append(notes, n)
		}
	}
	return notes
}

// movingVoice tells of a voice that moves while the root stays, to chord i.
func (a *Analysis) movingVoice(i int) string {
	if notes, at := a.Line(i); notes != nil {
		var names []string
		for _, n := range notes {
			names = append(names, a.written.note(n))
		}
		line := strings.Join(names, "–")
		if at == 0 {
			return "it opens the line " + line
		}
		return names[at] + " carries on the line " + line
	}
	n := int(a.outcome.strike[i])
	s := a.voiceStep(n)
	switch {
	case !s.leaves || s.size == 0:
		return ""
	case isSuspended(a.struck(n - 1)):
		return fmt.Sprintf("the suspended %s moves to %s", a.written.note(s.from), a.written.note(s.to))
	case s.size == 1 || s.size == -1:
		return fmt.Sprintf("one voice moves, from %s to %s", a.written.note(s.from), a.written.note(s.to))
	}
	return ""
}
