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
		var a, b, toOpen, toThin, away [keyCount]float64
		for k := range keyCount {
			a[k], b[k] = share.Draw(t, "a"), share.Draw(t, "b")
		}
		l.spread(&toOpen, &toThin, &a)
		l.spreadBack(&away, &a, &b)
		for k := range keyCount {
			wantOpen, wantThin, wantAway := 0.0, 0.0, 0.0
			for other := range keyCount {
				if other == k {
					continue
				}
				d := signaturesApart(k, other)
				come, leave := l.modes[other%modeCount][k%modeCount], l.modes[k%modeCount][other%modeCount]
				wantOpen += a[other] * come * l.open[d]
				wantThin += a[other] * come * l.thin[d]
				wantAway += leave * (l.open[d]*a[other] + l.thin[d]*b[other])
			}
			require.InDelta(t, wantOpen, toOpen[k], 1e-13)
			require.InDelta(t, wantThin, toThin[k], 1e-13)
			require.InDelta(t, wantAway, away[k], 1e-13)
		}
	})
}
