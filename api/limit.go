package api

import (
	"math"
	"net/http"
	"net/netip"
	"strconv"
	"sync"
	"time"

	"github.com/gin-gonic/gin"
	"golang.org/x/time/rate"
)

// limit bounds the requests of each client, by its network, to so many a
// second over time; as many may come at once. A stream is one request.
type limit struct {
	perSecond float64
	mu        sync.Mutex
	clients   map[netip.Prefix]*rate.Limiter
}

// maxClients is how many addresses are known at a time.
const maxClients = 10_000

// burst is how many requests may come at once.
func (l *limit) burst() int { return max(1, int(math.Ceil(l.perSecond))) }

// allow takes one request, or says how long to wait for it.
func (l *limit) allow(client netip.Prefix, now time.Time) (wait time.Duration) {
	l.mu.Lock()
	defer l.mu.Unlock()
	known, ok := l.clients[client]
	if !ok {
		if len(l.clients) >= maxClients {
			l.forget(now)
		}
		known = rate.NewLimiter(rate.Limit(l.perSecond), l.burst())
		l.clients[client] = known
	}
	r := known.ReserveN(now, 1)
	if wait = r.DelayFrom(now); wait > 0 {
		r.CancelAt(now)
	}
	return wait
}

// forget drops the clients that have used up nothing, who are the same when
// they come again, and where there are none everyone.
func (l *limit) forget(now time.Time) {
	for client, known := range l.clients {
		if known.TokensAt(now) >= float64(l.burst()) {
			delete(l.clients, client)
		}
	}
	if len(l.clients) >= maxClients {
		clear(l.clients)
	}
}

// networkOf is what one client has: an address of IPv4, the 64 bits of a network
// of IPv6, within which it may choose its address anew for each request.
func networkOf(client netip.Addr) netip.Prefix {
	network, _ := client.Prefix(min(client.BitLen(), 64)) // fails for no address, which are one client
	return network
}

// handle refuses a client that asks too often.
func (l *limit) handle(s *Server) gin.HandlerFunc {
	return func(c *gin.Context) {
		wait := l.allow(networkOf(visitOf(c).client), time.Now())
		if wait == 0 {
			return
		}
		c.Header("Retry-After", strconv.Itoa(int(math.Ceil(wait.Seconds()))))
		s.refuse(c, refuse(http.StatusTooManyRequests, "more than %v requests a second came from this address", l.perSecond))
	}
}
