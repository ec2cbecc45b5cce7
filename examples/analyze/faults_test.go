package main

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"fifthwise/examples/internal/command"
)

func TestFaults(t *testing.T) {
	tests := []struct{ name, in, want string }{
		{"one", "| Cm7 F7 | b7 |", `
standard input:1:12: bar 2: expected the root in upper case
    | Cm7 F7 | b7 |
               ^
    write B7 or Bm7
`},
		{"several, in headers and bars", "Meter: 4/5\n[A]\n| C / F | Dm7 |", `
standard input:1:10: expected 1, 2, 4, 8, 16 or 32 as the lower number of a meter
    Meter: 4/5
             ^
standard input:3:3: bar 1: the bar has 3 of 4 beats
    | C / F | Dm7 |
      ^
    in a bar with / each chord and each / is one beat
2 faults
`},
		{"a tab stays a tab", "|\tC\tH7 |", `
standard input:1:5: bar 1: expected a root A to G or N.C.
    |	C	H7 |
     	 	^
    the German H is B
`},
		{"columns count characters, line breaks may be those of Windows", "| E♭△ |\r\n| B♭ø x |\r\n", `
standard input:2:7: bar 2: expected a root A to G or N.C.
    | B♭ø x |
          ^
`},
		{"nothing", "", `
standard input:1:1: the chart has no bars
    
    ^
    write chords between bar lines: | C | F G |
`},
		{"a long line is cut", strings.Repeat("| C ", 30) + "| h |" + strings.Repeat(" F |", 30), `
standard input:1:123: bar 31: expected a root A to G or N.C.
    ...C | C | C | C | C | C | C | C | C | C | C | C | C | C | C | h | F | F | F | F | F | F | F | F | F | F | F | F | F | F | ...
                                                                   ^
`},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			status, page, complaint := analyze(tt.in, "-")
			assert.Equal(t, command.Faulty, status)
			assert.Empty(t, page)
			assert.Equal(t, tt.want[1:], complaint)
		})
	}
}
