package main

import (
	"errors"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

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
	faults := faultsOf(err)
	assert.Len(t, faults, maxFaults+1)
	assert.Equal(t, "bar 20: line 1, column 79: \"H\": expected a root A to G or N.C. (the German H is B)", faults[maxFaults-1].text())
	assert.Equal(t, Fault{Message: "and 10 more"}, faults[maxFaults])
	assert.Equal(t, []Fault{{Message: "no"}}, faultsOf(errors.New("no")))
	assert.Equal(t, "bar 3: line 9: \"x\": no", faultOf(&musicxml.Error{Measure: "3", Line: 9, Symbol: "x", Msg: "no"}).text())
	assert.Equal(t, "measure X1: no", faultOf(&musicxml.Error{Measure: "X1", Msg: "no"}).text())
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
