package api

import (
	"net/http"
	"sync"
	"sync/atomic"
)

// memory bounds what all requests together keep of bodies while they arrive and
// of answers until they are taken, in bytes.
type memory struct {
	limit int64
	used  atomic.Int64
}

// freeBytes is what each request may keep whatever the others do: thus large
// bodies that are sent slowly keep no ordinary chart out.
const freeBytes = 64 << 10

var errMemory = refuse(http.StatusServiceUnavailable, "too many large charts are being sent; try again soon")

// hold is what one request keeps.
type hold struct {
	of    *memory
	mu    sync.Mutex
	bytes int64
}

// take keeps n bytes more, if they are free or within the bound.
func (h *hold) take(n int) bool {
	h.mu.Lock()
	defer h.mu.Unlock()
	more := h.counted(n)
	if more > 0 && h.of.used.Add(more) > h.of.limit {
		h.of.used.Add(-more)
		return false
	}
	h.bytes += int64(n)
	return true
}

// add keeps n bytes more in any case; less where n is below 0.
func (h *hold) add(n int) {
	h.mu.Lock()
	defer h.mu.Unlock()
	h.of.used.Add(h.counted(n))
	h.bytes += int64(n)
}

// counted is how much of n bytes more is not free.
func (h *hold) counted(n int) int64 {
	return max(0, h.bytes+int64(n)-freeBytes) - max(0, h.bytes-freeBytes)
}

// release lets go of everything.
func (h *hold) release() { h.add(-int(h.bytes)) }
