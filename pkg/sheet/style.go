package sheet

import (
	"fifthwise/pkg/function"
	"fifthwise/pkg/pitch"
)

// Style is how numerals and accidentals are written. The zero value is all
// capitals in ASCII.
type Style struct {
	Numerals    function.NumeralStyle
	Accidentals pitch.Accidentals
	Steps       bool // on a drawn sheet, tell the steps of the study plan below
}
