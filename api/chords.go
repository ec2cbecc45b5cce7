package api

import (
	"net/http"
	"strings"
	"unicode/utf8"

	"github.com/gin-gonic/gin"

	"fifthwise/api/wire"
	"fifthwise/pkg/chord"
)

// chord tells what a chord symbol means. A symbol may hold slashes, which the
// route leaves to it.
//
//	@Summary		Tells what a chord symbol means
//	@Description	Root, notes, intervals and family of a chord, its canonical symbol and others. A symbol is read as in charts. In the path # is written %23; the slash before a bass may stand as it is or as %2F.
//	@ID				getChord
//	@Tags			reference
//	@Produce		json
//	@Param			symbol		path		string				true	"The chord as lead sheets write it, or in the syntax of Harte et al. (ISMIR 2005); N.C. is silence."	extensions(x-example=F#ø/A)
//	@Param			accidentals	query		string				false	"The signs of accidentals in the answer: b and #, or ♭ and ♯."											Enums(ascii, unicode)	default(ascii)
//	@Success		200			{object}	wire.ChordInfo		"The chord."
//	@Failure		400			{object}	wire.Problem		"The URL is not understood."
//	@Failure		401			{object}	wire.Problem		"The service asks for a bearer token, and none that it knows was sent."
//	@Failure		404			{object}	wire.Problem		"No symbol is given."
//	@Failure		406			{object}	wire.Problem		"The answer is JSON."
//	@Failure		422			{object}	wire.Problem		"The symbol is no chord, or a parameter is wrong; pointers are /symbol and the parameter's name."
//	@Failure		429			{object}	wire.Problem		"The service is set to a rate of requests, and this client keeps to a higher one; Retry-After tells when to come again."
//	@Failure		500			{object}	wire.Problem		"The fault is the service's own."
//	@Header			401			{string}	WWW-Authenticate	"Bearer, as RFC 6750 lays down."
//	@Header			429			{integer}	Retry-After			"Seconds to wait before coming again."
//	@Router			/v1/chords/{symbol} [get]
func (s *Server) chord(c *gin.Context) (any, error) {
	symbol := strings.TrimPrefix(c.Param("symbol"), "/")
	if symbol == "" {
		return nil, refuse(http.StatusNotFound, "the path names no chord")
	}
	var options wire.ChordOptions
	var f faults
	if err := f.named(c, symbol, &options); err != nil {
		return nil, err
	}
	parsed, err := chord.Parse(symbol)
	f.inPath("symbol", symbol, err)
	if err := f.err(); err != nil {
		return nil, err
	}
	p := printingOf(wire.AnalysisOptions{Accidentals: options.Accidentals})
	return p.chordInfo(symbol, parsed), nil
}

// named reads the parameters of a question for what the path names.
func (f *faults) named(c *gin.Context, name string, options any) error {
	if !utf8.ValidString(name) {
		return badSyntax(Fault{Detail: "the URL is not UTF-8"})
	}
	return f.query(c.Request, options)
}

// inPath adds the fault of a part of the path that was not understood.
func (f *faults) inPath(name, value string, err error) {
	before := len(*f)
	f.syntax("/"+name, err)
	for i := range (*f)[before:] {
		(*f)[before+i].Symbol = value
	}
}

func (p printing) chordInfo(symbol string, c chord.Chord) wire.ChordInfo {
	w := wire.ChordInfo{
		Symbol:         symbol,
		Canonical:      p.symbol(c),
		Family:         c.Family().String(),
		Notes:          p.notes(c.Notes()),
		Harte:          c.Harte(),
		OtherSpellings: otherSpellings(c),
	}
	if c.IsSilence() {
		return w
	}
	w.Root, w.Bass = p.note(c.Root()), p.note(c.Bass())
	w.Quality = string(c.Quality().AppendTo(nil, p.accidentals))
	for d := range c.Quality().All() {
		w.Degrees = append(w.Degrees, string(d.AppendTo(nil, p.accidentals)))
		w.Intervals = append(w.Intervals, d.IntervalName())
	}
	if twin, ok := c.Enharmonic(); ok {
		name := p.symbol(twin)
		w.Enharmonic = &name
	}
	return w
}

func (p printing) symbol(c chord.Chord) string { return string(c.AppendTo(nil, p.accidentals)) }

// otherSpellings are the symbols of a chord besides the canonical one.
func otherSpellings(c chord.Chord) (symbols []string) {
	if c.IsSilence() {
		return nil
	}
	bass := ""
	if c.HasBass() {
		bass = "/" + c.Bass().String()
	}
	for _, quality := range c.Quality().Spellings()[1:] {
		symbols = append(symbols, c.Root().String()+quality+bass)
	}
	if twin, ok := c.Enharmonic(); ok {
		symbols = append(symbols, twin.String())
	}
	return symbols
}
