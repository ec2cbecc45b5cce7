package study

import (
	"fifthwise/pkg/chord"
	"fifthwise/pkg/pitch"
)

// Guides are the two degrees of a chord that tell its sound, and that lines
// through the changes are made of: the third and the seventh. A suspended chord
// has its fourth (or second) in place of the third, a power chord its fifth.
// Where there is no seventh the sixth stands for it, else a fifth that is altered,
// else the root, which a leading tone of the chord before ends on. A chord of
// the root alone has it twice. Thirds, sevenths and the notes in their place after
// R. Hutchinson, Music Theory for the 21st-Century Classroom, ch. 31; what stands
// for the seventh of a triad is common practice, no source.
func Guides(q chord.Quality) [2]chord.Degree {
	lower, upper := lowerGuide(q), upperGuide(q)
	if upper == lower {
		upper = chord.Degree{}
	}
	return [2]chord.Degree{lower, upper}
}

func lowerGuide(q chord.Quality) chord.Degree {
	if alter, ok := q.Third(); ok {
		return chord.D(3, alter)
	}
	if alter, ok := q.Fifth(); ok && q.Family() == chord.Power {
		return chord.D(5, alter)
	}
	for _, d := range [...]chord.Degree{chord.D(4, 0), chord.D(11, 0), chord.D(2, 0), chord.D(9, 0)} {
		if q.Has(d) {
			return d
		}
	}
	if alter, ok := q.Fifth(); ok {
		return chord.D(5, alter)
	}
	return chord.Degree{}
}

func upperGuide(q chord.Quality) chord.Degree {
	if alter, ok := q.Seventh(); ok {
		return chord.D(7, alter)
	}
	for _, d := range [...]chord.Degree{chord.D(6, 0), chord.D(6, -1), chord.D(13, 0)} {
		if q.Has(d) {
			return d
		}
	}
	if alter, ok := q.Fifth(); ok && alter != 0 {
		return chord.D(5, alter)
	}
	return chord.Degree{}
}

// Step is a note of a guide-tone line: what it plays over one chord. Where no
// chord sounds the line rests.
type Step struct {
	Rests  bool
	Note   pitch.Note
	Degree chord.Degree // of the chord
	Motion pitch.Motion // from the note before, rests passed over; 0 for the first
}

// lines are two lines through the chords. Each takes one of the guides of a
// chord; the two are taken so that both together move the fewest semitones, then
// so that neither leaps farther than it must, then so that the third goes to a
// seventh. What was cheapest at each chord is so in the whole, since a line may
// go on from either note.
func lines(chords []Chord) [2][]Step {
	var lines [2][]Step
	for v := range lines {
		lines[v] = make([]Step, len(chords))
	}
	var last *[2]Step
	for i := range chords {
		if chords[i].Chord.IsSilence() {
			lines[0][i].Rests, lines[1][i].Rests = true, true
			continue
		}
		now := stepsOver(chords[i].Chord)
		if last != nil {
			now = led(last, now)
		}
		lines[0][i], lines[1][i] = now[0], now[1]
		last = &now
	}
	return lines
}

func stepsOver(c chord.Chord) (steps [2]Step) {
	for v, d := range Guides(c.Quality()) {
		steps[v] = Step{Note: playable(c, c.Root().Add(d.Interval())), Degree: d}
	}
	return steps
}

// led gives each voice one of two notes.
func led(from *[2]Step, to [2]Step) [2]Step {
	same, crossed := moving(from, to), moving(from, [2]Step{to[1], to[0]})
	a, b := span(same), span(crossed)
	changes := from[0].Degree.Number() == to[0].Degree.Number()
	if b.sum < a.sum || b.sum == a.sum && (b.widest < a.widest || b.widest == a.widest && changes) {
		return crossed
	}
	return same
}

func moving(from *[2]Step, to [2]Step) [2]Step {
	for v := range to {
		to[v].Motion = from[v].Note.MotionTo(to[v].Note)
	}
	return to
}

// reach is how far two voices move, in semitones.
type reach struct{ sum, widest int }

func span(steps [2]Step) reach {
	a, b := abs(steps[0].Motion), abs(steps[1].Motion)
	return reach{a + b, max(a, b)}
}

func abs(m pitch.Motion) int { return max(int(m), -int(m)) }
