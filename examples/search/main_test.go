package main

import (
	"io"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"fifthwise/examples/internal/command"
	"fifthwise/examples/internal/command/commandtest"
)

func TestSearch(t *testing.T) {
	const broken = "testdata/book/broken.txt: bar 2, line 1, column 7, \"H7\": expected a root A to G or N.C. (the German H is B)\n"
	tests := []struct {
		name, args, out, complaint string
		status                     int
	}{
		{"all passages", "testdata/tune.txt testdata/book", `bars 1–4
  testdata/book/lantern.txt, bar 1 as played, up a major second
bars 5–8
  testdata/book/weir.abc, bar 3 as played, up a major second
`, broken, command.Faulty},
		{"some bars", "-bars 5-6 testdata/tune.txt testdata/book", "testdata/book/weir.abc, bar 3 as played, up a major second\n", broken, command.Faulty},
		{"bars that stand nowhere", "-bars 7-9 testdata/tune.txt testdata/book/weir.abc", "no other chart has these bars\n", "", command.Done},
		{"nothing shared", "-least 9 testdata/tune.txt testdata/book/weir.abc", "no other chart shares 9 bars with it\n", "", command.Done},
		{"bars beyond the chart", "-bars 70-80 testdata/tune.txt testdata/book/weir.abc", "", "search: testdata/tune.txt: no chord starts in bars 70 to 80\n", command.Misusage},
		{"one bar", "-bars 7 testdata/tune.txt testdata/book", "", "search: invalid value \"7\" for flag -bars: expected two bars or more, such as 17-24\nsearch -h says what there is\n", command.Misusage},
		{"no folder", "testdata/tune.txt", "", "search: expected a chart and a folder to search\nsearch -h says what there is\n", command.Misusage},
		{"no chart", "none.txt testdata/book", "", "search: none.txt: open none.txt: no such file or directory\n", command.Faulty},
		{"help", "-h", help, "", command.Done},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			status, out, complaint := commandtest.Run(func(out, complain io.Writer) int { return run(strings.Fields(tt.args), out, complain) })
			assert.Equal(t, tt.status, status)
			assert.Equal(t, tt.out, out)
			assert.Equal(t, tt.complaint, complaint)
		})
	}
}
