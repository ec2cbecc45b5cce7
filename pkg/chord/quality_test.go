package chord

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func quality(t *testing.T, s string) Quality {
	t.Helper()
	q, err := ParseQuality(s)
	require.NoError(t, err, s)
	return q
}

func TestQualityIsASet(t *testing.T) {
	q := QualityOf(D(3, -1), D(5, -1), D(7, -1))
	assert.Equal(t, quality(t, "m7b5"), q)
	assert.True(t, q.Has(D(1, 0)))
	assert.True(t, q.Has(D(3, -1)))
	assert.False(t, q.Has(D(3, 0)))
	assert.False(t, q.Has(D(10, -1)), "a tenth is no third")
	assert.Equal(t, []Degree{D(1, 0), D(3, -1), D(5, -1), D(7, -1)}, q.Degrees())
	for first := range q.All() {
		assert.Equal(t, D(1, 0), first)
		break
	}
	assert.Equal(t, q, q.With(D(9, 0)).Without(D(9, 0)))
	assert.Equal(t, q, q.Without(D(1, 0)).With(D(1, 0)))
	assert.Equal(t, "b3 b5 b7", spaced(q.Without(D(1, 0))))
	assert.Equal(t, ":(1)", Quality{}.String())
	assert.Equal(t, "1", spaced(Quality{}))
}

func TestAlt(t *testing.T) {
	alt := quality(t, "7alt")
	written := quality(t, "7b5#5b9#9")
	assert.True(t, alt.IsAltered())
	assert.False(t, written.IsAltered())
	assert.NotEqual(t, written, alt, "how the player is free is remembered")
	assert.Equal(t, written.Degrees(), alt.Degrees())
	assert.Equal(t, "7b5#5b9#9", written.String())
	assert.Equal(t, alt, alt.With(D(9, -1)))
	assert.Equal(t, alt, alt.Without(D(9, 0)))
	assert.Equal(t, written, alt.With(D(13, 0)).Without(D(13, 0)), "another degree ends it")
	assert.Equal(t, "C13b5#5b9#9", MustParse("C7alt(13)").String())
	assert.Equal(t, "C7sus4b5#5b9#9", MustParse("C7altsus").String())
	assert.Equal(t, "C7alt/E", MustParse("Calt/E").String())
}

func TestThirdFifthSeventh(t *testing.T) {
	const none = 9
	at := func(alter int, ok bool) int {
		if !ok {
			return none
		}
		return alter
	}
	tests := []struct {
		in                    string
		third, fifth, seventh int
	}{
		{"", 0, 0, none},
		{"m7", -1, 0, -1},
		{"maj7#5", 0, 1, 0},
		{"dim7", -1, -1, -2},
		{"7sus4", none, 0, -1},
		{"5", none, 0, none},
		{"7alt", 0, -1, -1},
		{":(1,b3,3)", 0, none, none},
		{":(1,12,b10)", -1, 0, none},
		{":(1,b3,bb5,bb7)", -1, -2, -2},
		{":(1,3,5,b7,7)", 0, 0, 0},
	}
	for _, tt := range tests {
		q := quality(t, tt.in)
		assert.Equal(t, tt.third, at(q.Third()), "third of %q", tt.in)
		assert.Equal(t, tt.fifth, at(q.Fifth()), "fifth of %q", tt.in)
		assert.Equal(t, tt.seventh, at(q.Seventh()), "seventh of %q", tt.in)
	}
}

func TestQualityText(t *testing.T) {
	for _, s := range []string{"", "m7b5", "7alt", ":(1,5,b7)", "(b9)"} {
		q := quality(t, s)
		text, err := q.MarshalText()
		require.NoError(t, err)
		assert.Equal(t, s, string(text))
		var again Quality
		require.NoError(t, again.UnmarshalText(text))
		assert.Equal(t, q, again)
	}
}

func FuzzParseQuality(f *testing.F) {
	for _, h := range heads {
		f.Add(h.name + "b9")
		f.Add(":(*1," + strings.ReplaceAll(h.degrees, " ", ",") + ")")
	}
	f.Fuzz(func(t *testing.T, s string) {
		q, err := ParseQuality(s)
		if err != nil {
			return
		}
		again, err := ParseQuality(q.String())
		require.NoError(t, err)
		require.Equal(t, q, again)
	})
}
