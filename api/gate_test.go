package api

import (
	"context"
	"net/http"
	"net/http/httptest"
	"strings"
	"sync/atomic"
	"testing"
	"testing/synctest"
	"time"

	"github.com/stretchr/testify/assert"
)

func TestGate(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		g := newGate(2, 1)
		assert.NoError(t, g.enter(t.Context()))
		assert.NoError(t, g.enter(t.Context()))

		start := time.Now()
		go func() { assert.NoError(t, g.enter(t.Context()), "who waits gets the next place") }()
		synctest.Wait()
		assert.Equal(t, errBusy, g.enter(t.Context()), "nobody else may wait")
		assert.Equal(t, breath, time.Since(start), "and hears so soon")
		g.leave()
		synctest.Wait()

		assert.Equal(t, errBusy, g.enter(t.Context()), "the wait is bounded in time too")
		assert.Equal(t, breath+patience, time.Since(start))

		gone, leave := context.WithCancel(t.Context())
		leave()
		assert.ErrorIs(t, g.enter(gone), context.Canceled)
		assert.ErrorIs(t, turnAway(gone), context.Canceled)
		assert.ErrorIs(t, g.enterLine(gone), context.Canceled)
		assert.Zero(t, g.waiting.Load())
	})
}

// Lines of streams wait as long as they must, few at a time.
func TestGateForLines(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		g := newGate(1, 1)
		assert.NoError(t, g.enter(t.Context()))
		start := time.Now()
		var passed atomic.Int64
		for range 3 {
			go func() {
				assert.NoError(t, g.enterLine(t.Context()))
				assert.Equal(t, time.Minute, time.Since(start))
				passed.Add(1)
				g.leaveLine()
			}()
		}
		synctest.Wait()
		go func() {
			time.Sleep(time.Minute - patience/2)
			assert.NoError(t, g.enter(t.Context()), "behind one line and not behind three")
			assert.EqualValues(t, 1, passed.Load())
			g.leave()
		}()
		time.Sleep(time.Minute)
		g.leave()
		synctest.Wait()
		assert.EqualValues(t, 3, passed.Load())
	})
}

// Who is turned away hears when to come again; who has gone is no failure.
func TestGateIsFull(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		var log strings.Builder
		s := loggingTo(&log)
		s.gate = newGate(0, 0)
		h := s.router(Options{})
		w := post(h, goodInput[0])
		assert.Equal(t, http.StatusServiceUnavailable, w.Code)
		assert.Equal(t, "1", w.Header().Get("Retry-After"))
		p := problemIn(t, w)
		assert.Equal(t, "too many charts are being read; try again soon", p.Detail)

		gone, leave := context.WithCancel(t.Context())
		leave()
		s.gate.maxWaiting = 1
		r := httptest.NewRequestWithContext(gone, http.MethodPost, "/v1/analyses", strings.NewReader(goodInput[0]))
		r.Header.Set("Content-Type", mediaJSON)
		w = httptest.NewRecorder()
		h.ServeHTTP(w, r)
		assert.Equal(t, http.StatusServiceUnavailable, w.Code)
		assert.Empty(t, log.String())
	})
}
