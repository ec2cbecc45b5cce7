package chart

import (
	"math"
	"math/big"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestParseBeats(t *testing.T) {
	tests := []struct {
		in   string
		want Beats
	}{
		{"0", Beats{}}, {"3", B(3, 1)}, {"4/3", B(4, 3)}, {"6/4", B(3, 2)}, {"-1/2", B(-1, 2)}, {"3.5", B(7, 2)}, {"3.50", B(7, 2)},
		{"3.25", B(13, 4)}, {"0.3", B(3, 10)}, {"1.33", B(133, 100)}, {"0.125", B(1, 8)}, {"0.0625", B(1, 16)},
		{"1.333", B(4, 3)}, {"0.3333", B(1, 3)}, {"2.6667", B(8, 3)}, {"2.666", B(8, 3)}, {"0.1667", B(1, 6)}, {"1.142857", B(8, 7)},
		{"1.3333333333333333", B(4, 3)}, {"1.3076923076923077", B(17, 13)}, {"0.30000000000000004", B(3, 10)},
		{"1.9999999999999998", B(2, 1)}, {"1.123", B(1123, 1000)}, {"-2.500", B(-5, 2)}, {"1/10000", B(1, 10000)},
		{"10000.01", B(1000001, 100)}, {"2147483647", B(math.MaxInt32, 1)},
	}
	for _, tt := range tests {
		t.Run(tt.in, func(t *testing.T) {
			got, err := ParseBeats(tt.in)
			require.NoError(t, err)
			assert.Equal(t, tt.want, got)
			again, err := ParseBeats(got.String())
			require.NoError(t, err)
			assert.Equal(t, got, again)
		})
	}
}

func TestParseBeatsErrors(t *testing.T) {
	tests := []struct{ name, in, wantErr string }{
		{"empty", "", `expected a number of beats at offset 0 of ""`},
		{"a word", "two", `expected a number of beats at offset 0 of "two"`},
		{"only a sign", "-", `expected a number of beats at offset 1 of "-"`},
		{"no digit behind the point", "3.", `expected a digit at offset 2 of "3."`},
		{"no denominator", "3/", `expected a digit at offset 2 of "3/"`},
		{"zero denominator", "3/0", `expected a denominator from 1 to 10000 at offset 2 of "3/0"`},
		{"denominator too large", "1/10001", `expected a denominator from 1 to 10000 at offset 2 of "1/10001"`},
		{"denominator of many digits", "1/99999999999999999999", `expected a denominator from 1 to 10000 at offset 2 of "1/99999999999999999999"`},
		{"trailing text", "3.5x", `expected the end of the number of beats at offset 3 of "3.5x"`},
		{"trailing text behind a whole", "3x", `expected the end of the number of beats at offset 1 of "3x"`},
		{"two points", "3.5.1", `expected the end of the number of beats at offset 3 of "3.5.1"`},
		{"too many", "2147483648", `more beats than a tune has at offset 0 of "2147483648"`},
		{"too many digits", "12345678901", `more beats than a tune has at offset 0 of "12345678901"`},
		{"too many parts", "-9999999.123", `more beats than a tune has at offset 1 of "-9999999.123"`},
		{"next to nothing", "0.00000000001", `these decimals stand for no simple fraction of a beat at offset 2 of "0.00000000001" (write a fraction, 4/3, or more decimals of it)`},
		{"no simple fraction", "1.2345678", `these decimals stand for no simple fraction of a beat at offset 2 of "1.2345678" (write a fraction, 4/3, or more decimals of it)`},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			_, err := ParseBeats(tt.in)
			assert.EqualError(t, err, tt.wantErr)
		})
	}
}

// Every fraction that bars are divided into survives a float64.
func TestBeatsOf(t *testing.T) {
	for den := 1; den <= 124; den++ {
		for num := range 3 * den {
			b := B(num, den)
			got, err := BeatsOf(b.Float64())
			require.NoError(t, err, b)
			require.Equal(t, b, got)
		}
	}
	for _, f := range []float64{math.NaN(), math.Inf(1), 1e300, 1e10, 1e-300} {
		_, err := BeatsOf(f)
		assert.Error(t, err, f)
	}
}

