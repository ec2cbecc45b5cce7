package main

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"fifthwise/examples/internal/corpus"
	"fifthwise/pkg/chart"
)

func TestAPanicFailsOneChart(t *testing.T) {
	o, _ := parse(nil)
	w := &writer{options: &o}
	r := w.work(source{corpus.Origin{Number: 7, File: "x.txt"}, func() (chart.Chart, error) { panic("out of notes") }})
	assert.Equal(t, `{"number":7,"file":"x.txt","faults":[{"message":"a fault of the program: out of notes"}]}`+"\n", string(r.text))
	assert.True(t, r.facts.Bad)
}

func TestProgress(t *testing.T) {
	var out strings.Builder
	p := &progress{out: &out, in: &inputs{}, size: 400, start: time.Now().Add(-10 * time.Second), from: 100}
	p.in.bytes.Store(100)
	p.show(&tally{charts: 1100, bad: 3})
	assert.Equal(t, "\r\x1b[K[=======                       ]  25%  1100 charts written, 3 bad, 100 a second", out.String())
	out.Reset()
	p.clear()
	p.clear()
	assert.Equal(t, "\r\x1b[K", out.String())
	p.size = 0 // a stream of unknown length
	assert.Empty(t, p.bar())
	assert.Nil(t, progressOn(&out, p.in)) // no terminal
	var none *progress
	none.show(nil)
	none.clear()
}
