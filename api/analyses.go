package api

import (
	"github.com/gin-gonic/gin"
	"github.com/go-json-experiment/json"
)

// analyses reads one chart, or one a line.
//
//	@Summary		Reads a chart
//	@Description	Tells key regions, a numeral under every chord, what each chord does and why. With the media type application/x-ndjson the body is one request a line and the answer one answer a line, in the same order, flowing while requests still come; a line that is refused has {"line", "problem"} in its place.
//	@ID				analyze
//	@Tags			reading
//	@Accept			json,application/x-ndjson
//	@Produce		json,application/x-ndjson
//	@Param			chart	body		wire.AnalysisRequest	true	"The chart. Exactly one of changes and bars is given."
//	@Success		200		{object}	wire.Analysis
//	@Failure		400		{object}	wire.Problem		"The body is not JSON, or a field has another type."
//	@Failure		401		{object}	wire.Problem		"The service asks for a bearer token, and none that it knows was sent."
//	@Failure		406		{object}	wire.Problem		"The answer is JSON."
//	@Failure		408		{object}	wire.Problem		"The body did not arrive in time."
//	@Failure		413		{object}	wire.Problem		"The body has more than 1 MiB, or the chart more than 2,000 bars or 5,000 chords."
//	@Failure		415		{object}	wire.Problem		"The body is of another media type."
//	@Failure		422		{object}	wire.Problem		"The request is understood but wrong; every fault is listed, at most 20."
//	@Failure		429		{object}	wire.Problem		"The service is set to a rate of requests, and this client keeps to a higher one; Retry-After tells when to come again."
//	@Failure		500		{object}	wire.Problem		"The fault is the service's own."
//	@Failure		503		{object}	wire.Problem		"Too many charts are being read, or too many large ones sent; Retry-After tells when to come again."
//	@Header			401		{string}	WWW-Authenticate	"Bearer, as RFC 6750 lays down."
//	@Header			429,503	{integer}	Retry-After			"Seconds to wait before coming again."
//	@Router			/v1/analyses [post]
func (s *Server) analyses(c *gin.Context) {
	media, err := mediaOf(c.Request, mediaJSON, mediaLines)
	switch {
	case err != nil:
		s.refuse(c, err)
	case media == mediaLines:
		s.stream(c, s.analyze)
	default:
		s.answer(func(c *gin.Context) (any, error) {
			answer, err := s.worked(c, maxBody, s.analyze)
			return encoded(answer), err
		})(c)
	}
}

// analyze answers one request with JSON.
func (s *Server) analyze(body []byte) ([]byte, error) {
	var f faults
	given, err := f.request(body)
	if err != nil {
		return nil, err
	}
	if err := f.err(); err != nil {
		return nil, err
	}
	p := printingOf(given.options)
	a := p.analyze(given.Chart)
	s.metrics.chords.Add(float64(len(a.Chords)))
	return json.Marshal(p.answer(given.Chart, &a))
}
