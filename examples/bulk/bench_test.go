package main

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"runtime/debug"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fifthwise/examples/internal/command"
)

// phrases are invented, eight bars each, written in C.
var phrases = []string{
	"Cmaj7 | Em7 A7b9 | Dm7 | G7sus4 G7 | Em7 A7 | Dm7 G7 | Cmaj7 | Dm7 G7",
	"C6 | Am7 | Dm7 | G7 | Em7 | A7 | Dm7 G7 | C6",
	"Gm7 | C7 | Fmaj7 | F6 | F#m7b5 | B7b9 | Em7 A7 | Dm7 G7",
	"Cm7 | F7 | Bbmaj7 | Bbmaj7 | Bbm7 | Eb7 | Abmaj7 | Dm7 G7",
	"Cmaj7 | Ab7 | Cmaj7 | C#dim7 | Dm7 | Fm7 Bb7 | Cmaj7 A7 | Dm7 Db7",
	"Am7 | Bm7b5 E7b9 | Am7 | Am7 | Dm7 | G7 | Cmaj7 | E7",
}

// forms are those of the invented tunes, of 32 bars.
var forms = []string{"AABA", "ABAC", "AABC"}

// requestOf is the line of NDJSON of the nth invented tune, none like the one
// before.
func requestOf(n int) string {
	var b strings.Builder
	fmt.Fprintf(&b, `{"title":"Ferry %d","changes":"`, n)
	for _, letter := range forms[n%len(forms)] {
		fmt.Fprintf(&b, "[%c] | %s | ", letter, phrases[(n/7+int(letter)*(1+n%5))%len(phrases)])
	}
	return b.String() + `"}` + "\n"
}

// requestsTo is a file of so many tunes.
func requestsTo(tb testing.TB, n int) string {
	var b strings.Builder
	for i := range n {
		b.WriteString(requestOf(i))
	}
	name := filepath.Join(tb.TempDir(), "tunes.ndjson")
	require.NoError(tb, os.WriteFile(name, []byte(b.String()), 0o644))
	return name
}

func BenchmarkCharts(b *testing.B) {
	const charts = 2000
	name := requestsTo(b, charts)
	defer debug.SetGCPercent(debug.SetGCPercent(gcPercent))
	for _, as := range []string{"ndjson", "csv"} {
		for cores := 1; cores <= runtime.NumCPU(); cores *= 2 {
			b.Run(fmt.Sprintf("%s/cores=%d", as, cores), func(b *testing.B) {
				defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(cores))
				b.ReportAllocs()
				for b.Loop() {
					require.Equal(b, command.Done, run([]string{"-as", as, "-workers", fmt.Sprint(cores), name}, os.Stdin, io.Discard, io.Discard))
				}
				b.ReportMetric(float64(charts)*float64(b.N)/b.Elapsed().Seconds(), "charts/s")
			})
		}
	}
}
