package main

import (
	"errors"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"fifthwise/examples/internal/request"
	"fifthwise/pkg/chart"
	"fifthwise/pkg/chart/musicxml"
)

func TestAPanicFailsOneChart(t *testing.T) {
	o, _ := parse(nil)
	w := &writer{options: &o}
	r := w.work(source{Origin{7, "x.txt", ""}, func() (chart.Chart, error) { panic("out of notes") }})
	assert.Equal(t, `{"number":7,"file":"x.txt","faults":[{"message":"a fault of the program: out of notes"}]}`+"\n", string(r.text))
	assert.True(t, r.facts.bad)
}

func TestFaultsAreBounded(t *testing.T) {
	_, err := chart.Parse(strings.Repeat("| H ", 30))
	faults := request.FaultsOf(err)
	assert.Len(t, faults, request.MaxFaults+1)
	assert.Equal(t, "bar 20: line 1, column 79: \"H\": expected a root A to G or N.C. (the German H is B)", faults[request.MaxFaults-1].String())
	assert.Equal(t, request.Fault{Message: "and 10 more"}, faults[request.MaxFaults])
	assert.Equal(t, []request.Fault{{Message: "no"}}, request.FaultsOf(errors.New("no")))
	assert.Equal(t, "bar 3: line 9: \"x\": no", request.FaultOf(&musicxml.Error{Measure: "3", Line: 9, Symbol: "x", Msg: "no"}).String())
	assert.Equal(t, "measure X1: no", request.FaultOf(&musicxml.Error{Measure: "X1", Msg: "no"}).String())
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
