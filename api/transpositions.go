package api

import (
	"fmt"

	"fifthwise/api/wire"
	"fifthwise/pkg/chart"
	"fifthwise/pkg/chart/file"
	"fifthwise/pkg/function"
	"fifthwise/pkg/key"
)

// transpose puts a chart into other keys.
//
//	@Summary		Transposes a chart
//	@Description	Writes the chart in other keys, spelled as players write them; title, meters, sections, repeats, optional groups and silences stay. It goes from the key that is stated, else from the home key of its reading, to keys of the same mode: those listed, that of the part for an instrument, or all twelve of a cycle, home first. Passages in other keys are spelled each in its own. Keys that players do not write get another name: concert B major is Ab major for an instrument in Eb.
//	@ID				transpose
//	@Tags			practice
//	@Accept			json
//	@Produce		json
//	@Param			chart	body		wire.TranspositionRequest	true	"The chart, and exactly one of to, instrument and cycle."
//	@Success		200		{object}	wire.Transpositions
//	@Failure		400		{object}	wire.Problem		"The body is not JSON, or a field has another type."
//	@Failure		401		{object}	wire.Problem		"The service asks for a bearer token, and none that it knows was sent."
//	@Failure		406		{object}	wire.Problem		"The answer is JSON."
//	@Failure		408		{object}	wire.Problem		"The body did not arrive in time."
//	@Failure		413		{object}	wire.Problem		"The body has more than 1 MiB, or the chart more than 2,000 bars or 5,000 chords."
//	@Failure		415		{object}	wire.Problem		"The body is of another media type."
//	@Failure		422		{object}	wire.Problem		"The request is understood but wrong, such as a key of another mode; every fault is listed, at most 20."
//	@Failure		429		{object}	wire.Problem		"The service is set to a rate of requests, and this client keeps to a higher one; Retry-After tells when to come again."
//	@Failure		500		{object}	wire.Problem		"The fault is the service's own."
//	@Failure		503		{object}	wire.Problem		"Too many charts are being read, or too many large ones sent; Retry-After tells when to come again."
//	@Header			401		{string}	WWW-Authenticate	"Bearer, as RFC 6750 lays down."
//	@Header			429,503	{integer}	Retry-After			"Seconds to wait before coming again."
//	@Router			/v1/transpositions [post]
func transpose(body []byte) (any, error) {
	var request wire.TranspositionRequest
	f, err := decode(body, &request)
	if err != nil {
		return nil, err
	}
	f.ranges(&request)
	c, err := f.chart(&request.Chart)
	if err != nil {
		return nil, err
	}
	g := f.goal(&request)
	if err := f.err(); err != nil {
		return nil, err
	}
	charts, from := f.transposed(c, g, toPointer)
	if err := f.err(); err != nil {
		return nil, err
	}
	answer := wire.Transpositions{From: from.String(), Charts: make([]wire.TransposedChart, len(charts))}
	for i, c := range charts {
		answer.Charts[i] = wire.TransposedChart{Key: c.Key.String(), Changes: c.String()}
	}
	return &answer, nil
}

// goal is where a chart is to go.
type goal struct {
	to         []key.Key
	instrument *key.Instrument
	cycle      key.Cycle
}

// isNone reports whether the chart is to stay where it is.
func (g goal) isNone() bool { return g.to == nil && g.instrument == nil && !g.cycle.IsValid() }

func (f *faults) goal(r *wire.TranspositionRequest) goal {
	var g goal
	f.onlyOne([]string{"to", "instrument", "cycle"}, r.To != nil, r.Instrument != nil, r.Cycle != nil)
	for i, name := range r.To {
		g.to = append(g.to, f.key(toPointer(i), name))
	}
	g.instrument = instrumentOf(r.Instrument)
	if r.Cycle != nil {
		g.cycle, _ = key.ParseCycle(*r.Cycle) // its values are known to be good, or told
	}
	return g
}

// goalInURL is that of parameters, if they have one.
func (f *faults) goalInURL(o *wire.ChartOptions) goal {
	g := goal{instrument: instrumentOf(o.Instrument)}
	if o.To == nil {
		return g
	}
	if o.Instrument != nil {
		f.add("/instrument", "to and instrument exclude each other", "send one of the two")
	}
	g.to = []key.Key{f.key("/to", *o.To)}
	return g
}

func (f *faults) key(pointer, name string) key.Key {
	k, err := key.Parse(name)
	f.syntax(pointer, err)
	return k
}

func toPointer(i int) string { return fmt.Sprintf("/to/%d", i) }

// onlyOne adds a fault unless exactly one of the fields is given.
func (f *faults) onlyOne(names []string, given ...bool) {
	first := ""
	for i, name := range names {
		switch {
		case !given[i]:
		case first == "":
			first = name
		default:
			f.add("/"+name, fmt.Sprintf("%s and %s exclude each other", first, name), "send one of "+inWords(names, "and"))
		}
	}
	if first == "" {
		f.add("", "none of "+inWords(names, "and")+" is given", "send one of them")
	}
}

// instrumentOf is the instrument of a field whose values are known to be good, or
// told; nil for none.
func instrumentOf(name *string) *key.Instrument {
	if name == nil {
		return nil
	}
	i, err := key.ParseInstrument(*name)
	if err != nil {
		return nil
	}
	return &i
}

// keys are those to go to.
func (g goal) keys(from key.Key) []key.Key {
	switch {
	case g.instrument != nil:
		return []key.Key{g.instrument.Key(from)}
	case g.cycle.IsValid():
		return g.cycle.Keys(from)
	}
	return g.to
}

// transposed is the chart that was sent in another key, if it is to go there: a
// chart of its own, and no longer the file.
func (s source) transposed(g goal) (source, error) {
	if g.isNone() {
		return s, nil
	}
	var f faults
	charts, _ := f.transposed(s.Chart, g, func(int) string { return "/to" })
	if err := f.err(); err != nil {
		return source{}, err
	}
	return source{File: file.File{Chart: charts[0]}, options: s.options}, nil
}

// transposed is a chart in other keys, and the key that it stands in. The faults
// are at the pointers of the keys.
func (f *faults) transposed(c chart.Chart, g goal, pointer func(i int) string) ([]chart.Chart, key.Key) {
	a := function.Analyze(c)
	from := c.Key
	if !from.IsValid() {
		from = a.Home
	}
	if !from.IsValid() {
		f.add("/key", "no key is stated, and none can be read from a chart in which nothing sounds", "state the key")
		return nil, from
	}
	passages := a.Passages()
	var charts []chart.Chart
	for i, to := range g.keys(from) {
		moved, err := c.TransposeTo(from, to, passages...)
		if err != nil {
			f.add(pointer(i), err.Error(), "write "+key.New(to.Tonic(), from.Mode()).String())
		}
		charts = append(charts, moved)
	}
	return charts, from
}
