package function

import "fifthwise/pkg/chord"

// A shape is all that chords of one kind may be, counted from their root: the
// symbols of one shape differ by transposition only.
type shape struct {
	number   int
	hearings []hearing
	slots    []slot
	keys     [keyCount + 1]uint16 // where each key's slots begin
	doors    []uint16             // the slots of other doors than doorOther
	natural  uint32               // the keys in which the first hearing is diatonic, as a set
}

// A slot is an entry that fits a chord in a key: one thing that it may be.
type slot struct {
	*entry
	key    uint8 // counted from the chord's root up
	comes  uint8 // the key where regions begin here by doorOther, else keyCount
	door   door
	spot   place // as columns price it; placeCount further where the entry wants a blues
	later  bool  // it is not of the symbol's first hearing
	strict bool  // what it owes must be paid at once
}

// start is the phase in which a region that begins on the slot is.
func (s *slot) start() int {
	if s.door == doorTonic {
		return settled
	}
	return opening
}

// A hearing is what a chord symbol may be heard as: a root, in semitones above its
// own, and a kind.
type hearing struct {
	root int
	kind kind
}

// isOwn: on the symbol's own root.
func (h hearing) isOwn() bool { return h.root == 0 }

// Most symbols have one hearing. A diminished seventh has four roots; those with
// certain basses are also heard as suspended dominants, or as a dominant.
const (
	overSecond  = kindCount + iota // F/G
	overFourth                     // Dm7/G
	overSeventh                    // D/C
	shapeCount
)

// hearingsOf lists the hearings of a shape, the most telling first.
func hearingsOf(number kind) []hearing {
	switch number {
	case kDiminished7:
		return []hearing{{0, kDiminished7}, {3, kDiminished7}, {6, kDiminished7}, {9, kDiminished7}}
	case overSecond: // G9sus
		return []hearing{{2, kSus7}, {0, kMajor}}
	case overFourth: // G9sus
		return []hearing{{5, kSus7}, {0, kMinor7}}
	case overSeventh: // D7 over its seventh
		return []hearing{{0, kDominant}, {0, kMajor}}
	}
	return []hearing{{0, number}}
}

var shapes = func() (list [shapeCount]shape) {
	for n := range list {
		list[n] = newShape(kind(n))
	}
	return list
}()

func newShape(number kind) shape {
	s := shape{number: int(number), hearings: hearingsOf(number)}
	for key := range keyCount {
		s.keys[key] = uint16(len(s.slots))
		for i, h := range s.hearings {
			s.add(uint8(key), h, i > 0)
		}
	}
	s.keys[keyCount] = uint16(len(s.slots))
	for i := range s.slots {
		if s.slots[i].door != doorOther {
			s.doors = append(s.doors, uint16(i))
		}
	}
	return s
}

// add lists what a hearing may be in a key.
func (s *shape) add(key uint8, h hearing, later bool) {
	entries := vocabulary[key%modeCount]
	for id := range entries {
		e := &entries[id]
		if !e.set.has(h.kind) || int(e.root) != (h.root+12-int(key/modeCount))%12 || e.is(asWritten) && !h.isOwn() {
			continue
		}
		at := slot{entry: e, key: key, comes: keyCount, door: e.doorOf(), spot: e.place, later: later, strict: e.is(strictly)}
		if at.door == doorOther {
			at.comes = key
		}
		if e.is(blue) {
			at.spot += placeCount
		}
		if e.role == Diatonic && !later {
			s.natural |= 1 << key
		}
		s.slots = append(s.slots, at)
	}
}

// shapeOf is a chord's shape. A bass that is held through several chords (pedal)
// makes no suspended dominants.
func shapeOf(c chord.Chord, pedal bool) *shape {
	k := kindOf(c.Quality())
	if !c.HasBass() || k == kDiminished7 {
		return &shapes[k]
	}
	over := c.Root().To(c.Bass()).Semitones()
	major, minor := k == kMajor, k == kMinor
	switch {
	case over == 4 && major:
		k = kMajorOverThird
	case over == 7 && major:
		k = kMajorOverFifth
	case over == 7 && minor:
		k = kMinorOverFifth
	case pedal:
	case over == 10 && major:
		k = overSeventh
	case over == 2 && major:
		k = overSecond
	case over == 5 && k == kMinor7:
		k = overFourth
	}
	return &shapes[k]
}
