package api

import (
	"context"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
	"testing/synctest"
	"time"

	"github.com/stretchr/testify/assert"
)

func TestGate(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		g := make(gate, 2)
		assert.NoError(t, g.enter(t.Context()))
		assert.NoError(t, g.enter(t.Context()))

		start := time.Now()
		impatient, cancel := context.WithTimeout(t.Context(), patience)
		defer cancel()
		err := g.enter(impatient)
		assert.EqualError(t, err, "too many charts are being read; try again soon")
		assert.Equal(t, patience, time.Since(start))

		gone, leave := context.WithCancel(t.Context())
		leave()
		assert.ErrorIs(t, g.enter(gone), context.Canceled)

		time.AfterFunc(time.Second, g.leave)
		assert.NoError(t, g.enter(t.Context()))
	})
}

// Who is turned away hears when to come again; who has gone is no failure.
func TestGateIsFull(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		var log strings.Builder
		s := loggingTo(&log)
		s.gate = make(gate)
		h := s.router(Options{})
		w := post(h, goodInput[0])
		assert.Equal(t, http.StatusServiceUnavailable, w.Code)
		assert.Equal(t, "1", w.Header().Get("Retry-After"))
		p := problemIn(t, w)
		assert.Equal(t, "too many charts are being read; try again soon", p.Detail)

		gone, leave := context.WithCancel(t.Context())
		leave()
		r := httptest.NewRequestWithContext(gone, http.MethodPost, "/v1/analyses", strings.NewReader(goodInput[0]))
		r.Header.Set("Content-Type", mediaJSON)
		w = httptest.NewRecorder()
		h.ServeHTTP(w, r)
		assert.Equal(t, http.StatusServiceUnavailable, w.Code)
		assert.Empty(t, log.String())
	})
}