func TestBeatsArithmetic(t *testing.T) {
	assert.Equal(t, B(7, 6), B(1, 2).Add(B(2, 3)))
	assert.Equal(t, Beats{}, B(1, 3).Sub(B(2, 6)))
	assert.Equal(t, B(4, 3), B(4, 1).Share(3))
	assert.Equal(t, B(1, 2), B(-2, -4))
	assert.Equal(t, -1, B(1, 3).Cmp(B(1, 2)))
	assert.Equal(t, 1, B(-1, 3).Cmp(B(-1, 2)))
	assert.Equal(t, 0, B(2, 4).Cmp(B(1, 2)))
	assert.True(t, B(1, 3).Less(B(1, 2)))
	assert.Equal(t, 2, B(7, 3).Int())
	assert.Equal(t, -3, B(-7, 3).Int())
	assert.Equal(t, -2, B(-2, 1).Int())
	assert.Equal(t, 1.5, B(3, 2).Float64())
	assert.Equal(t, "-7/3", B(-7, 3).String())
	assert.Equal(t, "2.5 1.125 7/3 4", B(5, 2).Place()+" "+B(9, 8).Place()+" "+B(7, 3).Place()+" "+B(4, 1).Place())
	num, den := Beats{}.Fraction()
	assert.Equal(t, [2]int{0, 1}, [2]int{num, den})
	assert.Panics(t, func() { B(1, 0) })
}

// Sums are exact while they fit 32 bits, and never further off than the grid.
func TestBeatsAgreeWithBigRationals(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		limit := rapid.SampledFrom([]int{10, 1000, math.MaxInt32}).Draw(t, "limit")
		draw := func(name string) Beats {
			return B(rapid.IntRange(-limit, limit).Draw(t, name), rapid.IntRange(1, limit).Draw(t, name+" over"))
		}
		b, c := draw("b"), draw("c")
		rat := func(b Beats) *big.Rat {
			num, den := b.Fraction()
			return big.NewRat(int64(num), int64(den))
		}
		want := new(big.Rat).Add(rat(b), rat(c))
		got := rat(b.Add(c))
		if want.Denom().IsInt64() && want.Denom().Int64() <= math.MaxInt32 && want.Num().IsInt64() && want.Num().Int64() == int64(int32(want.Num().Int64())) {
			if want.Cmp(got) != 0 && want.Num().Int64() != math.MinInt32 {
				t.Fatalf("%v + %v = %v, not %v", b, c, got, want)
			}
		} else if whole, _ := want.Float64(); math.Abs(whole) < math.MaxInt32/grid {
			off, _ := new(big.Rat).Sub(want, got).Float64()
			if math.Abs(off) > 1.0/grid {
				t.Fatalf("%v + %v = %v, off by %v", b, c, got, off)
			}
		} else if off, _ := new(big.Rat).Sub(want, got).Float64(); math.Abs(whole) < math.MaxInt32 && math.Abs(off) > 1 {
			t.Fatalf("%v + %v = %v, off by %v", b, c, got, off)
		}
		if b.Cmp(c) != rat(b).Cmp(rat(c)) {
			t.Fatalf("%v against %v", b, c)
		}
	})
}

func TestBeatsText(t *testing.T) {
	text, err := B(4, 3).MarshalText()
	require.NoError(t, err)
	var b Beats
	require.NoError(t, b.UnmarshalText(text))
	assert.Equal(t, B(4, 3), b)
	assert.EqualError(t, b.UnmarshalText([]byte("x")), `expected a number of beats at offset 0 of "x"`)
	assert.Equal(t, B(7, 2), MustParseBeats("3.5"))
	assert.Panics(t, func() { MustParseBeats("") })
}

func FuzzParseBeats(f *testing.F) {
	for _, s := range []string{"3", "4/3", "3.5", "1.3333333333333333", "-1/2", "1.999999999999", "x", "3.", "1/0"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		b, err := ParseBeats(s)
		if err != nil {
			return
		}
		if again, err := ParseBeats(b.String()); err != nil || again != b {
			t.Fatalf("%q: %v does not round trip: %v", s, b, err)
		}
	})
}
