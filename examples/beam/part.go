package main

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"slices"

	"github.com/apache/beam/sdks/v2/go/pkg/beam/io/filesystem"
)

// Text is what a file has of a chart.
type Text struct {
	Number int // of the chart, from 1
	Text   []byte
}

// partName is the name of the file with the row of a chart. The names have the
// order of the charts.
func partName(prefix string, number, size int) string {
	return fmt.Sprintf("%s-%06d", prefix, (number-1)/size)
}

// writeFn writes a file of texts in the order of their charts. Where a runner
// tries again, the same bytes come into the same file.
type writeFn struct{}

func (*writeFn) ProcessElement(ctx context.Context, name string, texts func(*Text) bool) (err error) {
	var sorted []Text
	for t := (Text{}); texts(&t); t = (Text{}) {
		sorted = append(sorted, t)
	}
	slices.SortFunc(sorted, func(a, b Text) int { return cmp.Compare(a.Number, b.Number) })
	files, err := filesystem.New(ctx, name)
	if err != nil {
		return err
	}
	defer files.Close()
	f, err := files.OpenWrite(ctx, name)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, f.Close()) }()
	for _, t := range sorted {
		if _, err := f.Write(t.Text); err != nil {
			return err
		}
	}
	return nil
}
