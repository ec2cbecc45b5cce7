package main

import (
	"io"
	"os"
	"runtime"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fifthwise/examples/internal/command"
)

// Of a stream no more is held after 100,000 charts than after 10,000.
func TestMemoryIsFlat(t *testing.T) {
	in, feed, err := os.Pipe()
	require.NoError(t, err)
	defer in.Close()
	held := map[int]uint64{}
	fed := make(chan struct{})
	go func() {
		defer close(fed)
		defer feed.Close()
		for i := range 100_001 {
			if i == 10_000 || i == 100_000 {
				held[i] = heap()
			}
			if _, err := io.WriteString(feed, `{"changes":"| Dm7 G7 | Cmaj7 |"}`+"\n"); err != nil {
				return
			}
		}
	}()
	require.Equal(t, command.Done, run(nil, in, io.Discard, io.Discard))
	<-fed
	t.Logf("%d bytes after 10,000 charts, %d after 100,000", held[10_000], held[100_000])
	// What workers keep for the next chart, some megabytes, may be held or not;
	// 90,000 rows that were not let go would be 50 MB.
	assert.Less(t, held[100_000], held[10_000]+12<<20)
}

// heap is the bytes that are in use.
func heap() uint64 {
	runtime.GC()
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	return m.HeapAlloc
}
