package main

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
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
`, broken, faulty},
		{"some bars", "-bars 5-6 testdata/tune.txt testdata/book", "testdata/book/weir.abc, bar 3 as played, up a major second\n", broken, faulty},
		{"bars that stand nowhere", "-bars 7-9 testdata/tune.txt testdata/book/weir.abc", "no other chart has these bars\n", "", done},
		{"nothing shared", "-least 9 testdata/tune.txt testdata/book/weir.abc", "no other chart shares 9 bars with it\n", "", done},
		{"bars beyond the chart", "-bars 70-80 testdata/tune.txt testdata/book/weir.abc", "", "search: testdata/tune.txt: no chord starts in bars 70 to 80\n", misusage},
		{"one bar", "-bars 7 testdata/tune.txt testdata/book", "", "search: invalid value \"7\" for flag -bars: expected two bars or more, such as 17-24\nsearch -h says what there is\n", misusage},
		{"no folder", "testdata/tune.txt", "", "search: expected a chart and a folder to search\nsearch -h says what there is\n", misusage},
		{"no chart", "none.txt testdata/book", "", "search: none.txt: open none.txt: no such file or directory\n", faulty},
		{"help", "-h", help, "", done},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			var out, complaint strings.Builder
			assert.Equal(t, tt.status, run(strings.Fields(tt.args), &out, &complaint))
			assert.Equal(t, tt.out, out.String())
			assert.Equal(t, tt.complaint, complaint.String())
		})
	}
}
