package chord

import "fifthwise/pkg/pitch"

// Chord is a chord symbol's meaning: a spelled root, a quality and, where one
// is written, another bass. Chords are comparable: == means the same chord in
// the same spelling. The zero value is silence, "N.C.".
type Chord struct {
	quality    Quality
	root, bass pitch.Note // bass is the root where none is written
	sounds     bool
}

// New is a chord on a root, with the root in the bass.
func New(root pitch.Note, q Quality) Chord {
	return Chord{quality: q, root: root, bass: root, sounds: true}
}

// WithBass is the chord over another bass; over its root where that is given.
// Silence has no bass.
func (c Chord) WithBass(bass pitch.Note) Chord {
	if c.sounds {
		c.bass = bass
	}
	return c
}

// IsSilence reports whether no chord sounds.
func (c Chord) IsSilence() bool { return !c.sounds }

// Root is the chord's root; C for silence.
func (c Chord) Root() pitch.Note { return c.root }

// Quality is the chord without its root and bass.
func (c Chord) Quality() Quality { return c.quality }

// Bass is the written bass, or the root.
func (c Chord) Bass() pitch.Note { return c.bass }

// HasBass reports whether a bass other than the root is written.
func (c Chord) HasBass() bool { return c.bass != c.root }

// Family is the family of the quality, [None] for silence.
func (c Chord) Family() Family {
	if !c.sounds {
		return None
	}
	return c.quality.Family()
}

// Notes spells the chord upward from its root, each note once. A bass that is
// not of the chord is not among them. Silence has none.
func (c Chord) Notes() []pitch.Note { return c.AppendNotes(nil) }

// AppendNotes appends what [Chord.Notes] gives to dst.
func (c Chord) AppendNotes(dst []pitch.Note) []pitch.Note {
	if !c.sounds {
		return dst
	}
	// The degrees span from bb4 to ##7, -15 to 19 on the line of fifths.
	const lowest = 15
	var seen uint64
	for d := range c.quality.All() {
		i := d.Interval()
		mark := uint64(1) << (i.Fifths() + lowest)
		if seen&mark == 0 {
			dst = append(dst, c.root.Add(i))
		}
		seen |= mark
	}
	return dst
}

// Classes is the set of pitch classes that [Chord.Notes] has: bit n is set for
// class n.
func (c Chord) Classes() uint16 {
	if !c.sounds {
		return 0
	}
	set, up := c.quality.set().classes(), c.root.Class()
	return (set<<up | set>>(12-up)) & (1<<12 - 1)
}

// Transpose is the chord an interval above, bass and all.
func (c Chord) Transpose(i pitch.Interval) Chord { return c.on(c.root.Add(i)) }

// Simplify respells a chord whose root carries two accidentals or more or is
// E#, B#, Cb or Fb: Fbm7/Ab becomes Em7/G#. The bass moves along; one that
// still carries two accidentals or more is then respelled too.
func (c Chord) Simplify() Chord {
	c = c.on(c.root.Simplify())
	if a := c.bass.Accidental(); a < -1 || a > 1 {
		c.bass = c.bass.Simplify()
	}
	return c
}

// on is the chord on another root.
func (c Chord) on(root pitch.Note) Chord {
	if !c.sounds {
		return c
	}
	c.root, c.bass = root, root.Add(c.root.To(c.bass))
	return c
}

// String prints the canonical symbol in ASCII: "Ebmaj7", "C7b9/E", "N.C.".
// What has no name on lead sheets prints in Harte's syntax: "C:(1,5,b7)/5".
func (c Chord) String() string {
	if !c.sounds {
		return silences[0]
	}
	var room [32]byte
	return string(c.AppendTo(room[:0], pitch.ASCII))
}

// MarshalText prints as [Chord.String] does.
func (c Chord) MarshalText() ([]byte, error) { return c.AppendTo(nil, pitch.ASCII), nil }

// UnmarshalText reads what [Parse] reads.
func (c *Chord) UnmarshalText(text []byte) (err error) {
	*c, err = Parse(string(text))
	return err
}
