package api

import (
	"cmp"
	"net/http"

	"github.com/gin-gonic/gin"

	"fifthwise/api/wire"
)

// maxChart bounds the body that holds a chart, in bytes: scores are large.
const maxChart = 8 << 20

// charts gives a chart in another form.
//
//	@Summary		Converts a chart
//	@Description	The body is a chart in one of several forms, named by Content-Type, the answer the same chart in the form that Accept asks for: JSON unless another is preferred. JSON has the repeats written out, and is a request for /v1/analyses; the other forms keep them. Symbols are put into the canonical form. Where both the body and the answer are MusicXML the answer is the same file, melody and all; else the answer has the chords alone.
//	@Description	With analyze=true the reading comes with it: as the field analysis, as words at the chord symbols of a score or a tune in ABC, which are all that is added to a score that was sent, as comments behind a text, and as numerals, keys and arrows in a drawing.
//	@Description	With to or instrument the chart is first put into another key, as /v1/transpositions does it. The melody and the words of a score or a tune are not transposed: the answer then has the chords alone, a score of MusicXML too.
//	@ID				convertChart
//	@Tags			reading
//	@Accept			json,application/vnd.recordare.musicxml+xml,application/vnd.recordare.musicxml,application/xml,text/xml,text/vnd.abc,text/plain
//	@Produce		json,text/plain,application/vnd.recordare.musicxml+xml,application/vnd.recordare.musicxml,text/vnd.abc,image/svg+xml
//	@Param			chart		body		wire.AnalysisRequest	true	"The chart: a request as for /v1/analyses, MusicXML up to 4.0, compressed or not, a tune in ABC 2.1, or the text notation. The types of XML stand for MusicXML."
//	@Param			analyze		query		bool					false	"Whether the chart is to be read."																							default(false)
//	@Param			steps		query		bool					false	"Whether a drawing with its reading tells the steps of the study plan below."												default(false)
//	@Param			numerals	query		string					false	"The style of the numerals, where the body does not say it: IIm7, ii7 or 2m7."												Enums(upper, cased, arabic)	default(upper)
//	@Param			accidentals	query		string					false	"The signs of accidentals in the reading, where the body does not say them: b and #, or ♭ and ♯. A drawing has ♭ and ♯."	Enums(ascii, unicode)		default(ascii)
//	@Param			to			query		string					false	"A key to transpose the chart to, of the mode that it is in; not together with instrument."									extensions(x-example=Ab major)
//	@Param			instrument	query		string					false	"The instrument whose part is to be written, named by the note that sounds where it reads C."								Enums(Bb, Eb, F)
//	@Success		200			{object}	wire.WrittenChart		"The chart."
//	@Failure		400			{object}	wire.Problem			"The body is none of its media type: no JSON, no sound XML, no tune, no UTF-8; or the URL is not understood."
//	@Failure		401			{object}	wire.Problem			"The service asks for a bearer token, and none that it knows was sent."
//	@Failure		406			{object}	wire.Problem			"There is no answer in a form that is asked for."
//	@Failure		408			{object}	wire.Problem			"The body did not arrive in time."
//	@Failure		413			{object}	wire.Problem			"The body has more than 8 MiB, a compressed score more than 32 MiB unpacked, or the chart more than 2,000 bars or 5,000 chords."
//	@Failure		415			{object}	wire.Problem			"The body is of another media type."
//	@Failure		422			{object}	wire.Problem			"The chart is understood but wrong, or a parameter is; every fault is listed, at most 20."
//	@Failure		429			{object}	wire.Problem			"The service is set to a rate of requests, and this client keeps to a higher one; Retry-After tells when to come again."
//	@Failure		500			{object}	wire.Problem			"The fault is the service's own."
//	@Failure		503			{object}	wire.Problem			"Too many charts are being read, or too many large ones sent; Retry-After tells when to come again."
//	@Header			401			{string}	WWW-Authenticate		"Bearer, as RFC 6750 lays down."
//	@Header			429,503		{integer}	Retry-After				"Seconds to wait before coming again."
//	@Router			/v1/charts [post]
func (s *Server) charts(c *gin.Context) {
	from, err := mediaOf(c.Request, sourceMedia()...)
	if err != nil {
		s.refuse(c, err)
		return
	}
	to := preferred(c.Request, formMedia()...)
	if to < 0 {
		s.refuse(c, refuse(http.StatusNotAcceptable, "the answer is %s", inWords(formMedia(), "or")))
		return
	}
	answer, err := s.worked(c, maxChart, func(body []byte) ([]byte, error) { return s.convert(c.Request, body, from, forms[to]) })
	if err == nil && !visitOf(c).hold.take(len(answer)) {
		err = errMemory
	}
	if err != nil {
		s.refuse(c, err)
		return
	}
	send(c, http.StatusOK, forms[to].contentType(), answer)
}

// convert gives the chart of a body another form.
func (s *Server) convert(r *http.Request, body []byte, from string, to form) ([]byte, error) {
	var f, inURL faults
	given, err := f.source(from, body)
	if err != nil {
		return nil, err
	}
	var options wire.ChartOptions
	if err := inURL.query(r, &options); err != nil {
		return nil, err
	}
	g := inURL.goalInURL(&options)
	if err := append(f, inURL...).err(); err != nil {
		return nil, err
	}
	if given, err = given.transposed(g); err != nil {
		return nil, err
	}
	given.options.Numerals = cmp.Or(given.options.Numerals, options.Numerals)
	given.options.Accidentals = cmp.Or(given.options.Accidentals, options.Accidentals)
	sheet := sheetOf(given, options)
	if sheet.reading != nil {
		s.metrics.chords.Add(float64(len(sheet.reading.Chords)))
	}
	return to.write(sheet)
}
