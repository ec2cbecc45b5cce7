package api

import (
	"errors"
	"fmt"
	"strings"

	"fifthwise/api/wire"
	"fifthwise/pkg/chart/file"
	"fifthwise/pkg/function"
	"fifthwise/pkg/review"
)

// markAnswer marks somebody's analysis of a chart.
//
//	@Summary		Marks an analysis
//	@Description	Tells of each numeral and each key region whether it agrees with the reading, is another that can be defended, or contradicts the chart, and why. Numerals are read in the answer's own regions, in any style. Leaving out the seventh or tensions is no fault; in an answer all in capitals or figures a bare degree states no quality; diminished sevenths are compared by sound; in one with figures of inversion such as 65 a bare 7 is the seventh of the key where the chart has that. Figures that put another note in the bass than the chart has are told and change no verdict. A numeral that spells another chord contradicts, and so do a region whose key is less probable than the margin, and its numerals. An answer with regions alone is marked by them.
//	@ID				review
//	@Tags			reading
//	@Accept			json
//	@Produce		json
//	@Param			answer	body		wire.ReviewRequest	true	"The chart and the analysis."
//	@Success		200		{object}	wire.Review
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
//	@Router			/v1/reviews [post]
func (s *Server) markAnswer(body []byte) (any, error) {
	var request wire.ReviewRequest
	f, err := decode(body, &request)
	if err != nil {
		return nil, err
	}
	f.ranges(&request)
	given, err := f.analysis(request.Analysis)
	if err != nil {
		return nil, err
	}
	answer := f.answer(request.Answer)
	if len(given.Chart.Bars) == 0 {
		f.inNumeralsAlone(answer)
		return nil, f.err()
	}
	a := printingOf(given.options).analyze(given.Chart)
	s.metrics.chords.Add(float64(len(a.Chords)))
	marked, err := review.Of(&a, answer)
	f.inAnswer(err, answer)
	if err := f.err(); err != nil {
		return nil, err
	}
	return reviewOf(&marked), nil
}

const (
	analysisField = "/analysis"
	answerField   = "/answer"
)

// analysis makes the chart that an answer is about and adds what is wrong with
// it. Of a chart with faults there are no bars.
func (f *faults) analysis(r *wire.AnalysisRequest) (source, error) {
	if r == nil {
		return source{}, nil
	}
	var own, others faults
	for _, fault := range *f {
		if within, ok := strings.CutPrefix(fault.Pointer, analysisField+"/"); ok {
			fault.Pointer = "/" + within
			own = append(own, fault)
		} else {
			others = append(others, fault)
		}
	}
	c, err := own.chart(&r.Chart)
	if err != nil {
		return source{}, err
	}
	for i := range own {
		own[i].Pointer = analysisField + own[i].Pointer
	}
	*f = append(own, others...)
	if len(own) > 0 {
		c.Bars = nil
	}
	return source{File: file.File{Chart: c}, options: r.Options}, nil
}

// answer makes an answer and adds what is wrong with it whatever the chart.
func (f *faults) answer(w *wire.ReviewAnswer) (a review.Answer) {
	if w == nil {
		return a
	}
	if w.Regions == nil && w.Numerals == nil {
		f.add(answerField, "neither regions nor numerals are given", "send one of the two or both")
	}
	for i := range w.Regions {
		a.Regions = append(a.Regions, f.answerRegion(fmt.Sprintf("%s/regions/%d", answerField, i), &w.Regions[i]))
	}
	if w.Numerals != nil {
		a.Numerals = make([]string, len(w.Numerals))
	}
	for i, n := range w.Numerals {
		if n != nil {
			a.Numerals[i] = *n
		}
	}
	return a
}

func (f *faults) answerRegion(pointer string, w *wire.AnswerRegion) (g review.Region) {
	if w.Key != "" {
		k, noMode, err := review.ParseKey(w.Key)
		f.syntax(pointer+"/key", err)
		g.Key, g.NoMode = k, noMode
	}
	if w.Bar != nil {
		g.Bar = *w.Bar
	}
	if w.Beat != nil {
		g.Beat = f.beats(pointer+"/beat", *w.Beat)
	}
	if w.Pass != nil {
		g.Pass = *w.Pass
	}
	return g
}

// inAnswer adds the faults of an answer beside its chart. Where a field is known
// to be wrong, nothing more is said of it.
func (f *faults) inAnswer(err error, answer review.Answer) {
	known := f.told()
	var list review.ErrorList
	errors.As(err, &list)
	for _, e := range list {
		pointer := answerField + "/" + e.Field
		if e.Index >= 0 {
			pointer += fmt.Sprintf("/%d", e.Index)
		}
		if e.Part != "" {
			pointer += "/" + e.Part
		}
		if known.pointers[pointer] {
			continue
		}
		fault := Fault{Pointer: pointer, Detail: e.Msg, Hint: e.Hint}
		if e.Field == "numerals" && e.Index >= 0 {
			fault.Symbol, fault.Offset = answer.Numerals[e.Index], &e.Offset
		}
		*f = append(*f, fault)
	}
}

// inNumeralsAlone adds the faults that numerals have whatever the chart.
func (f *faults) inNumeralsAlone(answer review.Answer) {
	_, err := review.Of(&function.Analysis{}, review.Answer{Numerals: answer.Numerals})
	var list, single review.ErrorList
	errors.As(err, &list)
	for _, e := range list {
		if e.Index >= 0 {
			single = append(single, e)
		}
	}
	f.inAnswer(single, answer)
}

func reviewOf(r *review.Review) *wire.Review {
	w := &wire.Review{
		Score:   rounded(r.Score),
		Margin:  review.Margin,
		Remark:  r.Remark,
		Chords:  marks(r.Chords),
		Regions: marks(r.Regions),
		Roles:   make([]wire.RoleReview, len(r.Roles)),
	}
	for i, role := range r.Roles {
		w.Roles[i] = wire.RoleReview{Role: role.Role.String(), Chords: role.Chords, Missed: role.Missed, Advice: role.Advice}
	}
	return w
}

func marks(list []review.Mark) []wire.Mark {
	w := make([]wire.Mark, len(list))
	for i, m := range list {
		w[i] = wire.Mark{Verdict: m.Verdict.String(), Expected: m.Expected, Reason: m.Reason, Chord: m.Chord}
	}
	return w
}
