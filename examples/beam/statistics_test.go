package main

import (
	"fmt"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What is combined does not depend on how words are shared out among workers.
func TestStatisticsOfAnyShares(t *testing.T) {
	in, fn := newInventor(5), &statisticsFn{Top: 4}
	var words []Counted
	for of := range kinds {
		for i := range 30 {
			words = append(words, Counted{Word{of, fmt.Sprintf("I%d-V%d", i%9, i)}, 1 + in.IntN(6)})
		}
	}
	var want string
	for round := range 50 {
		in.Shuffle(len(words), func(i, j int) { words[i], words[j] = words[j], words[i] })
		all := fn.CreateAccumulator()
		for share := range slices.Chunk(words, 1+in.IntN(len(words))) {
			a := fn.CreateAccumulator()
			for _, w := range share {
				a = fn.AddInput(a, w)
			}
			all = fn.MergeAccumulators(all, a)
		}
		got := fn.ExtractOutput(all)
		if round == 0 {
			want = got
		}
		require.Equal(t, want, got)
	}
}

func TestNumberingOfAnyShares(t *testing.T) {
	fn := &numberFn{}
	a := fn.AddInput(fn.CreateAccumulator(), Charts{"c", 3})
	b := fn.AddInput(fn.AddInput(fn.CreateAccumulator(), Charts{"b", 0}), Charts{"a", 5})
	want := Numbering{[]Charts{{"a", 0}, {"b", 5}, {"c", 5}}}
	assert.Equal(t, want, fn.ExtractOutput(fn.MergeAccumulators(a, b)))
	assert.Equal(t, want, fn.ExtractOutput(fn.MergeAccumulators(b, a)))

	number, err := want.number(Line{File: "c", Chart: 2})
	require.NoError(t, err)
	assert.Equal(t, 7, number)
	_, err = want.number(Line{File: "d", Chart: 1})
	assert.EqualError(t, err, "d: the file was not counted")
}
