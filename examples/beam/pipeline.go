package main

import (
	"context"
	"fmt"
	"reflect"

	"github.com/apache/beam/sdks/v2/go/pkg/beam"
	"github.com/apache/beam/sdks/v2/go/pkg/beam/io/fileio"
	"github.com/apache/beam/sdks/v2/go/pkg/beam/io/textio"
	"github.com/apache/beam/sdks/v2/go/pkg/beam/register"
	"github.com/apache/beam/sdks/v2/go/pkg/beam/transforms/stats"
)

func init() {
	register.DoFn4x1[context.Context, fileio.ReadableFile, func(Line), func(Charts), error](&splitFn{})
	register.DoFn6x1[context.Context, Line, Numbering, func(string, Text), func(string, Text), func(Word), error](&readFn{})
	register.DoFn3x1[context.Context, string, func(*Text) bool, error](&writeFn{})
	register.Combiner2[Numbering, Charts](&numberFn{})
	register.Combiner3[Commonest, Counted, string](&statisticsFn{})
	register.DoFn2x1[Word, int, Counted](&countedFn{})
	register.Emitter1[Line]()
	register.Emitter1[Charts]()
	register.Emitter1[Word]()
	register.Emitter2[string, Text]()
	register.Iter1[Text]()
	for _, value := range []any{Line{}, Charts{}, Numbering{}, Text{}, Word{}, Counted{}, Commonest{}} {
		beam.RegisterType(reflect.TypeOf(value))
	}
}

// pipeline reads the charts of files, and writes readings, statistics and faults.
//
//	files -> lines -> rows   -> parts, each in order
//	      \        \-> faults -> one file, in order
//	       \        \-> words -> counts -> statistics
//	        counts of charts -> numbering, which the rows need
func (o *options) pipeline(s beam.Scope) {
	files := fileio.ReadMatches(s, fileio.MatchFiles(s, o.input, fileio.MatchEmptyDisallow()))
	lines, charts := beam.ParDo2(s.Scope("Lines"), &splitFn{}, files)
	numbering := beam.Combine(s.Scope("Numbering"), &numberFn{}, charts)
	read := &readFn{Readings: o.readings, Size: o.size, Faults: o.faults}
	// Without the reshuffle a file's charts would be read where its lines are.
	texts, faults, words := beam.ParDo3(s.Scope("Read"), read, beam.Reshuffle(s, lines), beam.SideInput{Input: numbering})
	if o.faults != "" {
		texts = beam.Flatten(s, texts, faults)
	}
	beam.ParDo0(s.Scope("Write"), &writeFn{}, beam.GroupByKey(s, texts))

	counts := beam.ParDo(s, &countedFn{}, stats.Count(s.Scope("Count"), words))
	textio.Write(s, o.statistics, beam.Combine(s.Scope("Statistics"), &statisticsFn{Top: o.top}, counts))
}

// Counters that runners show while they run.
var (
	chartsRead = beam.NewCounter("fifthwise", "charts")
	badCharts  = beam.NewCounter("fifthwise", "bad charts")
)

// readFn reads charts. Texts go out with the name of their file.
type readFn struct {
	Readings string // what the names of files of rows begin with
	Size     int    // how many rows a file has
	Faults   string // the file of faults
}

func (fn *readFn) ProcessElement(ctx context.Context, l Line, n Numbering, texts, faults func(string, Text), count func(Word)) error {
	number, err := n.number(l)
	if err != nil {
		return err
	}
	r := l.row(number)
	text, err := r.JSON()
	if err != nil {
		return fmt.Errorf("%s: %w", r.Name(), err)
	}
	texts(partName(fn.Readings, number, fn.Size), Text{number, text})
	chartsRead.Inc(ctx, 1)
	if len(r.Faults) > 0 {
		badCharts.Inc(ctx, 1)
		faults(fn.Faults, Text{number, r.Complaint()})
	}
	f := r.Facts()
	words(&f, count)
	return nil
}
