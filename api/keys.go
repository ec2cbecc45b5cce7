package api

import (
	"github.com/gin-gonic/gin"

	"fifthwise/api/wire"
	"fifthwise/pkg/chord"
	"fifthwise/pkg/function"
	"fifthwise/pkg/key"
)

// key tells what belongs to a key.
//
//	@Summary		Tells what belongs to a key
//	@Description	Signature, scale and diatonic chords of a key, and the keys next to it. A key is a tonic in upper case and a mode: Eb major, D dorian; a tonic alone is major, Ebm is minor. In the path # is written %23 and the space %20, or left out.
//	@ID				getKey
//	@Tags			reference
//	@Produce		json
//	@Param			key			path		string				true	"The key."														extensions(x-example=Eb major)
//	@Param			numerals	query		string				false	"The style of the numerals: IIm7, ii7 or 2m7."					Enums(upper, cased, arabic)	default(upper)
//	@Param			accidentals	query		string				false	"The signs of accidentals in the answer: b and #, or ♭ and ♯."	Enums(ascii, unicode)		default(ascii)
//	@Success		200			{object}	wire.KeyInfo		"The key."
//	@Failure		400			{object}	wire.Problem		"The URL is not understood."
//	@Failure		401			{object}	wire.Problem		"The service asks for a bearer token, and none that it knows was sent."
//	@Failure		404			{object}	wire.Problem		"No key is given."
//	@Failure		406			{object}	wire.Problem		"The answer is JSON."
//	@Failure		422			{object}	wire.Problem		"The name is no key, or a parameter is wrong; pointers are /key and the parameter's name."
//	@Failure		429			{object}	wire.Problem		"The service is set to a rate of requests, and this client keeps to a higher one; Retry-After tells when to come again."
//	@Failure		500			{object}	wire.Problem		"The fault is the service's own."
//	@Header			401			{string}	WWW-Authenticate	"Bearer, as RFC 6750 lays down."
//	@Header			429			{integer}	Retry-After			"Seconds to wait before coming again."
//	@Router			/v1/keys/{key} [get]
func (s *Server) key(c *gin.Context) (any, error) {
	name := c.Param("key")
	var options wire.KeyOptions
	var f faults
	if err := f.named(c, name, &options); err != nil {
		return nil, err
	}
	k, err := key.Parse(name)
	f.inPath("key", name, err)
	if err := f.err(); err != nil {
		return nil, err
	}
	p := printingOf(wire.AnalysisOptions{Numerals: options.Numerals, Accidentals: options.Accidentals})
	return p.keyInfo(k), nil
}

func (p printing) keyInfo(k key.Key) wire.KeyInfo {
	w := wire.KeyInfo{
		Key:   p.key(k),
		Tonic: p.note(k.Tonic()),
		Mode:  k.Mode().String(),
		Signature: wire.Signature{
			Sharps: max(k.Signature(), 0),
			Flats:  max(-k.Signature(), 0),
			Notes:  p.notes(k.SignatureNotes()),
		},
		Scale:            p.notes(k.Scale().Notes()),
		DiatonicTriads:   p.diatonic(k, k.Triads()),
		DiatonicSevenths: p.diatonic(k, k.Sevenths()),
		Relative:         p.key(k.Relative()),
		Parallel:         p.key(k.Parallel()),
	}
	for _, related := range k.Related() {
		w.CloselyRelated = append(w.CloselyRelated, p.key(related))
	}
	if twin, ok := k.Enharmonic(); ok {
		name := p.key(twin)
		w.Enharmonic = &name
	}
	return w
}

func (p printing) diatonic(k key.Key, chords []chord.Chord) []wire.DiatonicChord {
	w := make([]wire.DiatonicChord, len(chords))
	for i, c := range chords {
		w[i] = wire.DiatonicChord{
			Numeral: p.numeral(function.NumeralOf(c, k), k),
			Symbol:  p.symbol(c),
			Notes:   p.notes(c.Notes()),
		}
	}
	return w
}
