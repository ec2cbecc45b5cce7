package function

import "fifthwise/pkg/chord"

// kind is a chord's quality as far as the vocabulary tells qualities apart.
type kind uint8

const (
	kMajor kind = iota
	kMajor6
	kMajor7
	kPower
	kDominant
	kSus
	kSus7
	kAugmented
	kAugmentedMajor7
	kMinor
	kMinor6
	kMinor7
	kMinorMajor7
	kHalfDiminished
	kDiminished
	kDiminished7
	kMajorOverThird
	kMajorOverFifth
	kMinorOverFifth
	kindCount
)

// kinds is a set of kinds.
type kinds uint32

func (s kinds) has(k kind) bool { return s>>k&1 != 0 }

var (
	flat3  = chord.D(3, -1)
	third  = chord.D(3, 0)
	flat5  = chord.D(5, -1)
	fifth  = chord.D(5, 0)
	sharp5 = chord.D(5, 1)
	sixth  = chord.D(6, 0)
	flat7  = chord.D(7, -1)
	dim7   = chord.D(7, -2)
	major7 = chord.D(7, 0)
	fourth = chord.D(4, 0)
	second = chord.D(2, 0)
)

// kindOf classes a quality by its third, fifth and seventh.
func kindOf(q chord.Quality) kind {
	seventh := q.Has(flat7)
	switch {
	case q.Has(third) && seventh, q.IsAltered():
		return kDominant
	case q.Has(third) && q.Has(sharp5) && q.Has(major7):
		return kAugmentedMajor7
	case q.Has(third) && q.Has(sharp5):
		return kAugmented
	case q.Has(third) && q.Has(major7):
		return kMajor7
	case q.Has(third) && q.Has(sixth):
		return kMajor6
	case q.Has(third):
		return kMajor
	case q.Has(flat3) && q.Has(flat5) && q.Has(dim7):
		return kDiminished7
	case q.Has(flat3) && q.Has(flat5) && seventh:
		return kHalfDiminished
	case q.Has(flat3) && q.Has(flat5):
		return kDiminished
	case q.Has(flat3) && q.Has(major7):
		return kMinorMajor7
	case q.Has(flat3) && seventh:
		return kMinor7
	case q.Has(flat3) && q.Has(sixth):
		return kMinor6
	case q.Has(flat3):
		return kMinor
	case seventh && (q.Has(fourth) || q.Has(second)):
		return kSus7
	case q.Has(fourth) || q.Has(second):
		return kSus
	case seventh:
		return kDominant
	}
	return kPower
}
