package api

import (
	"cmp"
	"context"
	"fmt"
	"log/slog"
	"maps"
	"net/http"
	"net/netip"
	"regexp"
	"runtime"
	"runtime/debug"
	"slices"
	"strings"
	"time"

	"github.com/gin-gonic/gin"
	"golang.org/x/time/rate"
)

// Options of the service. The zero value is ready to use.
type Options struct {
	// AllowOrigins are the origins, "https://charts.example", whose pages may
	// call the service from a browser; "*" is any.
	AllowOrigins []string
	// Rate is how many requests a second each client may make over time; 0: any
	// number. A client is an address, of IPv6 a network of 64 bits.
	Rate float64
	// Proxies are the networks of the proxies whose word is taken on who asks;
	// none: whoever the connection comes from.
	Proxies []netip.Prefix
	// Admits tells whether a bearer token is known; nil: none is asked for. The
	// document, its page, /healthz and /readyz are for everybody.
	Admits func(token string) bool
	// Readings is how many requests and lines are worked on at a time; 0: as many
	// as there are processors.
	Readings int
	// Waiting is how many requests may wait to be worked on before others are
	// refused; 0: 8 for each of Readings.
	Waiting int
	// Memory bounds the bytes that are kept of bodies and answers that are larger
	// than 64 KiB; 0: 128 MiB.
	Memory int64
	// BodyTime is how long a body may take to arrive; 0: a minute. Streams have 5
	// minutes for each line.
	BodyTime time.Duration
	// Requests takes a line for each request; nil: none.
	Requests *slog.Logger
	// Log takes the causes of answers in the 500s; nil: slog's default.
	Log *slog.Logger
	// Stopping is done when the service is about to stop: streams then end
	// behind the line being read, and /readyz asks for no more. Nil: never.
	Stopping context.Context
}

// Server is what the handlers share.
type Server struct {
	gate     *gate
	memory   memory
	metrics  *metrics
	proxies  proxies
	bodyTime time.Duration
	requests *slog.Logger
	log      *slog.Logger
	stopping context.Context
}

// New is the handler of the whole API.
func New(options Options) http.Handler { return newServer(options).router(options) }

func newServer(options Options) *Server {
	readings := cmp.Or(options.Readings, runtime.GOMAXPROCS(0))
	s := &Server{
		gate:     newGate(readings, cmp.Or(options.Waiting, 8*readings)),
		proxies:  options.Proxies,
		bodyTime: cmp.Or(options.BodyTime, time.Minute),
		requests: options.Requests,
		log:      cmp.Or(options.Log, slog.Default()),
		stopping: options.Stopping,
	}
	if s.stopping == nil {
		s.stopping = context.Background()
	}
	s.memory.limit = cmp.Or(options.Memory, 128<<20)
	s.metrics = newMetrics(s.gate, &s.memory)
	return s
}

func (s *Server) router(options Options) *gin.Engine {
	gin.SetMode(gin.ReleaseMode) // else gin prints its routes
	r := gin.New()
	r.RedirectTrailingSlash = false
	r.HandleMethodNotAllowed = true
	r.Use(s.observe, headers, cors(options.AllowOrigins), s.recover)
	r.NoMethod(s.noMethod)
	get := func(path string, h ...gin.HandlerFunc) {
		r.Match([]string{http.MethodGet, http.MethodHead}, path, h...)
	}

	// For everybody, and before the limit: machines ask for some, and a page asks
	// for the others all at once, without a token.
	get("/healthz", s.answer(health))
	get("/readyz", s.answer(s.ready))
	get("/openapi.json", s.document())
	for _, f := range docsFiles {
		get(f.path, s.docs(f))
	}
	admit := s.admit(options.Admits)
	get("/metrics", admit, s.metrics.show(s))
	if options.Rate > 0 {
		l := limit{perSecond: options.Rate, clients: map[netip.Prefix]*rate.Limiter{}}
		r.Use(l.handle(s))
	}
	r.Use(admit)
	r.POST("/v1/analyses", s.analyses)
	r.POST("/v1/charts", s.charts)
	r.POST("/v1/realizations", s.posted(realize))
	r.POST("/v1/transpositions", s.posted(transpose))
	r.POST("/v1/reviews", s.posted(s.markAnswer))
	get("/v1/chords/*symbol", s.answer(s.chord))
	get("/v1/keys/:key", s.answer(s.key))
	r.NoRoute(s.noRoute(r.Routes()))
	return r
}

// noRoute refuses a path that leads nowhere, with the one that was probably meant:
// what follows the first word of a path is not looked at.
func (s *Server) noRoute(routes gin.RoutesInfo) gin.HandlerFunc {
	paths := map[string]string{} // by their first word
	for _, route := range routes {
		if word := firstWord(route.Path); len(route.Path) < len(paths[word]) || paths[word] == "" {
			paths[word] = route.Path
		}
	}
	known := slices.Sorted(maps.Keys(paths))
	return func(c *gin.Context) {
		hint := "/docs shows all that there is"
		if meant := closest(firstWord(c.Request.URL.Path), known); meant != "" {
			hint = "did you mean " + parameter.ReplaceAllString(paths[meant], "{$1}") + "?"
		}
		s.refuse(c, refuse(http.StatusNotFound, "there is nothing at this path; %s", hint))
	}
}

// parameter is one of a path as the router has it.
var parameter = regexp.MustCompile(`[:*](\w+)`)

// firstWord is what a path has first but for the version.
func firstWord(path string) string {
	word, _, _ := strings.Cut(strings.TrimPrefix(strings.TrimPrefix(path, "/"), "v1/"), "/")
	return word
}

// noMethod refuses a method that a path does not have, and answers OPTIONS.
func (s *Server) noMethod(c *gin.Context) {
	allowed := c.Writer.Header().Get("Allow") + ", " + http.MethodOptions
	c.Header("Allow", allowed)
	if c.Request.Method == http.MethodOptions {
		c.Status(http.StatusNoContent)
		c.Writer.WriteHeaderNow()
		return
	}
	s.refuse(c, refuse(http.StatusMethodNotAllowed, "the methods of this path are %s", allowed))
}

// recover turns a panic into a problem, or cuts off an answer that has begun.
func (s *Server) recover(c *gin.Context) {
	defer func() {
		cause := recover()
		if cause == nil {
			return
		}
		if cause == http.ErrAbortHandler {
			panic(cause)
		}
		s.refuse(c, panicked(cause))
	}()
	c.Next()
}

// panicked is the error that a panic stands for, with its stack for the log.
func panicked(cause any) error { return fmt.Errorf("panic: %v\n%s", cause, debug.Stack()) }
