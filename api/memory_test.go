package api

import (
	"net/http"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestMemory(t *testing.T) {
	m := memory{limit: 1000}
	a, b, c := hold{of: &m}, hold{of: &m}, hold{of: &m}
	assert.True(t, a.take(freeBytes))
	assert.Zero(t, m.used.Load(), "what is free is not counted")
	assert.True(t, a.take(900))
	assert.True(t, b.take(freeBytes+100))
	assert.EqualValues(t, 1000, m.used.Load())

	assert.False(t, b.take(1))
	assert.True(t, c.take(freeBytes), "small requests are served as ever")
	a.add(-900)
	assert.EqualValues(t, 100, m.used.Load())
	assert.True(t, b.take(900))

	a.release()
	b.release()
	c.release()
	assert.Zero(t, m.used.Load())
	b.release()
	assert.Zero(t, m.used.Load())

	a.add(freeBytes + 2000)
	assert.EqualValues(t, 2000, m.used.Load(), "what has to be kept is counted")
}

// What is too large for now is refused, be it a body, an answer or a line, and
// what is small is answered.
func TestMemoryIsFull(t *testing.T) {
	s := newServer(Options{Memory: 1})
	h := s.router(Options{})
	small := `{"title": "small", "changes": "| C |"}`
	large := `{"title": "large", "changes": "| C |"` + strings.Repeat(" ", freeBytes) + `}`
	long := `{"title": "long", "changes": "` + strings.Repeat("| Dm7 | G7 ", 500) + `|"}`
	for _, body := range []string{large, long} {
		w := askOf(t, h, http.MethodPost, "/v1/analyses", body)
		require.Equal(t, http.StatusServiceUnavailable, w.Code)
		assert.Equal(t, "1", w.Header().Get("Retry-After"))
		assert.Equal(t, "too many large charts are being sent; try again soon", problemIn(t, w).Detail)
	}
	w := askOf(t, h, http.MethodPost, "/v1/charts?analyze=true", long)
	assert.Equal(t, http.StatusServiceUnavailable, w.Code)
	assert.Equal(t, http.StatusOK, askOf(t, h, http.MethodPost, "/v1/analyses", small).Code)

	w = askOf(t, h, http.MethodPost, "/v1/analyses", strings.Join([]string{small, large, small, long, large + large, small}, "\n"), "Content-Type", mediaLines)
	const refused = "503 too many large charts are being sent; try again soon"
	assert.Equal(t, []string{"small", "2: " + refused, "small", "4: " + refused, "5: " + refused, "small"}, inLines(t, w.Body))
	assert.Zero(t, s.memory.used.Load(), "everything is given back")
}
