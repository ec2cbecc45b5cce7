package key_test

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fifthwise/pkg/key"
)

func keysOf(t *testing.T, names string) (keys []key.Key) {
	t.Helper()
	for name := range strings.SplitSeq(names, ", ") {
		k, err := key.Parse(name)
		require.NoError(t, err)
		keys = append(keys, k)
	}
	return keys
}

// The keys of parts are common practice, no source.
func TestInstrumentKeys(t *testing.T) {
	concert := keysOf(t, "C, Db, D, Eb, E, F, F#, Gb, G, Ab, A, Bb, B, Cb, C#, Cm, C#m, Dm, Ebm, D#m, Em, Fm, F#m, Gm, G#m, Abm, Am, Bbm, A#m, Bm, D dorian")
	tests := []struct{ instrument, want string }{
		{"C", "C, Db, D, Eb, E, F, F#, Gb, G, Ab, A, Bb, B, B, Db, Cm, C#m, Dm, Ebm, Ebm, Em, Fm, F#m, Gm, G#m, G#m, Am, Bbm, Bbm, Bm, D dorian"},
		{"Bb", "D, Eb, E, F, F#, G, Ab, Ab, A, Bb, B, C, Db, Db, Eb, Dm, Ebm, Em, Fm, Fm, F#m, Gm, G#m, Am, Bbm, Bbm, Bm, Cm, Cm, C#m, E dorian"},
		{"Eb", "A, Bb, B, C, Db, D, Eb, Eb, E, F, F#, G, Ab, Ab, Bb, Am, Bbm, Bm, Cm, Cm, C#m, Dm, Ebm, Em, Fm, Fm, F#m, Gm, Gm, G#m, B dorian"},
		{"F", "G, Ab, A, Bb, B, C, Db, Db, D, Eb, E, F, F#, Gb, Ab, Gm, G#m, Am, Bbm, Bbm, Bm, Cm, C#m, Dm, Ebm, Ebm, Em, Fm, Fm, F#m, A dorian"},
	}
	for _, tt := range tests {
		t.Run(tt.instrument, func(t *testing.T) {
			i, err := key.ParseInstrument(tt.instrument)
			require.NoError(t, err)
			want := keysOf(t, tt.want)
			require.Len(t, want, len(concert))
			for n, k := range concert {
				assert.Equal(t, want[n].String(), i.Key(k).String(), "concert %v", k)
			}
			assert.Equal(t, tt.instrument, i.String())
		})
	}
	assert.False(t, key.BFlat.Key(key.Key{}).IsValid())
	assert.False(t, key.Instrument(9).Key(concert[0]).IsValid())
	assert.Equal(t, "instrument(9)", key.Instrument(9).String())
}

func TestParseInstrument(t *testing.T) {
	i, err := key.ParseInstrument(" B♭ ")
	require.NoError(t, err)
	assert.Equal(t, key.BFlat, i)
	for _, in := range []string{"", "G", "bb", "alto"} {
		_, err := key.ParseInstrument(in)
		assert.EqualError(t, err, fmt.Sprintf("expected an instrument in C, Bb, Eb or F at offset 0 of %q", in))
	}
	var again key.Instrument
	text, err := json.Marshal(key.EFlat)
	require.NoError(t, err)
	require.NoError(t, json.Unmarshal(text, &again))
	assert.Equal(t, key.EFlat, again)
}

// The order of the cycles is common practice, no source, as are the names of the
// keys.
func TestCycles(t *testing.T) {
	tests := []struct{ cycle, home, want string }{
		{"fourths", "C", "C, F, Bb, Eb, Ab, Db, Gb, B, E, A, D, G"},
		{"fifths", "C", "C, G, D, A, E, B, Gb, Db, Ab, Eb, Bb, F"},
		{"chromatic", "C", "C, Db, D, Eb, E, F, Gb, G, Ab, A, Bb, B"},
		{"fourths", "Eb", "Eb, Ab, Db, Gb, B, E, A, D, G, C, F, Bb"},
		{"fourths", "F#", "F#, B, E, A, D, G, C, F, Bb, Eb, Ab, Db"},
		{"fourths", "C#", "C#, Gb, B, E, A, D, G, C, F, Bb, Eb, Ab"},
		{"fourths", "G#", "Ab, Db, Gb, B, E, A, D, G, C, F, Bb, Eb"},
		{"fourths", "Am", "Am, Dm, Gm, Cm, Fm, Bbm, Ebm, G#m, C#m, F#m, Bm, Em"},
		{"chromatic", "Am", "Am, Bbm, Bm, Cm, C#m, Dm, Ebm, Em, Fm, F#m, Gm, G#m"},
		{"chromatic", "D dorian", "D dorian, Eb dorian, E dorian, F dorian, F# dorian, G dorian, Ab dorian, A dorian, Bb dorian, B dorian, C dorian, C# dorian"},
	}
	for _, tt := range tests {
		t.Run(tt.cycle+" from "+tt.home, func(t *testing.T) {
			c, err := key.ParseCycle(tt.cycle)
			require.NoError(t, err)
			keys := c.Keys(key.MustParse(tt.home))
			assert.Equal(t, keysOf(t, tt.want), keys)
			assert.Equal(t, tt.cycle, c.String())
		})
	}
	assert.Nil(t, key.Fourths.Keys(key.Key{}))
	assert.Nil(t, key.Cycle(0).Keys(key.MustParse("C")))
	assert.Equal(t, "cycle(0)", key.Cycle(0).String())
}

func TestParseCycle(t *testing.T) {
	for _, in := range []string{"", "thirds", "Fourths"} {
		_, err := key.ParseCycle(in)
		assert.EqualError(t, err, fmt.Sprintf("expected a cycle: fourths, fifths or chromatic at offset 0 of %q", in))
	}
	for c := key.Cycle(0); c <= key.Chromatic; c++ {
		again := key.Cycle(9)
		text, err := c.MarshalText()
		require.NoError(t, err)
		require.NoError(t, again.UnmarshalText(text))
		assert.Equal(t, c, again)
	}
}

func ExampleInstrument_Key() {
	fmt.Println(key.EFlat.Key(key.MustParse("C major")), key.EFlat.Key(key.MustParse("B major")))
	// Output: A major Ab major
}

func ExampleCycle_Keys() {
	fmt.Println(key.Fourths.Keys(key.MustParse("Eb major"))[:4])
	// Output: [Eb major Ab major Db major Gb major]
}
