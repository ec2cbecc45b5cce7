package api

import (
	"bytes"
	"errors"
	"net/http"
	"strconv"
	"time"

	"github.com/gin-gonic/gin"
	"github.com/prometheus/client_golang/prometheus"
	"github.com/prometheus/client_golang/prometheus/collectors"
	"github.com/prometheus/common/expfmt"
)

// metrics count what the service does, for Prometheus. The values of every label
// are few and the service's own: nothing that a client writes becomes one.
type metrics struct {
	registry *prometheus.Registry
	requests *prometheus.CounterVec
	seconds  *prometheus.HistogramVec
	chords   prometheus.Counter
	refusals *prometheus.CounterVec
}

func newMetrics(g *gate, m *memory) *metrics {
	c := &metrics{
		registry: prometheus.NewRegistry(),
		requests: prometheus.NewCounterVec(prometheus.CounterOpts{
			Name: "fifthwise_requests_total",
			Help: "Requests answered, by route and status. The route of paths and methods that are not known is other.",
		}, []string{"route", "status"}),
		seconds: prometheus.NewHistogramVec(prometheus.HistogramOpts{
			Name:    "fifthwise_request_seconds",
			Help:    "Time from the head of a request to the end of its answer, by route; streams are left out.",
			Buckets: []float64{.0005, .001, .0025, .005, .01, .025, .05, .1, .25, .5, 1, 2.5, 10},
		}, []string{"route"}),
		chords: prometheus.NewCounter(prometheus.CounterOpts{
			Name: "fifthwise_chords_read_total",
			Help: "Chords read in analyses, reviews and charts with their reading, repeats unfolded.",
		}),
		refusals: prometheus.NewCounterVec(prometheus.CounterOpts{
			Name: "fifthwise_refusals_total",
			Help: "Requests, and lines of streams, that were refused, by reason.",
		}, []string{"reason"}),
	}
	c.registry.MustRegister(c.requests, c.seconds, c.chords, c.refusals,
		gauge("fifthwise_readings_in_flight", "Requests and lines that are worked on.", func() int64 { return int64(len(g.places)) }),
		gauge("fifthwise_readings_waiting", "Requests that wait to be worked on.", g.waiting.Load),
		gauge("fifthwise_held_bytes", "Bytes kept of large bodies and answers.", m.used.Load),
		collectors.NewGoCollector(),
		collectors.NewProcessCollector(collectors.ProcessCollectorOpts{}),
		collectors.NewBuildInfoCollector(),
	)
	return c
}

func gauge(name, help string, value func() int64) prometheus.Collector {
	return prometheus.NewGaugeFunc(prometheus.GaugeOpts{Name: name, Help: help}, func() float64 { return float64(value()) })
}

// answered counts a request.
func (m *metrics) answered(route string, status int, took time.Duration, isStream bool) {
	m.requests.WithLabelValues(route, strconv.Itoa(status)).Inc()
	if !isStream {
		m.seconds.WithLabelValues(route).Observe(took.Seconds())
	}
}

// reasons are the values of the label reason by status. 503 has several.
var reasons = map[int]string{
	http.StatusBadRequest:            "not_understood",
	http.StatusUnauthorized:          "token",
	http.StatusNotFound:              "no_path",
	http.StatusMethodNotAllowed:      "method",
	http.StatusNotAcceptable:         "accept",
	http.StatusRequestTimeout:        "slow_body",
	http.StatusRequestEntityTooLarge: "too_large",
	http.StatusUnsupportedMediaType:  "media_type",
	http.StatusUnprocessableEntity:   "faults",
	http.StatusTooManyRequests:       "rate",
	http.StatusInternalServerError:   "own_fault",
}

// refused counts a refusal.
func (m *metrics) refused(p *Problem) {
	reason := reasons[p.Status]
	switch p {
	case errBusy:
		reason = "busy"
	case errMemory:
		reason = "memory"
	case errStopping, errLineStopping:
		reason = "stopping"
	case errGone:
		reason = "gone"
	}
	m.refusals.WithLabelValues(reason).Inc()
}

const mediaMetrics = "text/plain; version=0.0.4; charset=utf-8"

// show sends the metrics.
//
//	@Summary		What the service has done so far
//	@Description	Counts for Prometheus, in its text format: requests by route and status, their time, chords read, refusals by reason, what is in work now; Go's own and the process's. Nothing in it comes from charts.
//	@ID				getMetrics
//	@Tags			service
//	@Produce		plain
//	@Success		200	{string}	string				"Metrics."
//	@Failure		401	{object}	wire.Problem		"The service asks for a bearer token, and none that it knows was sent."
//	@Failure		406	{object}	wire.Problem		"The answer is text/plain."
//	@Failure		500	{object}	wire.Problem		"The fault is the service's own."
//	@Header			401	{string}	WWW-Authenticate	"Bearer, as RFC 6750 lays down."
//	@Router			/metrics [get]
func (m *metrics) show(s *Server) gin.HandlerFunc {
	return func(c *gin.Context) {
		if !accepts(c.Request, mediaText) {
			s.refuse(c, refuse(http.StatusNotAcceptable, "the answer is %s", mediaText))
			return
		}
		text, err := m.text()
		if err != nil {
			s.refuse(c, err)
			return
		}
		send(c, http.StatusOK, mediaMetrics, text)
	}
}

func (m *metrics) text() ([]byte, error) {
	families, err := m.registry.Gather()
	var b bytes.Buffer
	for _, f := range families {
		_, failed := expfmt.MetricFamilyToText(&b, f)
		err = errors.Join(err, failed)
	}
	return b.Bytes(), err
}
