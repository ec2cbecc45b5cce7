package main

import (
	"cmp"
	"fmt"
	"slices"
)

// Charts is how many charts a file has or, in a Numbering, how many the files
// before it have.
type Charts struct {
	File   string
	Charts int
}

// Numbering numbers the charts of all files from 1 on, files in the order of
// their names, whoever reads them.
type Numbering struct {
	Before []Charts
}

// number is that of a chart, the line's file being among those that were counted.
func (n Numbering) number(l Line) (int, error) {
	i, ok := slices.BinarySearchFunc(n.Before, l.File, func(c Charts, name string) int { return cmp.Compare(c.File, name) })
	if !ok {
		return 0, fmt.Errorf("%s: the file was not counted", l.File)
	}
	return n.Before[i].Charts + l.Chart, nil
}

// numberFn makes the numbering of the counts of files.
type numberFn struct{}

func (*numberFn) CreateAccumulator() Numbering { return Numbering{} }

func (*numberFn) AddInput(n Numbering, c Charts) Numbering {
	n.Before = append(n.Before, c)
	return n
}

func (*numberFn) MergeAccumulators(a, b Numbering) Numbering {
	a.Before = append(a.Before, b.Before...)
	return a
}

func (*numberFn) ExtractOutput(n Numbering) Numbering {
	before := slices.SortedFunc(slices.Values(n.Before), func(a, b Charts) int { return cmp.Compare(a.File, b.File) })
	sum := 0
	for i, c := range before {
		before[i].Charts = sum
		sum += c.Charts
	}
	return Numbering{before}
}
