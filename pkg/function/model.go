package function

import (
	"math"
	"sync/atomic"

	"fifthwise/pkg/key"
)

// Model is a set of weights made ready for the search: costs turned into
// factors, e to minus cost over temperature.
type Model struct {
	weights Weights
	factor  [termCount]float64
	round   [termCount]float64 // from the last chord of a chart to its first
	slots   [shapeCount][]slotFactors
	steps   [shapeCount][shapeCount][12]atomic.Pointer[steps] // by the shapes of two chords and the interval of their roots; made when first wanted
	modes   modeFactors                                       // of a change of key from one mode to another
	come    modeFactors                                       // the same, to one mode from another
	open    kernel                                            // to a region that owes its tonic
	thin    kernel                                            // to a region that starts on its tonic
}

// slotFactors are what a slot pays as the chord itself, as the first of its region,
// and as the last, once the tonic has sounded or while that is owed.
type slotFactors struct{ fit, enter, leave, quit float64 }

type modeFactors [modeCount][modeCount]float64

// NewModel prepares weights. What two chords in a row make of them is found when a
// chart first has the two, and kept.
func NewModel(w Weights) *Model {
	m := &Model{weights: w}
	for t := range m.factor {
		m.factor[t] = math.Exp(-w[t] / temperature)
		m.round[t] = math.Pow(m.factor[t], circle)
	}
	for n := range shapes {
		m.slots[n] = m.slotsOf(&shapes[n])
	}
	for from := range modeCount {
		for to := range modeCount {
			m.modes[from][to] = 1
			if t, ok := modeTerm(from, to); ok {
				m.modes[from][to] = m.factor[t]
			}
			m.come[to][from] = m.modes[from][to]
		}
	}
	m.open = m.newKernel(ChangeSignature0)
	m.thin = m.newKernel(ChangeThin0)
	return m
}

func (m *Model) slotsOf(s *shape) []slotFactors {
	list := make([]slotFactors, len(s.slots))
	for i := range s.slots {
		e, f := &s.slots[i], &list[i]
		f.fit, f.enter = m.factor[e.fit], m.factor[enterTerm(e.entry)]
		if e.later {
			f.fit *= m.factor[laterHearing(s.hearings[0].kind)]
		}
		if !e.is(strictly) {
			f.leave = m.factor[leaveTerm(e.entry)]
		}
		if e.homeDominant() {
			f.quit = m.factor[LeaveUnsettled]
		}
	}
	return list
}

// laterHearing is the term of a hearing that is not a symbol's first.
func laterHearing(first kind) Term {
	if first == kDiminished7 {
		return FitRespelled
	}
	return FitSecondHearing
}

// roundTerm is what an entry at the chart's end pays where the first chord does
// not follow it in the key.
func roundTerm(e *entry) Term {
	if e.owes() && !e.homeDominant() {
		return PairBroken
	}
	return PairOtherToTonic
}

// A kernel is the factor of a change of key by the distance of the signatures
// on the circle of fifths, 0 to 6. With the factors of the modes it carries what
// leaves all keys to all keys: by folding minor keys onto their relative majors
// the 24 by 24 sum becomes circular sums over 12 points.
type kernel [7]float64

func (m *Model) newKernel(first Term) (k kernel) {
	for d := range k {
		k[d] = m.factor[first+Term(d)]
	}
	return k
}

// near is the kernel with a further factor for keys at most a step away.
func (k kernel) near(factor float64) kernel {
	k[0] *= factor
	k[1] *= factor
	return k
}

// modeTerm is the term of a change between modes; major to major has none.
func modeTerm(from, to int) (t Term, ok bool) {
	switch {
	case from == major && to == minor:
		return ChangeMajorMinor, true
	case from == minor && to == major:
		return ChangeMinorMajor, true
	case from == minor:
		return ChangeMinorMinor, true
	}
	return 0, false
}

// Keys are numbered by their tonic's pitch class and mode.
const keyCount = 24

// indexOf is a key's number; church modes count by their third.
func indexOf(k key.Key) int {
	mode := major
	if k.IsMinor() {
		mode = minor
	}
	return keyIndex(int(k.Tonic().Class()), mode)
}

func keyIndex(tonic, mode int) int { return tonic*modeCount + mode }

// circleOf is the place of each key's signature on the circle of fifths, 0 for
// C major and A minor.
var circleOf = func() (c [keyCount]uint8) {
	for tonic := range 12 {
		c[keyIndex(tonic, major)] = uint8(7 * tonic % 12)
		c[keyIndex(tonic, minor)] = uint8(7 * (tonic + 3) % 12)
	}
	return c
}()

var keyAt = func() (k [modeCount][12]uint8) {
	for i, c := range circleOf {
		k[i%modeCount][c] = uint8(i)
	}
	return k
}()
