package api

import (
	"context"
	"fmt"
	"log/slog"
	"net/http"
	"runtime/debug"

	"github.com/gin-gonic/gin"
	"golang.org/x/time/rate"

	"fifthwise/api/wire"
)

// Options of the service. The zero value is ready to use.
type Options struct {
	// AllowOrigins are the origins, "https://charts.example", whose pages may
	// call the service from a browser; "*" is any.
	AllowOrigins []string
	// Rate is how many requests a second each client may make over time; 0: any
	// number.
	Rate float64
	// Log takes the causes of answers in the 500s; nil: slog's default.
	Log *slog.Logger
	// Stopping is done when the service is about to stop: streams then end
	// behind the line being read. Nil: never.
	Stopping context.Context
}

// Server is what the handlers share.
type Server struct {
	gate     gate
	log      *slog.Logger
	stopping context.Context
}

// New is the handler of the whole API.
func New(options Options) http.Handler {
	s := &Server{gate: newGate(), log: options.Log, stopping: options.Stopping}
	if s.log == nil {
		s.log = slog.Default()
	}
	if s.stopping == nil {
		s.stopping = context.Background()
	}
	return s.router(options)
}

func (s *Server) router(options Options) *gin.Engine {
	gin.SetMode(gin.ReleaseMode) // else gin prints its routes
	r := gin.New()
	r.RedirectTrailingSlash = false
	r.HandleMethodNotAllowed = true
	r.Use(cors(options.AllowOrigins), s.recover)
	r.NoRoute(s.noRoute)
	r.NoMethod(s.noMethod)
	get := func(path string, h gin.HandlerFunc) {
		r.Match([]string{http.MethodGet, http.MethodHead}, path, h)
	}

	// Before the limit: machines ask for the one, and a page asks for the others
	// all at once.
	get("/healthz", s.answer(health))
	get("/openapi.json", s.document())
	for _, f := range docsFiles {
		get(f.path, s.docs(f))
	}
	if options.Rate > 0 {
		l := limit{perSecond: options.Rate, clients: map[string]*rate.Limiter{}}
		r.Use(l.handle(s))
	}
	r.POST("/v1/analyses", s.analyses)
	r.POST("/v1/charts", s.charts)
	r.POST("/v1/realizations", s.posted(realize))
	r.POST("/v1/transpositions", s.posted(transpose))
	r.POST("/v1/reviews", s.posted(markAnswer))
	get("/v1/chords/*symbol", s.answer(s.chord))
	get("/v1/keys/:key", s.answer(s.key))
	return r
}

// health tells that the service answers.
//
//	@Summary	Tells that the service answers
//	@ID			getHealth
//	@Tags		service
//	@Produce	json
//	@Success	200	{object}	wire.Health
//	@Failure	406	{object}	wire.Problem	"The answer is JSON."
//	@Router		/healthz [get]
func health(*gin.Context) (any, error) { return wire.Health{Status: "ok"}, nil }

// noRoute refuses a path that leads nowhere.
func (s *Server) noRoute(c *gin.Context) {
	s.refuse(c, refuse(http.StatusNotFound, "there is nothing at this path"))
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
