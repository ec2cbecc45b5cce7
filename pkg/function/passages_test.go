package function_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"fifthwise/pkg/chart"
	"fifthwise/pkg/evaluate"
	"fifthwise/pkg/function"
	"fifthwise/pkg/key"
)

func TestPassages(t *testing.T) {
	c, err := chart.Parse("|: Dm7 G7 | Cmaj7 :| N.C. | Cm7 F7 | Bbmaj7 | Bb6")
	require.NoError(t, err)
	a := function.Analyze(c)
	assert.Equal(t, []chart.Passage{{Bar: 0, Key: key.MustParse("C major")}, {Bar: 3, Key: key.MustParse("Bb major")}}, a.Passages())
	c, err = chart.Parse("Dm7 G7 | Cmaj7 | Cmaj7 F#m7 | B7 | Emaj7 | E6 || Dm7 G7 | C6")
	require.NoError(t, err)
	a = function.Analyze(c)
	assert.Equal(t, []chart.Passage{{Bar: 0, Key: key.MustParse("C major")}, {Bar: 2, Chord: 1, Key: key.MustParse("E major")}, {Bar: 6, Key: key.MustParse("C major")}}, a.Passages())
	assert.Empty(t, new(function.Analysis).Passages())
}

// requireTransposes: a chart goes through all keys, each chord as far as the
// others and well spelled, its reading with it. It tells in how many keys the way
// back gives the same names.
func requireTransposes(t require.TestingT, c chart.Chart) (same, all int) {
	a := function.Analyze(c)
	if !a.Home.IsValid() {
		return 0, 0
	}
	plain, err := c.TransposeTo(a.Home, a.Home, a.Passages()...)
	require.NoError(t, err)
	for _, to := range key.Chromatic.Keys(a.Home) {
		moved, err := c.TransposeTo(a.Home, to, a.Passages()...)
		require.NoError(t, err)
		moved.Key = c.Key // a key that is stated enters the reading
		by := a.Home.Tonic().To(to.Tonic()).Semitones()
		there := function.Analyze(moved)
		require.Len(t, there.Chords, len(a.Chords))
		for i := range a.Chords {
			x, y := &a.Chords[i], &there.Chords[i]
			require.Equal(t, x.Event.Chord.Quality(), y.Event.Chord.Quality())
			require.Equal(t, x.Event.Start, y.Event.Start)
			if x.Region < 0 {
				continue
			}
			root := y.Event.Chord.Root()
			require.Equal(t, x.Event.Chord.Root().Class().Plus(by), root.Class())
			require.Equal(t, x.Event.Chord.Bass().Class().Plus(by), y.Event.Chord.Bass().Class())
			require.True(t, -2 < root.Accidental() && root.Accidental() < 2 || to.Has(root), "%v in %v", y.Event.Chord, to)
		}
		back, err := moved.TransposeTo(to, a.Home, there.Passages()...)
		require.NoError(t, err)
		back.Key = plain.Key
		all++
		if back.Equal(plain) {
			same++
		}
	}
	return same, all
}

func TestAnyChartTransposes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := chartOf(rapid.SliceOfN(rapid.ByteRange(0, 255), 10, 80).Draw(t, "chart"))
		if c.Validate() == nil {
			c.Key = key.Key{}
			requireTransposes(t, c)
		}
	})
}

func TestCorporaTranspose(t *testing.T) {
	eachCorpus(t, func(name string, pieces []evaluate.Piece) {
		same, all := 0, 0
		for _, p := range pieces {
			s, n := requireTransposes(t, p.Chart)
			same, all = same+s, all+n
		}
		t.Logf("%s: %d of %d transpositions come back in the same spelling", name, same, all)
	})
}
