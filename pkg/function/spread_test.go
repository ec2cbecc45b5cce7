package function

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// What comes and what is dealt out round the circle are plain sums over all pairs
// of keys.
func TestSpreadIsTheSumOverAllPairs(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := &lattice{Model: &Model{}}
		share := rapid.Float64Range(0, 1)
		var kernels [doorCount]kernel
		for d := range kernels[doorTonic] {
			kernels[doorTonic][d], kernels[doorOther][d] = share.Draw(t, "thin"), share.Draw(t, "open")
		}
		kernels[doorTwo] = kernels[doorOther]
		l.thin, l.open = kernels[doorTonic].ring(), kernels[doorOther].ring()
		for d := range l.pivot {
			l.pivot[d] = [2]float64{1, share.Draw(t, "pivot")}
		}
		for from := range modeCount {
			for to := range modeCount {
				l.modes[from][to] = share.Draw(t, "modes")
				l.come[to][from] = l.modes[from][to]
			}
		}
		c := &column{natural: rapid.Uint32Range(0, 1<<keyCount-1).Draw(t, "natural")}
		var leaving, hopes [keyCount]float64
		var given, dealt circles
		for k := range keyCount {
			leaving[k], hopes[k] = share.Draw(t, "leaving"), share.Draw(t, "hope")
			*given.of(k) = hopes[k]
		}
		var in arrivals
		in.set(l, &leaving, c)
		l.open.carry(&dealt, &given, &l.modes)
		for door := range doorCount {
			var away circles
			for k := range keyCount {
				l.deal(&away, door, k, hopes[k])
			}
			for k := range keyCount {
				wantIn, wantAway := 0.0, 0.0
				for other := range keyCount {
					if other == k {
						continue
					}
					factor := kernels[door][signaturesApart(k, other)]
					wantIn += leaving[other] * l.pivot[door][c.natural>>other&1] * l.modes[other%modeCount][k%modeCount] * factor
					wantAway += hopes[other] * l.modes[k%modeCount][other%modeCount] * factor
				}
				require.InDelta(t, wantIn, in.by(l, door, k), 1e-13)
				require.InDelta(t, wantAway, *away.of(k), 1e-13)
				if door == doorOther {
					require.InDelta(t, wantAway, *dealt.of(k), 1e-13)
				}
			}
		}
	})
}
