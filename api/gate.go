package api

import (
	"context"
	"net/http"
	"runtime"
	"time"
)

// gate lets as many requests be worked on at a time as there are processors;
// others wait before it, so that a crowd costs time and not memory.
type gate chan struct{}

func newGate() gate { return make(gate, runtime.GOMAXPROCS(0)) }

// patience is how long a request that is no stream waits before it is turned away.
const patience = 10 * time.Second

// enter waits until ctx is done for a place, which leave gives back.
func (g gate) enter(ctx context.Context) error {
	select {
	case g <- struct{}{}:
		return nil
	case <-ctx.Done():
	}
	if ctx.Err() == context.DeadlineExceeded {
		return refuse(http.StatusServiceUnavailable, "too many charts are being read; try again soon")
	}
	return ctx.Err()
}

func (g gate) leave() { <-g }
