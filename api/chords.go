package api

import (
	"errors"
	"strings"

	"github.com/gin-gonic/gin"

	"fifthwise/api/wire"
	"fifthwise/pkg/chord"
	"fifthwise/pkg/pitch"
)

// getChord tells what a chord symbol means.
func (s *Server) getChord(c *gin.Context) (any, error) {
	symbol := strings.TrimPrefix(c.Param("symbol"), "/")
	parsed, err := chord.Parse(symbol)
	if err != nil {
		return nil, inPath("symbol", symbol, err)
	}
	return chordInfo(symbol, parsed), nil
}

// inPath is the refusal of a part of the path that was not understood.
func inPath(name, value string, err error) error {
	var found faults
	found.syntax("/"+name, err)
	for i := range found {
		found[i].Symbol = value
	}
	return errors.Join(found.err(), err)
}

func chordInfo(symbol string, c chord.Chord) wire.ChordInfo {
	w := wire.ChordInfo{
		Symbol:         symbol,
		Canonical:      c.String(),
		Harte:          c.Harte(),
		Family:         c.Family().String(),
		Notes:          printing{}.notes(c.Notes()),
		OtherSpellings: otherSpellings(c),
	}
	if c.IsSilence() {
		return w
	}
	w.Root, w.Bass, w.Quality = c.Root().String(), c.Bass().String(), c.Quality().String()
	for d := range c.Quality().All() {
		w.Intervals = append(w.Intervals, d.String())
	}
	return w
}

// otherSpellings are the chord on the notes that sound as its root does, with
// one accidental at most.
func otherSpellings(c chord.Chord) (names []string) {
	const enharmonic = 12 // fifths
	for _, fifths := range []int{-enharmonic, enharmonic} {
		other := c.Transpose(pitch.IntervalAt(fifths))
		if a := other.Root().Accidental(); !c.IsSilence() && a >= -1 && a <= 1 {
			names = append(names, other.String())
		}
	}
	return names
}
