package function

import "fifthwise/pkg/chord"

func (e *entry) numeral(c chord.Chord) Numeral {
	return NewNumeral(e.degree, c.Quality(), e.target, e.role == TritoneSubstitute)
}

// CadenceKind tells how a phrase closes.
type CadenceKind uint8

// String is the kind in lower case, words joined by hyphens.
func (k CadenceKind) String() string { return "" }

// Reason says why chord i is read as it is.
func (a *Analysis) Reason(i int) string { return "" }

// Evidence says what speaks for region r.
func (a *Analysis) Evidence(r int) []string { return nil }

// Reason says what speaks for the alternative.
func (a Alternative) Reason() string { return "" }
