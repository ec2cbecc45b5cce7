package phrase

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// slowSuffixes is suffixes by its definition.
func slowSuffixes(text []int32) (sorted, shared []int32) {
	sorted, shared = make([]int32, len(text)), make([]int32, len(text))
	for i := range text {
		sorted[i] = int32(i)
	}
	slices.SortFunc(sorted, func(a, b int32) int { return slices.Compare(text[a:], text[b:]) })
	for k := 1; k < len(sorted); k++ {
		a, b := text[sorted[k-1]:], text[sorted[k]:]
		for int(shared[k]) < min(len(a), len(b)) && a[shared[k]] == b[shared[k]] {
			shared[k]++
		}
	}
	return sorted, shared
}

func requireSuffixes(t require.TestingT, text []int32) {
	before := slices.Clone(text)
	sorted, shared := suffixes(text)
	wantSorted, wantShared := slowSuffixes(text)
	require.Equal(t, wantSorted, sorted, "order of %v", text)
	require.Equal(t, wantShared, shared, "shared of %v", text)
	require.Equal(t, before, text, "the text is not changed")
}

func TestSuffixes(t *testing.T) {
	tests := []struct {
		name           string
		text           []int32
		sorted, shared []int32
	}{
		{"empty", []int32{}, []int32{}, []int32{}},
		{"one number", []int32{7}, []int32{0}, []int32{0}},
		{"zero", []int32{0}, []int32{0}, []int32{0}},
		{"a run: the shortest first", []int32{3, 3, 3, 3}, []int32{3, 2, 1, 0}, []int32{0, 1, 2, 3}},
		{"rising", []int32{0, 1, 2}, []int32{0, 1, 2}, []int32{0, 0, 0}},
		{"falling", []int32{2, 1, 0}, []int32{2, 1, 0}, []int32{0, 0, 0}},
		{"a pair twice", []int32{1, 2, 1, 2}, []int32{2, 0, 3, 1}, []int32{0, 2, 0, 1}},
		{"numbers above the length", []int32{90, 5, 90}, []int32{1, 2, 0}, []int32{0, 0, 1}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			sorted, shared := suffixes(tt.text)
			require.Equal(t, tt.sorted, sorted)
			require.Equal(t, tt.shared, shared)
			requireSuffixes(t, tt.text)
		})
	}
}

func TestSuffixesAgainstDefinition(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		most := rapid.SampledFrom([]int32{0, 1, 2, 3, 40}).Draw(t, "most")
		text := rapid.SliceOfN(rapid.Int32Range(0, most), 0, 80).Draw(t, "text")
		for range rapid.IntRange(0, 2).Draw(t, "doublings") {
			text = append(text, text...)
		}
		requireSuffixes(t, text)
	})
}
