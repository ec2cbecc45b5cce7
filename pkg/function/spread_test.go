package function

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// Spreading over the folded circle is the plain sum over all pairs of keys.
func TestSpreadIsTheSumOverAllPairs(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := &lattice{Model: &Model{}}
		share := rapid.Float64Range(0, 1)
		for d := range l.open {
			l.open[d], l.thin[d] = share.Draw(t, "open"), share.Draw(t, "thin")
		}
		for from := range modeCount {
			for to := range modeCount {
				l.modes[from][to] = share.Draw(t, "modes")
			}
		}
		var a, b, to, away doors
		for k := range keyCount {
			for d := range doorCount {
				a[d][k], b[d][k] = share.Draw(t, "a"), share.Draw(t, "b")
			}
		}
		l.spread(&to, &a)
		l.spreadBack(&away, &b)
		for door := range doorCount {
			for k := range keyCount {
				wantTo, wantAway := 0.0, 0.0
				for other := range keyCount {
					if other == k {
						continue
					}
					kernel := l.kernel(door)[signaturesApart(k, other)]
					wantTo += a[door][other] * l.modes[other%modeCount][k%modeCount] * kernel
					wantAway += b[door][other] * l.modes[k%modeCount][other%modeCount] * kernel
				}
				require.InDelta(t, wantTo, to[door][k], 1e-13)
				require.InDelta(t, wantAway, away[door][k], 1e-13)
			}
		}
	})
}
