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
	each(len(pieces), func(i int) {
		readings[i] = function.Analyze(pieces[i].Chart, options...)
	})
	return readings
}

// each does n things, as many at a time as there are processors.
func each(n int, do func(i int)) {
	var next atomic.Int64
	var wg sync.WaitGroup
	for range min(runtime.GOMAXPROCS(0), n) {
		wg.Go(func() {
			for i := next.Add(1) - 1; i < int64(n); i = next.Add(1) - 1 {
				do(int(i))
			}
		})
	}
	wg.Wait()
}
