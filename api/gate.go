package api

import (
	"context"
	"net/http"
	"sync/atomic"
	"time"
)

// gate lets a number of requests be worked on at a time. A number of others
// waits before it, in order, so that a class that sends at once is served; whoever
// comes when that is full is turned away, so that those who wait are served soon.
type gate struct {
	places     chan struct{}
	maxWaiting int64
	waiting    atomic.Int64
	lines      chan struct{}
}

func newGate(readings, waiting int) *gate {
	return &gate{places: make(chan struct{}, readings), maxWaiting: int64(waiting), lines: make(chan struct{}, readings)}
}

// patience bounds the time that a request waits where those before it are long.
const patience = time.Second

var errBusy = refuse(http.StatusServiceUnavailable, "too many charts are being read; try again soon")

// enter waits for a place, which leave gives back.
func (g *gate) enter(ctx context.Context) error {
	select {
	case g.places <- struct{}{}:
		return nil
	default:
	}
	if g.waiting.Add(1) > g.maxWaiting {
		g.waiting.Add(-1)
		return turnAway(ctx)
	}
	defer g.waiting.Add(-1)
	patient, cancel := context.WithTimeout(ctx, patience)
	defer cancel()
	select {
	case g.places <- struct{}{}:
		return nil
	case <-patient.Done():
	}
	if ctx.Err() != nil {
		return ctx.Err()
	}
	return errBusy
}

// breath is what a refusal takes: clients that ask again at once, whatever they
// are told, would else cost the processors more than those who are served.
const breath = 25 * time.Millisecond

func turnAway(ctx context.Context) error {
	select {
	case <-time.After(breath):
		return errBusy
	case <-ctx.Done():
		return ctx.Err()
	}
}

func (g *gate) leave() { <-g.places }

// enterLine waits for a place however long it takes: a stream is told by waiting
// to send more slowly. Of all streams' lines no more wait at the gate itself than
// there are places, so that streams do not keep others out. leaveLine gives the
// place back.
func (g *gate) enterLine(ctx context.Context) error {
	select {
	case g.lines <- struct{}{}:
	case <-ctx.Done():
		return ctx.Err()
	}
	select {
	case g.places <- struct{}{}:
		return nil
	case <-ctx.Done():
		<-g.lines
		return ctx.Err()
	}
}

func (g *gate) leaveLine() {
	g.leave()
	<-g.lines
}
