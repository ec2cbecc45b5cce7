package api

import (
	"errors"
	"fmt"
	"net/http"

	"fifthwise/api/wire"
	"fifthwise/pkg/function"
	"fifthwise/pkg/key"
)

// maxNumerals bounds the numerals of a request.
const maxNumerals = maxChords

// realize makes chords of numerals.
//
//	@Summary		Makes chords of numerals
//	@Description	Tells the chord that each numeral spells in the key, as players write it there. Numerals are read in any style: V7/VI, V7/vi or 5 7/6. An element that ends with a colon is a key, "G major:", in which those that follow are counted. A numeral has no bass.
//	@ID				realize
//	@Tags			practice
//	@Accept			json
//	@Produce		json
//	@Param			numerals	body		wire.RealizationRequest	true	"The key and the numerals."
//	@Success		200			{object}	wire.Realization
//	@Failure		400			{object}	wire.Problem		"The body is not JSON, or a field has another type."
//	@Failure		401			{object}	wire.Problem		"The service asks for a bearer token, and none that it knows was sent."
//	@Failure		406			{object}	wire.Problem		"The answer is JSON."
//	@Failure		408			{object}	wire.Problem		"The body did not arrive in time."
//	@Failure		413			{object}	wire.Problem		"The body has more than 1 MiB, or more than 5,000 numerals."
//	@Failure		415			{object}	wire.Problem		"The body is of another media type."
//	@Failure		422			{object}	wire.Problem		"The request is understood but wrong; every fault is listed, at most 20."
//	@Failure		429			{object}	wire.Problem		"The service is set to a rate of requests, and this client keeps to a higher one; Retry-After tells when to come again."
//	@Failure		500			{object}	wire.Problem		"The fault is the service's own."
//	@Failure		503			{object}	wire.Problem		"Too many charts are being read, or too many large ones sent; Retry-After tells when to come again."
//	@Header			401			{string}	WWW-Authenticate	"Bearer, as RFC 6750 lays down."
//	@Header			429,503		{integer}	Retry-After			"Seconds to wait before coming again."
//	@Router			/v1/realizations [post]
func realize(body []byte) (any, error) {
	var request wire.RealizationRequest
	f, err := decode(body, &request)
	if err != nil {
		return nil, err
	}
	if len(request.Numerals) > maxNumerals {
		return nil, refuse(http.StatusRequestEntityTooLarge, "the request has more than %s numerals", grouped(maxNumerals))
	}
	f.ranges(&request)
	k, err := key.Parse(request.Key)
	if err != nil {
		k = key.Of(0, key.Major) // any will do to find the faults of the numerals
	}
	if request.Key != "" {
		f.syntax("/key", err)
	}
	chords, err := function.Realize(k, request.Numerals)
	f.inNumerals(err, request.Numerals)
	if err := f.err(); err != nil {
		return nil, err
	}
	answer := wire.Realization{Chords: make([]string, len(chords))}
	for i, c := range chords {
		answer.Chords[i] = c.String()
	}
	return &answer, nil
}

// inNumerals adds the faults of numerals.
func (f *faults) inNumerals(err error, numerals []string) {
	var list function.WordErrors
	errors.As(err, &list)
	for _, e := range list {
		f.syntax(fmt.Sprintf("/numerals/%d", e.Index), e)
		(*f)[len(*f)-1].Symbol = numerals[e.Index]
	}
}
