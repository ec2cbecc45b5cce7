package evaluate

import (
	"bufio"
	"fmt"
	"io"
	"strings"

	"fifthwise/pkg/chart"
	"fifthwise/pkg/function"
	"fifthwise/pkg/key"
)

// Piece is a chart with what a human analyst said of each chord.
type Piece struct {
	ID, Corpus, Source string
	// TonicOnly: of the keys only the tonics are the analyst's; the modes were
	// made up to them.
	TonicOnly bool
	Chart     chart.Chart
	Answers   []Answer // one for every chord as played
}

// Answer is what the analyst said of one chord. The zero value is nothing: the
// chord is not counted.
type Answer struct {
	Key     key.Key
	Degree  function.Degree // in the key, or in the tonicised key
	Target  function.Degree // the tonicised degree; none if not applied
	Labeled bool            // Degree and Target are the analyst's
	Numeral string          // as annotated, "VII/V"
}

// maxLine bounds a line of a file in bytes.
const maxLine = 16 << 20

// Read reads annotated pieces, one JSON object a line; empty lines are passed
// over. A piece has
//
//	id          what it is called
//	corpus      the collection it belongs to; may be missing, as may
//	source      whose analysis it is
//	meter       "4/4"
//	meters      later changes: [{"bar": 9, "meter": "3/4"}]; may be missing
//	tonic_only  true where the mode of the keys is not the analyst's
//	chords      a list, in order of time
//
// and each of its chords
//
//	bar             the printed number, 0 for a pickup
//	beat            where it starts, from 1, in beats of the meter: dotted quarters in 6/8, 9/8, 12/8
//	symbol          in Harte or lead-sheet syntax, N or N.C. for silence
//	key             "Eb major"; without one the chord is not counted
//	numeral         a degree in Roman, counted from the major scale of the tonic, "bVI", or of the
//	                tonicised degree; It6, Fr43 or Ger65 for an augmented sixth; may be missing
//	applied_to      the tonicised degree, in lower case where it is minor; "" if the chord is not
//	                applied. A nested one, "V/ii", is no label of ours: only the key counts
//	section         the name of the section it lies in; may be missing
//	duration_beats  how long the last chord lasts; to the end of its bar if missing. All others
//	                last until the next
//
// Other fields are passed over. A chord that does not come after the one before
// stands in a bar that is written again, such as a second ending. A section
// starts with a bar: with that of its first chord.
//
// The first faulty line stops the reading. The error names the line, the
// chord, counted from 0, and what was expected.
func Read(r io.Reader) ([]Piece, error) {
	lines := bufio.NewScanner(r)
	lines.Buffer(nil, maxLine)
	var pieces []Piece
	n := 1
	for ; lines.Scan(); n++ {
		if strings.TrimSpace(lines.Text()) == "" {
			continue
		}
		p, err := parse(lines.Bytes())
		if err != nil {
			return nil, fmt.Errorf("line %d: %w", n, err)
		}
		pieces = append(pieces, p)
	}
	if err := lines.Err(); err != nil {
		return nil, fmt.Errorf("line %d: %w", n, err)
	}
	return pieces, nil
}

// same compares an analyst's key with another.
func (p *Piece) same(a, b key.Key) bool {
	if p.TonicOnly {
		return a.Tonic().Sounds(b.Tonic())
	}
	return sameKey(a, b)
}

// sameKey compares sounding tonics and thirds: church modes count as major or
// minor, since annotations know only those.
func sameKey(a, b key.Key) bool {
	return a.Tonic().Sounds(b.Tonic()) && a.IsMinor() == b.IsMinor()
}
