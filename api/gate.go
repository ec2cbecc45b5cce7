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

// patience is how long a request waits before it is turned away.
const patience = 10 * time.Second

// enter waits for a place, which leave gives back.
func (g gate) enter(ctx context.Context) error {
	select {
	case g <- struct{}{}:
		return nil
	default:
	}
	late := time.NewTimer(patience)
	defer late.Stop()
	select {
	case g <- struct{}{}:
		return nil
	case <-ctx.Done():
		return ctx.Err()
	case <-late.C:
		return refuse(http.StatusServiceUnavailable, "too many charts are being read; try again soon")
	}
}

func (g gate) leave() { <-g }
