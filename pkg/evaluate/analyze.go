package evaluate

import (
	"runtime"
	"sync"
	"sync/atomic"

	"fifthwise/pkg/function"
)

// Analyze reads the charts of all pieces, as many at a time as there are
// processors. The readings come in the order of the pieces.
func Analyze(pieces []Piece, options ...function.Option) []function.Analysis {
	readings := make([]function.Analysis, len(pieces))
	var next atomic.Int64
	var wg sync.WaitGroup
	for range min(runtime.GOMAXPROCS(0), len(pieces)) {
		wg.Go(func() {
			for i := next.Add(1) - 1; i < int64(len(pieces)); i = next.Add(1) - 1 {
				readings[i] = function.Analyze(pieces[i].Chart, options...)
			}
		})
	}
	wg.Wait()
	return readings
}
