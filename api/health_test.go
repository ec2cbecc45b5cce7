package api

import (
	"context"
	"net/http"
	"testing"

	"github.com/stretchr/testify/assert"
)

// A service that stops answers still, and asks to be sent no more.
func TestReady(t *testing.T) {
	stopping, stop := context.WithCancel(t.Context())
	h := New(Options{Stopping: stopping})
	w := askOf(t, h, http.MethodGet, "/readyz", "")
	assert.Equal(t, "{\"status\":\"ok\"}\n", w.Body.String())
	assert.Empty(t, w.Header().Get("Connection"))
	stop()
	w = askOf(t, h, http.MethodGet, "/readyz", "")
	assert.Equal(t, http.StatusServiceUnavailable, w.Code)
	assert.Equal(t, "the service stops", problemIn(t, w).Detail)
	for _, target := range []string{"/healthz", "/v1/keys/C"} {
		w = askOf(t, h, http.MethodGet, target, "")
		assert.Equal(t, http.StatusOK, w.Code)
		assert.Equal(t, "close", w.Header().Get("Connection"))
	}
}
