package api

import (
	"log/slog"
	"net/http"
	"net/netip"
	"time"

	"github.com/gin-gonic/gin"
)

// visit is what is known of a request beside what it asks.
type visit struct {
	id     string
	client netip.Addr
	method string // one that HTTP knows, else other
	route  string // the pattern of the path, other where there is none
	hold   hold
}

type visitKey struct{}

// visitOf is that of a request that [Server.observe] has seen.
func visitOf(c *gin.Context) *visit { return c.MustGet(visitKey{}).(*visit) }

const other = "other"

// observe names a request, and counts and logs it when it is answered, or cut
// off. The log has nothing that the request holds: no path, no parameters, no
// body, no token.
func (s *Server) observe(c *gin.Context) {
	start := time.Now()
	v := &visit{
		id:     requestID(c.GetHeader(requestHeader)),
		client: s.proxies.clientOf(c.Request),
		method: knownMethod(c.Request.Method),
		route:  c.FullPath(),
		hold:   hold{of: &s.memory},
	}
	if v.route == "" {
		v.route = other
	}
	c.Set(visitKey{}, v)
	c.Header(requestHeader, v.id)
	if s.stopping.Err() != nil || isChunked(c.Request) {
		c.Header("Connection", "close")
	}
	whole := false
	defer func() {
		v.hold.release()
		s.seen(c, v, time.Since(start), whole)
	}()
	c.Next()
	whole = true
}

// isChunked reports whether the request may have had a Content-Length too, which
// net/http drops: a proxy that went by that would take what follows for a part of
// the body, and the service for another client's request (RFC 9112, section 6.1).
func isChunked(r *http.Request) bool { return len(r.TransferEncoding) > 0 }

func (s *Server) seen(c *gin.Context, v *visit, took time.Duration, whole bool) {
	isStream := c.Writer.Header().Get("Content-Type") == mediaLines
	s.metrics.answered(v.route, c.Writer.Status(), took, isStream)
	if s.requests == nil {
		return
	}
	said := []slog.Attr{
		slog.String("id", v.id),
		slog.String("method", v.method),
		slog.String("route", v.route),
		slog.Int("status", c.Writer.Status()),
		slog.Float64("ms", float64(took.Microseconds())/1000),
		slog.Int("bytes", max(0, c.Writer.Size())),
		slog.String("client", v.client.String()),
	}
	if !whole {
		said = append(said, slog.Bool("cut_off", true))
	}
	s.requests.LogAttrs(c.Request.Context(), slog.LevelInfo, "request", said...)
}

// knownMethod keeps the log from holding what a client makes up.
func knownMethod(method string) string {
	switch method {
	case http.MethodGet, http.MethodHead, http.MethodPost, http.MethodOptions,
		http.MethodPut, http.MethodPatch, http.MethodDelete, http.MethodConnect, http.MethodTrace:
		return method
	}
	return other
}
