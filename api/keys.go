package api

import (
	"github.com/gin-gonic/gin"

	"fifthwise/api/wire"
	"fifthwise/pkg/function"
	"fifthwise/pkg/key"
)

// getKey tells what belongs to a key.
func (s *Server) getKey(c *gin.Context) (any, error) {
	name := c.Param("key")
	k, err := key.Parse(name)
	if err != nil {
		return nil, inPath("key", name, err)
	}
	return keyInfo(k), nil
}

func keyInfo(k key.Key) wire.KeyInfo {
	print := printing{}
	w := wire.KeyInfo{
		Key:            k.String(),
		Tonic:          k.Tonic().String(),
		Mode:           k.Mode().String(),
		Signature:      k.Signature(),
		SignatureNotes: print.notes(k.SignatureNotes()),
		Scale:          print.notes(k.Scale().Notes()),
		Relative:       k.Relative().String(),
		Parallel:       k.Parallel().String(),
		Written:        k.Simplify().String(),
	}
	for _, c := range k.Sevenths() {
		w.Sevenths = append(w.Sevenths, wire.DiatonicChord{
			Numeral: function.NumeralOf(c, k).String(), Symbol: c.String(), Notes: print.notes(c.Notes()),
		})
	}
	for _, related := range k.Related() {
		w.Related = append(w.Related, related.String())
	}
	return w
}
